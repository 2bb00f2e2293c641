package book

import (
	"runtime"
	"strconv"
	"testing"
	"time"

	"linkrod/sync/plain"
)

// longBook is a made-up book of n entries over twenty years: levels and adds, flights, drains,
// compression sets, clearances, grease, plugs and notes, as an engine in use gathers them.
func longBook(n int) []Record {
	rs := make([]Record, 0, n)
	device := "5ca1e000000000000000000000000001"
	add := func(body string) {
		rs = append(rs, Record{Entry{Device: device, N: len(rs) + 1, Kind: "fact", Body: []byte(body), Seen: len(rs)}, len(rs) + 1, "Ann"})
	}
	day := func(i int) string {
		d := i * 7300 / n
		y, m := 2005+d/365, d%365/31+1
		return strconv.Itoa(y) + "-" + two(m) + "-" + two(d%28+1)
	}
	for _, s := range []string{`"name","value":"LONG"`, `"model","value":"T7-B"`, `"serial","value":"B-0711"`, `"cylinders","value":"7"`, `"master","value":"1"`, `"oil_unit","value":"qt"`,
		`"tank_capacity","value":{"v":"20","u":"qt"}`, `"stick_step","value":{"v":"0.5","u":"qt"}`, `"meter","value":{"which":"tach","reading":{"v":"0.0","u":"h"}}`, `"since","value":{"v":"0.0","u":"h"}`} {
		add(`{"type":"setting","field":` + s + `,"day":"2005-01-01"}`)
	}
	tenths := 0
	level := 32 // half quarts
	for i := len(rs); i < n; i++ {
		stamp := `,"hours":{"v":"` + strconv.Itoa(tenths/10) + "." + strconv.Itoa(tenths%10) + `","u":"h"},"day":"` + day(i) + `","by":"Ann"}`
		switch {
		case i%125 == 60:
			add(`{"type":"drain","level_before":{"v":"15","u":"qt"},"same":true` + stamp)
			level = 30
		case i%200 == 150:
			add(`{"type":"compression","out_of":{"v":"80","u":"psi"},"orifice":{"v":"0.060","u":"in"},"warm":"hot","values":{"u":"psi","at":{"1":"76","2":"75","3":"77","4":"74","5":"72","6":"76","7":"` + strconv.Itoa(70+i%9) + `"}}` + stamp)
		case i%200 == 151:
			add(`{"type":"clearances","cold":"yes","found":{"u":"thou","at":{"1i":"10","1e":"12","2i":"10","2e":"12","3i":"11","3e":"12","4i":"10","4e":"13","5i":"10","5e":"12","6i":"9","6e":"12","7i":"10","7e":"12"}}` + stamp)
		case i%50 == 25:
			add(`{"type":"grease","done":{"at":{"1i":"done","1e":"done","2i":"done","2e":"done","3i":"done","3e":"done","4i":"done","4e":"done","5i":"done","5e":"done","6i":"done","6e":"done","7i":"done","7e":"done"}}` + stamp)
		case i%4 == 1:
			add(`{"type":"flight","flown":{"v":"0.9","u":"h"},"cht":{"v":"380","u":"F"},"cht_cyl":"5"` + stamp)
		case i%40 == 6:
			add(`{"type":"note","text":"washed, looked round, nothing seen"` + stamp)
		default:
			added := ""
			if level < 24 {
				added = `"added":{"v":"4","u":"qt"},`
			}
			add(`{"type":"oil","level":{"v":"` + strconv.Itoa(level/2) + [2]string{"", ".5"}[level%2] + `","u":"qt"},` + added + `"minutes":{"v":"20","u":"min"},"stands":"tail","scavenged":"yes"` + stamp)
			if added != "" {
				level += 8
			}
			level -= i % 2
			tenths += 9
		}
	}
	return rs
}

var sizes = []int{1000, 10_000, 100_000}

// A book is opened from its entries: every body read, placed, judged by the reckoning of oil.
func BenchmarkOpen(b *testing.B) {
	for _, n := range sizes {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			rs := longBook(n)
			for b.Loop() {
				Open(rs)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/entry")
		})
	}
}

// What the screens show of it.
func BenchmarkView(b *testing.B) {
	for _, n := range sizes {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			bk := Open(longBook(n))
			laid(b, bk)
			var size int
			for b.Loop() {
				v := bk.View("x", Now{Day: "2025-11-09"})
				size = len(v.JSON())
			}
			b.ReportMetric(float64(size)/1000, "kB")
		})
	}
}

// One more entry in a book that is open, and another.
func BenchmarkAdd(b *testing.B) {
	const more = 20_000
	for _, n := range sizes {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			rs := longBook(n + more)
			bk, i := Open(rs[:n]), n
			for b.Loop() {
				if i == len(rs) {
					b.StopTimer()
					bk, i = Open(rs[:n]), n
					b.StartTimer()
				}
				bk = bk.With(rs[i])
				i++
			}
		})
	}
}

// The cost of an entry does not grow with the book, beyond what a machine's noise explains; and
// a book of ten thousand opens, and takes one more, in the time a phone has for it.
func TestScale(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	per := map[int]float64{}
	for _, n := range []int{1000, 10_000, 100_000} {
		rs := longBook(n + 1)
		var before, after runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		best := time.Hour
		var bk *Book
		for range 3 {
			from := spent()
			bk = Open(rs[:n])
			best = min(best, spent()-from)
		}
		runtime.GC()
		runtime.ReadMemStats(&after)
		per[n] = float64(best.Nanoseconds()) / float64(n)
		laid(t, bk)
		from := spent()
		v := bk.View("x", Now{Day: "2025-11-09"})
		json := v.JSON()
		viewed := spent() - from
		from = spent()
		bk = bk.With(rs[n])
		t.Logf("%6d entries: open %v (%.0f ns an entry), view %v (%d kB), one more %v, %.1f MB held", n, best, per[n], viewed, len(json)/1000, spent()-from, float64(after.HeapAlloc-before.HeapAlloc)/1e6)
		if len(bk.lines) != n+1 {
			t.Fatalf("%d lines", len(bk.lines))
		}
		if v, err := plain.Parse(json); err != nil || len(v.Get("log").Items()) > logShown {
			t.Errorf("the view of %d entries is %v, %d lines", n, err, len(v.Get("log").Items()))
		}
	}
	if per[100_000] > 2*per[1000] {
		t.Errorf("an entry costs %.0f ns in a book of 1000 and %.0f in one of 100000", per[1000], per[100_000])
	}
}
