package sync

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"linkrod/sync/plain"
)

var mine, older = ID{0xd2}, ID{0xd1}

// device is a Device that has met the server and stands at its head.
func device() *Device {
	d := &Device{Book: ID{0xb0}}
	d.Hello(Hello{Mine: mine, Listed: true, Role: "mechanic", MaxSchema: 1})
	return d
}

func dos(effects []Effect) string {
	var list []string
	for _, e := range effects {
		text := string(e.Do)
		switch e.Do {
		case DoSend:
			text += " " + e.Errand.To + strings.Trim(fmt.Sprint(" ", e.Errand.Numbers), " []")
		case DoShow:
			text += " " + e.Code
		case DoPatch:
			text += fmt.Sprintf(" %d %s", e.N, e.At)
		case DoRest:
			text += map[bool]string{true: " later"}[e.Later]
		}
		list = append(list, text)
	}
	return strings.Join(list, ", ")
}

func queue(keys ...Ref) (q Queue) {
	for _, k := range keys {
		q.Waiting = append(q.Waiting, Queued{k, 500})
	}
	return q
}

func answer(t *testing.T, to Errand, status int, body string, rows ...Row) Reply {
	t.Helper()
	v, err := plain.Parse([]byte(body))
	if err != nil {
		t.Fatal(err)
	}
	return Reply{Errand: to, Mine: mine, Status: status, Body: v, Rows: rows}
}

func waiting(n uint64) Row {
	return Row{Ref: Ref{mine, n}, At: AtWaiting, Own: true, Hash: Hash{byte(n)}}
}

// What Line asks for, in this order, and nothing before its time.
func TestLine(t *testing.T) {
	for _, c := range []struct {
		story string
		set   func(*Device)
		queue Queue
		want  string
	}{
		{"nothing to do", func(*Device) {}, Queue{}, "rest"},
		{"not joined", func(d *Device) { d.Joined = false }, queue(Ref{mine, 1}), "send join"},
		{"shut out", func(d *Device) { d.Shut = CodeNotMine }, queue(Ref{mine, 1}), "rest"},
		{"put back, where do we part?", func(d *Device) { d.Finding = true }, queue(Ref{mine, 1}), "send chain"},
		{"pages before pulling", func(d *Device) { d.Pages = []Page{{}}; d.There = Head{Seq: 1} }, queue(Ref{mine, 1}), "send salvage"},
		{"pulling before pushing", func(d *Device) { d.There = Head{Seq: 1} }, queue(Ref{mine, 1}), "send pull"},
		{"a new phone", func(d *Device) { d.There = Head{Seq: 501} }, Queue{}, "send snapshot"},
		{"a new phone, by the server's word", func(d *Device) { d.There = Head{Seq: 5} }, Queue{SnapshotAfter: 4}, "send snapshot"},
		{"pushing what waits", func(*Device) {}, queue(Ref{mine, 1}, Ref{mine, 2}), "send push1 2"},
		{"P6: the older id first", func(d *Device) { d.IDs = []ID{older, mine} }, queue(Ref{mine, 1}, Ref{older, 7}), "send push7"},
		{"P6: and the younger not without it", func(d *Device) { d.IDs, d.Stopped = []ID{older, mine}, []ID{older} }, queue(Ref{mine, 1}, Ref{older, 7}), "rest later"},
		{"one that was removed holds up nobody", func(d *Device) {
			d.IDs, d.Stopped, d.Barred = []ID{older, mine}, []ID{older}, []ID{older}
		}, queue(Ref{mine, 1}, Ref{older, 7}), "send push1"},
		{"as many as the server takes", func(*Device) {}, Queue{Waiting: queue(Ref{mine, 1}, Ref{mine, 2}, Ref{mine, 3}).Waiting, BatchEntries: 2}, "send push1 2"},
		{"as many bytes as it takes", func(*Device) {}, Queue{Waiting: queue(Ref{mine, 1}, Ref{mine, 2}, Ref{mine, 3}).Waiting, BatchBytes: 256 + 1002}, "send push1 2"},
		{"one that is too long goes alone, to be told so", func(*Device) {}, Queue{Waiting: []Queued{{Ref{mine, 1}, 1 << 20}, {Ref{mine, 2}, 9}}}, "send push1"},
		{"P9: stuck, it still pushes", func(d *Device) { d.Stuck, d.There = true, Head{Seq: 1} }, queue(Ref{mine, 1}), "send push1"},
		{"away, what waits is handed in", func(d *Device) { d.Away, d.There = true, Head{Seq: 9} }, queue(Ref{mine, 1}), "send push1"},
	} {
		d := device()
		c.set(d)
		if got := dos(d.Line(c.queue)); got != c.want {
			t.Errorf("%s: %s, want %s", c.story, got, c.want)
		}
	}
}

// What the answers to a push mean.
func TestPushed(t *testing.T) {
	result := func(list string) string {
		return `{"results":[` + list + `],"head":0,"chain":"` + Hash{}.String() + `"}`
	}
	for _, c := range []struct{ story, results, want string }{
		{"taken", `{"n":1,"state":"ok","seq":1},{"n":2,"state":"dup","seq":2}`, "patch 1 sent, patch 2 sent, changed"},
		{"a poisoned one in between", `{"n":1,"state":"rejected","words":"No."},{"n":2,"state":"ok","seq":1}`, "patch 1 refused, patch 2 sent, changed"},
		{"held", `{"n":1,"state":"held","words":"No."},{"n":2,"state":"held","words":"No."}`, "patch 1 held, patch 2 held, changed"},
		{"copied", `{"n":1,"state":"ok","seq":1},{"n":2,"state":"fork"}`, "patch 1 sent, changed, anew, show copied"},
		{"a gap", `{"n":1,"state":"gap","from":1},{"n":2,"state":"later"}`, "revive"},
		{"a state of the future", `{"n":1,"state":"weighed"},{"n":2,"state":"ok","seq":0}`, ""},
		{"no results", ``, ""},
		{"of something that was not sent", `{"n":7,"state":"ok","seq":7}`, ""},
	} {
		d := device()
		to := Errand{To: toPush, Device: mine, Numbers: []uint64{1, 2}}
		got := d.Reply(answer(t, to, 200, result(c.results), waiting(1), waiting(2)))
		if dos(got) != c.want {
			t.Errorf("%s: %s, want %s", c.story, dos(got), c.want)
		}
		if again := dos(d.Line(queue(Ref{mine, 1}, Ref{mine, 2}))); c.want == "" && again != "rest later" {
			t.Errorf("P9: %s: and then %s", c.story, again)
		}
	}
	// A row that was settled meanwhile stays as it is.
	d := device()
	to := Errand{To: toPush, Device: mine, Numbers: []uint64{1}}
	sent := Row{Ref: Ref{mine, 1}, At: AtSent, Seq: 4, Own: true}
	if got := dos(d.Reply(answer(t, to, 200, result(`{"n":1,"state":"held","words":"No."}`), sent))); got != "" {
		t.Errorf("an admitted entry is %s", got)
	}
	// The same gap twice: what it asks for is not here, so nothing waits for it.
	d = device()
	gap := result(`{"n":2,"state":"gap","from":1}`)
	to = Errand{To: toPush, Device: mine, Numbers: []uint64{2}}
	d.Reply(answer(t, to, 200, gap, waiting(2)))
	to.Turn = 1
	if got := dos(d.Reply(answer(t, to, 200, gap, waiting(2)))); got != "anew, show copied" {
		t.Errorf("the same gap twice: %s", got)
	}
}

// What comes of refusals, by the errand and its status.
func TestRefused(t *testing.T) {
	for _, c := range []struct {
		to, want string
		status   int
		code     string
	}{
		{toPull, "rest later", 503, "busy"},
		{toPush, "rest later", 429, "too_many"},
		{toPush, "rest later", 401, "sign_in"},
		{toPull, "show not-mine, rest", 404, "not_found"},
		{toPush, "show revoked", 403, "revoked"},
		{toPush, "show refused", 403, "refused"},
		{toPush, "show refused, rest later", 413, "too_large"},
		{toSalvage, "show not-put-back", 400, "invalid"},
		{toSalvage, "rest later", 500, "internal"},
		{toPull, "show no-progress", 409, "rewound"}, // of an empty ledger: there is nothing before it
		{toFind, "show refused, rest later", 409, "conflict"},
	} {
		d := device()
		d.Pages = []Page{{Lines: []Line{{}}}}
		to := Errand{To: c.to, Device: mine, Turn: 1}
		if got := dos(d.Reply(answer(t, to, c.status, `{"error":{"code":"`+c.code+`","words":"Why."}}`))); got != c.want {
			t.Errorf("%s %d %s: %s, want %s", c.to, c.status, c.code, got, c.want)
		}
	}
	d := device()
	d.Role = "owner"
	if got := dos(d.Reply(answer(t, Errand{To: toJoin}, 404, `{"error":{"code":"not_found","words":"No."}}`))); got != "" || !d.Away {
		t.Errorf("an owner of old: %s, away %v", got, d.Away)
	}
}

func TestWrote(t *testing.T) {
	d := device()
	got, err := d.Wrote(Wrote{Mine: mine, Fresh: []Fresh{{Kind: Fact, Body: []byte("a")}, {Kind: Replace, Refs: []Ref{{mine, 1}}, Body: []byte("b")}}, Clock: Clock{Wall: 7}})
	if err != nil || dos(got) != "put, put, changed" {
		t.Fatalf("%s, %v", dos(got), err)
	}
	a, b := got[0].Entry, got[1].Entry
	if a.Verify() != nil || b.Verify() != nil || a.N != 1 || b.N != 2 || b.Prev != a.Hash || a.Clock.Wall != 7 || got[0].At != AtWaiting || !got[0].Own {
		t.Errorf("written as %+v and %+v", a, b)
	}
	for _, c := range []struct {
		story, code string
		fresh       Fresh
	}{
		{"newer than the server", CodeNewer, Fresh{Kind: Fact, Schema: 2}},
		{"a kind of the future", CodeKind, Fresh{Kind: "weave"}},
		{"a strike of nothing", CodeRefs, Fresh{Kind: Strike}},
	} {
		_, err := d.Wrote(Wrote{Mine: mine, Last: a, Fresh: []Fresh{c.fresh}})
		if f, ok := err.(*Fault); !ok || f.Code != c.code {
			t.Errorf("%s: %v, want %s", c.story, err, c.code)
		}
	}
	d = &Device{Book: ID{0xb0}}
	if _, err := d.Wrote(Wrote{Mine: mine, Fresh: []Fresh{{Kind: Fact, Schema: 2}}}); err != nil {
		t.Errorf("before any server was heard: %v", err)
	}
}

// Anew moves what another phone's numbers stand in the way of, and what names
// it, and nothing else; the words stay (P1).
func TestAnew(t *testing.T) {
	entry := func(device ID, n uint64, refs ...Ref) Waiting {
		kind := Fact
		if len(refs) > 0 {
			kind = Replace
		}
		e := Entry{Device: device, N: n, Book: ID{0xb0}, Kind: kind, Refs: refs, Body: fmt.Appendf(nil, "%x:%d", device[:1], n), Prev: Hash{1}}
		e.Hash = e.Sum()
		return Waiting{e, int64(n)}
	}
	fresh := ID{0xd9}
	for _, c := range []struct {
		story string
		in    Anew
		want  []string
	}{
		{"from the number on", Anew{Device: mine, From: 4, Mine: mine, Rows: []Waiting{entry(mine, 3), entry(mine, 4), entry(mine, 5, Ref{mine, 4})}},
			[]string{"d2:4 -> d9:1", "d2:5 -> d9:2 names d9:1"}},
		{"under the id that is there already", Anew{Device: older, From: 4, Mine: mine, Last: Entry{N: 6, Hash: Hash{6}}, Rows: []Waiting{entry(older, 4), entry(mine, 6)}},
			[]string{"d1:4 -> d2:7"}},
		{"with what names it, and what its device wrote after that", Anew{Device: older, From: 4, Mine: mine,
			Rows: []Waiting{entry(older, 4), entry(mine, 1), entry(mine, 2, Ref{older, 4}), entry(mine, 3)}},
			[]string{"d1:4 -> d9:1", "d2:2 -> d9:2 names d9:1", "d2:3 -> d9:3"}},
		{"nothing waits", Anew{Device: mine, From: 4, Mine: mine}, nil},
	} {
		d := device()
		d.IDs = []ID{older, mine}
		c.in.Fresh = fresh
		var got []string
		var last Entry
		for _, e := range d.Anew(c.in) {
			if e.Do == DoPut {
				last = e.Entry
				if e.Entry.Verify() != nil || e.Written == 0 {
					t.Errorf("%s: %+v", c.story, e.Entry)
				}
			}
			if e.Do == DoDrop {
				line := fmt.Sprintf("%s -> %x:%d", last.Body, last.Device[:1], last.N)
				for _, r := range last.Refs {
					line += fmt.Sprintf(" names %x:%d", r.Device[:1], r.N)
				}
				got = append(got, line)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.story, got, c.want)
		}
	}
}

// P4: marks ascend, the last is Head, the newest are all kept, and never more
// than a page lies between two of them.
func TestMarks(t *testing.T) {
	d := device()
	records, _ := shelved(700)
	for from := 0; from < len(records); {
		n := 1 + from%7
		to := min(from+n, len(records))
		last := records[to-1]
		d.mark(records[from:to], Head{last.Seq, last.Chain}, []proof{{Receipt{Book: d.Book, Seq: last.Seq, Chain: last.Chain}, []byte("{}")}})
		from = to
	}
	before := uint64(0)
	for i, m := range d.Marks {
		if m.Seq <= before || m.Seq-before > pageRecords || m.Receipt == nil {
			t.Errorf("mark %d at %d after %d", i, m.Seq, before)
		}
		before = m.Seq
	}
	if n := len(d.Marks); before != d.Head.Seq || n > recent+2*len(records)/pageRecords+2 {
		t.Errorf("%d marks up to %d", n, before)
	}
	var w plain.Writer
	d.WriteRequest(&w, Errand{To: toFind})
	if n := strings.Count(d.positions(), ",") + 1; n > asked {
		t.Errorf("%d positions asked at once", n)
	}
}

// When says a clock is wrong when it cannot be right, and not before.
func TestWhen(t *testing.T) {
	const hour, year = int64(3600_000), int64(365 * 86_400_000)
	for _, c := range []struct {
		story                string
		wall, seen, received int64
		wrong                bool
	}{
		{"sent at once", 100 * hour, 99 * hour, 100 * hour, false},
		{"written in the hangar, sent weeks later", 100 * hour, 99 * hour, 900 * hour, false},
		{"two minutes ahead", 100*hour + 120_000, 0, 100 * hour, false},
		{"ten years ahead", 100*hour + 10*year, 99 * hour, 100 * hour, true},
		{"ten years behind", 100*hour - 10*year, 99 * hour, 100 * hour, true},
		{"behind, and nothing was seen", 100*hour - 10*year, 0, 100 * hour, false},
	} {
		span, wrong := When(Record{Received: c.received, Entry: Entry{Clock: Clock{Wall: c.wall}}}, c.seen)
		if wrong != c.wrong || span != (Span{c.seen, c.received}) {
			t.Errorf("%s: %v %v", c.story, span, wrong)
		}
	}
}

func TestSigned(t *testing.T) {
	a, b := Entry{Kind: Fact, Body: []byte("15 qt")}, Entry{Kind: Replace, Body: []byte("0.60")}
	cover := Cover([]Entry{a, b})
	here := func(list ...Entry) (s []Subject) {
		for _, e := range list {
			s = append(s, Subject{Entry: e, Here: true})
		}
		return s
	}
	moved := a
	moved.Device, moved.N = ID{9}, 9
	changed := here(a, b)
	changed[1].Since = true
	for _, c := range []struct {
		story    string
		subjects []Subject
		want     Standing
	}{
		{"as it was signed", here(a, b), Stands},
		{"written anew under another id", here(moved, b), Stands},
		{"one replaced since", changed, Changed},
		{"one not here", []Subject{{Entry: a, Here: true}, {}}, Absent},
		{"the other way round", here(b, a), Differs},
		{"only one", here(a), Differs},
		{"other words", here(a, Entry{Kind: Replace, Body: []byte("0.70")}), Differs},
		{"another kind", here(a, Entry{Kind: Settle, Body: b.Body}), Differs},
	} {
		if got := Signed(cover, c.subjects); got != c.want {
			t.Errorf("%s: %s, want %s", c.story, got, c.want)
		}
	}
}

// busy is a Device with something in every field.
func busy() *Device {
	return &Device{Book: ID{0xb0}, Joined: true, Role: "owner", Signs: true, Away: true, Shut: "x", Old: true, MaxSchema: 3, Restored: 9,
		Head: Head{3, Hash{3}}, There: Head{4, Hash{4}}, Marks: []Mark{{Head{3, Hash{3}}, 8, 70, []byte(`{"a":1}`)}, {Head: Head{4, Hash{4}}}},
		Acked: []Ack{{Ref{mine, 5}, 6}}, Finding: true, Back: Lost{1, 2}, Restarts: 2, IDs: []ID{older, mine}, Stopped: []ID{mine}, Barred: []ID{older},
		Pages: []Page{{Head{1, Hash{1}}, []byte(`{"b":2}`), true, []Line{{Ref{older, 1}, 2, 3, ID{4}, "A", true, false}, {Ref: Ref{mine, 2}, Held: true}}}},
		Gaps:  []Stop{{mine, 7}}, Stuck: true}
}

// A Device is after storage what it was before; what storage can't give back
// begins anew.
func TestDeviceJSON(t *testing.T) {
	d := busy()
	for i, f := range reflect.VisibleFields(reflect.TypeOf(*d)) {
		if reflect.ValueOf(*d).Field(i).IsZero() {
			t.Errorf("the test leaves %s empty", f.Name)
		}
	}
	var w plain.Writer
	d.Write(&w, "")
	v, err := plain.Parse(w.Bytes())
	if err != nil || !json.Valid(w.Bytes()) {
		t.Fatal(err)
	}
	if got := ReadDevice(v, d.Book); !reflect.DeepEqual(got, d) {
		t.Errorf("read back as\n%+v\nwant\n%+v", got, d)
	}
	for _, text := range []string{`null`, `{}`, `{"version":2}`, `7`} {
		v, _ := plain.Parse([]byte(text))
		if got := ReadDevice(v, d.Book); !reflect.DeepEqual(got, &Device{Book: d.Book}) {
			t.Errorf("%s: %+v", text, got)
		}
	}
}

// The worker's JSON and the Go calls are one: every kind of input through Step.
func TestStep(t *testing.T) {
	step := func(state, input string) (string, string) {
		t.Helper()
		v, err := plain.Parse([]byte(`{"state":` + state + `,"book":"` + ID{0xb0}.String() + `","mine":"` + mine.String() + `","input":` + input + `}`))
		if err != nil {
			t.Fatalf("%v: %s", err, input)
		}
		var w plain.Writer
		if err := Step(v, &w); err != nil {
			return state, err.Error()
		}
		var out struct {
			State   json.RawMessage
			Effects []map[string]any
		}
		if err := json.Unmarshal(w.Bytes(), &out); err != nil {
			t.Fatal(err)
		}
		var list []string
		for _, e := range out.Effects {
			text := fmt.Sprint(e["do"])
			for _, name := range []string{"state", "seq", "method", "path", "fill", "needs", "code", "later"} {
				if v, ok := e[name]; ok && v != "" {
					text += fmt.Sprintf(" %v", v)
				}
			}
			list = append(list, strings.ReplaceAll(text, ID{0xb0}.String(), "B"))
		}
		return string(out.State), strings.Join(list, ", ")
	}
	zeros := Hash{}.String()
	state, got := step("null", `{"is":"wrote","fresh":[{"kind":"fact","refs":[],"text":"{}"}],"last":null,"clock":{"wall":5,"zone":60}}`)
	if got != "put waiting 0, changed" {
		t.Fatalf("wrote: %s", got)
	}
	for _, c := range []struct{ input, want string }{
		{`{"is":"hello","book":null,"min_schema":2,"max_schema":2,"restored":0}`, "show old-app"},
		{`{"is":"line","waiting":[]}`, "send PUT books/B"},
		{`{"is":"reply","to":{"what":"join"},"status":200,"reply":{"role":"owner"}}`, ""},
		{`{"is":"line","waiting":[{"device":"` + mine.String() + `","n":1,"bytes":300}]}`, "send POST books/B/push push keys"},
		{`{"is":"silence","to":{"what":"push"}}`, "rest true"},
		{`{"is":"hello","book":{"book":"x","head":2,"chain":"` + zeros + `","role":"owner"}}`, ""},
		{`{"is":"line","waiting":[]}`, "send GET books/B/pull?after=0&chain=" + zeros + "&limit=500 keys"},
		{`{"is":"line","waiting":[],"limits":{"snapshot_after":1}}`, "send GET books/B/snapshot all"},
		{`{"is":"reply","to":{"what":"pull","after":{"seq":0,"chain":"` + zeros + `"}},"status":200,"reply":{"records":[],"head":2,"chain":"` + zeros + `"}}`, ""},
		{`{"is":"anew","device":"` + mine.String() + `","from":1,"rows":[],"fresh":"` + older.String() + `","last":null}`, "device, changed"},
		{`{"is":"anew"}`, "A new device id is wanted."},
		{`{"is":"sung"}`, `No input of a device is called "sung".`},
	} {
		if state, got = step(state, c.input); got != c.want {
			t.Errorf("%s: %s, want %s", c.input, got, c.want)
		}
	}
}

// Whatever comes as an answer or as state: no panic, and Head moves only along
// the chain.
func FuzzStep(f *testing.F) {
	v := wireVectors(f)
	pull, push, chain := string(wireFile(f, "pull-reply-1.json")), string(wireFile(f, "push-reply-1.json")), string(wireFile(f, "chain-reply-1.json"))
	zero := `{"seq":0,"chain":"` + Hash{}.String() + `"}`
	for _, seed := range []string{
		`{"is":"reply","to":{"what":"pull","after":` + zero + `},"status":200,"reply":` + pull + `}`,
		`{"is":"reply","to":{"what":"push","device":"` + v.Entries[0].Device.String() + `","ns":[1,2,3]},"status":200,"reply":` + push + `}`,
		`{"is":"reply","to":{"what":"chain","after":` + zero + `},"status":200,"reply":` + chain + `,"rows":[{"device":"` + mine.String() + `","n":1,"state":"sent","seq":1,"own":true}]}`,
		`{"is":"reply","to":{"what":"snapshot","after":` + zero + `},"status":200,"reply":` + string(wireFile(f, "snapshot-1.json")) + `}`,
		`{"is":"reply","to":{"what":"salvage","turn":1},"status":200,"reply":` + string(wireFile(f, "salvage-reply-1.json")) + `}`,
		`{"is":"hello","book":{"head":1,"chain":"` + Hash{}.String() + `"}}`,
		`{"is":"line","waiting":[{"device":"` + mine.String() + `","n":1,"bytes":1}]}`,
	} {
		f.Add([]byte(seed), true)
		f.Add([]byte(seed), false)
	}
	f.Fuzz(func(t *testing.T, input []byte, some bool) {
		in, err := plain.Parse(input)
		if err != nil {
			return
		}
		d := &Device{Book: v.Entries[0].Book}
		if some {
			d = busy()
			d.Book, d.Marks, d.Head = v.Entries[0].Book, nil, Head{}
		}
		effects, err := d.step(mine, in)
		if err != nil {
			return
		}
		var head Head
		for _, e := range effects {
			if (e.Do == DoPut || e.Do == DoPatch) && e.At == AtSent && e.Pulled || e.Do == DoPut && e.At == AtSent {
				head = head.Next(e.Hash, e.Account, e.Received)
			}
		}
		if d.Head != (Head{}) && d.Head != head {
			t.Errorf("P2: the head moved to %d along nothing", d.Head.Seq)
		}
		var w plain.Writer
		d.Write(&w, "")
		again, err := plain.Parse(w.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		var w2 plain.Writer
		ReadDevice(again, d.Book).Write(&w2, "")
		if string(w.Bytes()) != string(w2.Bytes()) {
			t.Errorf("stored and read it is another:\n%s\n%s", w.Bytes(), w2.Bytes())
		}
		d.Line(Queue{})
	})
}

// recordsOf are a ledger of entries by another account.
func recordsOf(entries ...Entry) (records []Record, head Head) {
	for _, e := range entries {
		head = head.Next(e.Hash, ID{0xac}, 100)
		records = append(records, Record{Seq: head.Seq, Received: 100, Account: ID{0xac}, Author: "A", Chain: head.Chain, Entry: e})
	}
	return records, head
}

func page(t *testing.T, records []Record, head Head) string {
	t.Helper()
	data, err := json.Marshal(map[string]any{"records": records, "head": head.Seq, "chain": head.Chain})
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// What comes of a page of the ledger, by what lies here under its keys (P2, P3, P5).
func TestPulled(t *testing.T) {
	entries := written(mine, 1, 2, Hash{}, "theirs")
	records, head := recordsOf(entries...)
	key := func(n uint64) Ref { return Ref{mine, n} }
	same := func(n uint64, at At, own bool) Row {
		return Row{Ref: key(n), Hash: entries[n-1].Hash, At: at, Own: own}
	}
	other := func(n uint64, at At, own bool) Row { return Row{Ref: key(n), Hash: Hash{9}, At: at, Own: own} }
	for _, c := range []struct {
		story string
		rows  []Row
		want  string
		head  Head
	}{
		{"nothing here", nil, "put, put, changed", head},
		{"what waited has arrived", []Row{same(1, AtWaiting, true), same(2, AtWaiting, true)}, "patch 1 sent, patch 2 sent, changed", head},
		{"what was held was admitted", []Row{same(1, AtHeld, true)}, "patch 1 sent, put, changed", head},
		{"what was lost is back", []Row{same(1, AtLost, false)}, "patch 1 sent, put, changed", head},
		{"P5: an own one of other words", []Row{other(2, AtWaiting, true)}, "revive, anew, show copied", Head{}},
		{"P5: and one before it that has arrived", []Row{same(1, AtWaiting, true), other(2, AtWaiting, true)}, "patch 1 sent, revive, anew, show copied", Head{}},
		{"P5: in the tray", []Row{other(1, AtRefused, true)}, "revive, anew, show copied", Head{}},
		{"P5: somebody else's of other words", []Row{other(1, AtLost, false)}, "shelve, put, put, changed", head},
	} {
		d := device()
		got := d.Reply(answer(t, Errand{To: toPull}, 200, page(t, records, head), c.rows...))
		if dos(got) != c.want || d.Head != c.head {
			t.Errorf("%s: %s, head %d; want %s, %d", c.story, dos(got), d.Head.Seq, c.want, c.head.Seq)
		}
	}
	// P3: answered for and not in the ledger: it waits again, and when it comes it is settled.
	d := device()
	d.Acked = []Ack{{key(2), 2}, {Ref{mine, 3}, 1}}
	if got := dos(d.Reply(answer(t, Errand{To: toPull}, 200, page(t, records, head)))); got != "put, put, patch 3 waiting, changed" || d.Acked != nil {
		t.Errorf("P3: %s, and %v", got, d.Acked)
	}
	// P7: a page of a position that has passed changes nothing.
	before := *d
	if got := dos(d.Reply(answer(t, Errand{To: toPull}, 200, page(t, records, head)))); got != "" || d.Head != before.Head {
		t.Errorf("P7: the same page again: %s", got)
	}
	// What does not follow is not stored.
	for _, c := range []struct{ story, old, new string }{
		{"a time changed", `"received":100`, `"received":101`}, {"a record left out", `"seq":1`, `"seq":2`}, {"no head", `"head":2`, `"hat":2`},
	} {
		d := device()
		body := strings.Replace(page(t, records, head), c.old, c.new, 1)
		if got := dos(d.Reply(answer(t, Errand{To: toPull}, 200, body))); got != "show damaged" || d.Head != (Head{}) || dos(d.Line(Queue{})) != "rest later" {
			t.Errorf("%s: %s", c.story, got)
		}
	}
}

// A restore, step by step: what is asked, what is kept, what is handed back (P8).
func TestRewound(t *testing.T) {
	others := written(ID{7}, 1, 3, Hash{}, "theirs")
	own := written(mine, 1, 1, Hash{}, "mine")
	records, head := recordsOf(others[0], others[1], own[0], others[2])
	d := device()
	receipt := func(h Head) []byte {
		data, _ := json.Marshal(Receipt{Book: d.Book, Seq: h.Seq, Chain: h.Chain, Key: "k", Sig: []byte{1}})
		return data
	}
	at := func(n int) Head { return Head{records[n-1].Seq, records[n-1].Chain} }
	for _, cut := range [][2]int{{0, 2}, {2, 4}} {
		end := at(cut[1])
		body := strings.TrimSuffix(page(t, records[cut[0]:cut[1]], head), "}") + `,"receipt":` + string(receipt(end)) + "}"
		d.Reply(answer(t, Errand{To: toPull, After: d.Head}, 200, body))
	}
	var rows []Row
	for _, r := range records {
		rows = append(rows, Row{Ref: Ref{r.Entry.Device, r.Entry.N}, Hash: r.Entry.Hash, At: AtSent, Seq: r.Seq, Own: r.Entry.Device == mine, Account: r.Account, Received: r.Received})
	}
	if got := dos(d.Reply(answer(t, Errand{To: toPull, After: d.Head}, 409, `{"error":{"code":"rewound"}}`))); got != "" || !d.Finding {
		t.Fatalf("rewound: %s", got)
	}
	if got := d.positions(); got != "2,4" {
		t.Errorf("asked about %s", got)
	}
	there, _ := json.Marshal([]Head{at(2), {4, Hash{4}}})
	got := d.Reply(answer(t, Errand{To: toFind, After: d.Head}, 200, `{"at":`+string(there)+`}`, rows...))
	if dos(got) != "patch 1 waiting, patch 3 lost, reoffer, changed" || d.Head != at(2) || len(d.Marks) != 1 {
		t.Errorf("found: %s; head %d", dos(got), d.Head.Seq)
	}
	if len(d.Pages) != 1 || d.Pages[0].After != at(2) || len(d.Pages[0].Lines) != 2 || string(d.Pages[0].Receipt) != string(receipt(head)) {
		t.Fatalf("pages %+v", d.Pages)
	}
	if got := dos(d.Line(Queue{})); got != "send salvage" {
		t.Errorf("then %s", got)
	}
	handed := `{"results":[{"device":"` + mine.String() + `","n":1,"state":"ok","seq":3},{"device":"` + (ID{7}).String() + `","n":3,"state":"ok","seq":4}],"head":4,"chain":"` + head.Chain.String() + `"}`
	got = d.Reply(answer(t, Errand{To: toSalvage, Turn: 1}, 200, handed))
	if dos(got) != "show set-back" || got[0].Lost != (Lost{1, 1}) || len(d.Pages) != 1 {
		t.Errorf("handed back: %s %+v", dos(got), got)
	}
	// Lost once more before the pull: the ledger ends at 2, and the page goes again.
	d.Hello(Hello{Mine: mine, Listed: true, There: at(2)})
	if got := dos(d.Line(Queue{})); got != "send salvage" {
		t.Errorf("lost once more: %s", got)
	}
	d.Reply(answer(t, Errand{To: toSalvage, Turn: 1}, 200, handed))
	d.Reply(answer(t, Errand{To: toPull, After: d.Head}, 200, page(t, records[2:], head)))
	if d.Head != head || len(d.Pages) != 0 {
		t.Errorf("at the end: head %d, pages %+v", d.Head.Seq, d.Pages)
	}
}
