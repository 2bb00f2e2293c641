package oil

// Standing is a level before or after parking.
type Standing struct {
	Level Quarts
	SD    Quarts            // of the reading: ReadingSD of its step and conditions
	Temp  Given[Fahrenheit] // of the oil when read
	// TempSD of Temp: 10 °F when zero; 15 for a guess.
	TempSD Fahrenheit
}

// Found is oil found outside the tank: sump drain, cylinder, pipe drain, tray.
type Found struct {
	Volume FluidOunces
	SD     FluidOunces // 0.5 for a jug, 0.25 for a jar
}

// Parking asks what left the tank while the engine stood.
type Parking struct {
	Before, After Standing
	Found         []Found
	// Clearance of one cylinder at top dead centre, and its swept volume, for
	// the worst case. Not given: no worst case.
	Clearance, Swept Given[FluidOunces]
	// Share is phi, the expected share of the remainder that lies in
	// cylinders: 1 unless the engine's own measured parkings say otherwise.
	Share Given[float64]
}

// Missing is the oil that left the tank and was not found.
//
// It may only raise concern. A stick never clears an engine: with a half-quart
// stick the smallest remainder that can be excluded is about 13 fl oz, more
// than a whole clearance volume.
type Missing struct {
	Gone   FluidOunces // left the tank, both levels at 60 °F
	Rest   FluidOunces // gone less what was found
	U      FluidOunces // standard uncertainty of Rest
	Surely FluidOunces // one-sided 95 %: at least this much is somewhere in the engine
	Could  FluidOunces // one-sided 95 %: up to this much may be
	// Worst case: all of Could in one cylinder below the horizon.
	Volumes   Given[float64] // in clearance volumes
	Effective Given[float64] // effective compression ratio; not given when Could fills the clearance
	// TempKnown is false when a temperature is not given and none was corrected.
	TempKnown bool
	expected  FluidOunces
	parking   Parking
}

// Account reckons the oil missing after parking.
func Account(p Parking) (Missing, error) { return Missing{}, nil }

// ReadingSD is the standard deviation of one level reading.
func ReadingSD(step Quarts, c Conditions) Quarts { return 0 }
