package simulate

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"linkrod/sync"
	"linkrod/sync/heads"
)

// view is what a book of this world adds up to. It stands for what package
// radial/book computes of an engine's: facts, values with their heads, strikes,
// signatures.
type view struct {
	keys    []sync.Ref // facts and values
	entries map[sync.Ref]sync.Entry
	heads   map[string][]sync.Ref // of each field
	text    string
}

func viewOf(records []sync.Record) view {
	v := view{entries: map[sync.Ref]sync.Entry{}, heads: map[string][]sync.Ref{}}
	at := map[sync.Ref]int{}
	bodies := make([]body, len(records))
	for i, r := range records {
		key := sync.Ref{Device: r.Entry.Device, N: r.Entry.N}
		_ = json.Unmarshal(r.Entry.Body, &bodies[i])
		v.entries[key], at[key] = r.Entry, i
		if r.Entry.Kind == sync.Fact || bodies[i].Field != "" {
			v.keys = append(v.keys, key)
		}
	}
	changes := make([]heads.Change, len(records))
	struck := map[int]bool{}
	for i, r := range records {
		changes[i].Of = bodies[i].Field
		for _, ref := range r.Entry.Refs {
			j, here := at[ref]
			switch {
			case !here:
			case r.Entry.Kind == sync.Strike:
				struck[j] = true
			case bodies[i].Field != "":
				changes[i].Over = append(changes[i].Over, j)
			}
		}
	}
	replaced := heads.Replaced(changes)
	var out strings.Builder
	for i, r := range records {
		e := r.Entry
		fmt.Fprintf(&out, "%s %s", e.Kind, e.Body)
		if struck[i] {
			out.WriteString(" struck")
		}
		if f := bodies[i].Field; f != "" && len(replaced[i]) == 0 {
			v.heads[f] = append(v.heads[f], sync.Ref{Device: e.Device, N: e.N})
			out.WriteString(" head")
		}
		if e.Kind == sync.Sign {
			var subjects []sync.Subject
			for _, ref := range e.Refs {
				j, here := at[ref]
				s := sync.Subject{Here: here}
				if here {
					s.Entry, s.Since = records[j].Entry, struck[j] || len(replaced[j]) > 0
				}
				subjects = append(subjects, s)
			}
			h, _ := sync.ParseHash(bodies[i].Covers)
			fmt.Fprintf(&out, " %s", sync.Signed(h, subjects))
		}
		out.WriteByte('\n')
	}
	v.text = out.String()
	return v
}

// disagreements are the fields whose heads say different things.
func (v view) disagreements() (fields []string) {
	for f, list := range v.heads {
		for _, key := range list[1:] {
			if v.value(key) != v.value(list[0]) {
				fields = append(fields, f)
				break
			}
		}
	}
	slices.Sort(fields)
	return fields
}

func (v view) value(key sync.Ref) string {
	var b body
	_ = json.Unmarshal(v.entries[key].Body, &b)
	return b.Value
}

// slow tells the heads of a field once more, as one would with a pencil: strike
// out everything that somebody names; what is left are the heads.
func slow(records []sync.Record, field string) (left []sync.Ref) {
	bodies := map[sync.Ref]body{}
	for _, r := range records {
		var b body
		_ = json.Unmarshal(r.Entry.Body, &b)
		bodies[sync.Ref{Device: r.Entry.Device, N: r.Entry.N}] = b
	}
	named := map[sync.Ref]bool{}
	for _, r := range records {
		if bodies[sync.Ref{Device: r.Entry.Device, N: r.Entry.N}].Field == field && (r.Entry.Kind == sync.Replace || r.Entry.Kind == sync.Settle) {
			for _, ref := range r.Entry.Refs {
				if bodies[ref].Field == field {
					named[ref] = true
				}
			}
		}
	}
	for _, r := range records {
		key := sync.Ref{Device: r.Entry.Device, N: r.Entry.N}
		if bodies[key].Field == field && !named[key] {
			left = append(left, key)
		}
	}
	return left
}
