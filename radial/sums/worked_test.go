package sums_test

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// worked is one example of a sum with figures that were not made by this program.
type worked struct {
	id     string
	in     typed
	source string
	want   []want
}

// want is one answer: a figure within off, or a text that stands in figure or words.
type want struct {
	label  string
	figure float64
	off    float64
	text   string
}

func is(label string, figure, off float64) want { return want{label: label, figure: figure, off: off} }
func says(label, text string) want              { return want{label: label, text: text} }

// The rows are those of testdata/checks by their id, which names the publication; others
// name theirs here. "no source" is a trade practice nobody has printed.
var examples = []worked{
	{"torque-wrench", typed{"wanted": "435 in-lb", "lever": "11", "adapter": "3 1/4"}, "tq_ext_b: AC 43.13-1B fig. 7-2", []want{is("Set the wrench to", 335.79, 0.05)}},
	{"torque-wrench", typed{"wanted": "50", "wanted.unit": "ft_lb", "lever": "16", "adapter": "2"}, "t03: an Army manual", []want{is("Set the wrench to", 44.44, 0.005)}},
	{"torque-wrench", typed{"wanted": "135 in-lb", "lever": "10", "adapter": "1.5", "angle": "180"}, "t05: a maker's manual", []want{is("Set the wrench to", 158.82, 0.05)}},
	{"torque-wrench", typed{"wanted": "135 in-lb", "lever": "254 mm", "adapter": "38.1 mm", "angle": "45"}, "t11", []want{is("Set the wrench to", 122.0542, 0.05)}},
	{"torque-wrench", typed{"wanted": "300 in-lb", "lever": "10", "adapter": "-2.5"}, "tq_ext_d", []want{is("Set the wrench to", 400, 0.01)}},
	{"torque-wrench", typed{"reading": "158.82 in-lb", "lever": "10", "adapter": "1.5", "angle": "180"}, "t05 read backwards", []want{is("The nut got", 135, 0.05)}},
	{"torque-wrench", typed{"wanted": "160 in-lb", "upto": "190 in-lb", "lever": "10", "drag": "12 in-lb", "rule": "always", "full": "1000 in-lb"}, "t16: AC 43.13-1B 7-40", []want{is("Set the wrench to at least", 172, 0.001), is("and to no more than", 202, 0.001)}},
	{"torque-wrench", typed{"wanted": "50 in-lb", "upto": "70 in-lb", "lever": "10", "drag": "30 in-lb", "rule": "third"}, "tq_drag_tb: Army TB 43-0218", []want{is("Set the wrench to at least", 80, 0.001), is("and to no more than", 100, 0.001)}},
	{"torque-wrench", typed{"wanted": "10 kgf·m", "lever": "300 mm", "adapter": "60 mm", "grip": "240 mm"}, "the same formula by hand", []want{is("Set the wrench to", 10*300.0/360, 0.0005), is("With the hand off the mark the nut gets", 10*300.0/360*300/240, 0.0005)}},
	{"torque-wrench", typed{"wanted": "49.148 N·m", "lever": "11", "adapter": "3.25"}, "u_435inlb_nm with tq_ext_b", []want{is("Set the wrench to", 335.79*0.1129848, 0.01)}},

	{"prop-nut", typed{"torque": "450 ft-lb", "bar": "3", "weight": "180", "out": "3", "slope": "0"}, "t26; statics by hand", []want{is("Pull square at the end of the bar", 150, 0.5), is("The weight makes it at", 450.0/180, 0.005), is("There the weight makes", 540, 0.005)}},

	{"preload", typed{"torque": "420 in-lb", "thread": "7/16-20", "lube": "oiled"}, "b29", []want{is("Stress in the thread", 53917.4, 60), is("Preload", 420/(0.15*0.4375), 0.5)}},
	{"preload", typed{"torque": "450 in-lb", "thread": "3/8-24", "lube": "dry", "grip": "4", "shank": "0.375"}, "b34: 6000 lb, 4 in, 0.1104 sq in", []want{is("Preload", 6000, 0.5), is("Stretch", 0.007496, 0.00006)}},
	{"preload", typed{"torque": "390 in-lb", "thread": "3/8-24", "lube": "anti-seize", "factor": "0.1316"}, "b31: the circular's 90,000 psi", []want{is("Stress in the thread", 90000, 150)}},

	{"nut-order", typed{"nuts": "12", "torque": "420 in-lb"}, "ASME PCC-1 cross pattern, from memory; 50/75/100: no source", []want{says("Order", "1 7 4 10 2 8 5 11 3 9 6 12"), is("Stage 1", 210, 0.001), is("Stage 2", 315, 0.001), is("Once more round, still at", 420, 0.001)}},
	{"nut-order", typed{"nuts": "4", "torque": "35 ft-lb", "stages": "30 100%"}, "ASME PCC-1 cross pattern, from memory", []want{says("Order", "1 3 2 4"), is("Stage 1", 10.5, 0.001)}},

	{"bolt-table", typed{"thread": "3/8-24"}, "t_ac05: AC 43.13-1B table 7-1", []want{says("Tension nut", "160 to 190"), says("Shear nut", "95 to 110"), is("Never beyond, tension nut", 390, 0), is("Never beyond, shear nut", 240, 0)}},
	{"bolt-table", typed{"thread": "5/16-24", "typed": "110 in-lb"}, "t20: Army TM 10-5430-232-12&P", []want{is("A used lock nut turns with at least", 6.5, 0)}},

	{"travel", typed{"stroke": "5", "rod": "9.5", "degrees": "25"}, "s04, s13", []want{is("Travel below the top", 0.2931654, 0.00005), is("There a degree is", 0.0228657, 0.00005)}},
	{"travel", typed{"stroke": "54 mm", "rod": "100 mm", "degrees": "22"}, "s01: 2.479 mm", []want{is("Travel below the top", 2.479/25.4, 0.00006)}},
	{"travel", typed{"stroke": "5", "rod": "9.75", "travel": "0.3148034"}, "s07 read backwards", []want{is("Before the top", 26, 0.005)}},

	{"travel-link", typed{"cylinders": "9", "master": "5", "turns": "with", "cylinder": "1", "stroke": "5", "rod": "10.1", "knuckle": "2.75", "link": "7.35", "advance": "25", "cam": "even", "found": "22.78"}, "i13, a_B9_even25, a_B9_shift, a_B9_height: constraint solver", []want{
		is("It is fired before its own top", 22.782591, 0.005), is("and so far below it", 0.3094882, 0.00005), says("Its top comes", "2.22°"), is("Its top stands from the master's", -0.0105816, 0.00005), says("Found against where it should be", "0°")}},
	{"travel-link", typed{"cylinders": "9", "master": "5", "turns": "against", "cylinder": "8", "stroke": "5", "rod": "10.1", "knuckle": "2.75", "link": "7.35", "advance": "25", "cam": "compensated", "down": "0.3364937"}, "a_C9r_own25: constraint solver", []want{
		is("It is fired before its own top", 25, 0), is("and so far below it", 0.3364937, 0.00005), says("Found against where it should be", "0°")}},

	{"travel-link", typed{"cylinders": "9", "master": "5", "turns": "with", "cylinder": "1", "stroke": "5", "rod": "10.1", "knuckle": "2.75", "link": "7.35", "advance": "25", "cam": "even", "found": "24"}, "its top is 2.2174° early (solver's table), so 24 found is 1.2174 early", []want{is("Found against where it should be", 1.22, 0.01), says("Found against where it should be", "early")}},
	{"travel-link", typed{"cylinders": "9", "master": "5", "turns": "with", "cylinder": "1", "stroke": "5", "rod": "10.1", "knuckle": "2.75", "link": "7.35", "advance": "25", "cam": "even", "found": "21.5"}, "the same, 1.2826 late", []want{says("Found against where it should be", "late")}},
	{"tops", typed{"cylinders": "7", "master": "1", "turns": "with", "stroke": "5", "rod": "9.75", "knuckle": "2.55", "link": "7.2", "bore": "5.375", "ratio": "6.1", "at": "20"}, "a_A7_shift, _height, _stroke, a_cr_each, a_sym_1: constraint solver", []want{
		says("Cylinder 2", "1.23° late, -0.0692 in, stroke 5.0018 in, mirror 7"), says("Cylinder 6", "4.72° early, -0.0980 in, stroke 5.0322 in, mirror 3"),
		says("Cylinder 3", "5.67 to 1"), says("Cylinder 5", "12.5 fl oz"), says("Cylinder 1", "now 20° before its top"), says("Cylinder 3", "four point seven degrees late, ninety-eight thou below the master's")}},

	{"positive-stop", typed{"before": "38.0", "after": "36.5"}, "s16", []want{says("The top is", "0.75°"), says("The top is", "before the zero")}},
	{"positive-stop", typed{"before": "20", "after": "22", "gear": "3:2", "stroke": "5", "rod": "9.5"}, "halving by hand; travel at 31.5° of crank from the formula of s04", []want{says("The top is", "1°"), says("in degrees of crank", "1.50°"), is("The stop holds the piston below its top by", 2.5*(1-math.Cos(31.5*math.Pi/180))+9.5*(1-math.Sqrt(1-math.Pow(2.5*math.Sin(31.5*math.Pi/180)/9.5, 2))), 0.0006)}},

	{"run-up", typed{"both": "1800", "left": "1740", "right": "1710", "lefts": "60 65 70", "rights": "70, 75", "manner": "slow"}, "FAA-H-8083-32: the difference of two readings", []want{is("Drop on left alone", 60, 0), is("Drop on right alone", 90, 0), is("Its usual", 65, 0), is("Apart", 30, 0)}},

	{"advance", typed{"table": "500 0, 1000 12, 1400 25", "degrees": "crank", "speed": "1200"}, "a straight line by hand: no source", []want{is("Advance there, degrees of crank", 18.5, 0.05), is("Full advance", 25, 0), is("from", 1400, 0)}},
	{"advance", typed{"table": "400 0; 1000 10", "degrees": "distributor", "speed": "1000"}, "half crank speed: no source", []want{is("Advance there, degrees of crank", 20, 0)}},

	{"oil-grade", typed{"grade": "W100"}, "oil_grade_50, oil_sae50_kv100: SAE J1966 and J300", []want{is("By SAE", 50, 0), is("On the can", 100, 0), is("In old papers", 1100, 0), says("Viscosity at 100 °C", "16.3 to <21.9 cSt")}},
	{"oil-grade", typed{"grade": "1080", "viscosity": "12.5"}, "oil_grade_40", []want{is("By SAE", 40, 0)}},
	{"wear-metal", typed{"found": "24", "hours": "20"}, "oa_ppm10h", []want{is("In ten hours", 12, 0)}},
	{"wear-metal", typed{"found": "24", "hours": "20", "added": "8"}, "oa_ppm10h; without the charge nothing is raised", []want{is("In ten hours", 12, 0)}},
	{"wear-metal", typed{"found": "10", "hours": "10", "added": "8", "charge": "16"}, "oa_factor: x/(1 − e⁻ˣ) at 0.5 is 1.27075", []want{is("Without the oil added, at most", 12.7, 0.01), is("In ten hours", 12.7, 0.01)}},
	{"wear-metal", typed{"found": "18", "hours": "10", "history": "12 15 11 14 13 16 12 15"}, "own-history alarm of general.csv, 17.046", []want{is("This engine's own line", 17, 0.05), is("In ten hours", 18, 0)}},
	{"oil-heat", typed{"level": "14.00", "read": "150", "asked": "50", "later": "12.50", "density": "890"}, "oil_loss_tempcorr: ASTM D1250, 0.952 qt", []want{is("Gone, both brought to 60 °F", 0.95, 0.005)}},
	{"missing-oil", typed{"shutdown": "13.5", "start": "12.0", "sump": "26", "jars": "3.5"}, "oil-rate.md 8.4: 48.0 gone, 18.5 not found", []want{is("Left the tank", 48, 0.05), is("Not found", 18.5, 0.05)}},
	{"missing-oil", typed{"shutdown": "13.5", "start": "12.0", "warm": "150", "cold": "45", "sump": "26", "jars": "3.5"}, "oil-rate.md 8.4: 30.4 and 0.9", []want{is("Left the tank", 30.4, 0.05), is("Not found", 0.9, 0.06), is("Surely at least", 0, 0)}},
	{"missing-oil", typed{"shutdown": "14.00", "start": "12.50", "warm": "150", "cold": "50", "step": "0.25", "bore": "5.1875", "stroke": "5.1875", "ratio": "6"}, "oil_loss_tempcorr: ASTM D1250, 0.952 qt", []want{is("Left the tank", 0.952*32, 0.2), is("Clearance volume", 21.9, 0.05)}},

	{"oil-rate", typed{"before": "15", "hours": "5", "after": "13.75"}, "oc_qth_hqt: 0.25 qt/h is 4 h/qt", []want{is("Rate", 0.25, 0), says("or", "4"), is("Used", 1.25, 0)}},
	{"oil-rate", typed{"before": "15", "added": "1", "hours": "10:00", "after": "14", "step": "0.25", "warm": "150", "cold": "150"}, "difference by hand", []want{is("Rate", 0.2, 0.001), is("Used", 2, 0.001)}},

	{"oil-heat", typed{"level": "16", "read": "160", "asked": "60", "density": "890"}, "oil_hot_read_cold: ASTM D1250, 15.366 qt", []want{is("Level there", 15.366, 0.006), is("Changed by", -0.634*32, 0.2)}},
	{"oil-heat", typed{"level": "10 L", "read": "100 C", "asked": "15 C"}, "oil_vcf_c_890_100 between 880 and 900: 0.9390", []want{is("or", 9.390, 0.01)}},

	{"oil-power", typed{"consumption": "0.035", "power": "300", "density": "898.7"}, "oc_35_300: 7.5 lb to the gallon", []want{is("Rate", 5.600, 0.006)}},
	{"oil-power", typed{"consumption": "3.6497 g/kWh", "power": "300", "density": "886.7"}, "u_lbhph_gkwh with oc_300", []want{is("Rate", 0.9730, 0.006)}},
	{"oil-power", typed{"rate": "0.973", "power": "300", "density": "886.7"}, "oc_300 read backwards", []want{is("Consumption by power", 0.006, 0.00005), is("or", 3.6497, 0.01)}},

	{"lock", typed{"bore": "5.1875", "stroke": "5.1875", "ratio": "6.0", "liquid": "6"}, "h05, h06", []want{is("Compression with it", 10.8777, 0.05), is("Doubles the compression", 6.6275, 0.005)}},
	{"lock", typed{"bore": "5.1875", "stroke": "5.1875", "ratio": "6", "liquid": "0.25 qt", "how": "hand"}, "h03", []want{is("Compression with it", 15.6375, 0.05), is("Peak pressure at most", 14.696*(15.6375-1), 0.6)}},
	{"lock", typed{"bore": "5.375", "stroke": "5", "ratio": "6.1", "liquid": "11.5", "how": "fast"}, "h07", []want{is("Compression with it", 77.05, 0.06)}},
	{"lock", typed{"bore": "5.1875", "stroke": "5.1875", "ratio": "6.0", "liquid": "0", "how": "starter"}, "h16: 136.28 psi", []want{is("Peak pressure at most", 136.28, 0.6)}},
	{"lock", typed{"bore": "5.5", "stroke": "4.5558", "room": "24.6 cu in", "liquid": "14"}, "tf_clear_a, h09: 24.6 cu in is 13.631 fl oz", []want{is("A full lock", 13.631, 0.05), is("Compression ratio", 5.4, 0.005), says("Locked", "full")}},

	{"blades", typed{"blades": "3", "gear": "1.5", "cylinders": "9"}, "f16", []want{is("Every cylinder once", 4, 0)}},
	{"blades", typed{"blades": "2", "cylinders": "9", "pulled": "8"}, "f17; 2 blades direct 4: arithmetic", []want{is("Compressions gone through", 18, 0), is("Every cylinder once", 4, 0), is("Every cylinder twice", 8, 0), is("Every cylinder surely", 2, 0)}},

	{"push", typed{"push": "60", "arm": "4", "gear": "direct", "stroke": "5", "rod": "9.75", "degrees": "10"}, "h18: 240 lb-ft, 5295.6 lb", []want{is("At the crankshaft", 240, 0.001), is("On the piston", 5295.6, 0.6)}},

	{"differential", typed{"bore": "5.1875", "supply": "80", "reading": "65", "stroke": "5.1875", "rod": "10.5", "off": "5", "arm": "4"}, "o09, o11, o13", []want{is("Loss", 18.75, 0.051), is("Push on the piston at the supply", 1690.81, 0.5), is("Off the top the crank pulls with", 476.31/12, 0.005), is("This bore needs an orifice of", 0.060, 0), is("At the blade", 476.31/48, 0.5)}},
	{"differential", typed{"bore": "5.125", "supply": "80 psi", "reading": "58", "orifice": "0.040"}, "o26: reads 74.75 with the 0.060", []want{is("Through the other orifice it would read about", 74.75, 0.5), is("This bore needs an orifice of", 0.060, 0)}},
	{"differential", typed{"bore": "4.625", "supply": "80", "reading": "70", "orifice": "0.060"}, "o25: reads 43.8 with the 0.040; o04", []want{is("Through the other orifice it would read about", 43.8, 0.5), is("This bore needs an orifice of", 0.040, 0)}},

	{"cranking", typed{"readings": "100 100 100 100 75", "minimum": "80"}, "Army TM 1-1500-204-23-1: 20 per cent below the average", []want{is("Average", 95, 0), says("20 per cent or more below it", "5"), says("Below the minimum", "5")}},

	{"clearance", typed{"hole": "5.2500", "shaft": "5.2245", "newmin": "25", "newmax": "27", "wear": "32"}, "m13: 0.0255 in", []want{is("Clearance", 25.5, 0)}},
	{"clearance", typed{"hole": "5.25", "shaft": "5.225", "holetemp": "68", "shafttemp": "68", "holemetal": "alloy steels", "shaftmetal": "aluminium alloys", "at": "118"}, "x01, x03: growth by the ends of the published ranges", []want{is("Clearance", 25, 0), is("At that temperature about", 25-(5.225*12.7-5.25*7.45)*50/1000, 0.05)}},

	{"bore-shape", typed{"topa": "5.2515", "topb": "5.2490", "skirta": "5.2520", "skirtb": "5.2515"}, "m01", []want{is("Out-of-round", 2.5, 0)}},
	{"bore-shape", typed{"topa": "5.2505", "topb": "5.2495", "uppera": "5.2515", "upperb": "5.2490", "skirta": "5.2510", "skirtb": "5.2500", "judge": "cylindricity", "wear": "2", "sense": "more"}, "m03: a maker's manual", []want{is("Cylindricity", 1, 0)}},
	{"bore-shape", typed{"topa": "5.2480", "topb": "5.2480", "skirta": "5.2510", "skirtb": "5.2510", "judge": "choke"}, "m04: −0.003 is choke", []want{is("Taper", -3, 0), is("Choke", 3, 0)}},
	{"bore-shape", typed{"topa": "5.3835", "topb": "5.3830", "skirta": "5.3750", "skirtb": "5.3750", "nominal": "5.375", "judge": "wear", "newmin": "0", "newmax": "1.5", "wear": "9"}, "m11: 8.5 thou", []want{is("Wear over nominal", 8.5, 0)}},

	{"ring-gap", typed{"gap": "37.5", "bore": "5.5", "smaller": "5"}, "m10; trade practice 0.0068 by the inch", []want{is("Where the bore is smaller", 21.792, 0.05), is("By the inch of bore", 6.8, 0.05)}},

	{"displacement", typed{"bore": "5.50", "stroke": "5.00", "cylinders": "7"}, "tf_disp_b, tf_name_b", []want{is("Displacement", 831, 1), is("Called", 830, 0)}},
	{"displacement", typed{"bore": "105 mm", "stroke": "130 mm", "cylinders": "9"}, "e21", []want{is("or", 10.131, 0.005)}},
	{"displacement", typed{"bore": "5", "stroke": "5", "cylinders": "7", "ratio": "6.2"}, "c06", []want{is("Clearance volume", 18.8798, 0.005)}},
	{"displacement", typed{"bore": "62.5 mm", "stroke": "95 mm", "cylinders": "1", "room": "60 mL"}, "d10", []want{is("Compression ratio", 5.86, 0.005)}},

	{"power", typed{"power": "450", "speed": "2300", "displacement": "985"}, "p14, p15", []want{is("Torque", 1027.59, 0.05), is("Mean effective pressure", 157.32, 0.05)}},
	{"power", typed{"bmep": "165", "speed": "3000", "displacement": "1710.6", "stroke": "4"}, "p01: 12 cylinders of 5.5 by 6; p12 scaled", []want{is("Power", 1069.2, 0.5), is("Mean piston speed", 2000, 0.5)}},

	{"firing-order", typed{"cylinders": "9", "turns": "with"}, "f03, i09", []want{says("Firing order", "1 3 5 7 9 2 4 6 8"), says("Sockets", "2→3"), is("One every", 80, 0)}},
	{"firing-order", typed{"cylinders": "9", "turns": "against", "first": "1", "master": "5"}, "f04, a_sym_2", []want{says("Firing order", "1 8 6 4 2 9 7 5 3"), says("Mirrors", "1–9 2–8 3–7 4–6")}},

	{"hang-low", typed{"cylinders": "9", "seen": "cockpit", "numbered": "clockwise"}, "f19", []want{says("Hang below the horizontal", "4 5 6 7"), says("Lie level", "none"), says("Lowest", "5 6")}},
	{"hang-low", typed{"cylinders": "9", "seen": "propeller", "numbered": "anticlockwise", "roll": "10", "tail": "12", "no1": "0"}, "one wing 10° low puts no. 3 level: geometry", []want{says("Lie level", "3")}},

	{"magneto", typed{"cylinders": "9", "sparks": "2", "lobes": "4"}, "i04, f14", []want{says("The magneto turns", "9/4"), says("The cam ring turns", "against"), is("Lobe to lobe", 90, 0)}},
	{"magneto", typed{"cylinders": "7", "sparks": "4", "cam": "with"}, "i01, f11", []want{says("The magneto turns", "7/8"), is("with", 4, 0), says("at", "1/8")}},
	{"magneto", typed{"cylinders": "7", "sparks": "4", "egap": "10"}, "i01; 10° past neutral is one common type's, published training text: 10/(7/8)", []want{is("The E-gap at the crank", 80.0/7, 0.005)}},
	{"magneto", typed{"cylinders": "7", "cam": "against"}, "f10", []want{is("with", 3, 0), says("at", "1/6")}},

	{"next-due", typed{"every": "100", "done": "1104.0", "now": "1110", "overrun": "10", "carry": "taken", "wasdue": "1100.0"}, "cal_100h_late: 14 CFR 91.409(b)", []want{is("Due at", 1200, 0), is("Hours left", 90, 0)}},
	{"next-due", typed{"months": "12", "period": "calendar", "day": "2023-02-01", "today": "2024-02-29"}, "cal_ann_20230201: 14 CFR 91.409(a)", []want{says("Due on", "29 February 2024"), says("It is", "due")}},
	{"next-due", typed{"months": "4", "period": "months", "day": "2025-10-31", "today": "2025-11-25", "carry": "not"}, "cal_4mo", []want{says("Due on", "28 February 2026")}},
	{"next-due", typed{"months": "34", "period": "days", "day": "2025-10-06", "today": "2025-11-09", "overdays": "2"}, "cal_idle: 34 days", []want{is("Days left on 9 November 2025", 0, 0)}},

	{"meter-change", typed{"start": "502.0", "total": "2164.8", "now": "551.7"}, "cal_tachoff", []want{is("Total", 2214.5, 0)}},
	{"meter-change", typed{"start": "500", "total": "2162.8", "out": "502.0", "in": "100", "out2": "110", "in2": "0.0", "now": "39.7"}, "cal_tachoff with two changes, by hand", []want{is("Total", 2214.5, 0), is("Run since the start", 51.7, 0)}},

	{"tach-clock", typed{"clock": "1", "speed": "1800", "reference": "2200"}, "cal_tachclock", []want{is("By the tach", 0.8182, 0.0005)}},
	{"tach-clock", typed{"tach": "1.5", "speed": "2200", "reference": "2200"}, "cal_dh_1p5", []want{is("By the clock", 1.5, 0), says("as hours and minutes", "1:30")}},

	{"words", typed{"figure": "435 in-lb"}, "u_435inlb_nm", []want{is("in newton metres, about", 49.148, 0.001), is("in foot pounds", 36.25, 0)}},
	{"words", typed{"figure": "8 thou"}, "u_8thou_mm", []want{is("in millimetres", 0.2032, 0), says("Said", "eight thou, 0.008 inch, 0.20 millimetre")}},
	{"words", typed{"figure": "205 F", "kind": "temperature"}, "u_f205_c", []want{is("in degrees Celsius, about", 96.1111, 0.0001)}},
	{"words", typed{"figure": "2:03"}, "cal_hm_2_03", []want{is("Said", 2.05, 0), says("as hours and minutes", "2:03")}},
	{"words", typed{"figure": "1 L"}, "u_l_usqt: 1.056688", []want{is("in quarts, about", 1.0567, 0)}},
	{"words", typed{"figure": "0.1 tenth"}, "0.00001/12 by hand", []want{says("in feet, about", "0.000000833333")}},
	{"words", typed{"figure": "0.008 in"}, "0.008/12 by hand", []want{is("in feet, about", 0.00066667, 0)}},
	{"words", typed{"figure": "0 qt/h"}, "nought has no hours to a quart", []want{is("in litres an hour", 0, 0)}},
}

func TestWorkedExamples(t *testing.T) {
	done := map[string]bool{}
	for _, e := range examples {
		done[e.id] = true
		p := work(t, e.id, e.in)
		name := e.id + " (" + e.source + ")"
		if p.Waits != "" || len(p.Answers) == 0 {
			t.Errorf("%s waits: %s %v", name, p.Waits, problems(p))
			continue
		}
		for _, w := range e.want {
			found := false
			for _, a := range p.Answers {
				if a.Label != w.label {
					continue
				}
				if w.text != "" {
					found = found || strings.Contains(flat(a.Figure+" "+a.Unit+" "+a.Words), w.text)
					continue
				}
				got, err := strconv.ParseFloat(strings.TrimSuffix(flat(a.Figure), "°"), 64)
				found = found || err == nil && math.Abs(got-w.figure) <= w.off+1e-9
			}
			if !found {
				t.Errorf("%s: no answer %+v in %+v", name, w, p.Answers)
			}
		}
		toldWhatWasTyped(t, name, p)
	}
	for _, id := range list(t) {
		if !done[id] {
			t.Errorf("%s has no worked example", id)
		}
	}
}

func problems(p page) (list []string) {
	for _, b := range p.Fields {
		if b.Problem != "" {
			list = append(list, b.Name+": "+b.Problem)
		}
	}
	return list
}

// toldWhatWasTyped looks for every figure typed in the line to share and in the maths.
func toldWhatWasTyped(t *testing.T, name string, p page) {
	t.Helper()
	share, maths := flat(p.Share), flat(strings.Join(p.Maths.Lines, "\n"))
	if len(p.Maths.Lines) < 2 || strings.ContainsAny(share, "\n") {
		t.Errorf("%s: maths %q, share %q", name, p.Maths.Lines, p.Share)
	}
	for _, b := range p.Fields {
		figure := strings.Fields(b.Value)
		if b.Value == "" || b.Kind == "choice" || b.Kind == "day" {
			continue
		}
		if strings.Contains(b.Value, "1/4") || strings.Contains(b.Value, ":") && b.Kind == "figure" {
			continue // 3 1/4 and 10:00 stand there as decimals
		}
		if !strings.Contains(share, figure[0]) || !strings.Contains(maths, figure[0]) {
			t.Errorf("%s: %s %q is not in share %q or maths %q", name, b.Name, b.Value, share, maths)
		}
	}
	for _, a := range p.Answers {
		if !strings.Contains(share, flat(a.Figure)) {
			t.Errorf("%s: answer %q is not in %q", name, a.Figure, share)
		}
		if a.Words == "" {
			t.Errorf("%s: %q is not said in words", name, a.Label)
		}
	}
}
