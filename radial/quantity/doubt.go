package quantity

// TwelveToOne reports that a torque is about twelve times, or a twelfth of, the
// torque expected, as it is when inch pounds are taken for foot pounds: within a
// third either way of the factor.
func TwelveToOne(got, expected Torque) bool {
	between := func(x float64) bool { return 9 <= x && x <= 16 }
	return between(float64(got/expected)) || between(float64(expected/got))
}

// TorqueDoubt is the question about a torque whose unit is in doubt: "300 of
// what? Inch pounds or foot pounds. Twelve times apart."
func TorqueDoubt(typed Decimal) string { return unitAsked(typed, "", DimTorque).Error() }

// LitresForQuarts reports that a reading in quarts agrees with the expected
// volume, within slack, only if its figure was meant in litres: 14.2 where 15
// quarts are in the tank is 14.2 litres.
func LitresForQuarts(read Measured, expected, slack Volume) bool {
	if read.Unit != UnitQt {
		return false
	}
	v, _ := read.Volume() // quarts are a volume
	off := func(v Volume) Volume { return max(v-expected, expected-v) }
	meant := Volume(read.Value.Float64()) * Litre
	return off(v) > slack && off(meant) <= slack
}

// VolumeDoubt is the question about a volume that may be in the other unit:
// "Litres or quarts? 15 was typed. 15 litres is 15.9 quarts."
func VolumeDoubt(typed Decimal) string {
	q, _, err := Measured{typed, UnitL}.Rounded(UnitQt, 1)
	if err != nil {
		return "Litres or quarts? " + typed.Show() + " was typed."
	}
	return "Litres or quarts? " + typed.Show() + " was typed. " + typed.Show() + " litres is " + q.Value.Show() + " quarts."
}
