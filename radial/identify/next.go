package identify

import (
	"math"
	"slices"
	"sort"
)

// Look is something to look at next, and how much it is expected to tell between the first
// model and the second, or all that share the second place.
//
// That is the expected information of D. V. Lindley, "On a measure of the information
// provided by an experiment", Annals of Mathematical Statistics 27(4), 1956, p. 986, which
// is the mutual information of C. E. Shannon (1948) between what is seen and which of the
// models it is (from memory):
//
//	I = Σ_m p(m) Σ_v p(v|m) log₂( p(v|m) / p(v) ),   p(v) = Σ_m p(m) p(v|m)
//
// p(m) is the share of each, made to add up to 1; p(v|m) spreads 1 − d evenly over what
// the model has there and d over the rest, d being the feature's doubt. Choosing what to
// look at can afford to take variants as equally common. The shares do not.
type Look struct {
	Feature Feature
	Bits    float64 // 0 for nothing, 1 for all there is to tell between two
	// Hidden: it was looked for and is not visible. It would tell if it were uncovered.
	Hidden bool
}

// next is the features not yet seen, by what a look tells for the work of looking; those
// that are hidden last, those that tell nothing not at all. Of features that are the same
// work the one that tells most comes first.
func (c Catalogue) next(seen []look, ranked []fit) []Look {
	p := rivals(ranked)
	var list []Look
	for k, f := range c.features {
		if s := seen[k].State; s == Observed || s == Contradictory {
			continue
		}
		// Rounded, so that what tells as much by another sum is as much.
		if bits := math.Round(f.tells(ranked, p)*1e9) / 1e9; bits > 0 {
			list = append(list, Look{f.Feature, bits, seen[k].State == NotVisible})
		}
	}
	sort.SliceStable(list, func(i, j int) bool {
		a, b := list[i], list[j]
		if a.Hidden != b.Hidden {
			return b.Hidden
		}
		return a.Bits/a.Feature.Effort > b.Bits/b.Feature.Effort
	})
	return list
}

// rivals is the shares of the first model, the second and all that share the second
// place, made to add up to 1.
func rivals(ranked []fit) []float64 {
	var p []float64
	sum := 0.0
	for i, x := range ranked {
		if i > 1 && x.log < ranked[1].log-1e-9 {
			break
		}
		p = append(p, math.Exp(x.log-ranked[0].log))
		sum += p[i]
	}
	for i := range p {
		p[i] /= sum
	}
	return p
}

// tells is the expected information of a look.
func (f feature) tells(ranked []fit, p []float64) (bits float64) {
	seen := make([]float64, f.count())
	given := make([][]float64, len(p))
	for m := range p {
		given[m] = f.chances(ranked[m].best)
		for v, chance := range given[m] {
			seen[v] += p[m] * chance
		}
	}
	for m := range p {
		for v, chance := range given[m] {
			bits += p[m] * chance * math.Log2(chance/seen[v])
		}
	}
	return bits
}

// chances is how likely each outcome is to be seen on a model in the given cells: 1 − d
// spread over what it has, d over the rest, and evenly over all where it is silent or has
// all. The last outcome of a figure is none of those known.
func (f feature) chances(cells []cell) []float64 {
	n := f.count()
	has := make([]bool, n)
	known := 0
	for _, x := range cells {
		for v := range n {
			if !has[v] && f.may(v, x.has[f.index]) {
				has[v] = true
				known++
			}
		}
	}
	list := make([]float64, n)
	for v := range list {
		switch {
		case known == 0 || known == n:
			list[v] = 1 / float64(n)
		case has[v]:
			list[v] = (1 - f.Doubt) / float64(known)
		default:
			list[v] = f.Doubt / float64(n-known)
		}
	}
	return list
}

// may reports that an outcome would be taken for one of those a model has.
func (f feature) may(v int, has []int) bool {
	if !f.figure() {
		return slices.Contains(has, v)
	}
	return v < len(f.outcomes) && slices.ContainsFunc(has, func(k int) bool { return f.outcomes[k].holds(f.outcomes[v].nominal) })
}
