package sums

import (
	"strings"

	"linkrod/radial/quantity"
)

// A box for several figures, with spaces or commas between.

func items(typed string) []string {
	return strings.FieldsFunc(typed, func(r rune) bool { return r == ' ' || r == ',' || r == ';' || r == '\n' || r == '\t' || r == '\u2009' })
}

func decimals(typed string) ([]quantity.Decimal, error) {
	var list []quantity.Decimal
	for _, item := range items(typed) {
		d, err := quantity.ParseNumber(strings.TrimSuffix(item, "%"))
		if err != nil {
			return nil, err
		}
		list = append(list, d)
	}
	switch {
	case len(list) == 0:
		return nil, refuse("There is no figure in “" + short(typed) + "”. Type figures with spaces between.")
	case len(list) > 100:
		return nil, refuse("These are more than a hundred figures. Type fewer.")
	}
	return list, nil
}

// listed says how many there are, and the ends of them.
func listed(typed string) (string, error) {
	list, err := decimals(typed)
	if err != nil {
		return "", err
	}
	s := quantity.Whole(len(list)).Words() + " figures: "
	if len(list) == 1 {
		s = "one figure: "
	}
	for i, d := range list {
		if i > 0 {
			s += ", "
		}
		s += d.Words()
	}
	return s, nil
}

// measures is the figures of a box, in a unit; none if it is empty.
func (p *Page) measures(name string, u quantity.Unit) []quantity.Measured {
	var list []quantity.Measured
	if p.has(name) {
		all, _ := decimals(p.text(name)) // read once already
		for _, d := range all {
			list = append(list, quantity.Measured{Value: d, Unit: u})
		}
	}
	return list
}

// wholes is some whole numbers from 1 to 1000.
func wholes(typed string) ([]int, error) {
	all, err := decimals(typed)
	if err != nil {
		return nil, err
	}
	var list []int
	for _, d := range all {
		if !d.IsWhole() || d.Sign() <= 0 || d.Compare(quantity.Whole(1000)) > 0 {
			return nil, refuse("“" + d.Show() + "” is not a whole number from 1 to 1000.")
		}
		list = append(list, int(d.Float64()))
	}
	return list, nil
}

func floats(list []int) []float64 {
	var out []float64
	for _, n := range list {
		out = append(out, float64(n))
	}
	return out
}
