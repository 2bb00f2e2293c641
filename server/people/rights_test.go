package people

import (
	"fmt"
	"strings"
	"testing"
)

// Ensure the table of rights says what the design says (a book's owner,
// mechanic, helper, shop and reader; a shelf's curator and reader; the host,
// who admits and never reads or alters), cell by cell.
func TestRights(t *testing.T) {
	want := strings.TrimSpace(`
                  owner mechanic helper shop reader curator stranger host
read              yes   yes      yes    yes  yes    yes     -        -
write             yes   yes      yes    yes  -      yes     -        -
share             yes   -        -      -    -      yes     -        -
see aside         yes   yes      yes    yes  yes    yes     -        yes
see all set aside yes   -        -      -    -      yes     -        yes
admit             -     -        -      -    -      -       -        yes
see books         -     -        -      -    -      -       -        yes
see people        -     -        -      -    -      -       -        yes
remove            -     -        -      -    -      -       -        yes
signs             yes   yes      -      yes  -      yes     -        -
`)
	columns := strings.Fields(strings.SplitN(want, "\n", 2)[0])
	var got strings.Builder
	line := func(name string, cell func(Role, bool) bool) {
		row := fmt.Sprintf("%-18s", name)
		for _, c := range columns {
			role, host := Role(c), c == "host"
			if host || c == "stranger" {
				role = ""
			}
			word := "-"
			if cell(role, host) {
				word = "yes"
			}
			row += fmt.Sprintf("%-*s ", len(c), word)
		}
		fmt.Fprintln(&got, strings.TrimRight(row, " "))
	}
	fmt.Fprintln(&got, strings.SplitN(want, "\n", 2)[0])
	for _, act := range []Act{Read, Write, Share, SeeAside, SeeAsides, Admit, SeeBooks, SeePeople, Remove} {
		line(string(act), func(r Role, host bool) bool { return May(r, host, act) })
	}
	line("signs", func(r Role, host bool) bool { return !host && r.Signs() })
	if g := strings.TrimSpace(got.String()); g != want {
		t.Errorf("the table is\n%s\nwant\n%s", g, want)
	}
	if len(rights) != 9 {
		t.Errorf("%d acts, and 9 in the test", len(rights))
	}
	if May(Owner, false, "fly") || May(Owner, true, "") {
		t.Error("an act that is none is allowed")
	}
}

// Ensure both kinds of book have their roles, and each kind's first may share
// it: a book must never be without.
func TestRolesOfBooks(t *testing.T) {
	if got := fmt.Sprint(Engine.Roles(), Shelf.Roles()); got != "[owner mechanic helper shop reader] [curator reader]" {
		t.Errorf("roles %s", got)
	}
	for _, of := range []Of{Engine, Shelf} {
		if !May(of.Roles()[0], false, Share) || !of.Known() {
			t.Errorf("%s: nobody may share it", of)
		}
	}
	if Of("hangar").Known() || Of("").Known() {
		t.Error("another kind of book is known")
	}
}
