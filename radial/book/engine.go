package book

import (
	"linkrod/radial/oil"
	"linkrod/radial/quantity"
)

// engine is what is on file, as the arithmetic needs it.
type engine struct {
	unit      quantity.Unit // oil is kept and shown in
	cylinders int           // 0: not known
	master    int           // 0: not known
	settings  oil.Settings
	least     oil.Given[oil.Quarts]
	full      oil.Given[oil.Quarts]

	origin quantity.Decimal // total hours that "since" counts from
	since  quantity.Decimal // hours at origin
	what   string           // "overhaul" or "ring job"

	open []field // disagreements that the rate rests on
}

// restsOn are the settings without which there is no rate or no verdict.
var restsOn = []string{"oil_unit", "stick_step", "tank_capacity", "meter", "since", "ceiling"}

func (b *Book) engineOnFile() engine {
	e := engine{unit: quantity.UnitQt, what: "overhaul"}
	for _, name := range restsOn {
		if b.disagreed(name) {
			f, _ := fieldOf(name)
			e.open = append(e.open, f)
		}
	}
	if u := b.text("oil_unit"); u != "" {
		e.unit = quantity.Unit(u)
	}
	if b.text("since_what") == "re-ring" {
		e.what = "ring job"
	}
	e.cylinders = atoi(b.text("cylinders"))
	if m := atoi(b.text("master")); m <= e.cylinders {
		e.master = m
	}
	e.settings = oil.Settings{
		Capacity:  b.quarts("tank_capacity"),
		StickStep: b.quarts("stick_step"),
	}
	e.full, e.least = b.quarts("full_mark"), b.quarts("min_flight")
	if v, ok := b.value("ceiling"); ok {
		if r, err := v.M.OilRate(); err == nil {
			e.settings.Ceiling = oil.Is(oil.QtPerHour(r.QuartsPerHour()))
		}
	}
	since, known := b.value("since")
	meter, read := b.value("meter")
	if known && read {
		at := b.heads["meter"][0]
		if origin, ok := b.onLine(meter.M, b.era(at)); ok {
			e.origin, e.since, e.settings.HoursKnown = origin, since.M.Value, true
		}
	}
	return e
}

// quarts is a setting of volume in US quarts.
func (b *Book) quarts(name string) oil.Given[oil.Quarts] {
	if v, ok := b.value(name); ok {
		if q, ok := quarts(v.M); ok {
			return oil.Is(q)
		}
	}
	return oil.Given[oil.Quarts]{}
}

// quarts is a volume in US quarts, exact for quarts.
func quarts(m quantity.Measured) (oil.Quarts, bool) {
	v, err := m.Volume()
	if err != nil || !m.Given() {
		return 0, false
	}
	return oil.Quarts(v.Quarts()), true
}

// hoursSince is total hours on the clock the reckoning runs on: since the
// overhaul or ring job where that is known, else since the first reading.
func (b *Book) hoursSince(total quantity.Decimal) oil.Hours {
	o, known := b.originAt(total)
	from, plus := o.total, o.since
	if !known {
		if rs := b.hours.readings; len(rs) > 0 {
			from = rs[0].total
		}
	}
	h, err := total.Sub(from)
	if err == nil {
		h, err = h.Add(plus)
	}
	if err != nil {
		return 0
	}
	return oil.Hours(h.Float64())
}

// hoursMean says what those hours are.
func (b *Book) hoursMean() string {
	if b.engine.settings.HoursKnown {
		return "hours since the " + b.engine.what
	}
	return "hours on this log"
}

// oilUnit is the book's unit for the words of package oil.
func (e engine) oilUnit() oil.Unit {
	switch e.unit {
	case quantity.UnitL:
		return oil.Litre
	case quantity.UnitImpQt:
		return oil.ImperialQuart
	}
	return oil.USQuart
}

// shown is US quarts in the book's unit.
func (e engine) shown(q oil.Quarts) float64 { return float64(q) * e.oilUnit().PerQuart }
