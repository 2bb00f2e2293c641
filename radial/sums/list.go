package sums

// groups are all the sums, in the order of the list.
var groups = []group{
	{"Torque", []*sum{&torqueWrench, &propNut, &preload, &nutOrder}},
}
