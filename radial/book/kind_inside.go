package book

import (
	"linkrod/radial/quantity"
	"linkrod/radial/torque"
)

// Work with the covers or the cylinder off: clearances, grease, dimensions, torque, ignition.

var clearances = Kind{Type: "clearances", Title: "Valve clearances", Boxes: []Box{
	{Name: "found", Label: "As found", Per: PerValve, Unit: quantity.UnitThou, Low: "0", High: "30"},
	{Name: "left", Label: "As left", Per: PerValve, Unit: quantity.UnitThou, Low: "0", High: "30"},
	{Name: "cold", Label: "Engine cold", Is: YesNo},
	{Name: "head", Label: "Head temperature", Unit: quantity.UnitF, Low: "20", High: "200"},
	{Name: "method", Label: "Method", Is: OneOf, Of: "compression=each on its compression stroke|pressed=other valves pressed, the cam ring taken up|positive=on the card’s positions"},
	{Name: "lock", Label: "Lock nuts torqued", Is: YesNo},
}, check: func(f *Facts) error {
	if !f.get("found").given() && !f.get("left").given() {
		return Wrong("No clearance is filled in: as found, as left, or both.")
	}
	for _, name := range []string{"found", "left"} {
		for _, c := range f.get(name).At {
			if c.V != "" && c.V[0] == '-' {
				return Wrong("A clearance is 0 or more. " + capital(PerValve.said(c.At)) + " reads " + c.V + ".")
			}
		}
	}
	return nil
}, say: func(f *Facts) string {
	s := "Clearances"
	if f.get("found").given() {
		s += ", found" + f.valves("found")
	}
	if f.get("left").given() {
		s += ", left" + f.valves("left")
	}
	return s + f.rest("found", "left")
}}

// valves is a box of clearances: " inlet 10 9 12, exhaust 10 11 9 thou". A few are named.
func (f *Facts) valves(name string) string {
	v := f.get(name)
	n := f.most(v)
	if len(v.At) < n {
		return " " + f.Kind.Boxes[f.Kind.box(name)].said(v)
	}
	s := ""
	for _, end := range []string{"i", "e"} {
		s += map[string]string{"i": " inlet", "e": ", exhaust"}[end]
		for k := 1; k <= n; k++ {
			s += " " + orNot(v.cell(itoa(k)+end), "–")
		}
	}
	return s + " " + v.Unit.Symbol()
}

var grease = Kind{Type: "grease", Title: "Rockers greased", Boxes: []Box{
	{Name: "done", Label: "Nipples", Is: OneOf, Per: PerValve, Of: "done=done|blocked=blocked|not=not done", Need: "Which nipples were greased?"},
	{Name: "strokes", Label: "Strokes each", Is: Count},
	{Name: "grease", Label: "Grease", Is: Words},
}, say: func(f *Facts) string {
	v, done, not := f.get("done"), 0, ""
	for _, c := range v.At {
		if c.V == "done" {
			done++
			continue
		}
		not += ", " + PerValve.said(c.At) + " " + wordOf(f.Kind.Boxes[0].Of, c.V)
	}
	return "Rockers greased, " + itoa(done) + " of " + counted(len(v.At), "nipple", "nipples") + not + f.rest("done")
}}

var dimensions = Kind{Type: "dimensions", Title: "Measured", Hours: Optional, Boxes: []Box{
	{Name: "cyl", Label: "Cylinder", Is: Count},
	{Name: "serial", Label: "Its serial number", Is: Words},
	{Name: "part", Label: "Part", Is: OneOf, Of: "barrels=barrel|pistons=piston and rings|heads=head and valves|crankshaft=top heights"},
	{Name: "nominal", Label: "Nominal bore", Unit: quantity.UnitIn, Low: "3.5", High: "7"},
	{Name: "bore", Label: "Bore", Per: PerStation, Unit: quantity.UnitIn, Low: "3.5", High: "7"},
	{Name: "items", Label: "Measured", Per: PerItem, Unit: quantity.UnitThou, Low: "-5", High: "80"},
	{Name: "gaps", Label: "Ring gaps of", Is: Words},
	{Name: "tops", Label: "Top height of", Per: PerCylinder, Unit: quantity.UnitThou, Low: "-200", High: "50"},
	{Name: "shop", Label: "Shop temperature", Unit: quantity.UnitF, Low: "30", High: "110"},
}, check: func(f *Facts) error {
	if !f.get("bore").given() && !f.get("items").given() && !f.get("tops").given() && !f.get("nominal").given() {
		return Wrong("Nothing was measured yet. One station or one item makes a sheet.")
	}
	return cylinderIn("cyl")(f)
}}

var torqueDone = Kind{Type: "torque", Title: "Torque", Boxes: []Box{
	{Name: "joint", Label: "Joint", Is: OneOf, Of: "hold_down=cylinder hold-down|rocker_cover=rocker cover nuts|rocker_lock=rocker lock nut|intake_pipe=intake pipe|exhaust_flange=exhaust flange nut|spark_plug=spark plug|prop_hub=propeller hub nut|mount_bolt=engine mount bolts|sump_plug=sump plug|sump_magnet=sump magnet|other=another joint", Need: "Which joint?"},
	{Name: "cyl", Label: "Cylinder", Is: Count},
	{Name: "wanted", Label: "Wanted at the nut", Unit: quantity.UnitInLb, Need: "How much, and inch pounds or foot pounds?"},
	{Name: "lube", Label: "Threads", Is: OneOf, Of: "oiled=oiled|dry=dry|antiseize=with anti-seize|grease=greased"},
	{Name: "lever", Label: "Wrench length", Unit: quantity.UnitIn, Low: "3", High: "60"},
	{Name: "extension", Label: "Extension", Unit: quantity.UnitIn, Low: "-12", High: "24"},
	{Name: "set", Label: "Wrench set to", Unit: quantity.UnitInLb},
	{Name: "nuts", Label: "Nuts", Is: OneOf, Per: PerNut, Of: "done=done|moved=moved|no=not done"},
	{Name: "count", Label: "Nuts in all", Is: Count},
	{Name: "again", Label: "A look again, not the first time", Is: YesNo},
	{Name: "moved", Label: "How far it moved", Is: Words},
}, check: func(f *Facts) error { return cylinderIn("cyl")(f) }, say: func(f *Facts) string {
	s := capital(wordOf(f.Kind.Boxes[0].Of, f.text("joint")))
	if k := f.text("cyl"); k != "" {
		s += ", cylinder " + k
	}
	s += ", " + inWords(f.get("wanted").M)
	if f.text("again") == "yes" {
		s += ", looked at again"
	}
	if l := f.text("lube"); l != "" {
		s += ", threads " + wordOf(f.Kind.Boxes[3].Of, l)
	}
	if e := f.get("extension"); e.given() {
		s += ", wrench set to " + inWords(f.get("set").M) + " with " + short(e.M) + " of extension on " + short(f.get("lever").M)
	}
	if n := f.get("nuts"); n.given() {
		done, moved := 0, 0
		for _, c := range n.At {
			if c.V != "no" {
				done++
			}
			if c.V == "moved" {
				moved++
			}
		}
		s += ", " + itoa(done) + " of " + orNot(f.text("count"), itoa(len(n.At))) + " nuts"
		if moved > 0 {
			s += ", " + itoa(moved) + " moved"
		}
	}
	return s + f.rest("joint", "cyl", "wanted", "again", "lube", "extension", "lever", "set", "nuts", "count")
}}

func askTorque(d *drafting, f *Facts) {
	w, l, e := f.get("wanted").M, f.get("lever").M, f.get("extension").M
	if f.text("lube") == "" {
		d.ask(Ask{Field: "lube", Strength: Differs, Code: "no_lube", Words: "Lubrication not stated: oiled threads pull a third tighter than dry ones at the same torque (common practice)."})
	}
	if !w.Given() || !l.Given() || !e.Given() {
		return
	}
	wanted, e1 := w.Torque()
	lever, e2 := l.Length()
	adapter, e3 := e.Length()
	r, e4 := torque.Setup{Lever: lever, Adapter: adapter}.Setting(wanted)
	if err := first(e1, e2, e3, e4); err != nil {
		d.ask(Ask{Field: "extension", Strength: Impossible, Code: "no_lever", Words: err.Error()})
		return
	}
	is, err := f.get("set").M.Torque()
	if f.get("set").given() && err == nil && (is > r*1.02 || is < r*0.98) {
		d.ask(Ask{Field: "set", Strength: Unlikely, Code: "set_off", Words: "With " + short(e) + " on " + short(l) + " the wrench is set to " + figure(r.InchPounds(), 1) + " in-lb for that, not " + short(f.get("set").M) + ".",
			Choices: []Choice{d.leave("It was set so", "set_off")}})
	}
}

var timing = Kind{Type: "timing", Title: "Ignition timing", Boxes: []Box{
	{Name: "cyl", Label: "Measured on cylinder", Is: Count, Need: "On which cylinder? Only the one the maker names times this engine."},
	{Name: "found", Label: "Found, before top", Per: PerSide, Unit: quantity.UnitDeg, Low: "5", High: "45"},
	{Name: "left", Label: "Left, before top", Per: PerSide, Unit: quantity.UnitDeg, Low: "5", High: "45"},
	{Name: "travel", Label: "Found, piston travel", Per: PerSide, Unit: quantity.UnitIn, Low: "0.05", High: "0.8"},
	{Name: "top", Label: "Top found by", Is: OneOf, Of: "stop=positive stop both ways|tool=piston-position tool|feel=feel"},
}, check: func(f *Facts) error {
	if !f.get("found").given() && !f.get("left").given() && !f.get("travel").given() {
		return Wrong("No timing is filled in: degrees or piston travel of one side at least.")
	}
	return cylinderIn("cyl")(f)
}, say: func(f *Facts) string {
	return "Timing on cylinder " + f.text("cyl") + f.rest("cyl")
}}

func askTiming(d *drafting, f *Facts) {
	if words := d.book.linkTiming(f); words != "" {
		d.ask(Ask{Field: "cyl", Strength: Unlikely, Code: "link_cylinder", Words: words, Choices: []Choice{d.leave("Keep it, and do not judge it", "link_cylinder")}})
	}
}

var points = Kind{Type: "points", Title: "Breaker points", Boxes: []Box{
	{Name: "found", Label: "Gap found", Per: PerSide, Unit: quantity.UnitThou, Low: "4", High: "30"},
	{Name: "left", Label: "Gap left", Per: PerSide, Unit: quantity.UnitThou, Low: "4", High: "30"},
	{Name: "state", Label: "Faces and follower", Is: Words},
}, check: anything("No gap is filled in.")}

var drops = Kind{Type: "drops", Title: "Ignition drop", Boxes: []Box{
	{Name: "rpm", Label: "Checked at", Unit: quantity.UnitRpm, Low: "1000", High: "2300"},
	{Name: "drop", Label: "Drop", Per: PerSide, Unit: quantity.UnitRpm, Low: "1", High: "200", Need: "How far did it drop on each side?"},
	{Name: "how", Label: "How", Is: OneOf, Per: PerSide, Of: "smooth=slow and smooth|rough=fast and rough|none=no drop at all"},
}}

func askDrops(d *drafting, f *Facts) {
	for _, c := range f.get("drop").At {
		if c.V == "0" || f.get("how").cell(c.At) == "none" {
			d.ask(Ask{Field: "drop." + c.At, Strength: Differs, Code: "live", Words: "No drop at all on the " + c.At + " side: its switch lead may be off, and then the magneto is live. P-leads off means the magneto is live."})
		}
	}
}

var plugs = Kind{Type: "plugs", Title: "Spark plugs", Boxes: []Box{
	{Name: "state", Label: "Plugs", Is: OneOf, Per: PerPlug, Of: "dry=dry, light|sooty=sooty|oily=oily|wet=wet with fuel|lead=lead fouled|broken=broken|new=new", Need: "Which plugs, and how do they look?"},
	{Name: "gap", Label: "Gap left", Per: PerPlug, Unit: quantity.UnitThou, Low: "8", High: "30"},
	{Name: "moved", Label: "Turned top to bottom", Is: YesNo},
}, say: func(f *Facts) string {
	v, odd := f.get("state"), ""
	for _, c := range v.At {
		if c.V != "dry" && c.V != "new" {
			odd += ", " + PerPlug.said(c.At) + " " + wordOf(f.Kind.Boxes[0].Of, c.V)
		}
	}
	return counted(len(v.At), "plug", "plugs") + " looked at" + odd + f.rest("state")
}}
