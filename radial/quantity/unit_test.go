package quantity

import (
	"math/big"
	"math/bits"
	"strings"
	"testing"
)

// definitions say each unit in SI from the definitions alone, none of which is
// this package's: NIST SP 811 App. B, the yard and pound agreement of 1959 and
// the UK Weights and Measures Act 1985, quoted from memory.
var definitions = func() map[Unit]*big.Rat {
	inch, pound, g := rat("0.0254"), rat("0.45359237"), rat("9.80665")
	cuIn := mul(inch, inch, inch)
	gal, impGal, litre := mul(cuIn, rat("231")), rat("0.00454609"), rat("0.001")
	lbf := mul(pound, g)
	hour := rat("3600")
	hp := mul(rat("550"), rat("0.3048"), lbf)
	return map[Unit]*big.Rat{
		UnitIn: inch, UnitThou: mul(inch, rat("1/1000")), UnitTenth: mul(inch, rat("1/10000")), UnitFt: rat("0.3048"),
		UnitMm: rat("0.001"), UnitCm: rat("0.01"),

		UnitQt: quo(gal, rat("4")), UnitGal: gal, UnitPt: quo(gal, rat("8")), UnitFlOz: quo(gal, rat("128")),
		UnitImpQt: quo(impGal, rat("4")), UnitImpGal: impGal, UnitImpPt: quo(impGal, rat("8")), UnitImpFlOz: quo(impGal, rat("160")),
		UnitL: litre, UnitMl: rat("1e-6"), UnitCc: rat("1e-6"), UnitCuIn: cuIn,

		UnitInLb: mul(lbf, inch), UnitFtLb: mul(lbf, rat("0.3048")), UnitNm: rat("1"), UnitKgfM: g,

		UnitPsi: quo(lbf, mul(inch, inch)), UnitInHg: rat("3386.389"), UnitPa: rat("1"), UnitHPa: rat("100"), UnitKPa: rat("1000"),
		UnitBar: rat("100000"), UnitAtm: rat("101325"), UnitKgfCm2: mul(g, rat("10000")),

		UnitF: rat("5/9"), UnitC: rat("1"), UnitDF: rat("5/9"), UnitDC: rat("1"),
		UnitRpm: rat("1"), UnitDeg: rat("1"),
		UnitHp: hp, UnitPS: mul(rat("75"), g), UnitKW: rat("1000"),
		UnitLb: pound, UnitOz: quo(pound, rat("16")), UnitKg: rat("1"), UnitG: rat("0.001"),
		UnitLbf: lbf, UnitN: rat("1"), UnitKgf: g,
		UnitH: hour, UnitMin: rat("60"),
		UnitQtPerH: quo(quo(gal, rat("4")), hour), UnitHPerQt: quo(quo(gal, rat("4")), hour),
		UnitLPerH: quo(litre, hour), UnitImpQtPerH: quo(quo(impGal, rat("4")), hour),
		UnitLbPerHpH: quo(pound, mul(hp, hour)), UnitGPerKWh: quo(rat("0.001"), mul(rat("1000"), hour)),
	}
}()

func TestRatios(t *testing.T) {
	for _, f := range units {
		def, ok := definitions[f.unit]
		if !ok {
			t.Errorf("%s has no definition in this test", f.unit)
			continue
		}
		num, den := f.unit.Ratio()
		want := quo(def, definitions[f.dim.Base()])
		got := new(big.Rat).SetFrac(new(big.Int).SetUint64(num), new(big.Int).SetUint64(den))
		if got.Cmp(want) != 0 {
			t.Errorf("1 %s = %v %s, want %v", f.unit, got, f.dim.Base(), want)
		}
		if got.Denom().Uint64() != den {
			t.Errorf("%s: %d/%d is not in lowest terms", f.unit, num, den)
		}
		if f.source == "" || f.singular == "" || f.plural == "" || f.symbol == "" || spellings[f.unit] == "" {
			t.Errorf("%s: something is not stated", f.unit)
		}
		if f.unit.Exact() == (f.unit == UnitInHg) {
			t.Errorf("%s.Exact() = %v", f.unit, f.unit.Exact())
		}
	}
	if len(definitions) != len(units) {
		t.Errorf("%d units and %d definitions", len(units), len(definitions))
	}
}

// TestWideRoom holds the conversion ratios to the size that wide counts on.
func TestWideRoom(t *testing.T) {
	for _, f := range units {
		if n := max(bits.Len64(f.num), bits.Len64(f.den)); n > 56 {
			t.Errorf("%s has a ratio of %d bits; wide counts on 56", f.unit, n)
		}
	}
}

// typed is each unit by way of the typed floats.
var typed = map[Unit]func(Measured) float64{
	UnitIn:    func(m Measured) float64 { v, _ := m.Length(); return v.Inches() },
	UnitThou:  func(m Measured) float64 { v, _ := m.Length(); return v.Thou() },
	UnitTenth: func(m Measured) float64 { v, _ := m.Length(); return float64(v / Tenth) },
	UnitFt:    func(m Measured) float64 { v, _ := m.Length(); return v.Feet() },
	UnitMm:    func(m Measured) float64 { v, _ := m.Length(); return v.Millimetres() },
	UnitCm:    func(m Measured) float64 { v, _ := m.Length(); return float64(v / Millimetre / 10) },

	UnitQt:      func(m Measured) float64 { v, _ := m.Volume(); return v.Quarts() },
	UnitGal:     func(m Measured) float64 { v, _ := m.Volume(); return v.Gallons() },
	UnitPt:      func(m Measured) float64 { v, _ := m.Volume(); return v.Pints() },
	UnitFlOz:    func(m Measured) float64 { v, _ := m.Volume(); return v.FluidOunces() },
	UnitImpQt:   func(m Measured) float64 { v, _ := m.Volume(); return v.ImperialQuarts() },
	UnitImpGal:  func(m Measured) float64 { v, _ := m.Volume(); return v.ImperialGallons() },
	UnitImpPt:   func(m Measured) float64 { v, _ := m.Volume(); return v.ImperialPints() },
	UnitImpFlOz: func(m Measured) float64 { v, _ := m.Volume(); return v.ImperialFluidOunces() },
	UnitL:       func(m Measured) float64 { v, _ := m.Volume(); return v.Litres() },
	UnitMl:      func(m Measured) float64 { v, _ := m.Volume(); return float64(v / Litre * 1000) },
	UnitCc:      func(m Measured) float64 { v, _ := m.Volume(); return v.CubicCentimetres() },
	UnitCuIn:    func(m Measured) float64 { v, _ := m.Volume(); return v.CubicInches() },

	UnitInLb: func(m Measured) float64 { v, _ := m.Torque(); return v.InchPounds() },
	UnitFtLb: func(m Measured) float64 { v, _ := m.Torque(); return v.FootPounds() },
	UnitNm:   func(m Measured) float64 { v, _ := m.Torque(); return v.NewtonMetres() },
	UnitKgfM: func(m Measured) float64 { v, _ := m.Torque(); return v.KilogramForceMetres() },

	UnitPsi:    func(m Measured) float64 { v, _ := m.Pressure(); return v.PSI() },
	UnitInHg:   func(m Measured) float64 { v, _ := m.Pressure(); return v.InchesOfMercury() },
	UnitPa:     func(m Measured) float64 { v, _ := m.Pressure(); return v.Pascals() },
	UnitHPa:    func(m Measured) float64 { v, _ := m.Pressure(); return v.Hectopascals() },
	UnitKPa:    func(m Measured) float64 { v, _ := m.Pressure(); return v.Kilopascals() },
	UnitBar:    func(m Measured) float64 { v, _ := m.Pressure(); return v.Bar() },
	UnitAtm:    func(m Measured) float64 { v, _ := m.Pressure(); return v.Atmospheres() },
	UnitKgfCm2: func(m Measured) float64 { v, _ := m.Pressure(); return v.KilogramsForcePerSquareCentimetre() },

	UnitF:  func(m Measured) float64 { v, _ := m.Temperature(); return v.Fahrenheit() },
	UnitC:  func(m Measured) float64 { v, _ := m.Temperature(); return v.Celsius() },
	UnitDF: func(m Measured) float64 { v, _ := m.TemperatureDifference(); return v.FahrenheitDegrees() },
	UnitDC: func(m Measured) float64 { v, _ := m.TemperatureDifference(); return v.CelsiusDegrees() },

	UnitRpm: func(m Measured) float64 { v, _ := m.Speed(); return v.RPM() },
	UnitDeg: func(m Measured) float64 { v, _ := m.Angle(); return v.Degrees() },
	UnitHp:  func(m Measured) float64 { v, _ := m.Power(); return v.Horsepower() },
	UnitPS:  func(m Measured) float64 { v, _ := m.Power(); return v.MetricHorsepower() },
	UnitKW:  func(m Measured) float64 { v, _ := m.Power(); return v.Kilowatts() },

	UnitLb:  func(m Measured) float64 { v, _ := m.Mass(); return v.Pounds() },
	UnitOz:  func(m Measured) float64 { v, _ := m.Mass(); return v.Ounces() },
	UnitKg:  func(m Measured) float64 { v, _ := m.Mass(); return v.Kilograms() },
	UnitG:   func(m Measured) float64 { v, _ := m.Mass(); return v.Grams() },
	UnitLbf: func(m Measured) float64 { v, _ := m.Force(); return v.PoundsForce() },
	UnitN:   func(m Measured) float64 { v, _ := m.Force(); return v.Newtons() },
	UnitKgf: func(m Measured) float64 { v, _ := m.Force(); return v.KilogramsForce() },

	UnitH:   func(m Measured) float64 { v, _ := m.Hours(); return v.Hours() },
	UnitMin: func(m Measured) float64 { v, _ := m.Hours(); return v.Minutes() },

	UnitQtPerH:    func(m Measured) float64 { v, _ := m.OilRate(); return v.QuartsPerHour() },
	UnitHPerQt:    func(m Measured) float64 { v, _ := m.OilRate(); return v.HoursPerQuart() },
	UnitLPerH:     func(m Measured) float64 { v, _ := m.OilRate(); return v.LitresPerHour() },
	UnitImpQtPerH: func(m Measured) float64 { v, _ := m.OilRate(); return v.ImperialQuartsPerHour() },

	UnitLbPerHpH: func(m Measured) float64 { v, _ := m.SpecificConsumption(); return v.PoundsPerHorsepowerHour() },
	UnitGPerKWh:  func(m Measured) float64 { v, _ := m.SpecificConsumption(); return v.GramsPerKilowattHour() },
}

// exactIn is m in another unit by math/big from the definitions, nil for hours
// per quart of a rate of nought.
func exactIn(m Measured, to Unit) *big.Rat {
	v := rat(m.Value.Text())
	switch m.Unit {
	case UnitF:
		v.Add(v, rat("459.67"))
	case UnitC:
		v.Add(v, rat("273.15"))
	case UnitHPerQt:
		v.Inv(v)
	}
	v.Mul(v, definitions[m.Unit])
	v.Quo(v, definitions[to])
	switch to {
	case UnitF:
		v.Sub(v, rat("459.67"))
	case UnitC:
		v.Sub(v, rat("273.15"))
	case UnitHPerQt:
		if v.Sign() == 0 {
			return nil
		}
		v.Inv(v)
	}
	return v
}

func TestTypedQuantities(t *testing.T) {
	for _, from := range units {
		for _, to := range from.dim.Units() {
			m := Of("26.5", from.unit)
			want, _ := exactIn(m, to).Float64()
			if got := typed[to](m); !float64Near(got, want, 1e-15*max(want, 460)) {
				t.Errorf("%v = %.17g %s by the typed floats, want %.17g", m, got, to, want)
			}
			if from.unit == to && to == from.dim.Base() && typed[to](m) != 26.5 {
				t.Errorf("%v is touched by its own base unit: %v", m, typed[to](m))
			}
		}
	}
}

// TestUnitConstants holds every unit constant of the typed quantities to its
// definition.
func TestUnitConstants(t *testing.T) {
	for _, c := range []struct {
		name string
		got  float64
		unit Unit
	}{
		{"Inch", float64(Inch), UnitIn}, {"Thou", float64(Thou), UnitThou}, {"Tenth", float64(Tenth), UnitTenth},
		{"Foot", float64(Foot), UnitFt}, {"Millimetre", float64(Millimetre), UnitMm},
		{"CubicInch", float64(CubicInch), UnitCuIn}, {"Gallon", float64(Gallon), UnitGal}, {"Quart", float64(Quart), UnitQt},
		{"Pint", float64(Pint), UnitPt}, {"FluidOunce", float64(FluidOunce), UnitFlOz}, {"Litre", float64(Litre), UnitL},
		{"CubicCentimetre", float64(CubicCentimetre), UnitCc}, {"ImperialGallon", float64(ImperialGallon), UnitImpGal},
		{"ImperialQuart", float64(ImperialQuart), UnitImpQt}, {"ImperialPint", float64(ImperialPint), UnitImpPt},
		{"ImperialFluidOunce", float64(ImperialFluidOunce), UnitImpFlOz},
		{"InchPound", float64(InchPound), UnitInLb}, {"FootPound", float64(FootPound), UnitFtLb},
		{"NewtonMetre", float64(NewtonMetre), UnitNm}, {"KilogramForceMetre", float64(KilogramForceMetre), UnitKgfM},
		{"PSI", float64(PSI), UnitPsi}, {"InchOfMercury", float64(InchOfMercury), UnitInHg}, {"Pascal", float64(Pascal), UnitPa},
		{"Hectopascal", float64(Hectopascal), UnitHPa}, {"Kilopascal", float64(Kilopascal), UnitKPa}, {"Bar", float64(Bar), UnitBar},
		{"Atmosphere", float64(Atmosphere), UnitAtm},
		{"KilogramForcePerSquareCentimetre", float64(KilogramForcePerSquareCentimetre), UnitKgfCm2},
		{"FahrenheitDegree", float64(FahrenheitDegree), UnitDF}, {"CelsiusDegree", float64(CelsiusDegree), UnitDC},
		{"RPM", float64(RPM), UnitRpm}, {"Degree", float64(Degree), UnitDeg},
		{"Horsepower", float64(Horsepower), UnitHp}, {"Kilowatt", float64(Kilowatt), UnitKW}, {"MetricHorsepower", float64(MetricHorsepower), UnitPS},
		{"Pound", float64(Pound), UnitLb}, {"Ounce", float64(Ounce), UnitOz}, {"Kilogram", float64(Kilogram), UnitKg}, {"Gram", float64(Gram), UnitG},
		{"PoundForce", float64(PoundForce), UnitLbf}, {"Newton", float64(Newton), UnitN}, {"KilogramForce", float64(KilogramForce), UnitKgf},
		{"Hour", float64(Hour), UnitH}, {"Minute", float64(Minute), UnitMin},
		{"QuartPerHour", float64(QuartPerHour), UnitQtPerH}, {"LitrePerHour", float64(LitrePerHour), UnitLPerH},
		{"ImperialQuartPerHour", float64(ImperialQuartPerHour), UnitImpQtPerH},
		{"PoundPerHorsepowerHour", float64(PoundPerHorsepowerHour), UnitLbPerHpH},
		{"GramPerKilowattHour", float64(GramPerKilowattHour), UnitGPerKWh},
	} {
		want, _ := quo(definitions[c.unit], definitions[c.unit.Dimension().Base()]).Float64()
		if !float64Near(c.got, want, 2e-16*want) {
			t.Errorf("%s = %.17g, want %.17g", c.name, c.got, want)
		}
	}
}

func TestTypedQuantityOfAnotherKind(t *testing.T) {
	qt, none := Of("15", UnitQt), Measured{}
	in := Of("15", UnitIn)
	for name, err := range map[string]error{
		"length": second(qt.Length()), "volume": second(in.Volume()), "torque": second(qt.Torque()),
		"pressure": second(qt.Pressure()), "temperature": second(qt.Temperature()), "difference": second(qt.TemperatureDifference()),
		"speed": second(qt.Speed()), "angle": second(qt.Angle()), "power": second(qt.Power()), "mass": second(qt.Mass()),
		"force": second(qt.Force()), "hours": second(qt.Hours()), "rate": second(qt.OilRate()), "specific": second(qt.SpecificConsumption()),
		"a point as a difference": second(Of("50", UnitF).TemperatureDifference()),
		"a difference as a point": second(Of("50", UnitDF).Temperature()),
		"not given":               second(none.Volume()),
		"unknown":                 second(Of("1", "furlong").Length()),
		"nought hours a quart":    second(Of("0", UnitHPerQt).OilRate()),
	} {
		if err == nil {
			t.Errorf("%s is taken for what it is not", name)
		}
	}
	if err := second(qt.Length()).Error(); err != "This takes a length, not 15\u2009qt." {
		t.Errorf("15 qt as a length: %s", err)
	}
	if err := second(none.Volume()).Error(); err != "The volume is not given." {
		t.Errorf("nothing as a volume: %s", err)
	}
}

func second[T any](_ T, err error) error { return err }

func TestUnitNames(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{UnitImpQt.Symbol(), "imp qt"},
		{UnitQt.Singular(), "quart"},
		{UnitQt.Plural(), "quarts"},
		{UnitNm.Symbol(), "N·m"},
		{Unit("furlong").Symbol(), "furlong"},
		{Unit("furlong").Plural(), "furlong"},
		{UnitQt.Dimension().String(), "volume"},
		{Unit("furlong").Dimension().String(), "no kind of quantity"},
		{Dimension(200).String(), "no kind of quantity"},
		{string(Dimension(200).Base()), ""},
		{UnitInHg.Source(), sourceHg},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
	if UnitQt.Known() != true || Unit("furlong").Known() != false || Unit("furlong").Exact() {
		t.Error("a furlong is known here, or a quart is not")
	}
}

// TestSpellings: within one dimension no spelling means two units.
func TestSpellings(t *testing.T) {
	for d := DimLength; d < dimensionCount; d++ {
		seen := map[string]Unit{}
		for _, u := range d.Units() {
			for _, s := range strings.Fields(spellings[u]) {
				if was, ok := seen[s]; ok {
					t.Errorf("%q is %s and %s", s, was, u)
				}
				if s != spelled(s) {
					t.Errorf("%q is never what spelled gives", s)
				}
				seen[s] = u
			}
			if got, ok := unitSpelled(spelled(u.Symbol()), d); !ok || got != u {
				t.Errorf("the symbol %q reads back as %q", u.Symbol(), got)
			}
		}
	}
}
