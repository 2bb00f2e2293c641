package book

import (
	"encoding/json"

	"linkrod/radial/quantity"
)

// Opening is the answers to the four questions a new book starts with.
type Opening struct {
	Cylinders string `json:"cylinders"`
	View      string `json:"view"`
	OilUnit   string `json:"oil_unit"`
	Meter     struct {
		Which   string `json:"which"`
		Reading string `json:"reading"` // as typed
	} `json:"meter"`
	Name string `json:"name"`
}

// Planned is an entry that is ready to be written.
type Planned struct {
	Kind string          `json:"kind"`
	Refs []Key           `json:"refs"`
	Body json.RawMessage `json:"body"`
}

// Begin is the first entries of a new book. Everything else can be said later.
func Begin(o Opening, me string, now Now) ([]Planned, error) {
	reading, err := quantity.Parse(o.Meter.Reading, quantity.UnitH)
	if err != nil {
		return nil, Wrong(err.Error())
	}
	meter := map[string]any{"which": o.Meter.Which, "reading": reading.Measured}
	bodies := []Body{&Opened{}}
	for _, s := range []struct {
		field string
		value any
		given bool
	}{
		{"cylinders", o.Cylinders, true}, {"view", o.View, true}, {"oil_unit", o.OilUnit, true},
		{"meter", meter, true}, {"name", o.Name, o.Name != ""},
	} {
		if !s.given {
			continue
		}
		raw, err := json.Marshal(s.value)
		if err != nil {
			return nil, Wrong(err.Error())
		}
		bodies = append(bodies, &Setting{Field: s.field, Value: raw, Day: now.Day, By: me})
	}
	var plan []Planned
	for _, b := range bodies {
		if err := b.Check(); err != nil {
			return nil, err
		}
		raw, err := Encode(b)
		if err != nil {
			return nil, Wrong(err.Error())
		}
		plan = append(plan, Planned{"fact", []Key{}, raw})
	}
	return plan, nil
}
