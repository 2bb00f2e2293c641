package sync

import (
	"fmt"
	"testing"
)

// Ensure each answer means what it should to the phone: arrived, parked, to be
// sent again, or a new device id.
func TestHear(t *testing.T) {
	for _, test := range []struct {
		name    string
		results []Result
		want    string
	}{
		{"all arrived", []Result{{N: 4, State: OK, Seq: 9}, {N: 5, State: Dup, Seq: 2}, {N: 6, State: OK, Seq: 10}, {N: 7, State: OK, Seq: 11}},
			"done [{4 9} {5 2} {6 10} {7 11}] tray [] wait false from 0 forked false"},
		{"an empty answer: everything is still to go", nil,
			"done [] tray [] wait true from 0 forked false"},
		{"a state from the future is not taken for success", []Result{{N: 4, State: "merged", Seq: 1}},
			"done [] tray [] wait true from 0 forked false"},
		{"arrived without a place is not arrived", []Result{{N: 4, State: OK}},
			"done [] tray [] wait true from 0 forked false"},
		{"an answer about something never sent", []Result{{N: 99, State: OK, Seq: 1}, {N: 4, State: OK, Seq: 2}},
			"done [{4 2}] tray [] wait true from 0 forked false"},
		{"refused and held go to the tray, the rest arrives", []Result{{N: 4, State: Rejected, Words: "No."}, {N: 5, State: Held, Words: "Ask."}, {N: 6, State: OK, Seq: 1}, {N: 7, State: OK, Seq: 2}},
			"done [{6 1} {7 2}] tray [{4 rejected No.} {5 held Ask.}] wait false from 0 forked false"},
		{"a restored server asks for what it lost", []Result{{N: 4, State: Gap, From: 2}, {N: 5, State: Later}},
			"done [] tray [] wait true from 2 forked false"},
		{"a fork keeps what came before it", []Result{{N: 4, State: OK, Seq: 1}, {N: 5, State: Fork}, {N: 6, State: Later}},
			"done [{4 1}] tray [] wait true from 0 forked true"},
	} {
		h := Hear([]uint64{4, 5, 6, 7}, test.results)
		if got := fmt.Sprint("done ", h.Done, " tray ", h.Tray, " wait ", h.Wait, " from ", h.From, " forked ", h.Forked); got != test.want {
			t.Errorf("%s:\n%s\nwant\n%s", test.name, got, test.want)
		}
	}
}
