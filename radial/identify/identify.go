package identify

import (
	"math"
	"sort"
)

// Result is what the observations say. It keeps everything: a model that is contradicted
// is ranked with what speaks against it, never dropped. It holds no serial number and
// nothing for a plate: who an engine is stands in its papers, and only its parts can be
// looked at.
type Result struct {
	Ranked []Standing // every model, the likeliest first
	// Others is the share of an engine that is none of the models, or built of several.
	Others float64
	Looks  []Look // what to look at next to separate the first from the second, the best first
	Build  Build  // part by part
	Open   []Open // seen two ways: what they say is open, and they are in no share
}

// Standing is how one model stands.
type Standing struct {
	Name string
	// Share is how likely it is, among the models and Others, given what was seen. It
	// goes wherever the name goes.
	Share   float64
	Agrees  []string // the features that fit, by name
	Silent  []string // those seen that nothing is known of for this model
	Against []Contradiction
}

// Contradiction is something seen that a model does not have.
type Contradiction struct {
	Feature  string // by name
	Seen     string
	Wants    string // what the model has
	Evidence []string
}

// Open is a feature that was seen two ways.
type Open struct {
	Feature  string
	Seen     []string
	Evidence []string
}

// Identify is what the observations say.
//
// It is elimination with the odds kept. Each thing seen that a model has leaves that model
// where it was; each that it does not have divides its odds:
//
//	share ∝ weight × Π (1 − d)    over what fits, or what the model is silent about
//	               × Π d          over what contradicts it
//
// d being the doubt of the feature. A model built two ways is not marked down for either,
// since nobody knows how many were built which way (the likelihood is the profile over
// its variants); features that change with the serial number are weighed together, so
// that a cell of serial numbers fits as a whole or not. An engine that is none of them
// could show anything:
//
//	share of others ∝ others × Π 1/n    n outcomes to each feature seen
//
// and so it gains with every contradiction. With models of one weight, one that nothing
// contradicts is never below one that something does, however many there are; what was
// seen consistently never discards the engine it was seen on.
func (c Catalogue) Identify(observations []Observation) (Result, error) {
	if len(c.models) == 0 {
		return Result{}, problem("family", "There are no models to tell it from. A family comes from New.")
	}
	seen, serial, err := c.looks(observations)
	if err != nil {
		return Result{}, err
	}
	fits := make([]fit, len(c.models))
	others := math.Log(c.others)
	for i, f := range c.features {
		if seen[i].State == Observed {
			others -= math.Log(float64(f.count()))
		}
	}
	if serial.State == Observed {
		others -= math.Log(float64(c.withBlocks() + 1))
	}
	weights := 0.0
	for _, m := range c.models {
		weights += m.Weight
	}
	top := others
	for i, m := range c.models {
		fits[i] = c.fit(m, seen, serial)
		fits[i].log += math.Log(m.Weight / weights * (1 - c.others))
		top = max(top, fits[i].log)
	}
	sum := math.Exp(others - top)
	for _, x := range fits {
		sum += math.Exp(x.log - top)
	}
	for i := range fits {
		fits[i].Share = math.Exp(fits[i].log-top) / sum
	}
	r := Result{Others: math.Exp(others-top) / sum, Open: c.open(seen, serial), Build: c.build(seen, fits)}
	sort.SliceStable(fits, func(i, j int) bool { return fits[i].Share > fits[j].Share })
	for _, x := range fits {
		r.Ranked = append(r.Ranked, x.Standing)
	}
	r.Looks = c.next(seen, fits)
	return r, nil
}

// fit is a Standing on the way.
type fit struct {
	Standing
	log  float64
	best []cell // those that fit best
}

// withBlocks is how many models say which serial numbers they have.
func (c Catalogue) withBlocks() (n int) {
	for _, m := range c.models {
		if m.blocks.Known() {
			n++
		}
	}
	return n
}

// fit is how the best of a model's cells fits.
func (c Catalogue) fit(m model, seen []look, serial look) fit {
	cells := m.cells
	own := serial.State == Observed && m.blocks.Contains(serial.serial)
	if own { // its own cell first, to be told about if another fits no better
		cells = append([]cell{m.cellAt(serial.serial, len(c.features))}, cells...)
	}
	best := fit{log: math.Inf(-1)}
	for i, x := range cells {
		log := 0.0
		for k, f := range c.features {
			if seen[k].State != Observed {
				continue
			}
			if ok, silent := seen[k].fits(f, x); ok || silent {
				log += math.Log1p(-seen[k].doubt)
			} else {
				log += math.Log(seen[k].doubt)
			}
		}
		if serial.State == Observed {
			if !m.blocks.Known() || own && i == 0 {
				log += math.Log1p(-serial.doubt)
			} else {
				log += math.Log(serial.doubt)
			}
		}
		switch {
		case log > best.log+1e-9:
			best = fit{log: log, best: []cell{x}}
			best.Standing = c.standing(m, x, seen, serial, own && i == 0)
		case log > best.log-1e-9:
			best.best = append(best.best, x)
		}
	}
	return best
}

// standing is what fits a cell and what does not.
func (c Catalogue) standing(m model, x cell, seen []look, serial look, itsSerial bool) Standing {
	s := Standing{Name: m.Name}
	for k, f := range c.features {
		if seen[k].State != Observed {
			continue
		}
		switch ok, silent := seen[k].fits(f, x); {
		case silent:
			s.Silent = append(s.Silent, f.Name)
		case ok:
			s.Agrees = append(s.Agrees, f.Name)
		default:
			s.Against = append(s.Against, Contradiction{f.Name, seen[k].shown[0], m.wants(f), seen[k].Evidence})
		}
	}
	const name = "serial number"
	switch {
	case serial.State != Observed:
	case !m.blocks.Known():
		s.Silent = append(s.Silent, name)
	case itsSerial:
		s.Agrees = append(s.Agrees, name)
	default:
		s.Against = append(s.Against, Contradiction{name, serial.shown[0], m.blocks.String(), serial.Evidence})
	}
	return s
}

// open is what was seen two ways.
func (c Catalogue) open(seen []look, serial look) []Open {
	var list []Open
	for k, f := range c.features {
		if seen[k].State == Contradictory {
			list = append(list, Open{f.Name, seen[k].shown, seen[k].Evidence})
		}
	}
	if serial.State == Contradictory {
		list = append(list, Open{"serial number", serial.shown, serial.Evidence})
	}
	return list
}
