// Package heads is the rule of values that several people can edit without
// having seen each other. It is the one place of it: a book uses it for what is
// on file, and the simulation holds it against a slower telling of the same.
//
// A change of a value names the changes it replaces, edited or settled alike.
// What nobody replaced is a head. One head is the value; two that differ are an
// open disagreement, and a person settles it by a change that names them all.
//
//	H1  Every change is a head, or replaced by one that leads to a head: none
//	    becomes unreachable, whatever was named.
//	H2  The heads don't depend on the order the changes are given in, as long
//	    as nobody named what could not be known (a circle).
//	H3  A change of another value, or one that isn't there, is not replaced.
//	H4  Settling while another change arrives loses neither: the settlement and
//	    the change it did not name are both heads.
package heads

// Change is one entry that sets, edits or settles a value.
type Change struct {
	Of   string // which value
	Over []int  // the changes it names, by their index; out of range: not here
}

// Replaced says for each change by which others it was replaced; by none: it
// is a head. changes stand in the order of the ledger.
func Replaced(changes []Change) [][]int {
	by := make([][]int, len(changes))
	for i, c := range changes {
		for _, j := range c.Over {
			if counts(changes, i, j) && (j < i || !leads(changes, j, i, nil)) {
				by[j] = append(by[j], i)
			}
		}
	}
	return by
}

// counts reports that change i may replace change j at all (H3).
func counts(changes []Change, i, j int) bool {
	return j >= 0 && j < len(changes) && j != i && changes[j].Of == changes[i].Of
}

// leads reports that change i names change j, directly or through others. Only
// a change that names a later one is asked: after a restore that is honest, and
// in a circle the earlier of the two gives way (H1).
func leads(changes []Change, i, j int, seen map[int]bool) bool {
	if seen == nil {
		seen = map[int]bool{}
	}
	for _, k := range changes[i].Over {
		if k == j {
			return true
		}
		if counts(changes, i, k) && !seen[k] {
			seen[k] = true
			if leads(changes, k, j, seen) {
				return true
			}
		}
	}
	return false
}
