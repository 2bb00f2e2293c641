package front

import (
	"strconv"
	"strings"
)

const identity = "identity"

// compressed lists the encodings the build makes, the better one first.
var compressed = []struct{ name, suffix string }{
	{"br", ".br"},
	{"gzip", ".gz"},
}

// choose picks an encoding we have by what the client accepts (RFC 9110,
// section 12.5.3): the highest weight wins, and the smaller form at equal
// weights. Identity is what is left when nothing else is wanted, also for a
// client that refuses it, since there is nothing else to send.
func choose(accept []string, have map[string]bool) string {
	weights := weigh(strings.Join(accept, ","))
	best, weight := identity, weights.of(identity)
	for i := len(compressed) - 1; i >= 0; i-- {
		e := compressed[i].name
		if w := weights.of(e); have[e] && w > 0 && w >= weight {
			best, weight = e, w
		}
	}
	return best
}

// weights is an Accept-Encoding header, coding to weight.
type weights map[string]float64

// of returns the weight of a coding. One that isn't named has the weight of
// "*"; without that, identity is acceptable and anything else isn't.
func (w weights) of(coding string) float64 {
	if q, ok := w[coding]; ok {
		return q
	}
	if q, ok := w["*"]; ok {
		return q
	}
	if coding == identity {
		// Acceptable, and never preferred to what was asked for by name.
		return 0.0001
	}
	return 0
}

func weigh(header string) weights {
	w := weights{}
	for part := range strings.SplitSeq(header, ",") {
		coding, parameter, _ := strings.Cut(part, ";")
		coding = strings.ToLower(strings.TrimSpace(coding))
		if coding == "" {
			continue
		}
		q := 1.0
		if text, ok := strings.CutPrefix(strings.ToLower(strings.ReplaceAll(parameter, " ", "")), "q="); ok {
			var err error
			if q, err = strconv.ParseFloat(text, 64); err != nil || q < 0 || q > 1 {
				q = 0 // a weight nobody can read is no wish
			}
		}
		w[coding] = q
	}
	return w
}
