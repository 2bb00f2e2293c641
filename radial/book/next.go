package book

import (
	"linkrod/radial/due"
	"linkrod/radial/oil"
)

// rule is one reason for a next step. The first rule that fits makes the step;
// there is always exactly one. None of them ever says that anything is in order.
type rule struct {
	id   string
	why  string // the rule in a sentence
	when func(findings) bool
	step func(findings) Next
}

// rules in their order: what may stop the engine from being turned or flown,
// then what must be read again, then what the log lacks.
var rules = []rule{
	{"stopped", "A cylinder went firm by hand. Liquid does not give, and turning further bends a rod. The stop stays until a mechanic releases it by name.",
		func(f findings) bool { return f.stop != nil }, func(f findings) Next {
			return Next{Title: "Stopped. Do not turn the propeller", Detail: f.stop.body.Say(), Go: "stop"}
		}},
	{"finding-stop", "Somebody wrote that nothing turns it until this is looked at.",
		func(f findings) bool { return f.grave("stop") != nil }, func(f findings) Next { return f.see("stop", "Nothing turns it before this is looked at") }},
	{"gone-over-stop", "More oil than the stop limit has left the tank. It may be in a cylinder, so nothing turns the engine before it was pulled through by hand.",
		func(f findings) bool { return f.missing != nil && f.missing.Verdict.Chip == Outside }, pullThrough},
	{"metal", "Metal was found and nobody who may say so has answered. It is for a mechanic to look at, and never for a number alone.",
		func(f findings) bool { return f.metal != nil }, func(f findings) Next {
			n := Next{Title: "Wait for the answer on the metal", Detail: f.metal.body.Say(), Go: "log:" + f.metal.key.String()}
			if f.metal.body.(*Facts).text("asked") == "" {
				n.Title = "Show the metal to a mechanic"
			}
			return n
		}},
	{"changed", "The rate changed in a step. A step on one engine has a cause, and the shop should hear of it before the engine flies again. Look for a leak, the breather, wet lower plugs (common practice).",
		func(f findings) bool { return !f.unclear && f.said == oil.StepUp }, call},
	{"not-seating", "The rate is over the shop's ceiling and not heading under it. More flying glazes a cylinder further.",
		func(f findings) bool { return !f.unclear && f.said == oil.NotSeating }, call},
	{"finding-before", "Somebody wrote that this is to be done before the next flight.",
		func(f findings) bool { return f.grave("before") != nil }, func(f findings) Next { return f.see("before", "Before the next flight") }},
	{"read-again", "The line written last does not fit the ones before it, or cannot be used. A second look at the same stop settles most of these.",
		findings.suspect, readAgain},
	{"standing", "Oil runs down into low cylinders while an engine stands. Storage practice acts on the third idle day.",
		func(f findings) bool {
			return f.any && (f.idle || f.missing != nil && f.missing.Verdict.Chip != Inside && f.quarts() > hair)
		}, pullThrough},
	{"interrupted", "A job was begun and not finished. What was not ticked is not done; take it up three steps back.",
		func(f findings) bool { return f.begun != nil }, func(f findings) Next {
			return Next{Title: "Take the job up again", Detail: f.begun.body.Say(), Go: "walk:" + f.begun.body.(*Facts).text("run")}
		}},
	{"late", "Something is late, by hours or by the calendar. What it may still do before that is for the paper it stands on and the mechanic.",
		func(f findings) bool { return f.due(due.Late) != nil }, func(f findings) Next { return f.doIt(due.Late) }},
	{"under-minimum", "The tank is under the least for flight that is on file.",
		func(f findings) bool { return f.low }, func(f findings) Next {
			return Next{Title: "Fill the tank before flight", Detail: f.level + " in the tank, least for flight " + f.least, Go: "oil"}
		}},
	{"first-level", "Nothing can be said before there is a level.",
		func(f findings) bool { return !f.any }, func(findings) Next {
			return Next{Title: "Write the first level", Detail: "Read the stick, and the meter", Go: "oil"}
		}},
	{"due", "Something is due now.",
		func(f findings) bool { return f.due(due.Now) != nil }, func(f findings) Next { return f.doIt(due.Now) }},
	{"no-ceiling", "No limit is on file to judge the rate by. The shop's sheet has one.",
		func(f findings) bool { return !f.ceiling }, func(findings) Next {
			return Next{Title: "Add the shop's oil ceiling", Detail: "With the page it stands on. " + noLimit, Go: "sheet"}
		}},
	{"next-level", "Every level sharpens the figure.",
		func(findings) bool { return true }, func(findings) Next {
			return Next{Title: "Write the next level", Detail: "After the next stop, at the same minutes as last time", Go: "oil"}
		}},
}

// next is the one next step, and the rule that chose it.
func next(f findings) Next {
	for _, r := range rules {
		if r.when(f) {
			n := r.step(f)
			n.Why = append([]string{r.why}, n.Why...)
			return n
		}
	}
	panic("book: the last rule fits everything")
}

func call(f findings) Next {
	return Next{Title: "Call the shop before flying more", Detail: "The words to read are ready", Go: "call", Why: append([]string{f.rate.Verdict.Reason}, f.about...)}
}

func readAgain(f findings) Next {
	n := Next{Title: "Read it again", Detail: f.rate.Verdict.Reason, Go: "oil", Why: append([]string{f.rate.Verdict.Reason}, f.asks...)}
	if f.newest.Left != oil.Used {
		n.Title, n.Go = "Put the last line right", "log"
	}
	return n
}

func pullThrough(f findings) Next {
	n := Next{Title: "Pull it through by hand", Detail: "Before anything else turns it. No card on file says how many blades", Go: "before-turning"}
	if f.idle {
		n.Why = append(n.Why, "It has stood "+counted(f.days, "day", "days")+".")
	}
	if m := f.missing; m != nil {
		n.Why = append(n.Why, sentence(m.Words)+" "+m.Verdict.Word+": "+m.Verdict.Reason)
	}
	if f.blades.Text != "" {
		blades := counted(atoi(f.blades.Text), "blade", "blades")
		n.Detail = blades + ", before anything else turns it"
		n.Why = append(n.Why, blades+" by the card on file: "+f.blades.Source.line()+".")
	} else {
		n.Why = append(n.Why, "No card on file. Follow the owner's card for this engine.")
	}
	return n
}

// grave is the first open finding of a gravity.
func (f findings) grave(is string) *line {
	for _, l := range f.open {
		if l.body.(*Facts).text("grave") == is {
			return l
		}
	}
	return nil
}

func (f findings) see(is, title string) Next {
	l := f.grave(is)
	return Next{Title: title, Detail: l.body.(*Facts).text("words"), Go: "log:" + l.key.String()}
}

// due is the first item that stands so.
func (f findings) due(s due.State) *DueItem {
	for i := range f.dues {
		if f.dues[i].State == s {
			return &f.dues[i]
		}
	}
	return nil
}

func (f findings) doIt(s due.State) Next {
	i := f.due(s)
	n := Next{Title: i.Title, Detail: i.Words, Go: i.Go, Why: []string{i.Why + "."}}
	if i.Source != nil {
		n.Why = append(n.Why, i.Source.Line+".")
	}
	return n
}
