package sums

import "linkrod/radial/quantity"

// The units that boxes offer. The first is the one that a bare figure is taken in and
// that the formulas are written in.
var (
	torques      = []quantity.Unit{quantity.UnitInLb, quantity.UnitFtLb, quantity.UnitNm, quantity.UnitKgfM}
	lengths      = []quantity.Unit{quantity.UnitIn, quantity.UnitFt, quantity.UnitMm, quantity.UnitCm}
	sizes        = []quantity.Unit{quantity.UnitIn, quantity.UnitMm}
	thous        = []quantity.Unit{quantity.UnitThou, quantity.UnitIn, quantity.UnitMm, quantity.UnitTenth}
	temperatures = []quantity.Unit{quantity.UnitF, quantity.UnitC}
	angles       = []quantity.Unit{quantity.UnitDeg}
	oils         = []quantity.Unit{quantity.UnitFlOz, quantity.UnitQt, quantity.UnitMl, quantity.UnitCuIn, quantity.UnitImpFlOz}
	arms         = []quantity.Unit{quantity.UnitFt, quantity.UnitIn, quantity.UnitMm, quantity.UnitCm}
	forces       = []quantity.Unit{quantity.UnitLbf, quantity.UnitN, quantity.UnitKgf}
	pressures    = []quantity.Unit{quantity.UnitPsi, quantity.UnitKPa, quantity.UnitBar, quantity.UnitKgfCm2}
	speeds       = []quantity.Unit{quantity.UnitRpm}
	times        = []quantity.Unit{quantity.UnitH, quantity.UnitMin}
	tanks        = []quantity.Unit{quantity.UnitQt, quantity.UnitL, quantity.UnitGal, quantity.UnitImpQt, quantity.UnitPt}
	powers       = []quantity.Unit{quantity.UnitHp, quantity.UnitKW, quantity.UnitPS}
	masses       = []quantity.Unit{quantity.UnitLb, quantity.UnitKg}
)

// threadStates is what can be on the threads.
var threadStates = []choice{{"dry", "Dry, as received"}, {"oiled", "Oiled"}, {"anti-seize", "Anti-seize or moly"}}
