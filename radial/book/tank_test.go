package book

import (
	"math"
	"testing"
)

// The tank is said and drawn in the book's unit, to two places and no more.
func TestTankWords(t *testing.T) {
	p := engineFor(t, "", "0.5", "20")
	p.setting("full_mark", `{"v":"16","u":"qt"}`)
	p.setting("min_flight", `{"value":{"v":"11.5","u":"qt"},"source":{"document":"DEMO sheet","page":"2","typed_by":"Ann"}}`)
	p.stop("10.0", "15", "", "2025-05-01")
	p.oil("10.0", "14.5", "", `"day":"2025-05-03"`)
	litres := append(p.records[:len(p.records):len(p.records)], (&phone{t: t, device: "bb"}).oilUnit("l", Key{"aa", 2})...)
	for _, c := range []struct {
		records               []Record
		spoken, level, before string
		step, capacity, full  float64
	}{
		{p.records, "Tank: 14.5 quarts, full is 16, least for flight 11.5.", "14.5", "15", 0.5, 20, 16},
		// 14.5, 16, 11.5, 15, 0.5 and 20 qt, a quart being 0.946352946 L exactly.
		{litres, "Tank: 13.72 litres, full is 15.14, least for flight 10.88.", "13.72", "14.2", 0.473176473, 18.92705892, 15.141647136},
	} {
		v := Open(c.records).View("", Now{Day: "2025-05-03"}).Tank
		if v.Spoken != c.spoken || v.LevelText != c.level || v.BeforeText != c.before {
			t.Errorf("%q, %s and %s before; want %q, %s and %s", v.Spoken, v.LevelText, v.BeforeText, c.spoken, c.level, c.before)
		}
		if math.Abs(v.Step-c.step) > 1e-9 || v.Capacity == nil || math.Abs(*v.Capacity-c.capacity) > 1e-9 || v.Full == nil || math.Abs(*v.Full-c.full) > 1e-9 {
			t.Errorf("step %v, holds %v, full %v; want %v, %v, %v", v.Step, *v.Capacity, *v.Full, c.step, c.capacity, c.full)
		}
	}
}

func (p *phone) oilUnit(symbol string, refs ...Key) []Record {
	p.setting("oil_unit", `"`+symbol+`"`, refs...)
	return p.records
}

// What is not on file: a step of a half of the book's unit, and no height to draw to.
// A bare figure on the paper line is still taken for a level while it fits a tank.
func TestTankNotOnFile(t *testing.T) {
	for _, c := range []struct {
		unit, full, level string
		step, capacity    float64
	}{
		{"qt", "", "", 0.5, 8},
		{"qt", "", "6.5", 0.5, 8},
		{"qt", "", "14.5", 0.5, 15.5},
		{"qt", "16", "14.5", 0.5, 18},
		{"qt", "16", "18", 0.5, 19},
		{"l", "", "", 0.5, 8 * 0.946352946},
	} {
		p := &phone{t: t, device: "aa"}
		p.write("fact", `{"type":"engine"}`)
		p.oilUnit(c.unit)
		if c.full != "" {
			p.setting("full_mark", `{"v":"`+c.full+`","u":"qt"}`)
		}
		if c.level != "" {
			p.oil("1.0", c.level, "", "")
		}
		b := Open(p.records)
		v := b.View("", Now{}).Tank
		if v.Step != c.step || v.Capacity != nil || math.Abs(b.likelyCapacity()-c.capacity) > 1e-9 {
			t.Errorf("%+v: step %v, drawn to %v, a bare figure fits to %v", c, v.Step, v.Capacity, b.likelyCapacity())
		}
		if (v.Level == nil) != (c.level == "") || v.Level == nil && v.Spoken != "No level written yet." {
			t.Errorf("%+v: level %v, %q", c, v.Level, v.Spoken)
		}
	}
}
