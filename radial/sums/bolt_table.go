package sums

import (
	"linkrod/radial/quantity"
	"linkrod/radial/torque"
)

var boltTable = sum{
	id: "bolt-table", title: "Airframe bolt by the circular's table", drawing: "stud",
	what: "Torque for a nut on an airframe bolt where no maker gives one.",
	fields: []field{
		{name: "thread", label: "Thread", kind: text, check: thread, hint: "7/16-20, 10-32"},
		{name: "typed", label: "Torque on hand", units: torques, without: "No torque on hand to compare."},
	},
	source:   "FAA AC 43.13-1B table 7-1 (9/8/98): oil-free cadmium-plated threads, bolts mainly in shear. Breakaway: US Army TM 10-5430-232-12&P table I-2, TM 1-1500-204-23-6 table 2-8.",
	cautions: []string{"Not for studs, oiled threads or engines. The maker's figure comes first.", "Add the drag of a self-locking nut."},
	work: func(p *Page) error {
		th, err := torque.ParseThread(p.text("thread"))
		if err != nil {
			return err
		}
		a, err := torque.AirframeFor(th)
		if err != nil {
			return err
		}
		p.between("Tension nut", a.Tension.Min.InchPounds(), a.Tension.Max.InchPounds(), 0, quantity.UnitInLb)
		p.line("table 7-1, " + th.String() + ", tension: {=}")
		p.between("Shear nut", a.Shear.Min.InchPounds(), a.Shear.Max.InchPounds(), 0, quantity.UnitInLb)
		p.answer("Never beyond, tension nut", a.MaxTension.InchPounds(), 0, quantity.UnitInLb)
		p.answer("Never beyond, shear nut", a.MaxShear.InchPounds(), 0, quantity.UnitInLb)
		p.note(a.Note)
		if b, err := torque.Breakaway(th); err == nil {
			p.answer("A used lock nut turns with at least", b.InchPounds(), 1, quantity.UnitInLb)
		}
		p.draw("D", th.Diameter().Inches())
		p.draw("pitch", th.Pitch().Inches())
		if doubt := th.Doubt(); doubt != "" {
			p.ask("thread", "thread", doubt)
		}
		if !p.has("typed") {
			return nil
		}
		doubt, asked, err := torque.TwelveToOne(p.of("typed"), a.Tension)
		if asked {
			p.ask("typed", "twelve", doubt.Sentence, way{brief(doubt.Instead), "typed", doubt.Instead.Text()})
		}
		p.line("on hand: " + p.of("typed").Show())
		return err
	},
}
