package book

import "linkrod/radial/quantity"

// What the oil says besides its level: samples, screens, what left the tank overnight.

var sample = Kind{Type: "oil_sample", Title: "Oil sample", Boxes: []Box{
	{Name: "number", Label: "Sample number", Is: Words},
	{Name: "lab", Label: "Laboratory", Is: Words},
	{Name: "oil_hours", Label: "Hours on the oil", Unit: quantity.UnitH, Low: "1", High: "60"},
	{Name: "added", Label: "Added since the change", Unit: quantity.UnitQt, Low: "0", High: "60"},
	{Name: "ppm", Label: "Parts per million", Is: Figure, Per: PerMetal, Low: "0", High: "500", Need: "What did the laboratory find? One metal at least."},
}}

// screen never judges: metal is for a mechanic to look at (trade practice; a maker's own
// table comes first).
var screen = Kind{Type: "screen", Title: "Screen and metal", Boxes: []Box{
	{Name: "where", Label: "Where", Is: OneOf, Of: "pressure=pressure screen|sump=sump screens|magnet=magnet|filter=filter cut open|tank=tank", Need: "Which screen, or the magnet?"},
	{Name: "count", Label: "Counted", Is: Count, Per: PerShape},
	{Name: "magnetic", Label: "The magnet takes it", Is: OneOf, Of: "yes=yes|no=no|some=some of it"},
	{Name: "looks", Label: "Looks like", Is: Words},
	{Name: "photo", Label: "Photographs", Is: Photos},
	{Name: "asked", Label: "Shown to", Is: Words},
	{Name: "answers", Label: "Answers the find", Is: Ref},
	{Name: "answer", Label: "What the mechanic says", Is: Words},
	{Name: "look_hours", Label: "Look again after", Unit: quantity.UnitH, Low: "0.5", High: "50"},
}, say: func(f *Facts) string {
	s := "Looked at the " + wordOf(f.Kind.Boxes[0].Of, f.text("where"))
	if c := f.get("count"); c.given() && c.sum() == 0 {
		s += ": nothing found"
	} else if c.given() {
		s += ": "
		for i, n := range c.At {
			if i > 0 {
				s += ", "
			}
			s += n.V + " " + wordOf(shapes, n.At)
		}
	}
	switch f.text("magnetic") {
	case "yes":
		s += ", magnetic"
	case "no":
		s += ", not magnetic"
	}
	if l := f.text("looks"); l != "" {
		s += ", " + l
	}
	if a := f.text("answer"); a != "" {
		s += ". " + sentence(a)
	}
	return s
}, check: func(f *Facts) error {
	if f.text("answers") != "" && f.text("answer") == "" {
		return Wrong("What does the mechanic say of it?")
	}
	return nil
}}

// sum of the counts in a box.
func (v *Filled) sum() (n int) {
	for _, c := range v.At {
		n += atoi(c.V)
	}
	return n
}

var overnight = Kind{Type: "overnight", Title: "Loss while standing", Boxes: []Box{
	{Name: "lasted", Label: "Stood for", Unit: quantity.UnitH, Low: "1", High: "2000", Need: "How long did it stand?"},
	{Name: "lost", Label: "Gone from the tank", Unit: quantity.UnitQt, Low: "0", High: "6", Need: "How much is gone from the tank?"},
	{Name: "found", Label: "Found on the floor or in the tray", Unit: quantity.UnitFlOz, Low: "0", High: "128"},
}, say: func(f *Facts) string {
	return inWords(f.get("lost").M) + " gone in " + inWords(f.get("lasted").M) + " of standing" + f.rest("lost", "lasted")
}}
