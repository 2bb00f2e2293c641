package quantity

// Unit is a unit of measurement by its code, the short ASCII word that travels
// beside a value: {"v":"15","u":"qt"}. A code never changes its meaning. A code
// from a newer program stays readable text here; Known tells the difference.
type Unit string

// The units.
const (
	UnitIn    Unit = "in"    // inch
	UnitThou  Unit = "thou"  // 0.001 in
	UnitTenth Unit = "tenth" // 0.0001 in, a tenth of a thou and not of an inch
	UnitFt    Unit = "ft"
	UnitMm    Unit = "mm"
	UnitCm    Unit = "cm"

	UnitQt      Unit = "qt" // US liquid quart; everywhere quart alone means this one
	UnitGal     Unit = "gal"
	UnitPt      Unit = "pt"
	UnitFlOz    Unit = "fl_oz"
	UnitImpQt   Unit = "imp_qt"
	UnitImpGal  Unit = "imp_gal"
	UnitImpPt   Unit = "imp_pt"
	UnitImpFlOz Unit = "imp_fl_oz"
	UnitL       Unit = "l"
	UnitMl      Unit = "ml"
	UnitCc      Unit = "cc"
	UnitCuIn    Unit = "cu_in"

	UnitInLb Unit = "in_lb"
	UnitFtLb Unit = "ft_lb"
	UnitNm   Unit = "Nm"
	UnitKgfM Unit = "kgf_m"

	UnitPsi    Unit = "psi"
	UnitInHg   Unit = "inHg" // conventional inch of mercury, mercury at 0 °C
	UnitPa     Unit = "Pa"
	UnitKPa    Unit = "kPa"
	UnitHPa    Unit = "hPa"
	UnitBar    Unit = "bar"
	UnitAtm    Unit = "atm"
	UnitKgfCm2 Unit = "kgf/cm2" // the atmosphere of old metric gauges

	UnitF  Unit = "F"
	UnitC  Unit = "C"
	UnitDF Unit = "dF" // a difference of one Fahrenheit degree
	UnitDC Unit = "dC"

	UnitRpm Unit = "rpm"
	UnitDeg Unit = "deg"

	UnitHp Unit = "hp" // 550 ft·lbf/s
	UnitPS Unit = "PS" // metric horsepower, 75 kgf·m/s
	UnitKW Unit = "kW"

	UnitLb  Unit = "lb"
	UnitOz  Unit = "oz"
	UnitKg  Unit = "kg"
	UnitG   Unit = "g"
	UnitLbf Unit = "lbf"
	UnitN   Unit = "N"
	UnitKgf Unit = "kgf"

	UnitH   Unit = "h"
	UnitMin Unit = "min"

	UnitQtPerH    Unit = "qt/h"
	UnitHPerQt    Unit = "h/qt"
	UnitLPerH     Unit = "l/h"
	UnitImpQtPerH Unit = "imp_qt/h"
	UnitLbPerHpH  Unit = "lb/hp_h"
	UnitGPerKWh   Unit = "g/kWh"
)

// Where the ratios come from. All but one are exact by definition.
const (
	sourceInch = "1 in = 25.4 mm exactly (yard and pound agreement of 1959; NIST SP 811, App. B)"
	sourceUS   = "1 US gal = 231 cu in exactly (NIST SP 811, App. B; NIST Handbook 44, App. C)"
	sourceImp  = "1 imperial gal = 4.54609 L exactly (UK Weights and Measures Act 1985, Sch. 1), 1 in = 25.4 mm exactly"
	sourceSI   = "International System of Units, with 1 in = 25.4 mm exactly"
	sourceLbf  = "1 lb = 0.45359237 kg (1959), standard gravity 9.80665 m/s² (3rd CGPM, 1901), 1 in = 25.4 mm, all exact"
	sourceHg   = "1 inHg = 3386.389 Pa, the conventional inch of mercury, as rounded in NIST SP 811, App. B; not exact"
	sourceAtm  = "1 atm = 101 325 Pa exactly (10th CGPM, 1954)"
	sourceTemp = "t/°F = 1.8 t/°C + 32 exactly (NIST SP 811, App. B)"
	sourceHp   = "1 hp = 550 ft·lbf/s exactly, the mechanical horsepower (NIST SP 811, App. B)"
	sourcePS   = "1 metric hp = 75 kgf·m/s exactly (NIST SP 811, App. B)"
	sourceMass = "1 lb = 0.45359237 kg exactly (yard and pound agreement of 1959)"
	sourceTime = "1 h = 60 min"
	sourceBase = "the unit the others are stated in"
)

// unitFacts is what is known of one unit. One unit is num/den of its
// dimension's base unit, a quotient of whole numbers in lowest terms. For an
// inverse unit (hours per quart) it is base = num/den ÷ value. zero is added to
// a value first: it moves the zero of a temperature scale to absolute zero.
type unitFacts struct {
	unit             Unit
	dim              Dimension
	symbol           string
	singular, plural string
	num, den         uint64
	source           string
	inverse          bool
	rounded          bool
	zero             Decimal
}

// The whole numbers below follow from the sources alone; TestRatios works each
// of them out again from the definitions. 16.387064 mL, the cubic inch, is
// 2048383/125000; 6894.757… Pa, the psi, is 8896443230521/1290320000.
var units = []unitFacts{
	{unit: UnitIn, dim: DimLength, symbol: "in", singular: "inch", plural: "inches", num: 1, den: 1, source: sourceBase},
	{unit: UnitThou, dim: DimLength, symbol: "thou", singular: "thou", plural: "thou", num: 1, den: 1000, source: "1 thou = 0.001 in"},
	{unit: UnitTenth, dim: DimLength, symbol: "tenths", singular: "tenth of a thou", plural: "tenths of a thou", num: 1, den: 10000, source: "1 tenth = 0.0001 in, shop usage"},
	{unit: UnitFt, dim: DimLength, symbol: "ft", singular: "foot", plural: "feet", num: 12, den: 1, source: "1 ft = 12 in"},
	{unit: UnitMm, dim: DimLength, symbol: "mm", singular: "millimetre", plural: "millimetres", num: 5, den: 127, source: sourceInch},
	{unit: UnitCm, dim: DimLength, symbol: "cm", singular: "centimetre", plural: "centimetres", num: 50, den: 127, source: sourceInch},

	{unit: UnitQt, dim: DimVolume, symbol: "qt", singular: "quart", plural: "quarts", num: 231, den: 4, source: sourceUS},
	{unit: UnitGal, dim: DimVolume, symbol: "gal", singular: "US gallon", plural: "US gallons", num: 231, den: 1, source: sourceUS},
	{unit: UnitPt, dim: DimVolume, symbol: "pt", singular: "US pint", plural: "US pints", num: 231, den: 8, source: sourceUS},
	{unit: UnitFlOz, dim: DimVolume, symbol: "fl oz", singular: "fluid ounce", plural: "fluid ounces", num: 231, den: 128, source: sourceUS},
	{unit: UnitL, dim: DimVolume, symbol: "L", singular: "litre", plural: "litres", num: 125000000, den: 2048383, source: sourceSI},
	{unit: UnitMl, dim: DimVolume, symbol: "mL", singular: "millilitre", plural: "millilitres", num: 125000, den: 2048383, source: sourceSI},
	{unit: UnitCc, dim: DimVolume, symbol: "cc", singular: "cubic centimetre", plural: "cubic centimetres", num: 125000, den: 2048383, source: sourceSI},
	{unit: UnitCuIn, dim: DimVolume, symbol: "cu in", singular: "cubic inch", plural: "cubic inches", num: 1, den: 1, source: sourceBase},
	{unit: UnitImpQt, dim: DimVolume, symbol: "imp qt", singular: "imperial quart", plural: "imperial quarts", num: 284130625, den: 4096766, source: sourceImp},
	{unit: UnitImpGal, dim: DimVolume, symbol: "imp gal", singular: "imperial gallon", plural: "imperial gallons", num: 568261250, den: 2048383, source: sourceImp},
	{unit: UnitImpPt, dim: DimVolume, symbol: "imp pt", singular: "imperial pint", plural: "imperial pints", num: 284130625, den: 8193532, source: sourceImp},
	{unit: UnitImpFlOz, dim: DimVolume, symbol: "imp fl oz", singular: "imperial fluid ounce", plural: "imperial fluid ounces", num: 56826125, den: 32774128, source: sourceImp},

	{unit: UnitInLb, dim: DimTorque, symbol: "in-lb", singular: "inch pound", plural: "inch pounds", num: 1, den: 1, source: sourceBase},
	{unit: UnitFtLb, dim: DimTorque, symbol: "ft-lb", singular: "foot pound", plural: "foot pounds", num: 12, den: 1, source: "1 ft-lb = 12 in-lb"},
	{unit: UnitNm, dim: DimTorque, symbol: "N·m", singular: "newton metre", plural: "newton metres", num: 1e16, den: 1129848290276167, source: sourceLbf},
	{unit: UnitKgfM, dim: DimTorque, symbol: "kgf·m", singular: "kilogram-force metre", plural: "kilogram-force metres", num: 500000000000, den: 5760623099, source: sourceLbf},

	{unit: UnitPsi, dim: DimPressure, symbol: "psi", singular: "psi", plural: "psi", num: 1, den: 1, source: sourceBase},
	{unit: UnitInHg, dim: DimPressure, symbol: "inHg", singular: "inch of mercury", plural: "inches of mercury", num: 4369525454480, den: 8896443230521, source: sourceHg, rounded: true},
	{unit: UnitPa, dim: DimPressure, symbol: "Pa", singular: "pascal", plural: "pascals", num: 1290320000, den: 8896443230521, source: sourceLbf},
	{unit: UnitKPa, dim: DimPressure, symbol: "kPa", singular: "kilopascal", plural: "kilopascals", num: 1290320000000, den: 8896443230521, source: sourceLbf},
	{unit: UnitHPa, dim: DimPressure, symbol: "hPa", singular: "hectopascal", plural: "hectopascals", num: 129032000000, den: 8896443230521, source: sourceLbf},
	{unit: UnitBar, dim: DimPressure, symbol: "bar", singular: "bar", plural: "bar", num: 129032000000000, den: 8896443230521, source: sourceLbf},
	{unit: UnitKgfCm2, dim: DimPressure, symbol: "kgf/cm²", singular: "kilogram-force per square centimetre", plural: "kilograms-force per square centimetre", num: 645160000, den: 45359237, source: sourceLbf},
	{unit: UnitAtm, dim: DimPressure, symbol: "atm", singular: "atmosphere", plural: "atmospheres", num: 18677382000000, den: 1270920461503, source: sourceAtm},

	{unit: UnitF, dim: DimTemperature, symbol: "°F", singular: "degree Fahrenheit", plural: "degrees Fahrenheit", num: 1, den: 1, source: sourceBase, zero: Decimal{45967, 2}},
	{unit: UnitC, dim: DimTemperature, symbol: "°C", singular: "degree Celsius", plural: "degrees Celsius", num: 9, den: 5, source: sourceTemp, zero: Decimal{27315, 2}},
	{unit: UnitDF, dim: DimDifference, symbol: "F°", singular: "Fahrenheit degree", plural: "Fahrenheit degrees", num: 1, den: 1, source: sourceBase},
	{unit: UnitDC, dim: DimDifference, symbol: "C°", singular: "Celsius degree", plural: "Celsius degrees", num: 9, den: 5, source: sourceTemp},

	{unit: UnitRpm, dim: DimSpeed, symbol: "rpm", singular: "rpm", plural: "rpm", num: 1, den: 1, source: sourceBase},
	{unit: UnitDeg, dim: DimAngle, symbol: "°", singular: "degree", plural: "degrees", num: 1, den: 1, source: sourceBase},

	{unit: UnitHp, dim: DimPower, symbol: "hp", singular: "horsepower", plural: "horsepower", num: 1, den: 1, source: sourceHp},
	{unit: UnitKW, dim: DimPower, symbol: "kW", singular: "kilowatt", plural: "kilowatts", num: 50000000000000000, den: 37284993579113511, source: sourceHp},
	{unit: UnitPS, dim: DimPower, symbol: "PS", singular: "metric horsepower", plural: "metric horsepower", num: 62500000000, den: 63366854089, source: sourcePS},

	{unit: UnitLb, dim: DimMass, symbol: "lb", singular: "pound", plural: "pounds", num: 1, den: 1, source: sourceBase},
	{unit: UnitOz, dim: DimMass, symbol: "oz", singular: "ounce", plural: "ounces", num: 1, den: 16, source: sourceMass},
	{unit: UnitKg, dim: DimMass, symbol: "kg", singular: "kilogram", plural: "kilograms", num: 100000000, den: 45359237, source: sourceMass},
	{unit: UnitG, dim: DimMass, symbol: "g", singular: "gram", plural: "grams", num: 100000, den: 45359237, source: sourceMass},

	{unit: UnitLbf, dim: DimForce, symbol: "lbf", singular: "pound-force", plural: "pounds-force", num: 1, den: 1, source: sourceBase},
	{unit: UnitN, dim: DimForce, symbol: "N", singular: "newton", plural: "newtons", num: 2000000000000, den: 8896443230521, source: sourceLbf},
	{unit: UnitKgf, dim: DimForce, symbol: "kgf", singular: "kilogram-force", plural: "kilograms-force", num: 100000000, den: 45359237, source: sourceLbf},

	{unit: UnitH, dim: DimTime, symbol: "h", singular: "hour", plural: "hours", num: 1, den: 1, source: sourceBase},
	{unit: UnitMin, dim: DimTime, symbol: "min", singular: "minute", plural: "minutes", num: 1, den: 60, source: sourceTime},

	{unit: UnitQtPerH, dim: DimOilRate, symbol: "qt/h", singular: "quart an hour", plural: "quarts an hour", num: 1, den: 1, source: sourceBase},
	{unit: UnitHPerQt, dim: DimOilRate, symbol: "h/qt", singular: "hour a quart", plural: "hours a quart", num: 1, den: 1, source: "the inverse of qt/h", inverse: true},
	{unit: UnitLPerH, dim: DimOilRate, symbol: "L/h", singular: "litre an hour", plural: "litres an hour", num: 500000000, den: 473176473, source: sourceUS},
	{unit: UnitImpQtPerH, dim: DimOilRate, symbol: "imp qt/h", singular: "imperial quart an hour", plural: "imperial quarts an hour", num: 568261250, den: 473176473, source: sourceImp},

	{unit: UnitLbPerHpH, dim: DimSpecific, symbol: "lb/hp·h", singular: "pound per horsepower hour", plural: "pounds per horsepower hour", num: 1, den: 1, source: sourceBase},
	{unit: UnitGPerKWh, dim: DimSpecific, symbol: "g/kWh", singular: "gram per kilowatt hour", plural: "grams per kilowatt hour", num: 821993403, den: 500000000000, source: sourceHp + "; " + sourceMass},
}

// facts is the unit's line of the table, and whether it has one.
func (u Unit) facts() (unitFacts, bool) {
	for i := range units {
		if units[i].unit == u {
			return units[i], true
		}
	}
	return unitFacts{unit: u, symbol: string(u), singular: string(u), plural: string(u)}, false
}

// Known reports that the unit is one of this package's.
func (u Unit) Known() bool { _, ok := u.facts(); return ok }

// Dimension is the kind of quantity the unit measures, NoDimension if unknown.
func (u Unit) Dimension() Dimension { f, _ := u.facts(); return f.dim }

// Symbol is the unit as it stands after a figure: "imp qt", "N·m". For an
// unknown unit it is the code.
func (u Unit) Symbol() string { f, _ := u.facts(); return f.symbol }

// Singular is the unit's word for one: "quart".
func (u Unit) Singular() string { f, _ := u.facts(); return f.singular }

// Plural is the unit's word for several: "quarts".
func (u Unit) Plural() string { f, _ := u.facts(); return f.plural }

// Ratio is how many of the dimension's base unit one of this unit is, num/den in
// lowest terms. For hours per quart it is what to divide by the value. 0/0 for an
// unknown unit.
func (u Unit) Ratio() (num, den uint64) { f, _ := u.facts(); return f.num, f.den }

// Exact reports that the ratio follows from definitions alone. Only the inch of
// mercury is a rounded figure.
func (u Unit) Exact() bool { f, ok := u.facts(); return ok && !f.rounded }

// Source names the definition the ratio follows from.
func (u Unit) Source() string { f, _ := u.facts(); return f.source }
