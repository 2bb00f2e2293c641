package sums

import "linkrod/radial/lock"

var blades = sum{
	id: "blades", title: "Blades to pull", drawing: "blades", first: true,
	what: "The fewest blades that take every cylinder through its compression, and what a count came to.",
	fields: []field{
		{name: "blades", label: "Blades of the propeller", sym: "B", kind: count, usual: span{2, 4}},
		{from: &gearField},
		{from: &cylindersField},
		{name: "pulled", is: "blades pulled", label: "Blades pulled", sym: "b", kind: count, usual: span{1, 40}, without: "No count given: only the fewest."},
	},
	source: "⌈2 × times × B/G⌉, G crank turns for one of the propeller: arithmetic. Twice: common practice, no source. Handbooks say two to four full turns.",
	cautions: []string{"The engine's own card says how many. Switches off, mixture cut off, chocks, treated as live.",
		"By hand, in the direction of rotation, slowly. It goes firm: stop, let go, do not rock, never turn backwards.",
		"A pull-through finds a lock, it does not clear one."},
	work: func(p *Page) error {
		prop := lock.Propeller{Blades: p.count("blades"), Gear: p.gear()}
		p.let("G", prop.Gear.String())
		for i, label := range []string{"Every cylinder once", "Every cylinder twice"} {
			n, err := prop.BladesFor(i + 1)
			if err != nil {
				return err
			}
			p.bare(label, float64(n), 0, "blades")
			p.letFig("t", float64(i+1), 0)
			p.line("⌈2 × {t} × {blades}/({G})⌉ = {=}")
			p.draw([]string{"once", "twice"}[i], float64(n))
		}
		p.draw("blades", p.number("blades"))
		n := 1
		if p.has("pulled") {
			n = p.count("pulled")
		}
		got, err := prop.Pull(n, p.count("cylinders"))
		if err != nil || !p.has("pulled") {
			return err
		}
		p.bare("Crank turns", got.CrankTurns.Float(), 2, "turns")
		p.line("{pulled}/{blades} × {G} = {=}")
		p.bare("Compressions gone through", got.Compressions.Float(), 1, "compressions")
		p.line("crank turns × {cylinders}/2 = {=}")
		p.bare("Every cylinder surely", float64(got.EveryCylinder), 0, "times")
		p.draw("pulled", p.number("pulled"))
		return nil
	},
}
