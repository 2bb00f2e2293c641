package book

import "linkrod/sync/heads"

// A setting is never overwritten: an edit is a new entry that names the ones it
// replaces. What nobody replaced is a head. One head is the value. Two heads
// that differ mean that two people edited without having seen each other: both
// stay visible, nothing rests on either, and a person settles it by an entry
// that names them all, with a reason.

// settle finds the heads of every setting; package heads has the rule.
func (b *Book) settle() {
	b.heads = map[string][]*line{}
	var edits []*line // what is read and not struck out
	var changes []heads.Change
	at := map[Key]int{}
	for _, l := range b.lines {
		if s, ok := l.body.(*Setting); ok && l.used() {
			at[l.key] = len(edits)
			edits = append(edits, l)
			changes = append(changes, heads.Change{Of: s.Field})
		}
	}
	for i, l := range edits {
		for _, ref := range l.Entry.Refs {
			if j, ok := at[ref]; ok {
				changes[i].Over = append(changes[i].Over, j)
			}
		}
	}
	for j, by := range heads.Replaced(changes) {
		l := edits[j]
		for _, i := range by {
			l.replaced = append(l.replaced, edits[i])
			edits[i].replaces = append(edits[i].replaces, l)
		}
		if len(by) == 0 {
			b.heads[l.setting().Field] = append(b.heads[l.setting().Field], l)
		}
	}
}

// setting is a setting's head, as it was read.
func (l *line) setting() *Setting { return l.body.(*Setting) }

// disagreed reports that a setting has two values and no decision.
func (b *Book) disagreed(name string) bool {
	heads := b.heads[name]
	for _, h := range heads[min(1, len(heads)):] {
		if !h.setting().same(heads[0].setting()) {
			return true
		}
	}
	return false
}

// value is what a setting is, if it is on file and nobody disagrees.
func (b *Book) value(name string) (v Value, ok bool) {
	if heads := b.heads[name]; len(heads) > 0 && !b.disagreed(name) {
		v = heads[0].setting().is
	}
	return v, v.given()
}

// text is the words of a setting, "" when not on file.
func (b *Book) text(name string) string {
	v, _ := b.value(name)
	return v.Text
}
