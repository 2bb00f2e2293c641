package card

import (
	"strconv"
	"strings"

	"linkrod/sync/plain"
)

// Placed is a figure with where it stands on its card and what it is about.
type Placed struct {
	At    string // JSON pointer
	Label string
	Figure
}

// Figures is every number of a card, in its order.
func Figures(c Card) []Placed {
	var all []Placed
	placed("/body", c.Body, "", "", &all)
	return all
}

func placed(at string, v plain.Value, of, src string, all *[]Placed) {
	src = inner(v, src)
	if id := v.Get("id").Text(); id != "" {
		of = labelOf(v.Get("label").Text(), id)
	}
	if isFigure(v) {
		*all = append(*all, Placed{at, capital(of), readFigure(v, src)})
	}
	for i, e := range v.Items() {
		switch {
		case e.Kind() == plain.Text:
		case v.Kind() == plain.List:
			placed(at+"/"+strconv.Itoa(i), e, of, src, all)
		default:
			in, n := of, v.Names()[i]
			if isFigure(e) && e.Get("id").Text() == "" {
				in = strings.TrimPrefix(of+", "+labelOf("", n), ", ")
			}
			placed(at+"/"+n, e, in, src, all)
		}
	}
}
