package quantity

import (
	"strings"
	"unicode"
)

// spellings are the ways people write each unit, without the spaces, points,
// dashes and dots between its parts and in small letters: "in-lb", "in lb",
// "in.lbs" and "In·Lb" are all inlb or inlbs.
var spellings = map[Unit]string{
	UnitIn:    `in ins inch inches "`,
	UnitThou:  "thou thous thousandth thousandths",
	UnitTenth: "tenth tenths tenthofathou tenthsofathou",
	UnitFt:    "ft foot feet '",
	UnitMm:    "mm millimetre millimetres millimeter millimeters",
	UnitCm:    "cm centimetre centimetres centimeter centimeters",

	UnitQt:      "qt qts quart quarts usqt usqts usquart usquarts usliquidquart usliquidquarts",
	UnitGal:     "gal gals gallon gallons usgal usgals usliquidgallon usgallon usgallons",
	UnitPt:      "pt pts pint pints uspt uspts uspint uspints usliquidpint usliquidpints",
	UnitFlOz:    "floz oz ounce ounces fluidounce fluidounces usfloz usoz usfluidounce usfluidounces",
	UnitImpQt:   "impqt impqts imperialqt imperialquart imperialquarts ukqt",
	UnitImpGal:  "impgal impgals imperialgal imperialgallon imperialgallons ukgal",
	UnitImpPt:   "imppt imppts imperialpt imperialpint imperialpints ukpt",
	UnitImpFlOz: "impfloz impoz imperialfloz imperialfluidounce imperialfluidounces ukfloz",
	UnitL:       "l ltr ltrs litre litres liter liters",
	UnitMl:      "ml millilitre millilitres milliliter milliliters",
	UnitCc:      "cc ccm cm3 cucm cubiccentimetre cubiccentimetres cubiccentimeter cubiccentimeters",
	UnitCuIn:    "cuin cuins in3 cubicin cubicinch cubicinches",

	UnitInLb: "inlb inlbs lbin lbsin inlbf lbfin inchpound inchpounds inchlb inchlbs poundinches in/lb in/lbs",
	UnitFtLb: "ftlb ftlbs lbft lbsft ftlbf lbfft footpound footpounds footlb footlbs poundfeet ft/lb ft/lbs",
	UnitNm:   "nm newtonmetre newtonmetres newtonmeter newtonmeters",
	UnitKgfM: "kgfm kgm mkg mkgf kilogramforcemetre kilogramforcemetres",

	UnitPsi:    "psi psig psia lb/in2 lbs/in2 lb/sqin lbs/sqin",
	UnitInHg:   `inhg "hg inchofmercury inchesofmercury`,
	UnitPa:     "pa pascal pascals",
	UnitKPa:    "kpa kilopascal kilopascals",
	UnitHPa:    "hpa mbar mb millibar millibars hectopascal hectopascals",
	UnitBar:    "bar bars",
	UnitKgfCm2: "kgf/cm2 kg/cm2 kgf/sqcm kg/sqcm kilogramsforcepersquarecentimetre kilogramforcepersquarecentimetre",
	UnitAtm:    "atm atmosphere atmospheres",

	UnitF:  "f °f degf degreef degreesf fahrenheit degreefahrenheit degreesfahrenheit",
	UnitC:  "c °c degc degreec degreesc celsius centigrade degreecelsius degreescelsius",
	UnitDF: "f f° °f degf df fahrenheitdegree fahrenheitdegrees degreesf degreesfahrenheit",
	UnitDC: "c c° °c degc dc k celsiusdegree celsiusdegrees degreesc degreescelsius",

	UnitRpm: "rpm rev/min r/min revs revolutionsperminute",
	UnitDeg: "° deg degs degree degrees",

	UnitHp: "hp bhp shp horsepower mechanicalhp mechanicalhorsepower",
	UnitPS: "ps cv metrichp metrichorsepower",
	UnitKW: "kw kilowatt kilowatts",

	UnitLb:  "lb lbs pound pounds",
	UnitOz:  "oz ounce ounces",
	UnitKg:  "kg kgs kilogram kilograms kilo kilos",
	UnitG:   "g gram grams",
	UnitLbf: "lbf lb lbs pound pounds poundforce poundsforce",
	UnitN:   "n newton newtons",
	UnitKgf: "kgf kp kilogramforce kilogramsforce",

	UnitH:   "h hr hrs hour hours",
	UnitMin: "min mins minute minutes m",

	UnitQtPerH:    "qt/h usqt/h qts/h qt/hr qts/hr qtperhour quart/hour quarts/hour quartperhour quartsperhour quartanhour quartsanhour",
	UnitHPerQt:    "h/qt hr/qt hrs/qt hours/quart hourperquart hoursperquart houraquart hoursaquart",
	UnitLPerH:     "l/h l/hr litre/hour litres/hour litreperhour litresperhour litreanhour litresanhour literperhour litersperhour",
	UnitImpQtPerH: "impqt/h impqts/h impqt/hr imperialquartperhour imperialquartsperhour imperialquartanhour imperialquartsanhour",
	UnitLbPerHpH:  "lb/hph lb/bhph lb/hp/h lb/hp/hr lb/bhp/hr lb/hphr lb/bhphr poundperhorsepowerhour poundsperhorsepowerhour",
	UnitGPerKWh:   "g/kwh gramperkilowatthour gramsperkilowatthour",
}

// ambiguous spellings that mean different units to different people. They are
// asked back, never chosen.
var ambiguous = map[string]struct {
	sentence string
	instead  [2]Unit
}{
	"mil":  {"A mil is a thousandth of an inch to some and a millimetre to others. Type thou or mm.", [2]Unit{UnitThou, UnitMm}},
	"mils": {"A mil is a thousandth of an inch to some and a millimetre to others. Type thou or mm.", [2]Unit{UnitThou, UnitMm}},
}

// imperialTwin is the imperial unit of the same name as a US one.
var imperialTwin = map[Unit]Unit{
	UnitQt: UnitImpQt, UnitGal: UnitImpGal, UnitPt: UnitImpPt, UnitFlOz: UnitImpFlOz, UnitQtPerH: UnitImpQtPerH,
}

// spelled reduces a unit as typed to its spelling.
func spelled(text string) string {
	return strings.Map(func(r rune) rune {
		switch r {
		case ' ', '.', '-', '·', '⋅', '•', '*', '_':
			return -1
		case '³':
			return '3'
		case '²':
			return '2'
		}
		return unicode.ToLower(r)
	}, text)
}

// unitSpelled is the unit of the wanted dimension that is spelled like this, or
// else any other unit that is, or none.
func unitSpelled(spelling string, want Dimension) (Unit, bool) {
	var other Unit
	for _, f := range units {
		for _, s := range strings.Fields(spellings[f.unit]) {
			if s != spelling {
				continue
			}
			if f.dim == want {
				return f.unit, true
			}
			if other == "" {
				other = f.unit
			}
		}
	}
	return other, other != ""
}
