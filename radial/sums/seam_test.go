package sums_test

import (
	"encoding/json"
	"strings"
	"testing"

	"linkrod/radial/sums"
	"linkrod/sync/plain"
)

// What the screens see, read by another JSON than the one that wrote it.
type (
	page struct {
		ID, Title, What, Drawing, Waits, Source, Share string
		Fields                                         []box
		Answers                                        []struct{ Label, Figure, Unit, Words, Verdict string }
		Maths                                          struct {
			Title string
			Lines []string
		}
		Notes, Cautions []string
		Asks            []struct {
			Field, Strength, Code, Words string
			Choices                      []struct {
				Label string
				Set   map[string]any
			}
		}
		Draw map[string]any
	}
	box struct {
		Name, Label, Sym, Part, Kind, Unit, Value, Hint, Problem, Echo, With, Or string
		Optional                                                                 bool
		Units                                                                    []struct{ Code, Word string }
		Choices                                                                  []struct{ Value, Label string }
	}
	typed map[string]string
)

// work goes the whole way of the seam: typed text as JSON in, the page as JSON out.
func work(t testing.TB, id string, in typed, more ...any) page {
	t.Helper()
	args := map[string]any{"id": id, "typed": in}
	for i := 0; i+1 < len(more); i += 2 {
		args[more[i].(string)] = more[i+1]
	}
	asked, err := json.Marshal(args)
	if err != nil {
		t.Fatal(err)
	}
	v, err := plain.Parse(asked)
	if err != nil {
		t.Fatal(err)
	}
	p, ok := sums.Work(v.Get("id").Text(), sums.ReadTyped(v))
	if !ok {
		t.Fatalf("there is no sum %q", id)
	}
	var w plain.Writer
	p.Write(&w)
	var out page
	dec := json.NewDecoder(strings.NewReader(string(w.Bytes())))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&out); err != nil {
		t.Fatalf("%s: %v in %s", id, err, w.Bytes())
	}
	return out
}

// list is the ids of all the sums.
func list(t testing.TB) (ids []string) {
	t.Helper()
	var w plain.Writer
	sums.List(&w)
	var out struct {
		Groups []struct {
			Title string
			Sums  []struct {
				ID, Title, What, Drawing string
				First                    bool
			}
		}
	}
	if err := json.Unmarshal(w.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	for _, g := range out.Groups {
		if g.Title == "" {
			t.Error("a group without a title")
		}
		for _, s := range g.Sums {
			if s.Title == "" || s.What == "" || s.Drawing == "" {
				t.Errorf("%+v", s)
			}
			ids = append(ids, s.ID)
		}
	}
	return ids
}

// flat is text with plain spaces and a plain minus, as a calculator prints it.
func flat(s string) string {
	return strings.NewReplacer("\u2009", " ", "\u2212", "-").Replace(s)
}

func (p page) box(name string) box {
	for _, b := range p.Fields {
		if b.Name == name {
			return b
		}
	}
	return box{}
}

func (p page) text() string {
	all := append(append(append([]string{p.Waits, p.Share, p.Source, p.Title, p.What}, p.Notes...), p.Cautions...), p.Maths.Lines...)
	for _, a := range p.Answers {
		all = append(all, a.Label, a.Figure, a.Unit, a.Words)
	}
	for _, b := range p.Fields {
		all = append(all, b.Label, b.Hint, b.Problem, b.Echo)
	}
	for _, a := range p.Asks {
		all = append(all, a.Words)
	}
	return strings.Join(all, "\n")
}
