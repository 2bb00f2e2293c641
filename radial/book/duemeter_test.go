package book

import (
	"strings"
	"testing"

	"linkrod/radial/due"
)

// What is due is counted over a meter change. The hours are worked by hand: the old meter
// went out at 1900 and the new one came in at 0 (or at 500), so 1895 on the old and 25 on
// the new are 30 h apart. An engine that shows 25 h must not have "1870 h left".
func TestWhatIsDueIsCountedOverAMeterChange(t *testing.T) {
	for _, tt := range []struct{ in, now, look, words string }{
		{"0", "25", "1905", "Late: 20\u2009h past due at 1905\u2009h. These are hours over all its meters."},
		{"0", "3", "1905", "Due at 1905\u2009h, in 2\u2009h. These are hours over all its meters."},
		{"500", "525", "1905", "Late: 20\u2009h past due at 505\u2009h."},
		{"500", "503", "1905", "Due at 505\u2009h, in 2\u2009h."},
	} {
		p := &phone{t: t, device: "aa"}
		p.write("fact", `{"type":"finding","words":"a nut moved","grave":"watch","hours":{"v":"1895","u":"h"},"look_hours":{"v":"`+tt.look+`","u":"h"},"day":"2025-05-01"}`)
		p.write("fact", `{"type":"meter","out":{"v":"1900","u":"h"},"in":{"v":"`+tt.in+`","u":"h"},"day":"2025-05-02"}`)
		p.oil(tt.now, "15", "", `"day":"2025-06-01"`)
		b := Open(p.records)
		all := b.dues(Now{Day: "2025-06-01"})
		if len(all) != 1 || strings.ReplaceAll(all[0].Words, " h", "\u2009h") != strings.ReplaceAll(tt.words, " h", "\u2009h") {
			t.Errorf("new meter from %s, now %s: %+v", tt.in, tt.now, all)
		}
		if late := strings.HasPrefix(tt.words, "Late"); len(all) == 1 && (all[0].State == due.Late) != late {
			t.Errorf("now %s: %v", tt.now, all[0].State)
		}
	}
}

// A torque on another joint is no look at the hold-down, and oil let out is no look at what
// only has the letters of it in its name.
func TestWorkCountsForItsOwnItemOnly(t *testing.T) {
	p := &phone{t: t, device: "aa"}
	p.write("fact", `{"type":"torque","joint":"spark_plug","wanted":{"v":"300","u":"in_lb"},"hours":{"v":"20","u":"h"},"day":"2025-05-01"}`)
	p.write("fact", `{"type":"drain","hours":{"v":"21","u":"h"},"day":"2025-05-02"}`)
	b := Open(p.records)
	for _, l := range b.lines {
		if l.err != nil {
			t.Fatal(l.err)
		}
	}
	for id, want := range map[string]bool{"hold-down-look": false, "oil-drained": true, "coil-leads": false, "oil-screens": false} {
		if got := b.lastDone(id) != nil; got != want {
			t.Errorf("%s done: %v", id, got)
		}
	}
	p.write("fact", `{"type":"torque","joint":"hold_down","wanted":{"v":"435","u":"in_lb"},"hours":{"v":"22","u":"h"},"day":"2025-05-03"}`)
	if Open(p.records).lastDone("hold-down-look") == nil {
		t.Error("a torque on the hold-down is a look at it")
	}
}
