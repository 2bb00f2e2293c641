package identify

import "slices"

// Build is the engine part by part: which models each part that was looked at could have
// come from. Parts get swapped; the engine as plated and the engine as found are two
// things, and limits follow what was found.
type Build struct {
	Parts []Part
	// Base is the model that most parts fit, the likelier one if two do: what the
	// engine would be called, with the rest as deviations. "" if nothing was seen.
	Base string
	// Mixed: no one model fits all its parts, and each part fits one.
	Mixed bool
}

// Part is a part that something was seen on.
type Part struct {
	Name      string
	Fits      []string // the models that have all that was seen on it
	Features  []string // what was seen, by name
	Deviates  bool     // it does not fit the base
	Approvals []string // documents for it, as far as any were seen
	Evidence  []string
}

// build is the engine part by part. The serial number is on no part but a plate.
func (c Catalogue) build(seen []look, fits []fit) Build {
	var b Build
	for k, f := range c.features {
		if seen[k].State != Observed {
			continue
		}
		i := slices.IndexFunc(b.Parts, func(p Part) bool { return p.Name == f.Part })
		if i < 0 {
			i = len(b.Parts)
			b.Parts = append(b.Parts, Part{Name: f.Part})
		}
		p := &b.Parts[i]
		p.Features = append(p.Features, f.Name)
		p.Evidence = append(p.Evidence, seen[k].Evidence...)
		if a := seen[k].Approval; a != "" && !slices.Contains(p.Approvals, a) {
			p.Approvals = append(p.Approvals, a)
		}
	}
	most, share, every := 0, 0.0, len(b.Parts) > 0
	for i, m := range c.models {
		n := 0
		for k := range b.Parts {
			if c.partFits(m, b.Parts[k].Name, seen) {
				b.Parts[k].Fits = append(b.Parts[k].Fits, m.Name)
				n++
			}
		}
		if n > most || n == most && n > 0 && fits[i].Share > share {
			most, share, b.Base = n, fits[i].Share, m.Name
		}
	}
	for k, p := range b.Parts {
		b.Parts[k].Deviates = !slices.Contains(p.Fits, b.Base)
		every = every && len(p.Fits) > 0
	}
	b.Mixed = every && most < len(b.Parts)
	return b
}

// partFits reports that one of the model's cells has all that was seen on a part.
func (c Catalogue) partFits(m model, part string, seen []look) bool {
	return slices.ContainsFunc(m.cells, func(x cell) bool {
		for k, f := range c.features {
			if f.Part != part || seen[k].State != Observed {
				continue
			}
			if ok, silent := seen[k].fits(f, x); !ok && !silent {
				return false
			}
		}
		return true
	})
}
