package sums

import (
	"linkrod/radial/lock"
	"linkrod/radial/ring"
)

// gear says a gear ratio back.
func gear(typed string) (string, error) {
	g, err := lock.ParseGear(typed)
	if err != nil {
		return "", err
	}
	if g == lock.Direct {
		return "direct", nil
	}
	return "the crank turns " + g.String() + " times for one turn of the propeller", nil
}

// gear is the gear of the box of that name, direct if it is empty.
func (p *Page) gear() ring.Ratio {
	if !p.has("gear") {
		return lock.Direct
	}
	g, _ := lock.ParseGear(p.text("gear")) // it was read once already
	return g
}
