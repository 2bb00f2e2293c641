package simulate

import (
	"crypto/sha256"
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"linkrod/sync"
	"linkrod/sync/plain"
)

// Commit what -update writes only when you can say why every line changed.
var updateFlag = flag.Bool("update", false, "write the transcripts in testdata/sync anew")

const stories = "../../testdata/sync"

// TestStory plays the transcripts of testdata/sync: a sentence of story,
// commands, and what came of them. Natively and as wasm the same text comes out,
// state hashes included.
func TestStory(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(stories, "*.txt"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no transcripts: %v", err)
	}
	for _, file := range files {
		if filepath.Base(file) == "soak.txt" {
			continue
		}
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		t.Run(title(string(text)), func(t *testing.T) {
			got := tellAnew(t, string(text))
			switch {
			case *updateFlag:
				write(t, file, got)
			case got != string(text):
				t.Errorf("%s: this came of it (-update writes it):\n%s", filepath.Base(file), firstDifference(string(text), got))
			}
		})
	}
}

// title is a transcript's first sentence.
func title(text string) string {
	line, _, _ := strings.Cut(text, "\n")
	return strings.TrimSuffix(strings.TrimPrefix(line, "# "), ".")
}

func firstDifference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range min(len(w), len(g)) {
		if w[i] != g[i] {
			return fmt.Sprintf("line %d\n-%s\n+%s", i+1, w[i], g[i])
		}
	}
	return fmt.Sprintf("%d lines, and now %d", len(w), len(g))
}

// story is a world without chance, and the names the transcript gives things.
type story struct {
	*world
	book   sync.ID
	names  map[sync.ID]string // of devices
	kept   map[string]*storage
	faults map[string]string // "phone request" -> what goes wrong with the next one
	out    strings.Builder
}

// tellAnew runs the commands of a transcript and puts what comes of them in the
// place of what stood there.
func tellAnew(t *testing.T, text string) string {
	s := &story{names: map[sync.ID]string{}, kept: map[string]*storage{}, faults: map[string]string{}}
	s.world = &world{dice: rand.New(rand.NewPCG(1, 1)), clocks: rand.New(rand.NewPCG(1, 2)), right: true,
		roles: map[sync.ID]map[sync.ID]string{}, texts: map[string]bool{}, acked: map[string]bool{}, twice: map[string]bool{},
		named: map[string][]string{}, keys: map[sync.Ref]sync.Hash{}, reused: map[sync.Ref]bool{}, checked: map[sync.ID]sync.Head{}}
	s.server = &server{now: 1_762_700_000_000, data: newData(), page: 4, snapshot: 500}
	s.book = sync.ID{0xb0}
	s.books = []sync.ID{s.book}
	s.meddle, s.watch = s.wrongs, s.asked
	var anew strings.Builder
	told := false // behind ---- stands what came of it last time
	for _, line := range strings.Split(strings.TrimSuffix(text, "\n"), "\n") {
		switch {
		case line == "----":
			anew.WriteString("----\n" + s.out.String())
			s.out.Reset()
			told = true
		case line == "":
			told = false
			anew.WriteString("\n")
		case told:
		case strings.HasPrefix(line, "#"):
			anew.WriteString(line + "\n")
		default:
			anew.WriteString(line + "\n")
			if !s.do(strings.Fields(line)) {
				t.Fatalf("no such command: %s", line)
			}
			for _, wrong := range s.trouble {
				t.Errorf("after %q: %s", line, wrong)
			}
			s.trouble = nil
		}
	}
	return anew.String()
}

func (s *story) say(format string, args ...any) { fmt.Fprintf(&s.out, format+"\n", args...) }

func (s *story) who(name string) *phone {
	for _, p := range s.phones {
		if p.name == name {
			return p
		}
	}
	return nil
}

// name gives devices the names of their phones: a, and a' for the next id of a.
func (s *story) name(p *phone, id sync.ID) string {
	if s.names[id] == "" {
		n := p.name
		for slices.Contains(slices.Collect(maps.Values(s.names)), n) {
			n += "'"
		}
		s.names[id] = n
	}
	return s.names[id]
}

func (s *story) wrongs(in request) string {
	for key, what := range s.faults {
		name, request, _ := strings.Cut(key, " ")
		if p := s.who(name); p.account == in.account && p.store.mine == in.device && strings.Contains(in.path, request) {
			delete(s.faults, key)
			return what
		}
	}
	return ""
}

// asked tells one request and its answer in a line.
func (s *story) asked(p *phone, in request, a *answer) {
	path, query, _ := strings.Cut(in.path, "?")
	what := path[strings.LastIndex(path, "/")+1:]
	if in.method == "PUT" {
		what = "join"
		s.invite()
	}
	if after, _, ok := strings.Cut(strings.TrimPrefix(query, "after="), "&"); ok {
		what += " after " + after
	} else if at, ok := strings.CutPrefix(query, "at="); ok {
		what += " at " + at
	}
	v, err := plain.Parse(in.body)
	if err == nil {
		var list []string
		for _, e := range append(v.Get("entries").Items(), v.Get("records").Items()...) {
			n, _ := e.Get("n").Int()
			id, _ := sync.ParseID(e.Get("device").Text())
			list = append(list, s.name(p, id)+":"+strconv.Itoa(int(n)))
		}
		what += " " + brief(list)
	}
	s.say("%s: %s -> %s", p.name, strings.TrimSpace(what), s.heard(a))
}

// brief is a list, its middle left out when it is long.
func brief(list []string) string {
	if len(list) > 8 {
		list = append(append(append([]string(nil), list[:3]...), "…"), list[len(list)-2:]...)
	}
	return strings.Join(list, " ")
}

func (s *story) heard(a *answer) string {
	if a == nil {
		return "no answer"
	}
	v, err := plain.Parse(a.body)
	if err != nil || !v.Get("proto").Given() {
		return "something else"
	}
	if e := v.Get("error"); e.Given() {
		return fmt.Sprintf("%d %s", a.status, e.Get("code").Text())
	}
	var list []string
	for _, r := range v.Get("results").Items() {
		n, _ := r.Get("n").Int()
		text := fmt.Sprintf("%d %s", n, r.Get("state").Text())
		if seq, ok := r.Get("seq").Int(); ok {
			text += fmt.Sprintf("@%d", seq)
		}
		if from, ok := r.Get("from").Int(); ok {
			text += fmt.Sprintf(" from %d", from)
		}
		list = append(list, text)
	}
	if records := v.Get("records"); records.Given() {
		list = append(list, fmt.Sprintf("%d records", len(records.Items())))
	}
	if at := v.Get("at"); at.Given() {
		list = append(list, fmt.Sprintf("%d positions", len(at.Items())))
	}
	if v.Get("linkrod").Given() {
		list = append(list, fmt.Sprintf("snapshot of %d records", len(v.Get("n").Items())))
	}
	if len(list) == 0 {
		return "yes"
	}
	if len(list) > 8 {
		list = append(append(list[:3], "…"), list[len(list)-2:]...)
	}
	return strings.Join(list, ", ")
}

// do runs one command.
func (s *story) do(c []string) bool {
	p := s.who(c[0])
	rest := strings.Join(c[min(2, len(c)):], " ")
	switch verb := strings.Join(c[:min(2, len(c))], " "); {
	case c[0] == "phones":
		for i, name := range c[1:] {
			account := sync.ID{byte(1 + i)}
			n := s.phone(account, s.empty())
			n.name, n.tabs = name, n.tabs[:1]
			s.name(n, n.store.mine)
			role := "mechanic"
			if i == 0 {
				role = "owner"
			}
			if s.roles[s.book] == nil {
				s.roles[s.book] = map[sync.ID]string{}
			}
			s.roles[s.book][account] = role
		}
	case verb == "server backs":
		s.backups = append(s.backups, s.server.data.copy())
	case verb == "server is": // put back [and says so]
		s.lose("", func() {
			s.server.data = s.backups[len(s.backups)-1].copy()
			s.checked = map[sync.ID]sync.Head{}
		})
		if strings.Contains(rest, "says so") {
			s.server.restored = s.server.now
		}
	case verb == "server invites":
		s.invite()
	case verb == "server full", verb == "server empty":
		s.server.full = c[1] == "full"
	case verb == "server newer":
		s.server.knows = true
	case verb == "server revokes":
		o := s.server.data.devices[s.who(c[2]).store.mine]
		o.revoked = true
		s.server.data.devices[s.who(c[2]).store.mine] = o
	case verb == "server role": // server role b reader
		s.roles[s.book][s.who(c[2]).account] = strings.TrimPrefix(c[3], "none")
		s.invite()
	case verb == "server admits":
		s.admit(s.server.data.books[s.book], 100)
	case verb == "server snapshots":
		s.server.snapshot, _ = strconv.Atoi(c[2])
	case c[0] == "ledger":
		s.ledger()
	case c[0] == "hash":
		s.hashes()
	case c[0] == "rows":
		s.rows(s.who(c[1]))
	case c[0] == "sees":
		s.sees(s.who(c[1]))
	case p == nil:
		return false
	case c[1] == "writes":
		s.must(p, sync.Fact, nil, body{Text: rest})
	case c[1] == "sets", c[1] == "settles": // a sets ceiling 0.60
		f := c[2]
		refs := viewOf(p.store.book(s.book).records()).heads[f]
		kind := sync.Fact
		if len(refs) > 0 {
			kind = sync.Replace
		}
		if c[1] == "settles" {
			kind = sync.Settle
		}
		s.must(p, kind, refs, body{Text: p.name + " " + strconv.Itoa(len(s.texts)), Field: f, Value: c[3]})
	case c[1] == "strikes", c[1] == "signs":
		v := viewOf(p.store.book(s.book).records())
		for _, key := range v.keys {
			var b body
			_ = json.Unmarshal(v.entries[key].Body, &b)
			if strings.Contains(b.Text+" "+b.Field, rest) {
				if c[1] == "strikes" {
					s.must(p, sync.Strike, []sync.Ref{key}, body{Text: "struck by " + p.name})
				} else {
					s.must(p, sync.Sign, []sync.Ref{key}, body{Text: "signed by " + p.name, Covers: sync.Cover([]sync.Entry{v.entries[key]}).String()})
				}
				return true
			}
		}
		return false
	case c[1] == "poisons": // a line no version can read
		s.wrote(p, sync.Fresh{Kind: sync.Fact, Body: []byte(rest + `, half of it`)})
	case c[1] == "weaves":
		s.weave(p, s.book, rest)
	case c[1] == "queues": // a queues 100, with line 50 poisoned
		n, _ := strconv.Atoi(c[2])
		for i := range n {
			if i == n/2-1 {
				s.wrote(p, sync.Fresh{Kind: sync.Fact, Body: []byte("poison")})
			} else {
				s.must(p, sync.Fact, nil, body{Text: fmt.Sprintf("line %d", i+1)})
			}
		}
	case c[1] == "loses": // a loses the answer to push
		s.faults[c[0]+" "+c[len(c)-1]] = strings.Join(c[2:len(c)-2], " ")
	case c[1] == "syncs":
		s.round(p, p.tabs[0])
	case c[1] == "opens": // a second tab
		p.tabs = append(p.tabs, &tab{phone: p})
	case c[1] == "tabs": // both at once, step by step
		for _, t := range p.tabs {
			t.begin()
		}
		s.drain()
	case c[1] == "clock":
		years, _ := strconv.Atoi(c[2])
		p.skew = int64(years) * 365 * 86_400_000
	case c[1] == "copied": // a copied to c
		n := s.phone(p.account, p.store.copy())
		n.name, n.tabs = c[3], n.tabs[:1]
	case c[1] == "remembers":
		s.kept[p.name] = p.store.copy()
	case c[1] == "forgets":
		s.lose("", func() { p.store = s.kept[p.name].copy() })
	case c[1] == "emptied":
		s.lose("", func() { p.store = s.empty() })
		s.name(p, p.store.mine)
	default:
		return false
	}
	s.server.now += 60_000
	return true
}

func (s *story) must(p *phone, kind sync.Kind, refs []sync.Ref, b body) {
	text, _ := json.Marshal(b)
	s.wrote(p, sync.Fresh{Kind: kind, Refs: refs, Body: text})
}

func (s *story) wrote(p *phone, f sync.Fresh) {
	if err := p.save(s.book, f); err != nil {
		s.say("%s: %v", p.name, err)
	}
}

func (s *story) round(p *phone, t *tab) {
	shown := len(p.shown)
	t.begin()
	s.drain()
	for _, e := range p.shown[shown:] {
		s.say("%s shows %s %s", p.name, e.Code, strings.Trim(fmt.Sprintf("%d own %d others", e.Lost.Own, e.Lost.Others), " "))
	}
}

func (s *story) drain() {
	for len(s.net) > 0 && len(s.trouble) == 0 {
		s.deliver(0)
	}
}

func (s *story) key(r sync.Ref) string { return fmt.Sprintf("%s:%d", s.names[r.Device], r.N) }

func wordsOf(e sync.Entry) string {
	var b body
	if json.Unmarshal(e.Body, &b) != nil {
		return "(unreadable) " + string(e.Body)
	}
	if b.Field != "" {
		return b.Field + " " + b.Value
	}
	return b.Text
}

func (s *story) ledger() {
	b := s.server.data.books[s.book]
	var lines []string
	for _, r := range b.records {
		lines = append(lines, fmt.Sprintf("%d %s %s %s", r.Seq, s.key(sync.Ref{Device: r.Entry.Device, N: r.Entry.N}), r.Entry.Kind, wordsOf(r.Entry)))
	}
	s.long(lines)
	asides := slices.Concat(slices.Collect(maps.Values(b.aside)), slices.Collect(maps.Values(b.offered)))
	slices.SortFunc(asides, func(x, y sync.Aside) int { return strings.Compare(x.Hash.String(), y.Hash.String()) })
	for _, a := range asides {
		s.say("aside %s %s: %s", s.key(sync.Ref{Device: a.Device, N: a.N}), a.State, a.Fault.Words)
	}
}

func (s *story) long(lines []string) {
	if len(lines) > 20 {
		lines = append(append(append([]string(nil), lines[:4]...), fmt.Sprintf("… %d lines", len(lines)-8)), lines[len(lines)-4:]...)
	}
	for _, l := range lines {
		s.say("%s", l)
	}
}

func (s *story) rows(p *phone) {
	var lines []string
	for _, r := range p.store.book(s.book).records() {
		row := p.store.book(s.book).rows[place{Ref: sync.Ref{Device: r.Entry.Device, N: r.Entry.N}}]
		s.name(p, row.Device)
		line := fmt.Sprintf("%s %s", s.key(row.Ref), row.At)
		if row.Seq > 0 {
			line += fmt.Sprintf("@%d", row.Seq)
		}
		line += " " + wordsOf(row.entry)
		if row.words != "" {
			line += " | " + row.words
		}
		if row.clock != (sync.Span{}) {
			line += " | clock wrong"
		}
		lines = append(lines, line)
	}
	s.long(lines)
}

// sees is what the book adds up to on a phone.
func (s *story) sees(p *phone) {
	v := viewOf(p.store.book(s.book).records())
	for _, f := range slices.Sorted(maps.Keys(v.heads)) {
		var values []string
		for _, key := range v.heads[f] {
			values = append(values, v.value(key)+" by "+s.key(key))
		}
		s.say("%s: %s", f, strings.Join(values, " or "))
	}
	for _, line := range strings.Split(v.text, "\n") {
		var b body
		if i := strings.Index(line, "}"); i > 0 && strings.HasPrefix(line, "sign ") {
			_ = json.Unmarshal([]byte(line[5:i+1]), &b)
			s.say("%s:%s", b.Text, line[i+1:])
		}
	}
	if list := v.disagreements(); len(list) > 0 {
		s.say("open: %s", strings.Join(list, ", "))
	}
}

// hashes are over everything the server and each phone hold.
func (s *story) hashes() {
	hash := func(v any) string {
		data, err := json.Marshal(v)
		if err != nil {
			panic(err)
		}
		return fmt.Sprintf("%x", sha256.Sum256(data))[:16]
	}
	if b := s.server.data.books[s.book]; b != nil {
		s.say("server %s", hash(b.records))
	}
	for _, p := range s.phones {
		b := p.store.book(s.book)
		var rows []any
		for _, r := range b.sorted() {
			rows = append(rows, r.Row, r.entry, r.words, r.clock)
		}
		s.say("%s %s", p.name, hash([]any{string(b.json()), rows}))
	}
}
