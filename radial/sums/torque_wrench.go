package sums

import (
	"linkrod/radial/quantity"
	"linkrod/radial/torque"
)

var torqueWrench = sum{
	id: "torque-wrench", title: "Torque with this wrench", drawing: "wrench", first: true,
	what: "What to set the wrench to when an adapter stands between it and the nut, or what a reading meant.",
	fields: []field{
		{name: "wanted", is: "torque|minimum", label: "Torque wanted", sym: "T", units: torques, or: "torque", hint: "From the sheet. Say the unit: inch pounds and foot pounds are twelve times apart."},
		{name: "reading", label: "What the wrench read", sym: "S", units: torques, or: "torque", hint: "To find what the nut got."},
		{name: "upto", is: "maximum", label: "Up to", units: torques, with: "wanted", without: "No range: one value is aimed at.", hint: "Where the sheet gives a range."},
		{name: "lever", label: "Lever", sym: "L", units: lengths, usual: span{4, 72}, hint: "From the centre of the drive to the mark on the grip, or to the pin of a grip that hangs on one."},
		{name: "adapter", label: "Adapter", sym: "E", units: lengths, usual: span{-24, 24}, without: "No adapter: the bare wrench.", hint: "From the centre of the drive to the centre of the nut."},
		{name: "angle", label: "Angle of the adapter", sym: "a", units: angles, with: "adapter", without: "Angle not given: the adapter straight out, 0°.", hint: "0 straight out, 90 square to the wrench, 180 back along the grip."},
		{name: "grip", label: "Hand at", units: lengths, with: "adapter", usual: span{4, 72}, without: "Hand on the mark.", hint: "From the centre of the drive, where the hand was not on the mark."},
		{name: "drag", label: "Drag of the nut", units: torques, with: "wanted", without: "No drag given, so none is added. A self-locking nut has some.", hint: "The torque that turns a self-locking nut before it touches."},
		{name: "rule", is: "drag rule", label: "Drag is", kind: option, with: "drag", choices: []choice{{"always", "Always added"}, {"third", "Added from a third of the torque on"}}},
		{name: "full", is: "full scale", label: "Full scale of the wrench", units: torques, with: "wanted", without: "Scale not given: whether the setting lies well on it is not looked at."},
		{name: "thread", label: "Thread", kind: text, check: thread, without: "Thread not given: the torque is not looked at against it.", hint: "7/16-20, 10-32, M10x1.25"},
		{name: "lube", is: "threads", label: "Threads are", kind: option, choices: threadStates, with: "thread", without: "Dry or oiled is not said: the torque is not looked at against the thread."},
	},
	source:   "S = T L/(L + E cos a): geometry; US Navy training text, Army TM 9-2350-277-40&P, FAA AC 43.13-1B fig. 7-2. Drag: AC 43.13-1B 7-40 (always added), Army TB 43-0218 7c (from a third).",
	cautions: []string{"Measure centre to centre, keep the hand on the mark and pull square to the wrench.", "The maker's figure, lubricant and sequence come first. Hold-down nuts are work for a certificated mechanic.", "The wrench is checked " + torque.Calibration + "."},
	work: func(p *Page) error {
		s := torque.Setup{Lever: p.length("lever"), Adapter: p.length("adapter"), Angle: p.angle("angle")}
		arm, err := s.Effective()
		if err != nil {
			return err
		}
		p.letFig("A", arm.Inches(), 4)
		if p.has("adapter") {
			p.line("A = L + E cos a = {lever} + {adapter} × cos {angle} = {A} in")
		}
		p.draw("L", s.Lever.Inches())
		p.draw("E", s.Adapter.Inches())
		p.draw("angle", s.Angle.Degrees())
		p.draw("arm", arm.Inches())
		if p.has("reading") {
			return p.applied(s)
		}
		return p.setting(s)
	},
}

// applied is what a reading meant.
func (p *Page) applied(s torque.Setup) error {
	reading := p.torque("reading")
	got, err := s.Applied(reading)
	if err != nil {
		return err
	}
	p.letTorque("S", reading, p.of("reading").Unit)
	p.inUnit("The nut got", got, p.of("reading").Unit)
	p.line("T = S (L + E cos a)/L = {S} × {A}/{lever} = {=}")
	return p.offMark(s, reading, got, "reading")
}

// setting is what the wrench is to be set to.
func (p *Page) setting(s torque.Setup) error {
	wanted := torque.Only(p.torque("wanted"))
	if p.has("upto") {
		wanted.Max = p.torque("upto")
	}
	final := wanted
	if p.has("drag") {
		rule := torque.AddAlways
		if p.chosen("rule") == "third" {
			rule = torque.AddFromThird
		}
		var err error
		if final, err = torque.Final(wanted, p.torque("drag"), rule); err != nil {
			return err
		}
		p.line("at the nut, drag included: " + final.String())
	}
	unit := p.of("wanted").Unit
	labels := []string{"Set the wrench to"}
	if p.has("upto") {
		labels = []string{"Set the wrench to at least", "and to no more than"}
	}
	for i, label := range labels {
		t := []quantity.Torque{final.Min, final.Max}[i]
		set, err := s.Setting(t)
		if err != nil {
			return err
		}
		p.letTorque("T", t, unit)
		p.inUnit(label, set, unit)
		p.line("S = T L/(L + E cos a) = {T} × {lever}/{A} = {=}")
		p.draw([]string{"setting", "settingMax"}[i], set.InchPounds())
		if p.has("full") {
			warning, err := torque.OffScale(set, p.torque("full"))
			if err != nil {
				return err
			}
			p.warn(warning)
		}
	}
	if p.has("upto") && p.has("drag") {
		p.note("A castle nut: " + final.SayCastle() + " These are torques at the nut.")
	}
	set, _ := s.Setting(final.Min) // there was one above
	return p.offMark(s, set, wanted.Min, "wanted")
}

// offMark is what the nut got with the hand off the mark, and whether the torque makes
// sense on its thread.
func (p *Page) offMark(s torque.Setup, reading, at quantity.Torque, typed string) error {
	if p.has("grip") {
		got, err := s.PulledAt(p.length("grip"), reading)
		if err != nil {
			return err
		}
		p.inUnit("With the hand off the mark the nut gets", got, p.of(typed).Unit)
		p.draw("grip", p.length("grip").Inches())
	}
	return p.sane(at, typed)
}

// sane looks whether a torque makes sense on the thread, and asks where the other unit
// would.
func (p *Page) sane(t quantity.Torque, typed string) error {
	if !p.has("thread") || !p.has("lube") {
		return nil
	}
	th, err := torque.ParseThread(p.text("thread"))
	if err != nil {
		return err
	}
	c, err := torque.Check(t, th, threadState(p.chosen("lube")))
	if err != nil {
		return err
	}
	if doubt := th.Doubt(); doubt != "" {
		p.ask("thread", "thread", doubt)
	}
	switch {
	case c.Sign == torque.NoSign:
		p.note(c.Sentence)
	case c.Twelve != 0:
		p.warn(c.Sentence)
		other := p.of(typed)
		other.Unit = quantity.UnitFtLb
		if c.Sign == torque.TooMuch {
			other.Unit = quantity.UnitInLb
		}
		p.ask(typed, "twelve", c.Sentence, way{brief(other), typed, other.Text()})
	default:
		p.warn(c.Sentence)
	}
	return nil
}

// inUnit answers with a torque in the unit that was typed.
func (p *Page) inUnit(label string, t quantity.Torque, u quantity.Unit) {
	v, places := torqueIn(t, u)
	p.answer(label, v, places, u)
}

// torqueIn is a torque in a unit, and the places it is shown to.
func torqueIn(t quantity.Torque, u quantity.Unit) (v float64, places int) {
	switch u {
	case quantity.UnitFtLb:
		return t.FootPounds(), 2
	case quantity.UnitNm:
		return t.NewtonMetres(), 2
	case quantity.UnitKgfM:
		return t.KilogramForceMetres(), 3
	}
	return t.InchPounds(), 1
}

// letTorque names a torque for the maths, in the unit that was typed.
func (p *Page) letTorque(name string, t quantity.Torque, u quantity.Unit) {
	v, places := torqueIn(t, u)
	p.letFig(name, v, places)
}

func thread(typed string) (string, error) {
	th, err := torque.ParseThread(typed)
	if err != nil {
		return "", err
	}
	return th.String(), nil
}

func threadState(chosen string) torque.Threads {
	switch chosen {
	case "dry":
		return torque.Dry
	case "oiled":
		return torque.Oiled
	}
	return torque.AntiSeize
}
