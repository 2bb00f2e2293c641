package book

import (
	"strings"
	"testing"

	"linkrod/sync/plain"
)

// keys are the names of what is open, up to the colon.
func keys(items []OpenItem) string {
	var all []string
	for _, i := range items {
		all = append(all, i.Key)
	}
	return strings.Join(all, " ")
}

// What is not on file is open until it is; what is on file is not.
func TestOpenUntilOnFile(t *testing.T) {
	p := &phone{t: t, device: "aa"}
	if got := keys(Open(nil).openItems()); got != "" {
		t.Errorf("an empty book: %s", got)
	}
	p.write("fact", `{"type":"engine"}`)
	if got := keys(Open(p.records).openItems()); got != "unknown:stick_step unknown:since unknown:tank_capacity" {
		t.Errorf("nothing on file: %s", got)
	}
	p.setting("stick_step", `{"v":"0.5","u":"qt"}`)
	p.setting("tank_capacity", `{"v":"20","u":"qt"}`)
	if got := keys(Open(p.records).openItems()); got != "unknown:since" {
		t.Errorf("two of three on file: %s", got)
	}
	p.setting("since", `{"v":"0.0","u":"h"}`)
	p.setting("min_flight", `{"value":{"v":"9","u":"qt"},"source":{"document":"DEMO sheet","page":"2","typed_by":"Ann"}}`)
	if got := keys(Open(p.records).openItems()); got != "unchecked:min_flight" {
		t.Errorf("a limit nobody checked: %s", got)
	}
}

// The last line is open while it is not used, and no longer.
func TestOpenWhileNotUsed(t *testing.T) {
	p := engineFor(t, "", "0.5", "20")
	p.oil("10.0", "15", "", "")
	if got := keys(Open(p.records).openItems()); got != "" {
		t.Errorf("a line that is used: %s", got)
	}
	bad := p.oil("11.0", "25", "", "")
	if got := keys(Open(p.records).openItems()); got != "left:"+bad.String() {
		t.Errorf("a level outside the tank: %s", got)
	}
	p.oil("12.0", "14", "", "")
	if got := keys(Open(p.records).openItems()); got != "" {
		t.Errorf("and one after it: %s", got)
	}
}

// A second look at the same hours is compared with the first, even where there is no
// rate yet; after flying there is nothing to compare with.
func TestSecondLookIsCompared(t *testing.T) {
	p := engineFor(t, "", "0.5", "20")
	p.oil("10.0", "15", "", "")
	for _, c := range []struct{ hours, level, want string }{
		{"10.0", "13.5", "level differs differs"}, {"10.0", "14.5", ""}, {"11.0", "13.5", ""},
	} {
		if got := asks(draft(t, Open(p.records), "oil", `{"hours":"`+c.hours+`","level":"`+c.level+`"}`)); got != c.want {
			t.Errorf("15 at 10.0, then %s at %s: asks %q, want %q", c.level, c.hours, got, c.want)
		}
	}
}

// A change of unit is asked about from the first level on.
func TestUnitChangeIsAsked(t *testing.T) {
	p := engineFor(t, "", "0.5", "20")
	change := `{"field":"oil_unit","value":"l"}`
	if got := asks(draft(t, Open(p.records), "setting", change)); got != "" {
		t.Errorf("no level written: asks %q", got)
	}
	p.oil("10.0", "15", "", "")
	if got := asks(draft(t, Open(p.records), "setting", change)); got != "value unlikely unit_changes" {
		t.Errorf("one level written: asks %q", got)
	}
}

func TestMinutesToGo(t *testing.T) {
	p := engineFor(t, "", "0.5", "20")
	for minutes, want := range map[string]string{"5.4": "15 minutes to go.", "0": "20 minutes to go.", "9.9": "10 minutes to go."} {
		d := draft(t, Open(p.records), "oil", `{"hours":"1.0","level":"15","minutes":"`+minutes+`"}`)
		if len(d.Asks) != 1 || !strings.HasSuffix(d.Asks[0].Words, want) {
			t.Errorf("%s minutes: %+v", minutes, d.Asks)
		}
	}
}

// Two looks on one day are one stop. On another day the second tells what left the tank.
func TestParkedIsAnotherDay(t *testing.T) {
	for _, c := range []struct {
		first, then string
		parked      bool
	}{
		{`"day":"2025-05-01"`, `"day":"2025-05-01"`, false},
		{`"day":"2025-05-01"`, `"day":"2025-05-02"`, true},
		{`"day":"2025-05-01"`, `"day":"2025-05-02","minutes":{"v":"60","u":"min"}`, false},
		{`"day":"2025-05-01"`, `"day":"2025-05-02","minutes":{"v":"61","u":"min"}`, true},
		{`"note":"no day"`, `"day":"2025-05-02"`, false},
		{`"day":"2025-05-01"`, `"note":"no day"`, false},
	} {
		p := engineFor(t, "", "0.5", "20")
		p.oil("10.0", "15", "", c.first)
		p.oil("10.0", "14", "", c.then)
		if got := Open(p.records).answers.all[1].parked; got != c.parked {
			t.Errorf("%s, then %s: parked %v", c.first, c.then, got)
		}
	}
}

// The first entry of a device is its number 1.
func TestReadRecordNumbers(t *testing.T) {
	for n, ok := range map[string]bool{"1": true, "2": true, "0": false, "-1": false} {
		v, err := plain.Parse([]byte(`{"entry":{"device":"aa","n":` + n + `,"kind":"fact","body":"e30="}}`))
		if err != nil {
			t.Fatal(err)
		}
		if r, err := ReadRecord(v); (err == nil) != ok || ok && r.Entry.Device != "aa" {
			t.Errorf("entry %s: %+v, %v", n, r, err)
		}
	}
}

// Exactly what the tank holds, exactly the full mark: nothing is asked. A hair more is.
func TestLevelsAtTheMarks(t *testing.T) {
	p := engineFor(t, "", "0.5", "20")
	for _, c := range []struct{ level, added, want string }{
		{"20", "", ""}, {"20.5", "", "level unlikely over_brim"}, {"20.51", "", "level impossible over_brim"},
		{"18", "2", ""}, {"18", "2.01", "level unlikely over_brim"},
	} {
		if got := asks(draft(t, Open(p.records), "oil", `{"hours":"1.0","level":"`+c.level+`","added":"`+c.added+`"}`)); got != c.want {
			t.Errorf("tank of 20: %s and %q asks %q, want %q", c.level, c.added, got, c.want)
		}
	}
	p.setting("full_mark", `{"v":"16","u":"qt"}`)
	for _, c := range []struct{ level, added, want string }{
		{"16", "", ""}, {"16.01", "", "level unlikely over_full"},
		{"14", "2", ""}, {"14", "2.01", "added differs over_full"},
	} {
		if got := asks(draft(t, Open(p.records), "oil", `{"hours":"1.0","level":"`+c.level+`","added":"`+c.added+`"}`)); got != c.want {
			t.Errorf("full at 16: %s and %q asks %q, want %q", c.level, c.added, got, c.want)
		}
	}
}

// The very first line says so too when it is not used.
func TestFirstLineNotUsed(t *testing.T) {
	p := engineFor(t, "", "0.5", "20")
	p.oil("1.0", "25", "", "")
	l := Open(p.records).View("", Now{}).Log[0]
	if l.ChipWord != "Not used" || l.Note != "This line is not used: level is outside the tank." {
		t.Errorf("%q, %q", l.ChipWord, l.Note)
	}
}
