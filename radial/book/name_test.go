package book

import "testing"

// An engine is told from the next one: by its name, else by its serial number, else by
// what was answered when its book was begun. What is edited later does not rename it.
func TestName(t *testing.T) {
	begun := func(cylinders, meter, day string) *phone {
		p := &phone{t: t, device: "aa"}
		p.write("fact", `{"type":"engine"}`)
		if cylinders != "" {
			p.write("fact", `{"type":"setting","field":"cylinders","value":"`+cylinders+`","day":"`+day+`"}`)
		}
		if meter != "" {
			p.setting("meter", `{"which":"tach","reading":{"v":"`+meter+`","u":"h"}}`)
		}
		return p
	}
	named := begun("7", "541.6", "2025-03-12")
	named.setting("serial", `"0711"`)
	called := begun("7", "541.6", "2025-03-12")
	called.setting("serial", `"0711"`)
	called.setting("name", `"B-0711"`)
	model := begun("9", "12.0", "2025-03-12")
	model.setting("model", `"T9-C"`)
	edited := begun("7", "541.6", "2025-03-12")
	edited.setting("meter", `{"which":"tach","reading":{"v":"600.0","u":"h"}}`, Key{"aa", 3})
	for _, c := range []struct {
		p           *phone
		name, model string
	}{
		{begun("7", "541.6", "2025-03-12"), "7-cylinder, tach 541.6", "Begun 12 March 2025"},
		{begun("9", "541.6", "2025-03-12"), "9-cylinder, tach 541.6", "Begun 12 March 2025"},
		{begun("7", "0", "2025-03-13"), "7-cylinder, tach 0", "Begun 13 March 2025"},
		{begun("7", "", ""), "7-cylinder", ""},
		{begun("", "", ""), "Engine", ""},
		{model, "9-cylinder, tach 12.0", "T9-C, begun 12 March 2025"},
		{edited, "7-cylinder, tach 541.6", "Begun 12 March 2025"},
		{named, "0711", ""},
		{called, "B-0711", ""},
	} {
		v := Open(c.p.records).View("", Now{Day: "2025-05-01"})
		if v.Name != c.name || v.Model != c.model || v.Named != (c.p == named || c.p == called) {
			t.Errorf("%q, %q; want %q, %q", v.Name, v.Model, c.name, c.model)
		}
	}
	if got := Open(begun("7", "541.6", "2025-03-12").records).View("", Now{}).Words.Shop[0]; got != "This is about an unnamed engine with 7 cylinders." {
		t.Errorf("read to the shop: %q", got)
	}
}
