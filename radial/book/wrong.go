package book

// Wrong is what is wrong, in a sentence for the person who can put it right.
// It is the only kind of error of this package.
type Wrong string

func (w Wrong) Error() string { return string(w) }
