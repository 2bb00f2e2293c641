package storetest

import (
	"bytes"
	"context"
	"crypto/sha256"
	"image"
	"image/png"
	"testing"
	"time"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// raw is entries as the batch they arrive in, with the bytes that came.
func raw(t *testing.T, entries []sync.Entry) sync.Push {
	t.Helper()
	p := Sent(entries)
	for i, e := range entries {
		data, err := e.MarshalJSON()
		must(t, err)
		p.Sent[i].Raw = data
	}
	return p
}

func held(t *testing.T, s Store) {
	opened(t, s)
	joined(t, s, 1, ben, people.Reader)
	three := Written(other, book, 1, 3, sync.Hash{})
	give := func(who people.Account, entries []sync.Entry) (taken, error) {
		results, head, err := s.Append(ctx, book, who.ID, raw(t, entries), received, nil)
		return taken{results, head}, err
	}
	for range 2 {
		got, err := give(ben, three[:1])
		wantStates(t, "a reader's entry", got, err, "1 held")
		if got.Results[0].Code != sync.CodeRole || got.Head.Seq != 0 {
			t.Errorf("held as %+v", got)
		}
	}
	if _, err := read(s, book, ben, sync.Head{}, 10); err != nil {
		t.Errorf("a reader reads: %v", err)
	}
	must(t, drop(s.SetMember(ctx, book, ann.ID, ben.ID, people.Change{Role: people.Helper}, 30)))
	got, err := give(ben, three[1:2])
	wantStates(t, "a helper's entry", got, err, "2 ok@1")
	sign, err := sync.Seal(sync.Entry{Device: other, N: 3, Book: book, Prev: three[1].Hash, Kind: sync.Sign,
		Refs: []sync.Ref{{Device: other, N: 2}}, Body: []byte(`{"type":"sign"}`)})
	must(t, err)
	got, err = give(ben, []sync.Entry{sign})
	wantStates(t, "the signature of a helper", got, err, "3 held")
	yes := true
	must(t, drop(s.SetMember(ctx, book, ann.ID, ben.ID, people.Change{Signs: &yes}, 30)))
	sign, err = sync.Seal(sync.Entry{Device: other, N: 4, Book: book, Prev: sign.Hash, Kind: sync.Sign,
		Refs: []sync.Ref{{Device: other, N: 2}}, Body: []byte(`{"type":"sign"}`)})
	must(t, err)
	got, err = give(ben, []sync.Entry{sign})
	wantStates(t, "the signature of a helper who may", got, err, "4 ok@2")

	must(t, s.RemoveMember(ctx, book, ann.ID, ben.ID, 40))
	got, err = give(ben, Written(other, book, 5, 6, sign.Hash))
	wantStates(t, "what he wrote before he knew", got, err, "5 held, 6 held")
	_, err = read(s, book, ben, sync.Head{}, 10)
	wantCode(t, "and reads", err, fault.NotFound)
	_, err = give(cyd, Written(sync.ID{0x66}, book, 1, 1, sync.Hash{}))
	wantCode(t, "a stranger's entry", err, fault.NotFound)
	var flood error
	for i := byte(0); i < 20 && flood == nil; i++ { // from a new device each time
		_, flood = give(ben, Written(sync.ID{0x44, i}, book, 1, 100, sync.Hash{}))
	}
	wantCode(t, "a flood from who left", flood, fault.NotFound)
}

func admitted(t *testing.T, s Store) {
	opened(t, s)
	joined(t, s, 1, ben, people.Reader)
	joined(t, s, 2, cyd, people.Reader)
	three := Written(other, book, 1, 3, sync.Hash{})
	must(t, drop2(s.Append(ctx, book, ben.ID, raw(t, three), received, nil)))
	torn := raw(t, Written(sync.ID{0x55}, book, 1, 1, sync.Hash{}))
	torn.Sent[0].Raw = []byte(`{"device":`)
	torn.Sent[0].Fault = &sync.Fault{Code: sync.CodeShape, Words: "It can't be read."}
	must(t, drop2(s.Append(ctx, book, ben.ID, torn, received, nil)))

	for who, want := range map[sync.ID]int{ann.ID: 4, ben.ID: 4, cyd.ID: 0} {
		list, err := s.Asides(ctx, book, who)
		if err != nil || len(list) != want {
			t.Errorf("%d wait for %v, %v; want %d", len(list), who, err, want)
		}
		for _, a := range list {
			if a.Author != ben.Name || a.Account != ben.ID || a.By != ben.ID || !a.Proven || a.Fault.Words == "" || len(a.Raw) == 0 || a.Device.IsZero() {
				t.Errorf("%+v", a)
			}
		}
	}
	dan := people.Account{ID: sync.ID{0xda}, Name: "Dan Example"}
	must(t, s.PutAccount(ctx, dan))
	_, err := s.Asides(ctx, book, dan.ID)
	wantCode(t, "a stranger looks", err, fault.NotFound)
	admit := func(by people.Account, device sync.ID, n uint64, hash sync.Hash) (uint64, error) {
		return s.Admit(ctx, book, by.ID, device, n, hash, "DEMO: a slip of the owner's", 50)
	}
	if list, err := s.Waiting(ctx, ann.ID); err != nil || len(list) != 1 || list[0] != (people.Waiting{Book: book, Of: people.Engine, Count: 4}) {
		t.Errorf("Waiting = %+v, %v", list, err)
	}
	_, err = s.Waiting(ctx, ben.ID)
	wantCode(t, "who is not the host asks where something waits", err, fault.NotFound)
	_, err = admit(ben, other, 2, sync.Hash{})
	wantCode(t, "a reader admits", err, fault.Refused)
	_, err = admit(dan, other, 2, sync.Hash{})
	wantCode(t, "a stranger admits", err, fault.NotFound)
	_, err = admit(ann, other, 9, sync.Hash{})
	wantCode(t, "a number nobody used", err, fault.NotFound)
	_, err = admit(ann, sync.ID{0x55}, 1, sync.Hash{})
	wantCode(t, "what is torn", err, fault.Conflict)
	if seq, err := admit(ann, other, 2, sync.Hash{}); err != nil || seq != 1 {
		t.Errorf("admitted at %d, %v", seq, err)
	}
	_, err = admit(ann, other, 2, sync.Hash{})
	wantCode(t, "twice", err, fault.NotFound)
	if seq, err := admit(ann, other, 1, three[0].Hash); err != nil || seq != 2 {
		t.Errorf("the earlier one, by its hash: at %d, %v", seq, err)
	}
	results, head, err := s.Append(ctx, book, ben.ID, raw(t, three), received, nil)
	wantStates(t, "his phone asks again", taken{results, head}, err, "1 dup@2, 2 dup@1, 3 held")
	page, err := read(s, book, ann, sync.Head{}, 10)
	if err != nil || len(page.Records) != 2 || page.Records[0].Author != ben.Name || page.Records[0].Received != 50 {
		t.Errorf("the ledger: %+v, %v", page.Records, err)
	}
	must(t, drop(s.SetMember(ctx, book, ann.ID, ben.ID, people.Change{Role: people.Helper}, 60)))
	got, err := send(ctx, s, ben, Written(other, book, 4, 4, three[2].Hash))
	wantStates(t, "and goes on writing", got, err, "4 ok@3")
}

func salvaged(t *testing.T, s Store) {
	opened(t, s)
	joined(t, s, 1, ben, people.Reader)
	// What another, equal store had before it lost the end.
	mine := Written(phone, book, 1, 3, sync.Hash{})
	must(t, drop(send(ctx, s, ann, mine)))
	page, err := read(s, book, ann, sync.Head{}, 10)
	must(t, err)
	lost := Written(other, book, 1, 3, sync.Hash{})
	head := page.Head
	var records []sync.Record
	for _, e := range lost {
		head = head.Next(e.Hash, cyd.ID, 99)
		records = append(records, sync.Record{Seq: head.Seq, Received: 99, Account: cyd.ID, Author: "Cyd Example", Chain: head.Chain, Entry: e})
	}
	whole := sync.Salvage{After: page.Head, Records: records, Receipt: &sync.Receipt{Book: book, Seq: head.Seq, Chain: head.Chain}}

	_, _, err = s.Salvage(ctx, book, cyd.ID, whole, true, 200)
	wantCode(t, "from a stranger", err, fault.NotFound)
	results, now, err := s.Salvage(ctx, book, ben.ID, whole, false, 200)
	if err != nil || now != page.Head || len(results) != 3 || results[0].State != sync.Held {
		t.Errorf("unproven: %+v, head %+v, %v", results, now, err)
	}
	list, err := s.Asides(ctx, book, ann.ID)
	if err != nil || len(list) != 3 || list[0].Hash != lost[0].Hash || list[0].Account != cyd.ID || list[0].By != ben.ID || list[0].ByName != ben.Name || list[0].Proven {
		t.Errorf("unproven ones wait: %+v, %v", list, err)
	}
	if own, err := s.Asides(ctx, book, ben.ID); err != nil || len(own) != 3 {
		t.Errorf("who handed them in sees %d, %v", len(own), err)
	}
	results, now, err = s.Salvage(ctx, book, ben.ID, whole, true, 200)
	if err != nil || now != head || results[2].State != sync.OK {
		t.Errorf("proven: %+v, head %+v, want %+v, %v", results, now, head, err)
	}
	if list, err := s.Asides(ctx, book, ann.ID); err != nil || len(list) != 0 {
		t.Errorf("what went in waits no more: %+v, %v", list, err)
	}
	results, now, err = s.Salvage(ctx, book, ann.ID, whole, true, 300)
	if err != nil || now != head || results[0].State != sync.Dup {
		t.Errorf("from another phone: %+v, head %+v, %v", results, now, err)
	}
	back, err := read(s, book, ann, page.Head, 10)
	if err != nil || len(back.Records) != 3 || back.Records[1].Author != "Cyd Example" || back.Records[1].Received != 99 {
		t.Errorf("put back as %+v, %v", back, err)
	}
	at, err := s.ChainAt(ctx, book, ben.ID, []uint64{0, 3, 6, 7, sync.MaxNumber})
	if err != nil || len(at) != 3 || at[0] != (sync.Head{}) || at[1] != page.Head || at[2] != head {
		t.Errorf("ChainAt = %+v, %v", at, err)
	}
	_, err = s.ChainAt(ctx, book, cyd.ID, []uint64{0})
	wantCode(t, "asked by a stranger", err, fault.NotFound)

	// One from the middle of a device's row comes back: the hole takes only
	// what fits, and an unproven entry can be admitted beside a hole.
	five := Written(sync.ID{0x31}, book, 1, 5, sync.Hash{})
	next := head.Next(five[2].Hash, cyd.ID, 99)
	one := sync.Salvage{After: head, Records: []sync.Record{{Seq: next.Seq, Received: 99, Account: cyd.ID, Chain: next.Chain, Entry: five[2]}},
		Receipt: &sync.Receipt{Book: book, Seq: next.Seq, Chain: next.Chain}}
	if _, now, err = s.Salvage(ctx, book, ben.ID, one, true, 300); err != nil || now != next {
		t.Errorf("a third without first and second: %+v, %v", now, err)
	}
	if list, err := s.Asides(ctx, book, ann.ID); err != nil || len(list) != 0 {
		t.Errorf("holes are not for people: %+v, %v", list, err)
	}
	far := sync.Salvage{After: next, Records: []sync.Record{{Received: 99, Account: cyd.ID, Entry: five[4]}}}
	if results, _, err = s.Salvage(ctx, book, ben.ID, far, false, 300); err != nil || results[0].State != sync.Held {
		t.Errorf("%+v, %v", results, err)
	}
	if seq, err := s.Admit(ctx, book, ann.ID, sync.ID{0x31}, 5, five[4].Hash, "DEMO", 400); err != nil || seq != 8 {
		t.Errorf("admitted at %d, %v", seq, err)
	}
	if lines, err := s.Journal(ctx, ann.ID, 0, 1); err != nil || len(lines) != 1 || lines[0].Account != cyd.ID || lines[0].Words != "entry 5, handed in by "+ben.Name+": DEMO" {
		t.Errorf("the journal says %+v, %v", lines, err)
	}
	must(t, s.PutAccount(ctx, cyd), drop(s.SetMember(ctx, book, ann.ID, ben.ID, people.Change{Role: people.Helper}, 300)))
	// A name is in no chain: whoever hands a record back can't put another under it.
	forged := Written(sync.ID{0x32}, book, 1, 1, sync.Hash{})[0]
	_, now, err = s.Salvage(ctx, book, ben.ID, sync.Salvage{}, false, 300)
	must(t, err)
	end := now.Next(forged.Hash, cyd.ID, 99)
	_, _, err = s.Salvage(ctx, book, ben.ID, sync.Salvage{After: now, Records: []sync.Record{{Seq: end.Seq, Received: 99, Account: cyd.ID, Author: ann.Name, Chain: end.Chain, Entry: forged}},
		Receipt: &sync.Receipt{Book: book, Seq: end.Seq, Chain: end.Chain}}, true, 300)
	must(t, err)
	if page, err := read(s, book, ann, sync.Head{}, 20); err != nil || page.Head != end || page.Records[len(page.Records)-1].Author != cyd.Name {
		t.Errorf("put back as %+v, %v", page.Records[len(page.Records)-1], err)
	}
	got, err := send(ctx, s, ben, five)
	wantStates(t, "the phone itself comes", got, err, "1 ok@10, 2 ok@11, 3 dup@7, 4 ok@12, 5 dup@8")
}

func photos(t *testing.T, s Store) {
	opened(t, s)
	joined(t, s, 1, ben, people.Reader)
	joined(t, s, 2, cyd, people.Helper)
	var picture bytes.Buffer
	must(t, png.Encode(&picture, image.NewGray(image.Rect(0, 0, 40, 30))))
	data := picture.Bytes()
	sum := sync.Hash(sha256.Sum256(data))
	size := int64(len(data))

	_, err := s.Photo(ctx, book, ann.ID, sum)
	wantCode(t, "never begun", err, fault.NotFound)
	_, err = s.AddToPhoto(ctx, book, ann.ID, sum, 0, data, 1)
	wantCode(t, "a piece of what was never begun", err, fault.NotFound)
	_, err = s.BeginPhoto(ctx, book, ben.ID, sum, size, 1)
	wantCode(t, "begun by a reader", err, fault.Refused)
	_, err = s.BeginPhoto(ctx, sync.ID{0xff}, ann.ID, sum, size, 1)
	wantCode(t, "of no book", err, fault.NotFound)
	for _, bad := range []int64{0, -1, 1 << 40} {
		_, err = s.BeginPhoto(ctx, book, ann.ID, sum, bad, 1)
		wantCode(t, "of an impossible size", err, fault.TooLarge)
	}
	_, err = s.BeginPhoto(ctx, book, ann.ID, sum, size+1, 1) // somebody lies about the length
	must(t, err)
	state, err := s.BeginPhoto(ctx, book, ann.ID, sum, size, 1)
	if err != nil || state.Length != size || state.Offset != 0 {
		t.Errorf("begun: %+v, %v", state, err)
	}
	_, err = s.AddToPhoto(ctx, book, ben.ID, sum, 0, data[:5], 1)
	wantCode(t, "a reader adds", err, fault.Refused)
	state, err = s.AddToPhoto(ctx, book, ann.ID, sum, 0, data[:20], 1)
	if err != nil || state.Offset != 20 || state.Whole() {
		t.Errorf("20 bytes: %+v, %v", state, err)
	}
	for _, offset := range []int64{0, 19, 21, size} {
		state, err = s.AddToPhoto(ctx, book, ann.ID, sum, offset, data[20:], 1)
		wantCode(t, "from elsewhere", err, fault.Conflict)
		if state.Offset != 20 {
			t.Errorf("and it is at %d", state.Offset)
		}
	}
	_, err = s.PhotoPiece(ctx, book, ann.ID, sum, 0)
	wantCode(t, "looked at before it is whole", err, fault.NotFound)
	_, err = s.AddToPhoto(ctx, book, ann.ID, sum, 20, append(bytes.Clone(data[20:]), 1), 1)
	wantCode(t, "more than was announced", err, fault.TooLarge)
	state, err = s.BeginPhoto(ctx, book, cyd.ID, sum, size, 1) // another helper's phone has the same
	if err != nil || state.Offset != 20 {
		t.Errorf("begun again: %+v, %v", state, err)
	}
	state, err = s.AddToPhoto(ctx, book, cyd.ID, sum, 20, data[20:], 1)
	if err != nil || !state.Whole() || state.Kind != "image/png" {
		t.Errorf("whole: %+v, %v", state, err)
	}
	state, err = s.BeginPhoto(ctx, book, ann.ID, sum, 7, 1)
	if err != nil || !state.Whole() || state.Offset != size {
		t.Errorf("begun when whole: %+v, %v", state, err)
	}
	var got []byte
	for {
		piece, err := s.PhotoPiece(ctx, book, ben.ID, sum, int64(len(got)))
		must(t, err)
		if piece == nil {
			break
		}
		got = append(got, piece...)
	}
	if !bytes.Equal(got, data) {
		t.Error("it came back different")
	}

	flipped := bytes.Clone(data)
	flipped[len(flipped)/2] ^= 1
	wrong := sync.Hash(sha256.Sum256([]byte("another")))
	for name, c := range map[string]struct {
		sum  sync.Hash
		data []byte
		want fault.Code
	}{
		"a flipped byte": {wrong, flipped, fault.Damaged},
		"no picture":     {sync.Hash(sha256.Sum256([]byte("<svg/>"))), []byte("<svg/>"), fault.Invalid},
	} {
		must(t, drop(s.BeginPhoto(ctx, book, ann.ID, c.sum, int64(len(c.data)), 1)))
		must(t, drop(s.AddToPhoto(ctx, book, ann.ID, c.sum, 0, c.data[:3], 1)))
		_, err = s.AddToPhoto(ctx, book, ann.ID, c.sum, 3, c.data[3:], 1)
		wantCode(t, name, err, c.want)
		_, err = s.Photo(ctx, book, ann.ID, c.sum)
		wantCode(t, name+" is gone", err, fault.NotFound)
	}

	// What nobody went on with is forgotten when room is looked for.
	must(t, drop(s.BeginPhoto(ctx, book, ann.ID, wrong, 100, 1)), drop(s.AddToPhoto(ctx, book, ann.ID, wrong, 0, data[:3], 1)))
	must(t, drop(s.BeginPhoto(ctx, book, ann.ID, sync.Hash{1}, 100, 91*24*60*60*1000)))
	_, err = s.Photo(ctx, book, ann.ID, wrong)
	wantCode(t, "left lying for three months", err, fault.NotFound)
	n := 0
	for ; err == nil || n == 0; n++ {
		_, err = s.BeginPhoto(ctx, book, ann.ID, sync.Hash{2, byte(n), byte(n >> 8)}, 10<<20, 91*24*60*60*1000)
	}
	wantCode(t, "more than a book may have", err, fault.TooLarge)
	if n < 100 {
		t.Errorf("after %d photographs", n)
	}
}

func watched(t *testing.T, s Store) {
	opened(t, s)
	watching, stop := context.WithCancel(ctx)
	news := s.Watch(watching)
	soon := time.After(10 * time.Second)
	three := Written(phone, book, 1, 3, sync.Hash{})
	must(t, drop(send(ctx, s, ann, three[:1])), drop(send(ctx, s, ann, three)))
	for at := uint64(0); at < 3; {
		select {
		case moved := <-news:
			if moved[book] <= at && len(moved) > 0 {
				t.Errorf("told %d after %d", moved[book], at)
			}
			at = moved[book]
		case <-soon:
			t.Fatalf("heard of position %d, want 3", at)
		}
	}
	stop()
	for {
		select {
		case _, open := <-news:
			if !open {
				return
			}
		case <-soon:
			t.Fatal("it goes on after its end")
		}
	}
}

// drop2 keeps the error of three.
func drop2[A, B any](_ A, _ B, err error) error { return err }
