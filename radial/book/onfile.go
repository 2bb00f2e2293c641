package book

import (
	"strings"
)

// OnFile is one setting as the screens show it.
type OnFile struct {
	Field  string
	Label  string
	Value  string
	Given  bool
	Source *SourceLine
	Others []Side
	Raw    []byte
}

// Side is one value of an open disagreement.
type Side struct {
	Key   string
	Value string
	By    string
	Day   string
}

// onFile lists every setting there can be, given or not.
func (b *Book) onFile() []OnFile {
	var all []OnFile
	for _, f := range fields {
		v, given := b.value(f.name)
		s := OnFile{Field: f.name, Label: f.label, Value: f.say(v), Given: given, Source: sourceLine(v.Source), Others: []Side{}, Raw: []byte("null")}
		heads := b.heads[f.name]
		if b.disagreed(f.name) {
			s.Value = "two values, not settled"
			for _, h := range heads {
				at := stampOf(h)
				s.Others = append(s.Others, Side{h.key.String(), f.say(h.setting().is), orNot(at.By, h.Author), longDay(at.Day)})
			}
		} else if len(heads) > 0 {
			s.Raw = heads[0].setting().Value
		}
		all = append(all, s)
	}
	return all
}

// openItems are the things that wait for a person, the gravest first.
func (b *Book) openItems() []OpenItem {
	items := []OpenItem{}
	add := func(key, goTo, words string) { items = append(items, OpenItem{key, words, goTo}) }
	for _, s := range b.onFile() {
		if len(s.Others) > 0 {
			var sides []string
			for _, o := range s.Others {
				sides = append(sides, o.Value+" by "+orNot(o.By, "somebody"))
			}
			add("two:"+s.Field, "setting:"+s.Field, s.Label+" has two values: "+list(sides, "and")+". Settle it with a reason.")
		}
	}
	for _, p := range b.hours.unsure {
		add("order:"+p[0].key.String()+"/"+p[1].key.String(), "ask:"+p[1].key.String(),
			"Two levels for one evening: "+levelSaid(p[0])+" and "+levelSaid(p[1])+". Which was read first? Both are kept.")
	}
	for _, l := range b.hours.twice {
		add("meter:"+l.key.String(), "log:"+l.key.String(), "Two meter changes were written. Strike out the one that did not happen.")
	}
	if n := b.answers.newest(); n != nil && n.Left != 0 {
		add("left:"+n.line.key.String(), "log:"+n.line.key.String(), "The line at "+atHours(n.line)+" is not used. Strike it out, or write it again as it was.")
	}
	newer, unread := 0, 0
	for _, l := range b.lines {
		if _, ok := l.body.(Newer); ok {
			newer++
		}
		if l.err != nil && l.struck == nil {
			unread++
		}
	}
	if newer > 0 {
		add("newer", "log", counted(newer, "line was", "lines were")+" written by a newer Linkrod. Kept, not counted.")
	}
	if unread > 0 {
		add("unreadable", "log", counted(unread, "line", "lines")+" cannot be read. Kept, not counted.")
	}
	if len(b.lines) > 0 {
		for _, name := range []string{"stick_step", "since", "tank_capacity"} {
			f, _ := fieldOf(name)
			if _, ok := b.value(name); !ok && !b.disagreed(name) {
				add("unknown:"+name, "setting:"+name, f.label+": "+f.unknown+".")
			}
		}
	}
	for _, name := range []string{"ceiling", "overnight", "min_flight", "compression", "blades"} {
		if v, ok := b.value(name); ok && v.Source.CheckedBy == "" {
			f, _ := fieldOf(name)
			add("unchecked:"+name, "setting:"+name, f.label+": this limit was typed by "+v.Source.TypedBy+" and not checked yet.")
		}
	}
	return items
}

func levelSaid(l *line) string {
	s := strings.TrimPrefix(l.body.Say(), "Level ")
	if by := orNot(stampOf(l).By, l.Author); by != "" {
		s += " by " + by
	}
	return s
}

// lastTime is the reading before: hours and level for the pad, and how it was
// read for "same as last time". A reading itself is never offered again.
func (b *Book) lastTime() Last {
	var last Last
	if v, ok := b.value("meter"); ok {
		last.Hours = typed(v.M)
	}
	if a := b.answers.level(); a != nil {
		switch v := a.line.body.(type) {
		case *Oil:
			last.Hours, last.Level, last.Added = typed(v.Hours), typed(v.Level), typed(v.Added)
		case *Drain:
			last.Hours, last.Level = typed(v.Hours), typed(v.after())
		}
	}
	if a := b.answers.last(); a != nil {
		switch v := a.line.body.(type) {
		case *Oil:
			last.Stands, last.Minutes, last.AddHow, last.Scavenged = v.Stands, typed(v.Minutes), v.AddHow, v.Scavenged
		case *Drain:
			last.Stands, last.Minutes, last.Scavenged = v.Stands, typed(v.Minutes), v.Scavenged
		}
	}
	return last
}
