package book

import (
	"linkrod/radial/compression"
	"linkrod/radial/quantity"
)

// Turned by hand or by the starter: pull-through, differential and cranking compression.

var pulled = Kind{Type: "pull_through", Title: "Pulled through", Boxes: []Box{
	{Name: "blades", Label: "Blades pulled", Is: Count, Need: "How many blades were pulled?"},
	{Name: "feel", Label: "How it felt", Is: OneOf, Of: "even=even|soft=soft on some|stiff=stiff|firm=it went firm", Need: "How did it feel?"},
	{Name: "stop_blade", Label: "Went firm at blade", Is: Count},
	{Name: "stop_cyl", Label: "Cylinder coming up", Is: Count},
	{Name: "drained", Label: "Ran out of", Per: PerCylinder, Unit: quantity.UnitFlOz, Low: "0", High: "40"},
	{Name: "pipes", Label: "Ran out of the intake pipe of", Per: PerCylinder, Unit: quantity.UnitFlOz, Low: "0", High: "40"},
	{Name: "sump", Label: "Ran out of the sump", Unit: quantity.UnitFlOz, Low: "0", High: "200"},
	{Name: "released", Label: "Releases the stop", Is: Ref},
	{Name: "released_by", Label: "Released by", Is: Words},
	{Name: "certificate", Label: "Certificate", Is: Words},
	{Name: "words", Label: "In these words", Is: Words},
}, say: func(f *Facts) string {
	if by := f.text("released_by"); by != "" {
		s := "Stop released by " + by
		if c := f.text("certificate"); c != "" {
			s += ", " + c
		}
		if w := f.text("words"); w != "" {
			s += ": “" + w + "”"
		}
		return s
	}
	s := "Pulled through, " + counted(atoi(f.text("blades")), "blade", "blades") + ", " + wordOf(f.Kind.Boxes[1].Of, f.text("feel"))
	if n := f.text("stop_blade"); n != "" {
		s += " at blade " + n
	}
	if k := f.text("stop_cyl"); k != "" {
		s += ", cylinder " + k + " coming up"
	}
	return s + f.rest("blades", "feel", "stop_blade", "stop_cyl")
}, check: func(f *Facts) error {
	if f.text("released") != "" && (f.text("released_by") == "" || f.text("certificate") == "" || f.text("words") == "") {
		return Wrong("A stop is released by a mechanic: name, certificate, and in which words.")
	}
	return first(cylinderIn("stop_cyl")(f))
}}

// stop reports that the engine must not be turned. One that went firm again while an earlier
// stop was released is a stop of its own.
func (f *Facts) stop() bool {
	return f.Kind == &pulled && f.text("feel") == "firm"
}

var compressionSet = Kind{Type: "compression", Title: "Differential compression", Boxes: []Box{
	{Name: "out_of", Label: "Air put in", Unit: quantity.UnitPsi, Low: "70", High: "90", Need: "Out of how much? A differential check is so many over 80."},
	{Name: "orifice", Label: "Orifice of the tester", Unit: quantity.UnitIn, Low: "0.03", High: "0.07", Hint: "It stands on the tester: 0.040 or 0.060 in"},
	{Name: "warm", Label: "Engine", Is: OneOf, Of: "hot=hot|cold=cold"},
	{Name: "values", Label: "Read", Per: PerCylinder, Unit: quantity.UnitPsi, Low: "20", High: "90", Need: "A compression set needs at least one cylinder."},
	{Name: "heard", Label: "Air heard at", Is: OneOf, Per: PerCylinder, Of: "exhaust=the exhaust|intake=the intake|rings=the breather|head=the head"},
	{Name: "after", Label: "After", Is: OneOf, Of: "found=as found|staked=staking a valve|run=a run of twenty minutes|oil=a squirt of oil"},
}, say: func(f *Facts) string {
	s := "Compression over " + f.get("out_of").M.Value.Show() + ": " + f.figures("values")
	if h := f.get("heard"); h.given() {
		s += ", air heard: " + f.Kind.Boxes[4].said(h)
	}
	if a := f.text("after"); a != "" && a != "found" {
		s += ", after " + wordOf(f.Kind.Boxes[5].Of, a)
	}
	return s
}, check: func(f *Facts) error {
	_, err := f.set(9)
	return err
}}

func askCompression(d *drafting, f *Facts) {
	if !f.get("orifice").given() {
		d.ask(Ask{Field: "orifice", Strength: Differs, Code: "no_orifice", Words: "Can't judge: the orifice is not stated."})
	} else if words := d.book.wrongOrifice(f); words != "" {
		d.ask(Ask{Field: "orifice", Strength: Unlikely, Code: "wrong_orifice", Words: words, Choices: []Choice{d.leave("Keep it, and do not judge it", "wrong_orifice")}})
	}
	if f.text("warm") == "" {
		d.ask(Ask{Field: "warm", Strength: Differs, Code: "no_warmth", Words: "Can't judge: hot or cold is not stated."})
	}
}

// set is the check as package compression takes it, for an engine of n cylinders.
func (f *Facts) set(n int) (compression.Set, error) {
	warmth := map[string]compression.Warmth{"hot": compression.Hot, "cold": compression.Cold}
	v := f.get("values")
	s := compression.Set{Supply: f.get("out_of").M, Orifice: f.get("orifice").M, Engine: warmth[f.text("warm")]}
	for k := 1; k <= n; k++ {
		s.Readings = append(s.Readings, v.measured(itoa(k)))
	}
	if err := s.Check(); err != nil {
		return s, Wrong(err.Error())
	}
	return s, nil
}

var crankingSet = Kind{Type: "cranking", Title: "Cranking compression", Boxes: []Box{
	{Name: "values", Label: "Read", Per: PerCylinder, Unit: quantity.UnitPsi, Low: "30", High: "160", Need: "A cranking check needs at least one cylinder."},
	{Name: "throttle", Label: "Throttle full open", Is: YesNo},
	{Name: "warm", Label: "Engine", Is: OneOf, Of: "hot=hot|cold=cold"},
	{Name: "rpm", Label: "Cranking speed", Unit: quantity.UnitRpm, Low: "30", High: "200"},
}, say: func(f *Facts) string {
	return "Cranking compression: " + f.figures("values") + " psi" + f.rest("values")
}}
