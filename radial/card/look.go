package card

import (
	"linkrod/radial/identify"
	"linkrod/sync/plain"
)

// ReadLooked reads what was seen: [{"feature","state":"seen|cant|two_ways","values":[…],
// "evidence":[…],"approval"}].
func ReadLooked(v plain.Value) []identify.Observation {
	var all []identify.Observation
	for _, e := range v.Items() {
		o := identify.Observation{Feature: e.Get("feature").Text(), Values: texts(e.Get("values")), Evidence: texts(e.Get("evidence")), Approval: e.Get("approval").Text()}
		switch e.Get("state").Text() {
		case "seen":
			o.State = identify.Observed
		case "cant":
			o.State = identify.NotVisible
		case "two_ways":
			o.State = identify.Contradictory
		}
		all = append(all, o)
	}
	return all
}

// WriteLook writes what a guided look has come to, and what to look at next:
//
//	{"next":Question|absent, "others":[Question], "hidden":[Question],
//	 "candidates":[{"name","share","chance","agrees":[],"silent":[],"against":[{feature,seen,wants,evidence}]}],
//	 "none":{"share","chance"}, "open":[{feature,seen}], "base","mixed",
//	 "parts":[{name,fits,features,deviates,approvals}], "statement",
//	 "drafts":[{"kind":"identity"|"deviation","draft"}]}   as book.draft takes them, to be saved
//
// A Question is {"feature","name","part","how","kind":"choice|figure","values":[…],"unit",
// "bits","why"}.
func WriteLook(w *plain.Writer, shelf string, looked plain.Value, r identify.Result) {
	w.Begin('{')
	shown := false
	question := func(name string, l identify.Look) {
		f := l.Feature
		w.Open(name, '{')
		w.Text("feature", f.Key)
		w.Text("name", f.Name)
		w.Text("part", f.Part)
		w.Text("how", f.How)
		if len(f.Values) > 0 {
			w.Text("kind", "choice")
		} else {
			w.Text("kind", "figure")
		}
		w.Texts("values", f.Values)
		w.Text("unit", string(f.Unit))
		w.Number("bits", l.Bits)
		w.Text("why", why(r, l))
		w.End('}')
	}
	for _, l := range r.Looks {
		if !l.Hidden {
			question("next", l)
			shown = true
			break
		}
	}
	several := func(name string, take func(identify.Look) bool) {
		w.Open(name, '[')
		for _, l := range r.Looks {
			if take(l) {
				question("", l)
			}
		}
		w.End(']')
	}
	first := shown
	several("others", func(l identify.Look) bool {
		if first && !l.Hidden {
			first = false
			return false
		}
		return !l.Hidden
	})
	several("hidden", func(l identify.Look) bool { return l.Hidden })
	w.Open("candidates", '[')
	for _, s := range r.Ranked {
		w.Begin('{')
		w.Text("name", s.Name)
		share(w, s.Share)
		w.Texts("agrees", s.Agrees)
		w.Texts("silent", s.Silent)
		against(w, s.Against)
		w.End('}')
	}
	w.End(']')
	w.Open("none", '{')
	share(w, r.Others)
	w.End('}')
	w.Open("open", '[')
	for _, o := range r.Open {
		w.Begin('{')
		w.Text("feature", o.Feature)
		w.Texts("seen", o.Seen)
		w.End('}')
	}
	w.End(']')
	w.Text("base", r.Build.Base)
	w.Bool("mixed", r.Build.Mixed)
	w.Open("parts", '[')
	for _, p := range r.Build.Parts {
		w.Begin('{')
		w.Text("name", p.Name)
		w.Texts("fits", p.Fits)
		w.Texts("features", p.Features)
		w.Bool("deviates", p.Deviates)
		w.Texts("approvals", p.Approvals)
		w.End('}')
	}
	w.End(']')
	w.Text("statement", r.Words())
	drafts(w, shelf, looked, r)
	w.End('}')
}

// drafts is what a book keeps of a look: the look, and each part from elsewhere.
func drafts(w *plain.Writer, shelf string, looked plain.Value, r identify.Result) {
	w.Open("drafts", '[')
	w.Begin('{')
	w.Text("kind", "identity")
	w.Open("draft", '{')
	w.Text("shelf", shelf)
	w.Open("looked", '[')
	for _, v := range looked.Items() {
		w.Begin('{')
		w.Text("name", FeatureName(v.Get("feature").Text()))
		for i, n := range v.Names() {
			w.Raw(n, v.Items()[i].Raw())
		}
		w.End('}')
	}
	w.End(']')
	w.Text("base", r.Build.Base)
	w.Bool("mixed", r.Build.Mixed)
	w.Text("statement", r.Words())
	w.End('}')
	w.End('}')
	for _, p := range r.Build.Parts {
		if !p.Deviates || !r.Build.Mixed {
			continue
		}
		found, wants := differs(r, p)
		w.Begin('{')
		w.Text("kind", "deviation")
		w.Open("draft", '{')
		w.Text("part", p.Name)
		w.Text("of", r.Build.Base)
		w.Text("found", found)
		w.Text("wants", wants)
		w.Texts("fits", p.Fits)
		w.Texts("evidence", p.Evidence)
		w.Text("approval", list(p.Approvals, "and"))
		w.End('}')
		w.End('}')
	}
	w.End(']')
}

func share(w *plain.Writer, p float64) {
	w.Number("share", p)
	w.Text("chance", identify.Chance(p))
}

func against(w *plain.Writer, list []identify.Contradiction) {
	w.Open("against", '[')
	for _, c := range list {
		w.Begin('{')
		w.Text("feature", c.Feature)
		w.Text("seen", c.Seen)
		w.Text("wants", c.Wants)
		w.Texts("evidence", c.Evidence)
		w.End('}')
	}
	w.End(']')
}

// why is why this is looked at next.
func why(r identify.Result, l identify.Look) string {
	if len(r.Ranked) < 2 {
		return ""
	}
	return "Of what is still to be looked at, it tells most between " + r.Ranked[0].Name + " and " + r.Ranked[1].Name + " for the work it takes."
}

// differs is what was found on a part and what the base has there, for a deviation.
func differs(r identify.Result, p identify.Part) (found, wants string) {
	if !p.Deviates {
		return "", ""
	}
	var seen, has_ []string
	for _, s := range r.Ranked {
		if s.Name != r.Build.Base {
			continue
		}
		for _, c := range s.Against {
			if has(p.Features, c.Feature) {
				seen = append(seen, c.Feature+" "+c.Seen)
				has_ = append(has_, c.Wants)
			}
		}
	}
	return list(seen, "and"), list(has_, "and")
}
