package book

import "linkrod/radial/quantity"

// Work that changes what the engine is, and what somebody has to come back to.

var fitted = Kind{Type: "cylinder_fitted", Title: "Cylinder fitted", Boxes: []Box{
	{Name: "cyl", Label: "Position", Is: Count, Need: "In which position?"},
	{Name: "serial", Label: "Its serial number", Is: Words, Need: "Which cylinder? Its own serial or tag number keeps its past with it."},
	{Name: "state", Label: "It came", Is: OneOf, Of: "new=new|overhauled=overhauled|used=used, as it was|again=the same one again|unknown=not known"},
	{Name: "past", Label: "Its hours before", Unit: quantity.UnitH, Low: "0", High: "6000", Hint: "Left empty they are not known, which is never 0"},
	{Name: "from", Label: "From", Is: Words, Hint: "The engine or shop it comes from"},
	{Name: "tag", Label: "Tag or work order", Is: Words},
	{Name: "sheet", Label: "Limits used", Is: Words, Hint: "Which sheet, and who named it"},
	{Name: "gaps", Label: "Ring gaps", Is: Words},
	{Name: "honed", Label: "Barrel honed", Is: YesNo},
	{Name: "approval", Label: "Approval", Is: Words},
	{Name: "again", Label: "Hold-down looked at again", Is: Words, Hint: "first run, 5, 25: hours after fitting; left empty, the torque card's"},
}, check: func(f *Facts) error {
	if f.text("state") == "overhauled" && f.text("tag") == "" {
		return Wrong("“Overhauled” has a legal meaning. Which tag or work order says so?")
	}
	return cylinderIn("cyl")(f)
}, say: func(f *Facts) string {
	s := "Cylinder " + f.text("serial") + " fitted as number " + f.text("cyl")
	if st := f.text("state"); st != "" {
		s += ", " + wordOf(f.Kind.Boxes[2].Of, st)
	}
	if p := f.get("past"); p.given() {
		s += ", " + short(p.M) + " before"
	} else {
		s += ", its hours before not known"
	}
	return s + f.rest("cyl", "serial", "state", "past")
}}

var removed = Kind{Type: "cylinder_removed", Title: "Cylinder removed", Boxes: []Box{
	{Name: "cyl", Label: "Position", Is: Count, Need: "From which position?"},
	{Name: "serial", Label: "Its serial number", Is: Words},
	{Name: "why", Label: "Why", Is: Words, Need: "Why did it come off?"},
	{Name: "to", Label: "Went to", Is: Words},
}, check: cylinderIn("cyl"), say: func(f *Facts) string {
	s := "Cylinder " + f.text("cyl")
	if n := f.text("serial"); n != "" {
		s += ", " + n + ","
	}
	return s + " removed: " + f.text("why") + f.rest("cyl", "serial", "why")
}}

// overhaul is what gives the engine new hours to count from. “Overhauled” and “rebuilt” have
// a legal meaning in many countries: the work named here, done to acceptable data, and tested
// (14 CFR 43.2). A ring job is none of them.
var overhaul = Kind{Type: "overhaul", Title: "Overhaul or ring job", Boxes: []Box{
	{Name: "what", Label: "What was done", Is: OneOf, Of: "re-ring=ring job|top=top overhaul|overhaul=overhaul|rebuild=rebuild", Need: "What was done: a ring job, a top overhaul, an overhaul, a rebuild?"},
	{Name: "who", Label: "Done by", Is: Words},
	{Name: "order", Label: "Work order", Is: Words},
	{Name: "apart", Label: "Disassembled", Is: YesNo},
	{Name: "cleaned", Label: "Cleaned", Is: YesNo},
	{Name: "inspected", Label: "Inspected", Is: YesNo},
	{Name: "repaired", Label: "Repaired as necessary", Is: YesNo},
	{Name: "together", Label: "Reassembled", Is: YesNo},
	{Name: "tested", Label: "Tested", Is: YesNo},
	{Name: "data", Label: "To which data", Is: Words},
	{Name: "approved", Label: "Approved by", Is: Words},
	{Name: "honed", Label: "Barrels honed", Is: YesNo},
	{Name: "gaps", Label: "Ring gaps", Is: Words},
	{Name: "again", Label: "Hold-down looked at again", Is: Words, Hint: "first run, 5, 25: hours after the work; left empty, the torque card's"},
}, check: func(f *Facts) error {
	what := f.text("what")
	if what != "overhaul" && what != "rebuild" {
		return nil
	}
	var lacks []string
	for _, name := range []string{"apart", "cleaned", "inspected", "repaired", "together", "tested"} {
		if f.text(name) != "yes" {
			lacks = append(lacks, small(f.Kind.Boxes[f.Kind.box(name)].Label))
		}
	}
	for _, name := range []string{"data", "approved"} {
		if f.text(name) == "" {
			lacks = append(lacks, small(f.Kind.Boxes[f.Kind.box(name)].Label))
		}
	}
	if len(lacks) > 0 {
		return Wrong("“" + map[string]string{"overhaul": "Overhauled", "rebuild": "Rebuilt"}[what] + "” has a legal meaning. Not said yet: " + list(lacks, "and") + ". If it was less than that, write what was done.")
	}
	return nil
}, say: func(f *Facts) string {
	s := capital(wordOf(f.Kind.Boxes[0].Of, f.text("what")))
	if w := f.text("who"); w != "" {
		s += " by " + w
	}
	if h := f.text("honed"); h == "" && f.text("what") != "rebuild" {
		s += ", honing not recorded"
	}
	return s + f.rest("what", "who")
}}

var storage = Kind{Type: "storage", Title: "Storage", Hours: Optional, Boxes: []Box{
	{Name: "act", Label: "Storage", Is: OneOf, Of: "begun=begun|checked=checked|ended=ended", Need: "Begun, checked or ended?"},
	{Name: "regime", Label: "How it is kept", Is: Words, Hint: "Which paper is followed: the two sides disagree about turning it"},
	{Name: "plugs", Label: "Dehydrator plugs", Is: Count},
	{Name: "bags", Label: "Bags and covers", Is: Count},
	{Name: "colour", Label: "Plug colour", Is: Words},
	{Name: "next", Label: "Next look", Is: Date},
}, check: func(f *Facts) error {
	if f.text("act") == "begun" && f.text("regime") == "" {
		return Wrong("How is it kept? Name the paper that is followed.")
	}
	return nil
}, say: func(f *Facts) string {
	return "Storage " + f.text("act") + f.rest("act")
}}

var inspection = Kind{Type: "inspection", Title: "Inspection", Hours: Optional, Boxes: []Box{
	{Name: "run", Label: "Walk", Is: Words, Need: "Which walk does it belong to?"},
	{Name: "act", Label: "Step", Is: OneOf, Of: "begun=begun|item=one item|interrupted=interrupted|resumed=taken up again|finished=finished", Need: "Begun, an item, interrupted or finished?"},
	{Name: "of", Label: "Inspection", Is: Words},
	{Name: "item", Label: "Item", Is: Words},
	{Name: "words", Label: "What it asks", Is: Words},
	{Name: "cyl", Label: "Cylinder", Is: Count},
	{Name: "result", Label: "Result", Is: OneOf, Of: "done=done|finding=a finding|not=not done"},
	{Name: "why", Label: "Why not, or what was found", Is: Words},
	{Name: "signer", Label: "Checked by", Is: Words},
}, check: func(f *Facts) error {
	switch {
	case f.text("act") == "begun" && f.text("of") == "":
		return Wrong("Which inspection is begun: 25 hours, 50, 100, annual?")
	case f.text("act") == "item" && f.text("item") == "":
		return Wrong("Which item of the list?")
	case f.text("act") == "item" && f.text("result") == "":
		return Wrong("Done, a finding, or not done?")
	case f.text("result") == "not" && f.text("why") == "":
		return Wrong("Not done: why? The reason stays with the item.")
	case f.text("result") == "finding" && f.text("why") == "":
		return Wrong("A finding: what was found?")
	case f.text("act") == "interrupted" && f.text("item") == "":
		return Wrong("Where did you stop? Name the item.")
	}
	return first(cylinderIn("cyl")(f))
}, say: func(f *Facts) string {
	name := orNot(f.text("of"), "Inspection")
	switch f.text("act") {
	case "item":
		s := capital(orNot(f.text("words"), f.text("item")))
		if k := f.text("cyl"); k != "" {
			s += ", cylinder " + k
		}
		s += ": " + wordOf(f.Kind.Boxes[6].Of, f.text("result"))
		if w := f.text("why"); w != "" {
			s += ", " + w
		}
		return s
	case "interrupted":
		return capital(name) + " interrupted at " + f.text("item")
	}
	return capital(name) + " " + wordOf(f.Kind.Boxes[1].Of, f.text("act"))
}}

var finding = Kind{Type: "finding", Title: "Finding", Hours: Optional, Boxes: []Box{
	{Name: "words", Label: "What was found", Is: Words},
	{Name: "cyl", Label: "Cylinder", Is: Count},
	{Name: "grave", Label: "How grave", Is: OneOf, Of: "note=worth noting|watch=watch it|before=before the next flight|stop=nothing turns it"},
	{Name: "look_hours", Label: "Look again at", Unit: quantity.UnitH},
	{Name: "look_day", Label: "Look again on", Is: Date},
	{Name: "asked", Label: "Asked", Is: Words},
	{Name: "closes", Label: "Closes the finding", Is: Ref},
	{Name: "done", Label: "What was done about it", Is: Words},
	{Name: "photo", Label: "Photographs", Is: Photos},
}, check: func(f *Facts) error {
	switch {
	case f.text("closes") != "" && f.text("done") == "":
		return Wrong("What was done about it? A finding is closed with what closed it.")
	case f.text("closes") == "" && f.text("words") == "":
		return Wrong("What was found?")
	case f.text("closes") == "" && f.text("grave") == "":
		return Wrong("How grave is it: worth noting, watch it, before the next flight, or nothing turns it?")
	}
	return cylinderIn("cyl")(f)
}, say: func(f *Facts) string {
	if f.text("closes") != "" {
		return "Finding closed: " + f.text("done")
	}
	s := "Found: " + f.text("words")
	if k := f.text("cyl"); k != "" {
		s += ", cylinder " + k
	}
	return s + ". " + capital(wordOf(f.Kind.Boxes[2].Of, f.text("grave"))) + f.rest("words", "cyl", "grave")
}}

var directive = Kind{Type: "directive", Title: "Directive or bulletin", Hours: Optional, Boxes: []Box{
	{Name: "number", Label: "Number and revision", Is: Words, Need: "Which one? Its number and revision."},
	{Name: "words", Label: "What it asks", Is: Words, Need: "What does it ask for?"},
	{Name: "applies", Label: "Applies", Is: OneOf, Of: "yes=applies|no=does not apply", Need: "Does it apply to this engine?"},
	{Name: "evidence", Label: "Evidence", Is: Words, Hint: "How it was done, or why it does not apply: serial or part number"},
	{Name: "every_h", Label: "Again every", Unit: quantity.UnitH, Low: "1", High: "2000"},
	{Name: "every_m", Label: "Again every so many months", Is: Count},
	{Name: "next_h", Label: "Next due at", Unit: quantity.UnitH},
	{Name: "next_d", Label: "Next due on", Is: Date},
}, check: func(f *Facts) error {
	if f.text("evidence") == "" {
		return Wrong("What is the evidence? How it was done, or by which serial or part number it does not apply.")
	}
	return nil
}, say: func(f *Facts) string {
	s := f.text("number") + ", " + f.text("words") + ": "
	if f.text("applies") == "no" {
		return s + "does not apply, " + f.text("evidence")
	}
	return s + f.text("evidence") + f.rest("number", "words", "applies", "evidence")
}}

var photo = Kind{Type: "photo", Title: "Photograph", Hours: Optional, Boxes: []Box{
	{Name: "photo", Label: "Photographs", Is: Photos, Need: "There is no photograph yet."},
	{Name: "of", Label: "Of", Is: Words, Need: "Of what? The label stays with the picture."},
	{Name: "cyl", Label: "Cylinder", Is: Count},
	{Name: "entry", Label: "Belongs to", Is: Ref},
	{Name: "scale", Label: "With a scale in it", Is: YesNo},
}, check: func(f *Facts) error {
	for _, h := range f.get("photo").List {
		if len(h) != 64 {
			return Wrong("A photograph is named by its SHA-256, 64 hex digits.")
		}
	}
	return cylinderIn("cyl")(f)
}, say: func(f *Facts) string {
	s := "Photograph of " + f.text("of")
	if k := f.text("cyl"); k != "" {
		s += ", cylinder " + k
	}
	return s
}}

// signature stands under the entries its envelope names, and under what each of them said:
// the hash of every one is in the body (design 4).
var signature = Kind{Type: "signature", Title: "Signature", Hours: Optional, Boxes: []Box{
	{Name: "name", Label: "Name", Is: Words, Need: "Who signs?"},
	{Name: "certificate", Label: "Certificate and its kind", Is: Words, Need: "Which certificate? A signature here is a name with its certificate."},
	{Name: "words", Label: "For what", Is: Words, Need: "What does the signature stand for?"},
	{Name: "signed", Label: "SHA-256 of what was signed", Is: Photos, Need: "A signature needs the entries it stands under."},
}, say: func(f *Facts) string {
	return "Signed by " + f.text("name") + ", " + f.text("certificate") + ": " + f.text("words")
}}

var job = Kind{Type: "job", Title: "Guided job", Hours: Optional, Boxes: []Box{
	{Name: "run", Label: "Job number", Is: Words, Need: "Which job does the step belong to?"},
	{Name: "act", Label: "Step", Is: OneOf, Of: "begun=begun|step=one step|interrupted=interrupted|resumed=taken up again|finished=finished", Need: "Begun, a step, interrupted or finished?"},
	{Name: "of", Label: "Job", Is: Words},
	{Name: "step", Label: "Step number", Is: Count},
	{Name: "words", Label: "What it asks", Is: Words},
	{Name: "answer", Label: "Answer", Is: Words},
	{Name: "cyl", Label: "Cylinder", Is: Count},
	{Name: "signer", Label: "Checked by", Is: Words},
}, check: cylinderIn("cyl"), say: func(f *Facts) string {
	s := capital(orNot(f.text("of"), "job")) + " " + wordOf(f.Kind.Boxes[1].Of, f.text("act"))
	if f.text("act") == "step" {
		s = capital(orNot(f.text("words"), "step "+f.text("step")))
	}
	if a := f.text("answer"); a != "" {
		s += ": " + a
	}
	return s
}}

// order is a person's word which of two readings at the same hours came first.
var order = Kind{Type: "order", Title: "Which came first", Hours: Optional, Boxes: []Box{
	{Name: "first", Label: "First", Is: Ref, Need: "Which was read first?"},
	{Name: "then", Label: "Then", Is: Ref, Need: "And which after it?"},
	{Name: "reason", Label: "How it is known", Is: Words},
}, check: func(f *Facts) error {
	if f.text("first") == f.text("then") {
		return Wrong("One reading cannot come before itself.")
	}
	return nil
}, say: func(f *Facts) string {
	return "Order settled by hand" + f.rest("first", "then")
}}
