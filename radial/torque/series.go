package torque

import (
	"math"
	"strconv"
	"strings"

	"linkrod/radial/quantity"
)

// series is the coarse and fine threads to the inch of each size. 0 is none.
//
// Source: ANSI B1.1-1974 as compiled in a machine-design textbook, table 8-2. The fine
// thread of one inch was 14 in older tables, AC 43.13-1B's among them.
var series = []struct {
	d            quantity.Length
	coarse, fine int
	older        int
}{
	{0.060, 0, 80, 0}, {0.073, 64, 72, 0}, {0.086, 56, 64, 0}, {0.099, 48, 56, 0}, {0.112, 40, 48, 0}, {0.125, 40, 44, 0},
	{0.138, 32, 40, 0}, {0.164, 32, 36, 0}, {0.190, 24, 32, 0}, {0.216, 24, 28, 0},
	{0.2500, 20, 28, 0}, {0.3125, 18, 24, 0}, {0.3750, 16, 24, 0}, {0.4375, 14, 20, 0}, {0.5000, 13, 20, 0}, {0.5625, 12, 18, 0},
	{0.6250, 11, 18, 0}, {0.7500, 10, 16, 0}, {0.8750, 9, 14, 0}, {1.0000, 8, 12, 14}, {1.1250, 7, 12, 0}, {1.2500, 7, 12, 0},
	{1.3750, 6, 12, 0}, {1.5000, 6, 12, 0},
}

// coarseMetric is the pitch in millimetres of the coarse thread of each diameter: ISO 261.
var coarseMetric = map[string]string{
	"3": "0.5", "4": "0.7", "5": "0.8", "6": "1", "7": "1", "8": "1.25", "10": "1.5", "12": "1.75", "14": "2", "16": "2",
	"18": "2.5", "20": "2.5", "22": "2.5", "24": "3", "27": "3", "30": "3.5",
}

// usual is the coarse and the fine threads to the inch of the size, and the older fine.
func (t Thread) usual() (coarse, fine, older int, found bool) {
	for _, s := range series {
		if math.Abs(float64(s.d-t.d)) < 1e-6 {
			return s.coarse, s.fine, s.older, true
		}
	}
	return 0, 0, 0, false
}

// perInch is n, the threads to the inch.
func (t Thread) perInch() int { return int(math.Round(1 / t.p.Inches())) }

// agrees refuses a series word that contradicts the threads: "7/16-20 UNC".
func (t Thread) agrees(word string) error {
	word, _, _ = strings.Cut(word, "-")
	word = strings.TrimSpace(word)
	coarse, fine, older, _ := t.usual()
	want := 0
	switch word {
	case "", "un", "uns", "unj", "unef", "nef", "ns": // says neither
		return nil
	case "unf", "nf", "unjf", "unrf":
		want = fine
	case "unc", "nc", "unjc", "unrc":
		want = coarse
	default:
		return problem("thread", "“", short(word), "” is no series of threads known here. Type UNF, UNC or leave it out.")
	}
	if n := t.perInch(); n == want || n == older && want == fine {
		return nil
	}
	return problem("thread", t.name, " is not ", strings.ToUpper(word), t.ofThatSize(), " Count the threads, or leave the series out.")
}

// Doubt is a question about a thread that is neither the coarse nor the fine one of its
// size, "" if it is. A printed torque card has 7/16-24 for 7/16-20 and 5/8-14 for 5/8-18.
// Extra-fine and special threads exist, so it is asked and not refused. Metric pitches
// come in too many for one to be odd.
func (t Thread) Doubt() string {
	coarse, fine, older, found := t.usual()
	n := t.perInch()
	if t.name == "" || t.metric || found && (n == coarse || n == fine || n == older) {
		return ""
	}
	return t.name + " is not one of the usual threads" + t.ofThatSize() + " Count the threads again."
}

// ofThatSize ends a sentence with the usual threads of the size.
func (t Thread) ofThatSize() string {
	coarse, fine, _, found := t.usual()
	if !found {
		return "."
	}
	size := t.name[:strings.LastIndex(t.name, "-")]
	fineName := size + "-" + strconv.Itoa(fine) + " fine"
	if coarse == 0 {
		return "; of that size the usual one is " + fineName + "."
	}
	return "; of that size those are " + size + "-" + strconv.Itoa(coarse) + " coarse and " + fineName + "."
}
