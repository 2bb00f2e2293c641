package sums

// groups are all the sums, in the order of the list.
var groups = []group{
	{"Torque", []*sum{&torqueWrench, &propNut, &preload, &nutOrder}},
	{"Timing", []*sum{&travel, &travelLink, &tops}},
	{"Oil and lock", []*sum{&lockVolume, &blades, &push}},
	{"The engine", []*sum{&displacement, &power, &firingOrder, &hangLow, &magneto}},
}
