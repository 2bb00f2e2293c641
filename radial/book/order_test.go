package book

import (
	"math/rand/v2"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"linkrod/radial/oil"
)

// readings is the readings of a book in the order of reading: "1.0:15", with a
// minus before what is left out.
func readings(b *Book) string {
	var out []string
	for _, a := range b.answers.all {
		s := strconv.FormatFloat(float64(a.Hours), 'f', 1, 64) + ":" + strconv.FormatFloat(float64(a.reading.Level), 'f', -1, 64)
		if a.Left != oil.Used {
			s = "-" + s
		}
		out = append(out, s)
	}
	return strings.Join(out, " ")
}

// The order of readings, told as what people write.
func TestOrderOfReadings(t *testing.T) {
	two := func(t *testing.T) (a, b *phone) {
		a = engineFor(t, "0.60", "0.5", "20")
		return a, &phone{t: t, device: "bb"}
	}
	for _, c := range []struct {
		name string
		tell func(t *testing.T) []Record
		want string
	}{
		{"as written", func(t *testing.T) []Record {
			a, _ := two(t)
			a.oil("1.0", "15", "", "")
			a.oil("2.0", "14", "", "")
			return a.records
		}, "1.0:15 2.0:14"},
		{"hours go back: kept and left out, right behind what they fall behind", func(t *testing.T) []Record {
			a, _ := two(t)
			a.oil("1.0", "15", "", "")
			a.oil("5.0", "14", "", "")
			a.oil("3.0", "14.5", "", "")
			a.oil("6.0", "13", "", "")
			return a.records
		}, "1.0:15 5.0:14 -3.0:14.5 6.0:13"},
		{"a line left out does not set the mark for the next", func(t *testing.T) []Record {
			a, _ := two(t)
			a.oil("5.0", "15", "", "")
			a.oil("1.0", "14", "", "")
			a.oil("3.0", "14", "", "")
			return a.records
		}, "5.0:15 -1.0:14 -3.0:14"},
		{"written late: its hours place it", func(t *testing.T) []Record {
			a, _ := two(t)
			a.oil("1.0", "15", "", "")
			a.oil("5.0", "13", "", "")
			a.oil("3.0", "14", "", `"late":true`)
			return a.records
		}, "1.0:15 3.0:14 5.0:13"},
		{"two phones that had not met: by hours, whoever arrived first", func(t *testing.T) []Record {
			a, b := two(t)
			a.oil("1.0", "15", "", "")
			a.oil("3.0", "14", "", "")
			b.oil("2.0", "14.5", "", "")
			return sent(1, append(a.records, b.records...)...)
		}, "1.0:15 2.0:14.5 3.0:14"},
		{"two phones, and the second had seen the first", func(t *testing.T) []Record {
			a, b := two(t)
			a.oil("1.0", "15", "", "")
			a.oil("3.0", "14", "", "")
			b.seen = len(a.records)
			b.oil("2.0", "14.5", "", "")
			return sent(1, append(a.records, b.records...)...)
		}, "1.0:15 3.0:14 -2.0:14.5"},
		{"the same hours: by the day stated", func(t *testing.T) []Record {
			a, b := two(t)
			a.oil("1.0", "15", "", `"day":"2025-05-02","minutes":{"v":"20","u":"min"}`)
			b.oil("1.0", "15.5", "", `"day":"2025-05-01","minutes":{"v":"20","u":"min"}`)
			return sent(1, append(a.records, b.records...)...)
		}, "1.0:15.5 1.0:15"},
		{"the same hours and day: by the time, where both state one", func(t *testing.T) []Record {
			a, b := two(t)
			a.oil("1.0", "15", "", `"day":"2025-05-01","clock":"19:00"`)
			b.oil("1.0", "15.5", "", `"day":"2025-05-01","clock":"18:30"`)
			return sent(1, append(a.records, b.records...)...)
		}, "1.0:15.5 1.0:15"},
		{"a meter change is an offset", func(t *testing.T) []Record {
			a, _ := two(t)
			a.oil("9.0", "15", "", "")
			a.write("fact", `{"type":"meter","out":{"v":"10.0","u":"h"},"in":{"v":"500.0","u":"h"}}`)
			a.oil("500.5", "14.5", "", "")
			a.oil("502.0", "14", "", "")
			return a.records
		}, "9.0:15 10.5:14.5 12.0:14"},
		{"a phone that had seen all but the last: its hours went on from what it knew", func(t *testing.T) []Record {
			a, b := two(t)
			a.oil("1.0", "15", "", "")
			b.seen = len(a.records)
			a.oil("3.0", "14", "", "")
			b.oil("2.0", "14.5", "", "")
			return sent(1, append(a.records, b.records...)...)
		}, "1.0:15 2.0:14.5 3.0:14"},
		{"and one that had seen the last as well: its hours go back", func(t *testing.T) []Record {
			a, b := two(t)
			a.oil("1.0", "15", "", "")
			a.oil("3.0", "14", "", "")
			b.seen = len(a.records)
			b.oil("2.0", "14.5", "", "")
			return sent(1, append(a.records, b.records...)...)
		}, "1.0:15 3.0:14 -2.0:14.5"},
		{"who had not seen the meter change still reads the old one", func(t *testing.T) []Record {
			a, b := two(t)
			a.oil("9.0", "15", "", "")
			a.write("fact", `{"type":"meter","out":{"v":"10.0","u":"h"},"in":{"v":"0.0","u":"h"}}`)
			a.oil("0.5", "14", "", "")
			b.oil("9.5", "14.5", "", "")
			return sent(1, append(a.records, b.records...)...)
		}, "9.0:15 9.5:14.5 10.5:14"},
		{"a late line about the time before the meter change", func(t *testing.T) []Record {
			a, _ := two(t)
			a.oil("8.0", "15", "", "")
			a.oil("9.5", "14", "", "")
			a.write("fact", `{"type":"meter","out":{"v":"10.0","u":"h"},"in":{"v":"0.0","u":"h"}}`)
			a.oil("0.5", "13.5", "", "")
			a.oil("9.0", "14.5", "", `"late":true`)
			return a.records
		}, "8.0:15 9.0:14.5 9.5:14 10.5:13.5"},
		{"the same meter change written by two people counts once", func(t *testing.T) []Record {
			a, b := two(t)
			a.oil("9.0", "15", "", "")
			a.write("fact", `{"type":"meter","out":{"v":"10.0","u":"h"},"in":{"v":"0.0","u":"h"}}`)
			a.oil("1.0", "14", "", "")
			b.write("fact", `{"type":"meter","out":{"v":"10.0","u":"h"},"in":{"v":"0.0","u":"h"}}`)
			all := sent(1, append(a.records, b.records...)...)
			c := &phone{t: t, device: "cc", seen: len(all)}
			c.oil("2.0", "13.5", "", "")
			return append(all, c.records...)
		}, "9.0:15 11.0:14 12.0:13.5"},
		{"who had seen another's meter change reads the new one", func(t *testing.T) []Record {
			a, b := two(t)
			a.oil("9.0", "15", "", "")
			a.write("fact", `{"type":"meter","out":{"v":"10.0","u":"h"},"in":{"v":"0.0","u":"h"}}`)
			b.seen = len(a.records)
			b.oil("9.5", "11", "", "")
			return sent(1, append(a.records, b.records...)...)
		}, "9.0:15 19.5:11"},
		{"a drain before the next start: what stood in the tank is no consumption", func(t *testing.T) []Record {
			a, _ := two(t)
			a.oil("9.0", "15", "", `"day":"2025-05-01","minutes":{"v":"20","u":"min"}`)
			a.write("fact", `{"type":"drain","hours":{"v":"9.0","u":"h"},"level_before":{"v":"13","u":"qt"},"level_after":{"v":"15.5","u":"qt"},"day":"2025-05-20"}`)
			a.oil("10.0", "15", "", "")
			return a.records
		}, "9.0:15 9.0:15.5 10.0:15"},
		{"a struck line is not used, and sets no mark", func(t *testing.T) []Record {
			a, _ := two(t)
			a.oil("1.0", "15", "", "")
			wrong := a.oil("9.0", "14", "", "")
			a.write("strike", `{"type":"strike","reason":"digits"}`, wrong)
			a.oil("2.0", "14.5", "", "")
			return a.records
		}, "1.0:15 2.0:14.5"},
		{"a closed step starts afresh", func(t *testing.T) []Record {
			a, _ := two(t)
			a.oil("1.0", "15", "", "")
			a.write("fact", `{"type":"step_closed","hours":{"v":"1.0","u":"h"},"found":"a union"}`)
			a.oil("1.0", "15", "", "")
			a.oil("2.0", "14.5", "", "")
			return a.records
		}, "1.0:15 1.0:15 2.0:14.5"},
		{"a level over the brim is left out by the method", func(t *testing.T) []Record {
			a, _ := two(t)
			a.oil("1.0", "15", "", "")
			a.oil("2.0", "20.5", "", "")
			a.oil("3.0", "21", "", "")
			return a.records
		}, "1.0:15 2.0:20.5 -3.0:21"},
	} {
		t.Run(c.name, func(t *testing.T) {
			records := c.tell(t)
			b := Open(records)
			if got := readings(b); got != c.want {
				t.Errorf("reads %s\nwant  %s", got, c.want)
			}
			// Arrival decides nothing: any shuffle is the same book.
			want := b.View("00", Now{Day: "2026-01-01"})
			rnd := rand.New(rand.NewPCG(1, 2))
			for range 10 {
				rnd.Shuffle(len(records), func(i, j int) { records[i], records[j] = records[j], records[i] })
				if got := Open(records).View("00", Now{Day: "2026-01-01"}); !reflect.DeepEqual(got, want) {
					t.Fatal("another order of arrival makes another book")
				}
			}
		})
	}
}

// Two people, one evening, and nothing to tell which came first: both levels
// are kept, and the book asks (trade.md 18.10, number 15).
func TestUnsureOrderIsAsked(t *testing.T) {
	a := engineFor(t, "", "0.5", "20")
	a.oil("541.0", "15", "2", `"by":"Osric","day":"2025-08-17"`)
	b := &phone{t: t, device: "bb"}
	b.oil("541.0", "15.0", "", `"by":"Tobin","day":"2025-08-17"`)
	book := Open(sent(1, append(a.records, b.records...)...))
	if len(book.answers.all) != 2 {
		t.Fatalf("%d readings, want both", len(book.answers.all))
	}
	items := book.openItems()
	if len(items) == 0 || items[0].Words != "Two levels for one evening: 15 quarts, 2 quarts added by Osric and 15.0 quarts, nothing added by Tobin. Which was read first? Both are kept." {
		t.Errorf("open items %+v", items)
	}
}

// Nobody is asked where the second writer had seen the first level, or where both said
// when: one of the two is then the later.
func TestSureOrderIsNotAsked(t *testing.T) {
	for name, c := range map[string]struct {
		seen        bool
		first, then string
		asked       bool
	}{
		"neither had seen the other": {false, `"day":"2025-08-17"`, `"day":"2025-08-17"`, true},
		"the second had seen it":     {true, `"day":"2025-08-17"`, `"day":"2025-08-17"`, false},
		"on two days":                {false, `"day":"2025-08-17"`, `"day":"2025-08-18"`, false},
		"at two times":               {false, `"day":"2025-08-17","clock":"18:00"`, `"day":"2025-08-17","clock":"19:00"`, false},
		"at one time":                {false, `"day":"2025-08-17","clock":"18:00"`, `"day":"2025-08-17","clock":"18:00"`, true},
		"one of them does not say":   {false, `"day":"2025-08-17","clock":"18:00"`, `"day":"2025-08-17"`, true},
		"one of them says no day":    {false, `"day":"2025-08-17"`, `"note":"x"`, true},
	} {
		a := engineFor(t, "", "0.5", "20")
		a.oil("541.0", "15", "", c.first)
		b := &phone{t: t, device: "bb"}
		if c.seen {
			b.seen = len(a.records)
		}
		b.oil("541.0", "14.5", "", c.then)
		asked := false
		for _, i := range Open(sent(1, append(a.records, b.records...)...)).openItems() {
			asked = asked || strings.HasPrefix(i.Words, "Two levels for one evening")
		}
		if asked != c.asked {
			t.Errorf("%s: asked %v", name, asked)
		}
	}
}

// In what one phone writes, the readings that count stand in the order they
// were written, and a line is left out exactly when its hours are fewer than
// the most before it (oil-rate 4.1). Seeded.
func TestOnePhoneKeepsItsOrder(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	for range 50 {
		p := engineFor(t, "0.60", "0.5", "")
		most := 0
		var want []string
		h := 0
		for range 30 {
			h = max(0, h+rnd.IntN(40)-6)
			p.oil(strconv.Itoa(h/10)+"."+strconv.Itoa(h%10), "15", "", "")
			s := strconv.Itoa(h/10) + "." + strconv.Itoa(h%10) + ":15"
			if h < most {
				s = "-" + s
			}
			most = max(most, h)
			want = append(want, s)
		}
		if got := readings(Open(p.records)); got != strings.Join(want, " ") {
			t.Fatalf("reads %s\nwant  %s", got, strings.Join(want, " "))
		}
	}
}

// However three phones write, strike, edit and meet, whoever holds the same
// entries sees the same book, nothing is lost, and nobody's line is changed.
// Seeded.
func TestAnyMergeIsOneBook(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	for round := range 25 {
		base := engineFor(t, "0.60", "0.5", "20")
		ledger := sent(1, base.records...)
		phones := []*phone{base, {t: t, device: "bb"}, {t: t, device: "cc"}}
		base.records, base.seen = nil, len(ledger)
		h := 10
		for range 25 {
			p := phones[rnd.IntN(len(phones))]
			h += rnd.IntN(12) - 2
			hours := strconv.Itoa(h/10) + "." + strconv.Itoa(h%10)
			var known []Key
			for _, r := range append(ledger[:min(p.seen, len(ledger)):min(p.seen, len(ledger))], p.records...) {
				known = append(known, r.Entry.Key())
			}
			switch rnd.IntN(8) {
			case 0:
				if len(known) > 0 {
					p.write("strike", `{"type":"strike","reason":"test"}`, known[rnd.IntN(len(known))])
				}
			case 1:
				var heads []Key
				for _, l := range Open(append(ledger[:p.seen:p.seen], p.records...)).heads["name"] {
					heads = append(heads, l.key)
				}
				p.setting("name", `"N`+strconv.Itoa(rnd.IntN(3))+`"`, heads...)
			case 2:
				p.write("fact", `{"type":"drain","hours":{"v":"`+hours+`","u":"h"},"level_before":{"v":"14","u":"qt"},"same":true}`)
			case 3: // meets the ledger: sends, then pulls
				for _, r := range p.records {
					r.Seq = len(ledger) + 1
					ledger = append(ledger, r)
				}
				p.records, p.seen = nil, len(ledger)
			default:
				p.oil(hours, strconv.Itoa(10+rnd.IntN(6)), "", "")
			}
		}
		var all []Record
		all = append(all, ledger...)
		for _, p := range phones {
			all = append(all, p.records...)
		}
		want := Open(all).View("00", Now{Day: "2026-01-01"})
		if want.Headline == "" || want.Next.Title == "" || len(want.Next.Why) == 0 || want.State == "" {
			t.Errorf("round %d: nothing is said: %q, %+v", round, want.Headline, want.Next)
		}
		if len(want.Log) != len(all) {
			t.Fatalf("round %d: %d lines of %d are shown", round, len(want.Log), len(all))
		}
		for range 3 {
			rnd.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
			if got := Open(all).View("00", Now{Day: "2026-01-01"}); !reflect.DeepEqual(got, want) {
				t.Fatalf("round %d: another order of arrival makes another book", round)
			}
		}
	}
}

// An entry seen twice, unsent and with its number, is one.
func TestSentTwiceIsOne(t *testing.T) {
	p := engineFor(t, "", "0.5", "")
	p.oil("1.0", "15", "", "")
	both := append([]Record(nil), p.records...)
	both = append(both, sent(1, append([]Record(nil), p.records...)...)...)
	b := Open(both)
	if len(b.lines) != len(p.records) || !b.View("", Now{}).Log[0].Sent {
		t.Errorf("%d lines, sent %v", len(b.lines), b.View("", Now{}).Log[0].Sent)
	}
}

// The log shows the newest first, a late line where its hours put it, and what
// has no hours where it was written.
func TestLogOrder(t *testing.T) {
	p := &phone{t: t, device: "aa"}
	p.oil("1.0", "15", "", "")
	p.oil("5.0", "13", "", "")
	p.write("fact", `{"type":"note","text":"washed"}`)
	p.oil("3.0", "14", "", `"late":true`)
	p.oil("2.0", "14", "", "")
	p.oil("6.0", "12", "", "")
	var got []string
	for _, l := range Open(p.records).View("", Now{}).Log {
		got = append(got, orNot(l.Hours, l.Words))
	}
	if s := strings.Join(got, " "); s != "6.0 2.0 washed 5.0 3.0 1.0" {
		t.Errorf("the log reads %s", s)
	}
}
