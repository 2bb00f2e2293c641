package auth

import (
	"fmt"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"linkrod/server/fault"
)

func (f fixture) MustPair(tb testing.TB, s Session) string {
	tb.Helper()
	code, _, err := f.Pair(tb.Context(), f.MustCheck(tb, s.Access))
	if err != nil {
		tb.Fatal(err)
	}
	return code
}

// Ensure a code lets one more phone in, once, and as the same person.
func TestPairing(t *testing.T) {
	f := newFixture()
	s := f.MustSetUp(t)
	code := f.MustPair(t, s)
	typed := " " + strings.ToLower(code[:3]) + "-" + code[3:]
	second, err := f.Claim(t.Context(), home, typed, phone(2))
	if err != nil {
		t.Fatal(err)
	}
	who := f.MustCheck(t, second.Access)
	if who.Account.ID != s.Account.ID || who.Device != phone(2).Device {
		t.Errorf("paired as %+v", who)
	}
	_, err = f.Claim(t.Context(), home, code, phone(3))
	wantCode(t, err, fault.Invalid)
	f.MustCheck(t, s.Access) // the first phone stays in
	if strings.Contains(f.log.String(), code) {
		t.Error("the code is in the log")
	}
}

// Ensure a code ends after ten minutes, and when the next one is made.
func TestPairingEnds(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f := newFixture()
		s := f.MustSetUp(t)
		old := f.MustPair(t, s)
		time.Sleep(PairingLife - time.Second)
		s = f.MustRefresh(t, s.Refresh, 1)
		code := f.MustPair(t, s)
		_, err := f.Claim(t.Context(), home, old, phone(2))
		wantCode(t, err, fault.Invalid)
		time.Sleep(PairingLife + time.Second)
		_, err = f.Claim(t.Context(), home, code, phone(2))
		wantCode(t, err, fault.Invalid)
		if got := fault.From(err); got.Field != "code" || !strings.Contains(got.Words, "make a new one") {
			t.Errorf("words = %q for field %q", got.Words, got.Field)
		}
	})
}

// Ensure codes hold no letters that look alike, and that what can't be a code
// is said before it counts as a try.
func TestPairingLetters(t *testing.T) {
	for range 1000 {
		code := newPairingCode()
		if len(code) != 6 || strings.Trim(code, pairingLetters) != "" {
			t.Fatalf("code = %q", code)
		}
	}
	if strings.ContainsAny(pairingLetters, "IL1OQ0UVB8S5Z2") {
		t.Errorf("%s has letters that look alike", pairingLetters)
	}
	f := newFixture()
	for typed, words := range map[string]string{
		"":        "has 6 letters",
		"CDFGH":   "has 6 letters",
		"CDFGHJK": "has 6 letters",
		"CDFGH0":  `'0' is in no code`,
		"cdfghi":  `'I' is in no code`,
	} {
		_, err := f.Claim(t.Context(), home, typed, phone(2))
		if got := fault.From(err); got == nil || got.Code != fault.Invalid || !strings.Contains(got.Words, words) {
			t.Errorf("%q: %v, want …%s…", typed, err, words)
		}
	}
}

// Ensure every try counts, by address and in all, so that six letters are
// enough for ten minutes.
func TestPairingBrakes(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f := newFixture()
		s := f.MustSetUp(t)
		code := f.MustPair(t, s)
		wrong := strings.Map(func(r rune) rune {
			return rune(pairingLetters[(strings.IndexRune(pairingLetters, r)+1)%len(pairingLetters)])
		}, code)
		try := func(from, code string) error {
			_, err := f.Claim(t.Context(), from, code, phone(2))
			return err
		}
		for range 5 {
			wantCode(t, try("198.51.100.7", wrong), fault.Invalid)
		}
		wantCode(t, try("198.51.100.7", code), fault.TooMany) // right, and too late

		// Neighbours in one IPv6 network are one party.
		for i := range 5 {
			wantCode(t, try(fmt.Sprintf("2001:db8::%d", i+1), wrong), fault.Invalid)
		}
		wantCode(t, try("2001:db8::ffff", code), fault.TooMany)

		for i := range 20 {
			wantCode(t, try(fmt.Sprintf("203.0.113.%d", i), wrong), fault.Invalid)
		}
		wantCode(t, try(home, code), fault.TooMany) // never tried before, but all together have

		// What an attacker with any number of addresses gets in a code's life.
		got := 0
		for end := time.Now().Add(PairingLife); time.Now().Before(end); time.Sleep(100 * time.Millisecond) {
			if fault.CodeOf(try(fmt.Sprintf("10.%d.%d.1", got/250, got%250), wrong)) == fault.Invalid {
				got++
			}
		}
		if got > 330 {
			t.Errorf("%d tries in ten minutes; the chance in the comment on pairingLength is wrong", got)
		}
	})
}

// Ensure a flood of addresses can't make the server forget whom it is slowing
// down, nor take its memory.
func TestBrakeForgets(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b := newBrake(1, time.Minute)
		for i := range brakeKeys {
			if err := b.take(fmt.Sprint(i)); err != nil {
				t.Fatal(err)
			}
		}
		wantCode(t, b.take("one more"), fault.TooMany)
		wantCode(t, b.take("0"), fault.TooMany)
		time.Sleep(time.Minute)
		if err := b.take("one more"); err != nil {
			t.Errorf("a minute later: %v", err)
		}
		if len(b.keys) != 1 {
			t.Errorf("%d keys are remembered, want the one that isn't at rest", len(b.keys))
		}
	})
}
