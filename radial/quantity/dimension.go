package quantity

// Dimension is a kind of quantity. Values of two dimensions are never compared
// or added, and a temperature is not a temperature difference.
type Dimension uint8

// The dimensions, each with the unit its typed float counts in.
const (
	NoDimension    Dimension = iota
	DimLength                // inches
	DimVolume                // cubic inches
	DimTorque                // inch pounds
	DimPressure              // pounds per square inch
	DimTemperature           // degrees Fahrenheit
	DimDifference            // Fahrenheit degrees, without the 32
	DimSpeed                 // revolutions per minute
	DimAngle                 // degrees
	DimPower                 // horsepower of 550 ft·lbf/s
	DimMass                  // pounds
	DimForce                 // pounds-force
	DimTime                  // hours
	DimOilRate               // US quarts per hour
	DimSpecific              // pounds per horsepower hour
	dimensionCount
)

var dimensions = [dimensionCount]struct {
	name   string // "volume"
	one    string // "a volume"
	base   Unit
	usual  string // what a sentence offers: "quarts, litres or gallons"
	signed bool   // less than nothing makes sense
}{
	NoDimension:    {name: "no kind of quantity", one: "no kind of quantity"},
	DimLength:      {"length", "a length", UnitIn, "inches, thou or millimetres", true},
	DimVolume:      {"volume", "a volume", UnitCuIn, "quarts, litres or fluid ounces", false},
	DimTorque:      {"torque", "a torque", UnitInLb, "inch pounds, foot pounds or newton metres", false},
	DimPressure:    {"pressure", "a pressure", UnitPsi, "psi, inches of mercury or kilopascals", true},
	DimTemperature: {"temperature", "a temperature", UnitF, "degrees F or degrees C", true},
	DimDifference:  {"temperature difference", "a temperature difference", UnitDF, "Fahrenheit degrees or Celsius degrees", true},
	DimSpeed:       {"speed of rotation", "a speed of rotation", UnitRpm, "rpm", false},
	DimAngle:       {"angle", "an angle", UnitDeg, "degrees", true},
	DimPower:       {"power", "a power", UnitHp, "horsepower or kilowatts", false},
	DimMass:        {"mass", "a mass", UnitLb, "pounds, ounces or kilograms", false},
	DimForce:       {"force", "a force", UnitLbf, "pounds-force or newtons", true},
	DimTime:        {"time", "a time", UnitH, "hours, minutes, or hours and minutes as 1:30", false},
	DimOilRate:     {"oil rate", "an oil rate", UnitQtPerH, "quarts an hour, hours a quart or litres an hour", false},
	DimSpecific:    {"consumption by power", "a consumption by power", UnitLbPerHpH, "pounds per horsepower hour or grams per kilowatt hour", false},
}

// String is the name of the dimension: "oil rate".
func (d Dimension) String() string {
	if d >= dimensionCount {
		d = NoDimension
	}
	return dimensions[d].name
}

// Base is the unit that the typed float of this dimension counts in.
func (d Dimension) Base() Unit {
	if d >= dimensionCount {
		return ""
	}
	return dimensions[d].base
}

// Units are the units of this dimension, the trade's own first.
func (d Dimension) Units() []Unit {
	var list []Unit
	for _, u := range units {
		if u.dim == d {
			list = append(list, u.unit)
		}
	}
	return list
}
