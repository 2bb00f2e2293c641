package torque

import "linkrod/radial/quantity"

// Airframe is a line of FAA AC 43.13-1B table 7-1 (9/8/98): torques for nuts on airframe
// bolts where no maker gives one. They are for oil-free cadmium-plated threads and bolts
// loaded primarily in shear. They are not for studs, oiled threads or engines.
type Airframe struct {
	Tension, Shear       Range           // recommended, tension-type and shear-type nuts: 40,000 and 24,000 psi in the bolt
	MaxTension, MaxShear quantity.Torque // never beyond: 90,000 and 54,000 psi
	// Note is what is odd about the line: an estimated value, a figure that copies print
	// otherwise. The line is kept as printed.
	Note string
}

// AirframeFor is the table's line for a thread. It refuses a thread the table has not.
func AirframeFor(t Thread) (Airframe, error) {
	if a, ok := airframe[t.name]; ok {
		return a, nil
	}
	if err := t.check(); err != nil {
		return Airframe{}, err
	}
	return Airframe{}, problem("thread", "AC 43.13-1B table 7-1 has no line for ", t.name, ". The maker's figure is needed.")
}

const estimated = "The shear figures are estimated, as the table says."

// airframe is the table as the circular prints it, through 7/8-9 of the coarse threads.
// Read in a stored page of the circular.
var airframe = map[string]Airframe{
	// Fine threads.
	"8-36":     {Range{12, 15}, Range{7, 9}, 20, 12, ""},
	"10-32":    {Range{20, 25}, Range{12, 15}, 40, 25, ""},
	"1/4-28":   {Range{50, 70}, Range{30, 40}, 100, 60, ""},
	"5/16-24":  {Range{100, 140}, Range{60, 85}, 225, 140, ""},
	"3/8-24":   {Range{160, 190}, Range{95, 110}, 390, 240, ""},
	"7/16-20":  {Range{450, 500}, Range{270, 300}, 840, 500, ""},
	"1/2-20":   {Range{480, 690}, Range{290, 410}, 1100, 660, ""},
	"9/16-18":  {Range{800, 1000}, Range{480, 600}, 1600, 960, ""},
	"5/8-18":   {Range{1100, 1300}, Range{600, 780}, 2400, 1400, "A manual that copies the table prints 660 to 780 for shear, which is nearer to what the other lines do."},
	"3/4-16":   {Range{2300, 2500}, Range{1300, 1500}, 5000, 3000, ""},
	"7/8-14":   {Range{2500, 3000}, Range{1500, 1800}, 7000, 4200, ""},
	"1-14":     {Range{3700, 5500}, Range{2200, 3300}, 10000, 6000, estimated},
	"1-1/8-12": {Range{5000, 7000}, Range{3000, 4200}, 15000, 9000, estimated},
	"1-1/4-12": {Range{9000, 11000}, Range{5400, 6600}, 25000, 15000, estimated},
	// Coarse threads.
	"8-32":    {Range{12, 15}, Range{7, 9}, 20, 12, ""},
	"10-24":   {Range{20, 25}, Range{12, 15}, 35, 21, ""},
	"1/4-20":  {Range{40, 50}, Range{25, 30}, 75, 45, ""},
	"5/16-18": {Range{80, 90}, Range{48, 55}, 160, 100, ""},
	"3/8-16":  {Range{160, 185}, Range{95, 100}, 275, 170, "A manual that copies the table prints 95 to 110 for shear."},
	"7/16-14": {Range{235, 255}, Range{140, 155}, 475, 280, ""},
	"1/2-13":  {Range{400, 480}, Range{240, 290}, 880, 520, ""},
	"9/16-12": {Range{500, 700}, Range{300, 420}, 1100, 650, ""},
	"5/8-11":  {Range{700, 900}, Range{420, 540}, 1500, 900, ""},
	"3/4-10":  {Range{1150, 1600}, Range{700, 950}, 2500, 1500, ""},
	"7/8-9":   {Range{2200, 3000}, Range{1300, 1800}, 4600, 2700, ""},
}

// Breakaway is the least torque at which a used self-locking nut may begin to turn, run
// on until two threads stick out and touching nothing: a nut that starts with less has
// lost its lock and is not used again.
//
// Source: US Army TM 10-5430-232-12&P table I-2; 1-1/4-12 and beyond, and the coarse
// threads, TM 1-1500-204-23-6 table 2-8. They agree with one another where both have a
// line.
func Breakaway(t Thread) (quantity.Torque, error) {
	if v, ok := breakaway[t.name]; ok {
		return v, nil
	}
	if err := t.check(); err != nil {
		return 0, err
	}
	return 0, problem("thread", "The tables of breakaway torque have no line for ", t.name, ". Below a quarter inch a nut that turns on by finger past its lock is not used again.")
}

var breakaway = map[string]quantity.Torque{
	// Fine threads.
	"10-32": 2, "1/4-28": 3.5, "5/16-24": 6.5, "3/8-24": 9.5, "7/16-20": 14, "1/2-20": 18, "9/16-18": 24, "5/8-18": 32,
	"3/4-16": 50, "7/8-14": 70, "1-12": 90, "1-1/8-12": 117, "1-1/4-12": 143, "1-3/8-12": 180, "1-1/2-12": 210,
	// Coarse threads.
	"5/16-18": 7.5, "3/8-16": 12, "7/16-14": 16.5, "1/2-13": 24, "9/16-12": 30, "5/8-11": 40, "3/4-10": 60, "7/8-9": 82,
	"1-8": 110, "1-1/8-7": 137, "1-1/4-7": 165, "1-3/8-6": 200, "1-1/2-6": 230,
}
