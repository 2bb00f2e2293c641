package book

import "linkrod/radial/quantity"

// The engine running: the meter, runs and flights, starts, what is read before take-off.

var meterRead = Kind{Type: "meter_read", Title: "Meter read",
	say: func(f *Facts) string { return "Meter read" }}

var run = Kind{Type: "run", Title: "Ground run", Boxes: []Box{
	{Name: "for", Label: "What for", Is: OneOf, Of: "warm=warming up|test=a test|leak=a leak check|break_in=running in|storage=storage"},
	{Name: "minutes", Label: "Time by the clock", Unit: quantity.UnitMin, Low: "0.5", High: "90", Need: "How long did it run, by the clock?"},
	{Name: "rpm", Label: "Highest speed", Unit: quantity.UnitRpm, Low: "400", High: "2600"},
	{Name: "cht", Label: "Hottest head", Unit: quantity.UnitF, Low: "100", High: "550"},
	{Name: "cht_cyl", Label: "Its cylinder", Is: Count},
	{Name: "oil_temp", Label: "Oil temperature", Unit: quantity.UnitF, Low: "40", High: "250"},
	{Name: "oil_pressure", Label: "Oil pressure", Unit: quantity.UnitPsi, Low: "5", High: "150"},
	{Name: "warm", Label: "Oil came to temperature", Is: YesNo},
}, say: sayRun, check: cylinderIn("cht_cyl")}

var flight = Kind{Type: "flight", Title: "Flight", Boxes: []Box{
	{Name: "flown", Label: "Flown", Unit: quantity.UnitH, Low: "0.1", High: "8"},
	{Name: "power", Label: "Cruise power", Unit: quantity.UnitHp, Low: "30", High: "700"},
	{Name: "rpm", Label: "Cruise speed", Unit: quantity.UnitRpm, Low: "1000", High: "2600"},
	{Name: "map", Label: "Manifold pressure", Unit: quantity.UnitInHg, Low: "10", High: "45"},
	{Name: "cht", Label: "Hottest head", Unit: quantity.UnitF, Low: "150", High: "550"},
	{Name: "cht_cyl", Label: "Its cylinder", Is: Count},
	{Name: "oil_temp", Label: "Oil temperature", Unit: quantity.UnitF, Low: "60", High: "250"},
	{Name: "oil_pressure", Label: "Oil pressure", Unit: quantity.UnitPsi, Low: "5", High: "150"},
}, say: sayRun, check: cylinderIn("cht_cyl")}

func sayRun(f *Facts) string {
	s := f.Kind.Title
	if m := f.get("minutes"); m.given() {
		s += ", " + inWords(m.M)
	}
	if m := f.get("flown"); m.given() {
		s += ", " + inWords(m.M)
	}
	if p := f.text("for"); p != "" {
		s += ", " + wordOf(f.Kind.Boxes[f.Kind.box("for")].Of, p)
	}
	if c := f.get("cht"); c.given() {
		s += ", hottest head " + short(c.M)
		if k := f.text("cht_cyl"); k != "" {
			s += " in cylinder " + k
		}
	}
	return s + f.rest("minutes", "flown", "for", "cht", "cht_cyl")
}

// cylinderIn refuses a box that names a cylinder no engine here has.
func cylinderIn(name string) func(*Facts) error {
	return func(f *Facts) error {
		if k := f.text(name); k != "" && (atoi(k) < 1 || atoi(k) > 9) {
			return Wrong("There is no cylinder " + k + ". They are numbered from 1.")
		}
		return nil
	}
}

var start = Kind{Type: "start", Title: "Start", Boxes: []Box{
	{Name: "strokes", Label: "Primer strokes", Is: Count},
	{Name: "outside", Label: "Outside temperature", Unit: quantity.UnitF, Low: "-20", High: "120"},
	{Name: "blades", Label: "Blades before the switch", Is: Count},
	{Name: "attempts", Label: "Attempts", Is: Count},
	{Name: "started", Label: "It started", Is: YesNo, Need: "Did it start?"},
	{Name: "seconds", Label: "Seconds to oil pressure", Is: Count},
	{Name: "oil_temp", Label: "Oil temperature", Unit: quantity.UnitF, Low: "-20", High: "220"},
}, say: func(f *Facts) string {
	s := "Started"
	if f.text("started") == "no" {
		s = "Did not start"
	}
	if n := f.text("strokes"); n != "" {
		s += ", " + counted(atoi(n), "stroke", "strokes") + " of primer"
	}
	if t := f.get("outside"); t.given() {
		s += " at " + short(t.M)
	}
	return s + f.rest("started", "strokes", "outside")
}}

var beforeTakeoff = Kind{Type: "before_takeoff", Title: "Before take-off", Boxes: []Box{
	{Name: "oil_temp", Label: "Oil temperature", Unit: quantity.UnitF, Low: "60", High: "250"},
	{Name: "cht", Label: "Head temperature", Unit: quantity.UnitF, Low: "100", High: "550"},
	{Name: "oil_pressure", Label: "Oil pressure", Unit: quantity.UnitPsi, Low: "5", High: "150"},
	{Name: "field", Label: "Manifold gauge, engine stopped", Unit: quantity.UnitInHg, Low: "20", High: "31.5"},
	{Name: "map", Label: "Manifold pressure", Unit: quantity.UnitInHg, Low: "10", High: "45"},
	{Name: "rpm", Label: "Speed", Unit: quantity.UnitRpm, Low: "800", High: "2600"},
}, check: anything("Nothing is filled in. One figure at least makes it a reading.")}

// anything refuses an entry in which no box is filled.
func anything(words string) func(*Facts) error {
	return func(f *Facts) error {
		for i := range f.Boxes {
			if f.Boxes[i].given() {
				return nil
			}
		}
		return Wrong(words)
	}
}
