package book

// An engine is called by its name, else by its serial number. One that has
// neither must still be told from the next: by its cylinders, what its meter
// read when the book was begun, and the day of that.

// name is what the book is called.
func (b *Book) name() string {
	if n := b.ownName(); n != "" {
		return n
	}
	name := "Engine"
	if n := b.engine.cylinders; n > 0 {
		name = itoa(n) + "-cylinder"
	}
	if first := b.firstOf("meter"); first != nil {
		v := first.setting().is
		name += ", " + v.Text + " " + v.M.Value.Show()
	}
	return name
}

// ownName is the name or the serial number, "" when the engine has neither.
func (b *Book) ownName() string {
	if n := b.text("name"); n != "" {
		return n
	}
	return b.text("serial")
}

// modelWords is the line under the name.
func (b *Book) modelWords() string {
	words := b.text("model")
	if b.ownName() != "" {
		return words
	}
	if first := b.firstOf("cylinders"); first != nil && first.setting().Day != "" {
		if words != "" {
			words += ", "
		}
		words += "begun " + longDay(first.setting().Day)
	}
	return capital(words)
}

// firstOf is the setting of a field that was written first, which no later edit
// changes.
func (b *Book) firstOf(field string) *line {
	for _, l := range b.lines {
		if s, ok := l.body.(*Setting); ok && l.used() && s.Field == field && s.is.given() {
			return l
		}
	}
	return nil
}
