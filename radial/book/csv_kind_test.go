package book

import (
	"strings"
	"testing"
)

// A file of compression sets: what the form would refuse is refused here, with the line; what
// it would ask about waits for a word; twice read, nothing is taken twice.
func TestReadCSVOf(t *testing.T) {
	b, f := demo(t, "e2")
	laid(t, b)
	text := `day,tach,out of [psi],orifice [in],warm,1,2,3,4,5,6,7,tool,by,checked,colour
2024-03-01,510.0,80,0.060,hot,76,75,77,74,72,76,70,LT-2,Ann,,blue
2024-06-01,515.5,80,0.040,hot,49,55,44,52,41,35,59,LT-1,Ann,,
2024-06-01,515.5,80,0.040,hot,49,55,44,52,41,35,59,LT-1,Ann,yes,
2024-07-01,,80,0.060,hot,76,75,77,74,72,76,70,LT-2,Ann,,
2024-08-01,520.0,80,0.060,warmish,76,75,77,74,72,76,70,LT-2,Ann,,
2024-09-31,520.0,80,0.060,hot,76,,,,,,,LT-2,Ann,,
2024-10-01,521.0,80,0.060,hot,86,75,77,74,72,76,70,LT-2,Ann,,
2024-11-01,522.0,80,0.060,hot,7,75,77,74,72,76,70,LT-2,Ann,,
2024-12-01,523.0,80,0.060,hot,76,75,77,7x,72,76,70,LT-2,Ann,,`
	im := b.ReadCSVOf("compression", text)
	var got []string
	for _, p := range im.Problems {
		got = append(got, itoa(p.Line)+": "+p.Words)
	}
	want := []string{
		"1: The column “colour” is not one that is read here. It is left out.",
		"3: Wrong orifice for this bore. 5.375 in needs 0.060; 0.040 reads too low. Take the set again. If it is right, say yes in a column “checked”.",
		"5: What does the meter read?",
		"6: Engine: “warmish” is not one of hot or cold.",
		"7: There is no day “2024-09-31”. A day is written 2025-10-06.",
		"8: Cylinder 1: The cylinder reads 86 psi and only 80 psi is supplied. Set the regulator again, or look at the gauges.",
		"9: Cylinder 1: 7 is far from what is usual, 20 to 90 psi. Is every digit right, and the unit? If it is right, say yes in a column “checked”.",
		"10: “x” is not a unit known here. This takes psi, inches of mercury or kilopascals.",
	}
	if strings.ReplaceAll(strings.Join(got, "\n"), "\u2009", " ") != strings.Join(want, "\n") {
		t.Errorf("problems\n%s", strings.Join(got, "\n"))
	}
	if im.Summary != "2 lines to take, 7 cannot be read. Nothing is taken until you say so." {
		t.Errorf("%s", im.Summary)
	}
	for _, r := range im.Rows {
		if r.Body != nil {
			b = b.With(Record{Entry: Entry{Device: f.Book, N: len(b.lines) + 1, Kind: "fact", Body: r.Body}})
		}
	}
	if again := b.ReadCSVOf("compression", text); again.Summary != "0 lines to take, 2 in the book already, 7 cannot be read. Nothing is taken until you say so." {
		t.Errorf("again: %s", again.Summary)
	}
	// Every kind with figures takes a file by its labels.
	for _, k := range Kinds() {
		head := "day,hours"
		for i := range k.Boxes {
			if x := &k.Boxes[i]; x.Per == One {
				head += "," + strings.ReplaceAll(x.Label, ",", "")
			} else {
				head += "," + x.Name + " " + x.Per.places(7)[0]
			}
		}
		for _, p := range b.ReadCSVOf(k.Type, head+"\n").Problems {
			if !strings.Contains(head, ",") || strings.Contains(p.Words, "twice") {
				t.Errorf("%s: %s", k.Type, p.Words)
			}
		}
	}
	if im := b.ReadCSVOf("oil", "x\n"); len(im.Problems) != 1 {
		t.Errorf("%+v", im.Problems)
	}
}
