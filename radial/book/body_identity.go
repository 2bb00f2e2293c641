package book

import "linkrod/sync/plain"

// Looked is an identity look: what somebody saw on the engine, feature by feature, and
// what that came to. It names no engine: it says how likely each was, and what spoke
// against it.
type Looked struct {
	Shelf     string // whose engine cards it was told by
	Seen      []Seen
	Base      string // the model that most parts fit, "" for none
	Mixed     bool   // and not all of them
	Statement string
	Stamp
}

// Seen is what came of looking at one feature.
type Seen struct {
	Feature  string // its key on the shelf
	Name     string // as a sentence names it
	State    string // seen, cant, two_ways
	Values   []string
	Evidence []string // photographs by their names
	Approval string   // the document that allows it to be so
}

func (*Looked) Type() string { return "identity" }

func (o *Looked) read(r *reader) {
	o.Shelf, o.Base, o.Mixed, o.Statement = r.text("shelf"), r.text("base"), r.flag("mixed"), r.text("statement")
	for _, v := range r.list("looked") {
		in := &reader{Value: v}
		o.Seen = append(o.Seen, Seen{in.text("feature"), in.text("name"), in.text("state"), in.texts("values"), in.texts("evidence"), in.text("approval")})
		if in.err != nil && r.err == nil {
			r.err = in.err
		}
	}
	o.Stamp.read(r)
}

func (o *Looked) write(w *plain.Writer) {
	putText(w, "shelf", o.Shelf)
	w.Open("looked", '[')
	for _, s := range o.Seen {
		w.Begin('{')
		w.Text("feature", s.Feature)
		putText(w, "name", s.Name)
		w.Text("state", s.State)
		putTexts(w, "values", s.Values)
		putTexts(w, "evidence", s.Evidence)
		putText(w, "approval", s.Approval)
		w.End('}')
	}
	w.End(']')
	putText(w, "base", o.Base)
	putFlag(w, "mixed", o.Mixed)
	putText(w, "statement", o.Statement)
	o.Stamp.write(w)
}

func (o *Looked) Check() error {
	if len(o.Seen) == 0 {
		return Wrong("Nothing was looked at. A look has at least one feature in it.")
	}
	for _, s := range o.Seen {
		switch s.State {
		case "seen", "cant", "two_ways":
		default:
			return Wrong("What came of looking at “" + s.Feature + "”? It is seen, cant or two_ways.")
		}
		if s.State == "seen" && len(s.Values) != 1 {
			return Wrong("“" + s.Feature + "” was seen, and it is not said as what.")
		}
	}
	return o.Stamp.check()
}

func (o *Looked) Say() string {
	if o.Statement == "" {
		return "Engine looked at: " + counted(len(o.Seen), "feature", "features")
	}
	return "Engine looked at. " + o.Statement
}

// Deviation is a part that is not of the model the engine is called, as found. A later
// one for the same part, by replacing it, carries the decision which sheets govern it, or
// that the part is gone.
type Deviation struct {
	Part     string   // "barrels"
	Of       string   // the model it differs from
	Found    string   // "bore 5.375 in"
	Wants    string   // what that model has
	Fits     []string // models it is as on
	Evidence []string
	Approval string // the paper that allows it, "" for none seen
	Governs  string // the model whose sheets somebody decided on
	Decided  string // who, in which paper
	Gone     bool   // the part was changed: no deviation any more
	Reason   string
	Stamp
}

func (*Deviation) Type() string { return "deviation" }

func (o *Deviation) read(r *reader) {
	o.Part, o.Of, o.Found, o.Wants, o.Fits = r.text("part"), r.text("of"), r.text("found"), r.text("wants"), r.texts("fits")
	o.Evidence, o.Approval = r.texts("evidence"), r.text("approval")
	o.Governs, o.Decided, o.Gone, o.Reason = r.text("governs"), r.text("decided"), r.flag("gone"), r.text("reason")
	o.Stamp.read(r)
}

func (o *Deviation) write(w *plain.Writer) {
	putText(w, "part", o.Part)
	putText(w, "of", o.Of)
	putText(w, "found", o.Found)
	putText(w, "wants", o.Wants)
	putTexts(w, "fits", o.Fits)
	putTexts(w, "evidence", o.Evidence)
	putText(w, "approval", o.Approval)
	putText(w, "governs", o.Governs)
	putText(w, "decided", o.Decided)
	putFlag(w, "gone", o.Gone)
	putText(w, "reason", o.Reason)
	o.Stamp.write(w)
}

func (o *Deviation) Check() error {
	switch {
	case o.Part == "":
		return Wrong("Which part is from elsewhere?")
	case o.Found == "":
		return Wrong("What was found on the " + o.Part + "?")
	case o.Governs != "" && o.Decided == "":
		return Wrong("Who decided that the " + o.Governs + " sheets govern the " + o.Part + ", and in which paper?")
	case o.Gone && o.Reason == "":
		return Wrong("Why is it no deviation any more? The reason stays with the line.")
	}
	return o.Stamp.check()
}

func (o *Deviation) Say() string {
	if o.Gone {
		return "No deviation any more: " + o.Part + ". " + o.Reason
	}
	said := "Deviation: " + o.Part + ", " + o.Found
	if len(o.Fits) > 0 {
		said += ", as on " + list(o.Fits, "or")
	}
	if o.Approval == "" {
		said += ", no approval seen"
	} else {
		said += ", approval " + o.Approval
	}
	if o.Governs != "" {
		said += ". The " + o.Governs + " sheets govern it: " + o.Decided
	}
	return said
}
