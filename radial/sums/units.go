package sums

import "linkrod/radial/quantity"

// The units that boxes offer. The first is the one that a bare figure is taken in and
// that the formulas are written in.
var (
	torques = []quantity.Unit{quantity.UnitInLb, quantity.UnitFtLb, quantity.UnitNm, quantity.UnitKgfM}
	lengths = []quantity.Unit{quantity.UnitIn, quantity.UnitFt, quantity.UnitMm, quantity.UnitCm}
	sizes   = []quantity.Unit{quantity.UnitIn, quantity.UnitMm}
	angles  = []quantity.Unit{quantity.UnitDeg}
	masses  = []quantity.Unit{quantity.UnitLb, quantity.UnitKg}
)

// threadStates is what can be on the threads.
var threadStates = []choice{{"dry", "Dry, as received"}, {"oiled", "Oiled"}, {"anti-seize", "Anti-seize or moly"}}
