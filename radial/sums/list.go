package sums

// groups are all the sums, in the order of the list.
var groups = []group{
	{"Torque", []*sum{&torqueWrench, &propNut, &preload, &nutOrder, &boltTable}},
	{"Timing", []*sum{&travel, &travelLink, &tops, &positiveStop, &runUp, &advance}},
	{"Oil and lock", []*sum{&missingOil, &oilRate, &oilHeat, &oilPower, &oilGrade, &wearMetal, &lockVolume, &blades, &push}},
	{"Compression", []*sum{&differential, &cranking}},
	{"Measuring", []*sum{&clearance, &boreShape, &ringGap}},
	{"The engine", []*sum{&displacement, &power, &firingOrder, &hangLow, &magneto}},
	{"Hours and figures", []*sum{&nextDue, &meterChange, &tachClock, &words}},
}
