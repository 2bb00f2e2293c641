// Package storetest is what a store must do, whatever it keeps its data in.
// Each engine runs it from its own test:
//
//	storetest.Run(t, func(tb testing.TB) storetest.Store { … })
//
// Nothing in it leans on one process holding a file.
package storetest

import (
	"context"
	"fmt"
	"math/rand/v2"
	stdsync "sync"
	"testing"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/server/photo"
	"linkrod/server/store"
	"linkrod/sync"
)

// Store is everything the server wants of one.
type Store interface {
	Shop(ctx context.Context) (people.Shop, error)
	SetSetupToken(ctx context.Context, token sync.Hash, expires int64) error
	SetUp(ctx context.Context, token sync.Hash, now int64, shop people.Shop, account people.Account, device people.Device) error
	Account(ctx context.Context, id sync.ID) (people.Account, error)
	AccountByName(ctx context.Context, name string) (people.Account, error)
	PutAccount(ctx context.Context, account people.Account) error
	PutDevice(ctx context.Context, device people.Device) error
	Device(ctx context.Context, id sync.ID) (people.Device, error)
	Devices(ctx context.Context, account sync.ID) ([]people.Device, error)
	PutSession(ctx context.Context, session people.Session) error
	Session(ctx context.Context, id sync.ID) (people.Session, error)
	UpdateSession(ctx context.Context, id sync.ID, change func(*people.Session) error) error
	PutPairing(ctx context.Context, pairing people.Pairing) error
	TakePairing(ctx context.Context, code sync.Hash, now int64) (people.Pairing, error)
	PutInvitation(ctx context.Context, invitation people.Invitation) error
	LookInvitation(ctx context.Context, secret sync.Hash, now int64) (people.Invited, error)
	Join(ctx context.Context, secret sync.Hash, account people.Account, device *people.Device, now int64) (people.Membership, error)
	SetPassphrase(ctx context.Context, account sync.ID, phc string, out bool, now int64) error
	Invitations(ctx context.Context, book, account sync.ID, now int64) ([]people.Invitation, error)
	DropInvitation(ctx context.Context, book, account, invitation sync.ID, now int64) error
	Members(ctx context.Context, book, account sync.ID) ([]people.Member, error)
	SetMember(ctx context.Context, book, by, account sync.ID, change people.Change, now int64) (people.Member, error)
	RemoveMember(ctx context.Context, book, by, account sync.ID, now int64) error
	RemoveDevice(ctx context.Context, account, device sync.ID, now int64) error
	LastFrom(ctx context.Context, account, device sync.ID) ([]people.Last, error)
	People(ctx context.Context, account sync.ID) ([]people.Account, error)
	RemoveAccount(ctx context.Context, by, account sync.ID, now int64) error
	Journal(ctx context.Context, account sync.ID, before uint64, limit int) ([]people.Line, error)
	Restored(ctx context.Context) (int64, error)

	BeginPhoto(ctx context.Context, book, account sync.ID, sum sync.Hash, length, now int64) (photo.State, error)
	AddToPhoto(ctx context.Context, book, account sync.ID, sum sync.Hash, offset int64, piece []byte, now int64) (photo.State, error)
	Photo(ctx context.Context, book, account sync.ID, sum sync.Hash) (photo.State, error)
	PhotoPiece(ctx context.Context, book, account sync.ID, sum sync.Hash, offset int64) ([]byte, error)

	OpenBook(ctx context.Context, book, account sync.ID, of people.Of, now int64) (people.Membership, error)
	Member(ctx context.Context, book, account sync.ID) (people.Membership, error)
	Books(ctx context.Context, account sync.ID) ([]people.Membership, error)
	Append(ctx context.Context, book, account sync.ID, push sync.Push, received int64, check func(sync.Entry) *sync.Fault) ([]sync.Result, sync.Head, error)
	Read(ctx context.Context, book, account sync.ID, after sync.Head, limit int) ([]sync.Record, sync.Head, error)
	ChainAt(ctx context.Context, book, account sync.ID, at []uint64) ([]sync.Head, error)
	Salvage(ctx context.Context, book, account sync.ID, s sync.Salvage, proven bool, received int64) ([]sync.SalvageResult, sync.Head, error)
	Asides(ctx context.Context, book, account sync.ID) ([]people.Aside, error)
	Waiting(ctx context.Context, account sync.ID) ([]people.Waiting, error)
	Admit(ctx context.Context, book, by, device sync.ID, n uint64, hash sync.Hash, reason string, now int64) (uint64, error)
	Watch(ctx context.Context) <-chan map[sync.ID]uint64

	Verify() (store.Report, error)
}

// Run runs the suite. open makes a fresh, empty store that is closed when the
// test ends.
func Run(t *testing.T, open func(testing.TB) Store) {
	for _, test := range []struct {
		name string
		run  func(*testing.T, Store)
	}{
		{"set up once", setUp},
		{"accounts by id and by name", accounts},
		{"devices stay with their account", devices},
		{"sign-ins", sessions},
		{"pairing codes are good for one use", pairings},
		{"a book is its owner's alone", books},
		{"entries go in once and come out in order", entries},
		{"what is set aside is remembered", aside},
		{"a position the ledger never had is rewound", rewound},
		{"a foreign or removed device is refused", foreignDevice},
		{"a page ends at its limits", pages},
		{"many phones at once", concurrent},
		{"a cancelled request changes nothing or everything", cancelled},
		{"members, their roles, and the last owner", members},
		{"an invitation is good for one person", invitations},
		{"a removed device or person is out, and what they wrote stays", removals},
		{"what a reader, a leaver or a non-signer sends is held", held},
		{"what was set aside can be admitted, once", admitted},
		{"what a restore lost goes back as it was", salvaged},
		{"a photograph comes in pieces and must be what it says", photos},
		{"whoever watches hears of the newest position", watched},
		{"the journal holds what was done to people", journal},
	} {
		t.Run(test.name, func(t *testing.T) {
			s := open(t)
			test.run(t, s)
			report, err := s.Verify()
			if err != nil || len(report.Problems) > 0 {
				t.Errorf("afterwards the store is not sound: %v %q", err, report.Problems)
			}
		})
	}
}

var (
	ctx   = context.Background()
	ann   = people.Account{ID: sync.ID{0xa1}, Name: "Ann Example", Passphrase: "phc", Host: true}
	ben   = people.Account{ID: sync.ID{0xb1}, Name: "Ben Example", Passphrase: "phc"}
	book  = sync.ID{0xb0}
	phone = sync.ID{0x01}
	other = sync.ID{0x02}
)

func setUp(t *testing.T, s Store) {
	shop := people.Shop{Name: "DEMO shop", Created: 5}
	phone := people.Device{ID: phone, Account: ann.ID, Label: "phone"}
	_, err := s.Shop(ctx)
	wantCode(t, "shop before set-up", err, fault.NotFound)
	wantCode(t, "set-up without a token", s.SetUp(ctx, sync.Hash{}, 1, shop, ann, phone), fault.Refused)
	wantCode(t, "first token", s.SetSetupToken(ctx, sync.Hash{1}, 10), "")
	wantCode(t, "second token", s.SetSetupToken(ctx, sync.Hash{2}, 10), "")
	wantCode(t, "the token that was replaced", s.SetUp(ctx, sync.Hash{1}, 1, shop, ann, phone), fault.Refused)
	wantCode(t, "too late", s.SetUp(ctx, sync.Hash{2}, 11, shop, ann, phone), fault.Refused)
	if _, err := s.Account(ctx, ann.ID); fault.CodeOf(err) != fault.NotFound {
		t.Errorf("a refused set-up left an account behind: %v", err)
	}
	wantCode(t, "in time", s.SetUp(ctx, sync.Hash{2}, 10, shop, ann, phone), "")
	wantCode(t, "twice", s.SetUp(ctx, sync.Hash{2}, 10, shop, ben, phone), fault.NotFound)
	wantCode(t, "a token afterwards", s.SetSetupToken(ctx, sync.Hash{3}, 10), fault.Conflict)
	if got, err := s.Shop(ctx); err != nil || got != shop {
		t.Errorf("Shop = %+v, %v; want %+v", got, err, shop)
	}
	if got, err := s.Account(ctx, ann.ID); err != nil || got != ann {
		t.Errorf("Account = %+v, %v; want %+v", got, err, ann)
	}
	if got, err := s.Device(ctx, phone.ID); err != nil || got != phone {
		t.Errorf("Device = %+v, %v; want %+v", got, err, phone)
	}
}

func accounts(t *testing.T, s Store) {
	_, err := s.AccountByName(ctx, "nobody")
	wantCode(t, "nobody", err, fault.NotFound)
	wantCode(t, "put", s.PutAccount(ctx, ann), "")
	for _, name := range []string{"Ann Example", "ann example", "  ANN   example "} {
		if got, err := s.AccountByName(ctx, name); err != nil || got != ann {
			t.Errorf("AccountByName(%q) = %+v, %v", name, got, err)
		}
	}
	thief := ben
	thief.Name = "ann EXAMPLE"
	wantCode(t, "somebody else's name", s.PutAccount(ctx, thief), fault.Conflict)
	renamed := ann
	renamed.Name = "Ann Other"
	wantCode(t, "rename", s.PutAccount(ctx, renamed), "")
	wantCode(t, "the name is free now", s.PutAccount(ctx, thief), "")
	if got, err := s.AccountByName(ctx, "ann other"); err != nil || got.ID != ann.ID {
		t.Errorf("after the rename: %+v, %v", got, err)
	}
}

func devices(t *testing.T, s Store) {
	must(t, s.PutAccount(ctx, ann), s.PutAccount(ctx, ben))
	_, err := s.Device(ctx, phone)
	wantCode(t, "unknown", err, fault.NotFound)
	d := people.Device{ID: phone, Account: ann.ID, Label: "phone", Created: 7}
	wantCode(t, "enrol", s.PutDevice(ctx, d), "")
	wantCode(t, "by somebody else", s.PutDevice(ctx, people.Device{ID: phone, Account: ben.ID}), fault.Conflict)
	d.Label, d.Created = "hangar phone", 99
	wantCode(t, "rename", s.PutDevice(ctx, d), "")
	if got, _ := s.Device(ctx, phone); got.Label != "hangar phone" || got.Created != 7 {
		t.Errorf("renamed: %+v, want the label new and the day of enrolment kept", got)
	}
	if list, err := s.Devices(ctx, ann.ID); err != nil || len(list) != 1 || list[0].ID != phone {
		t.Errorf("Ann's devices: %+v, %v", list, err)
	}
	if list, err := s.Devices(ctx, ben.ID); err != nil || len(list) != 0 {
		t.Errorf("Ben's devices: %+v, %v", list, err)
	}
	d.Revoked = 100
	wantCode(t, "revoke", s.PutDevice(ctx, d), "")
	d.Revoked = 0
	wantCode(t, "enrol what was removed", s.PutDevice(ctx, d), fault.Revoked)
}

func sessions(t *testing.T, s Store) {
	_, err := s.Session(ctx, sync.ID{9})
	wantCode(t, "unknown", err, fault.NotFound)
	old := people.Session{ID: sync.ID{8}, Account: ann.ID, Expires: 50}
	in := people.Session{ID: sync.ID{9}, Account: ann.ID, Device: phone, Live: sync.Hash{1}, Created: 60, Expires: 100}
	must(t, s.PutSession(ctx, old), s.PutSession(ctx, in))
	if got, err := s.Session(ctx, in.ID); err != nil || got != in {
		t.Errorf("Session = %+v, %v; want %+v", got, err, in)
	}
	_, err = s.Session(ctx, old.ID)
	wantCode(t, "one that was over when another began", err, fault.NotFound)

	boom := fault.New(fault.SignIn, "No.")
	err = s.UpdateSession(ctx, in.ID, func(p *people.Session) error { p.Live = sync.Hash{2}; return boom })
	wantCode(t, "a change that fails", err, fault.SignIn)
	if got, _ := s.Session(ctx, in.ID); got != in {
		t.Errorf("a failed change was kept: %+v", got)
	}
	err = s.UpdateSession(ctx, in.ID, func(p *people.Session) error { p.Retired, p.Live = p.Live, sync.Hash{2}; return nil })
	if got, _ := s.Session(ctx, in.ID); err != nil || got.Live != (sync.Hash{2}) || got.Retired != (sync.Hash{1}) {
		t.Errorf("changed: %+v, %v", got, err)
	}
	wantCode(t, "change of nothing", s.UpdateSession(ctx, old.ID, func(*people.Session) error { return nil }), fault.NotFound)
}

func pairings(t *testing.T, s Store) {
	first := people.Pairing{Code: sync.Hash{1}, Account: ann.ID, Expires: 10}
	second := people.Pairing{Code: sync.Hash{2}, Account: ann.ID, Expires: 10}
	bens := people.Pairing{Code: sync.Hash{3}, Account: ben.ID, Expires: 10}
	must(t, s.PutPairing(ctx, first), s.PutPairing(ctx, bens), s.PutPairing(ctx, second))
	_, err := s.TakePairing(ctx, first.Code, 1)
	wantCode(t, "the code before", err, fault.NotFound)
	_, err = s.TakePairing(ctx, second.Code, 11)
	wantCode(t, "too late", err, fault.NotFound)
	if got, err := s.TakePairing(ctx, second.Code, 10); err != nil || got != second {
		t.Errorf("TakePairing = %+v, %v", got, err)
	}
	_, err = s.TakePairing(ctx, second.Code, 10)
	wantCode(t, "twice", err, fault.NotFound)
	if got, err := s.TakePairing(ctx, bens.Code, 1); err != nil || got != bens {
		t.Errorf("somebody else's code suffered: %+v, %v", got, err)
	}
}

func books(t *testing.T, s Store) {
	must(t, s.PutAccount(ctx, ann), s.PutAccount(ctx, ben))
	_, err := s.Member(ctx, book, ann.ID)
	wantCode(t, "a book nobody has", err, fault.NotFound)
	for range 2 { // the second time it is simply there
		if in, err := s.OpenBook(ctx, book, ann.ID, people.Engine, 1); err != nil || in.Role != people.Owner || !in.Signs || in.Of != people.Engine {
			t.Errorf("OpenBook = %+v, %v; want owner, who signs", in, err)
		}
	}
	_, err = s.OpenBook(ctx, book, ben.ID, people.Engine, 1)
	wantCode(t, "opening another's", err, fault.NotFound)
	_, err = s.Member(ctx, book, ben.ID)
	wantCode(t, "role in another's", err, fault.NotFound)
	_, err = read(s, book, ben, sync.Head{}, 10)
	wantCode(t, "reading another's", err, fault.NotFound)
	_, err = send(ctx, s, ben, Written(other, book, 1, 1, sync.Hash{}))
	wantCode(t, "writing into another's", err, fault.NotFound)
	_, err = s.Device(ctx, other)
	wantCode(t, "and the device was not enrolled by it", err, fault.NotFound)

	_, err = send(ctx, s, ann, Written(phone, book, 1, 3, sync.Hash{}))
	must(t, err)
	shelf, err := s.Books(ctx, ann.ID)
	if err != nil || len(shelf) != 1 || shelf[0].Book != book || shelf[0].Role != people.Owner || shelf[0].Head.Seq != 3 {
		t.Errorf("Ann's books: %+v, %v", shelf, err)
	}
	if shelf, err := s.Books(ctx, ben.ID); err != nil || len(shelf) != 0 {
		t.Errorf("Ben's books: %+v, %v", shelf, err)
	}
}

func entries(t *testing.T, s Store) {
	opened(t, s)
	five := Written(phone, book, 1, 5, sync.Hash{})
	taken, err := send(ctx, s, ann, five[:3])
	wantStates(t, "first batch", taken, err, "1 ok@1, 2 ok@2, 3 ok@3")
	taken, err = send(ctx, s, ann, five)
	wantStates(t, "again with two more", taken, err, "1 dup@1, 2 dup@2, 3 dup@3, 4 ok@4, 5 ok@5")
	taken, err = send(ctx, s, ann, Written(other, book, 1, 1, sync.Hash{}))
	wantStates(t, "another phone", taken, err, "1 ok@6")
	taken, err = send(ctx, s, ann, Written(other, book, 3, 3, sync.Hash{7}))
	wantStates(t, "a gap", taken, err, "3 gap")
	taken, err = send(ctx, s, ann, Written(phone, book, 5, 6, sync.Hash{7}))
	wantStates(t, "a fork", taken, err, "5 fork, 6 later")

	page, err := read(s, book, ann, sync.Head{}, 100)
	if err != nil || len(page.Records) != 6 || page.More || page.Head.Seq != 6 {
		t.Fatalf("Read: %d records, head %d, more %v, %v", len(page.Records), page.Head.Seq, page.More, err)
	}
	if head, err := sync.Follow(sync.Head{}, page.Records); err != nil || head != page.Head || head != taken.Head {
		t.Errorf("the records lead to %+v, %v; the store says %+v", head, err, page.Head)
	}
	for i, r := range page.Records[:5] {
		if r.Entry.Hash != five[i].Hash || r.Author != ann.Name || r.Account != ann.ID || r.Received != received {
			t.Errorf("record %d is %+v", i+1, r)
		}
	}
	rest, err := read(s, book, ann, sync.Head{Seq: 4, Chain: page.Records[3].Chain}, 100)
	if err != nil || len(rest.Records) != 2 || rest.Records[0].Seq != 5 {
		t.Errorf("Read after 4: %+v, %v", rest, err)
	}
}

func aside(t *testing.T, s Store) {
	opened(t, s)
	three := Written(phone, book, 1, 3, sync.Hash{})
	check := func(e sync.Entry) *sync.Fault {
		if e.N == 2 {
			return &sync.Fault{Code: sync.CodeBody, Words: "It can't be read."}
		}
		return nil
	}
	results, head, err := s.Append(ctx, book, ann.ID, Sent(three), received, check)
	taken := taken{results, head}
	wantStates(t, "with one the book can't read", taken, err, "1 ok@1, 2 rejected, 3 ok@2")
	taken, err = send(ctx, s, ann, three)
	wantStates(t, "again, when it could", taken, err, "1 dup@1, 2 rejected, 3 dup@2")
	if r := taken.Results[1]; r.Code != sync.CodeBody || r.Words != "It can't be read." {
		t.Errorf("the reason was forgotten: %+v", r)
	}
	report, err := s.Verify()
	if err != nil || report.Records != 2 || report.Aside != 1 || report.Books != 1 {
		t.Errorf("Verify = %+v, %v", report, err)
	}
}

func rewound(t *testing.T, s Store) {
	opened(t, s)
	_, err := send(ctx, s, ann, Written(phone, book, 1, 3, sync.Hash{}))
	must(t, err)
	for name, after := range map[string]sync.Head{
		"beyond the end":                   {Seq: 4, Chain: sync.Hash{1}},
		"far beyond the end":               {Seq: sync.MaxNumber, Chain: sync.Hash{1}},
		"beyond the end, of nothing":       {Seq: 4},
		"within, on another past":          {Seq: 2, Chain: sync.Hash{1}},
		"at the end, on another past":      {Seq: 3},
		"before the beginning, with chain": {Chain: sync.Hash{1}},
	} {
		_, err := read(s, book, ann, after, 10)
		wantCode(t, name, err, fault.Rewound)
	}
}

func foreignDevice(t *testing.T, s Store) {
	opened(t, s)
	must(t, s.PutDevice(ctx, people.Device{ID: other, Account: ben.ID}))
	_, err := send(ctx, s, ann, Written(other, book, 1, 1, sync.Hash{}))
	wantCode(t, "a device of Ben's", err, fault.Refused)
	must(t, s.PutDevice(ctx, people.Device{ID: phone, Account: ann.ID, Revoked: 5}))
	_, err = send(ctx, s, ann, Written(phone, book, 1, 1, sync.Hash{}))
	wantCode(t, "a removed device", err, fault.Revoked)
	if page, err := read(s, book, ann, sync.Head{}, 1); err != nil || page.Head.Seq != 0 {
		t.Errorf("something got in: %+v, %v", page.Head, err)
	}
}

func pages(t *testing.T, s Store) {
	opened(t, s)
	must(t, drop(send(ctx, s, ann, Written(phone, book, 1, 25, sync.Hash{}))))
	var head sync.Head
	var sizes []int
	for more := true; more; {
		page, err := read(s, book, ann, head, 10)
		must(t, err)
		if head, err = sync.Follow(head, page.Records); err != nil {
			t.Fatal(err)
		}
		sizes, more = append(sizes, len(page.Records)), page.More
	}
	if fmt.Sprint(sizes) != "[10 10 5]" {
		t.Errorf("pages of %v, want [10 10 5]", sizes)
	}
	last, err := read(s, book, ann, head, 10)
	if err != nil || len(last.Records) != 0 || last.More || last.Head != head {
		t.Errorf("at the end: %+v, %v", last, err)
	}

	// Sixty entries as long as can be are more than one answer should hold.
	big := sync.ID{3}
	var prev sync.Hash
	for n := uint64(1); n <= 60; n++ {
		e, err := sync.Seal(sync.Entry{Device: big, N: n, Book: book, Prev: prev, Kind: sync.Fact, Body: make([]byte, sync.MaxBody)})
		must(t, err)
		must(t, drop(send(ctx, s, ann, []sync.Entry{e})))
		prev = e.Hash
	}
	page, err := read(s, book, ann, head, 1000)
	if err != nil || !page.More || len(page.Records) == 0 || len(page.Records) > 40 {
		t.Errorf("%d long records on one page, more %v, %v", len(page.Records), page.More, err)
	}
}

// concurrent lets eight phones write into two books at once, each resending
// now and then, and then wants every entry in its book exactly once.
func concurrent(t *testing.T, s Store) {
	opened(t, s)
	second := sync.ID{0xb2}
	must(t, drop(s.OpenBook(ctx, second, ann.ID, people.Engine, 1)))
	var wait stdsync.WaitGroup
	for i := range 8 {
		wait.Go(func() {
			rnd := rand.New(rand.NewPCG(1, uint64(i)))
			book := []sync.ID{book, second}[i%2]
			device := sync.ID{0x10, byte(i)}
			all := Written(device, book, 1, 40, sync.Hash{})
			for from := 0; from < len(all); {
				to := min(len(all), from+1+rnd.IntN(9))
				taken, err := send(ctx, s, ann, all[from:to])
				if err != nil {
					t.Errorf("phone %d: %v", i, err)
					return
				}
				for j, r := range taken.Results {
					if r.N != all[from+j].N || r.Seq == 0 {
						t.Errorf("phone %d, entry %d: %+v", i, all[from+j].N, r)
					}
				}
				if rnd.IntN(4) > 0 {
					from = to
				}
			}
		})
	}
	wait.Wait()
	for _, b := range []sync.ID{book, second} {
		page, err := read(s, b, ann, sync.Head{}, 1000)
		if err != nil || len(page.Records) != 4*40 {
			t.Errorf("%d records, want %d (%v)", len(page.Records), 4*40, err)
		}
	}
}

func cancelled(t *testing.T, s Store) {
	opened(t, s)
	gone, cancel := context.WithCancel(ctx)
	cancel()
	one := Written(phone, book, 1, 1, sync.Hash{})
	if _, err := send(gone, s, ann, one); err == nil {
		t.Error("a request given up before it began was answered with success")
	}
	if page, err := read(s, book, ann, sync.Head{}, 1); err != nil || page.Head.Seq != 0 {
		t.Errorf("and it went in: %+v, %v", page.Head, err)
	}
	taken, err := send(ctx, s, ann, one)
	wantStates(t, "again", taken, err, "1 ok@1")
}

// opened gives Ann her book, and Ben an account.
func opened(t *testing.T, s Store) {
	t.Helper()
	must(t, s.PutAccount(ctx, ann), s.PutAccount(ctx, ben), drop(s.OpenBook(ctx, book, ann.ID, people.Engine, 1)))
}

const received = 1_762_700_000_000

type taken struct {
	Results []sync.Result
	Head    sync.Head
}

func send(ctx context.Context, s Store, who people.Account, entries []sync.Entry) (taken, error) {
	results, head, err := s.Append(ctx, entries[0].Book, who.ID, Sent(entries), received, nil)
	return taken{results, head}, err
}

type page struct {
	Records []sync.Record
	Head    sync.Head
	More    bool
}

func read(s Store, book sync.ID, who people.Account, after sync.Head, limit int) (page, error) {
	records, head, err := s.Read(ctx, book, who.ID, after, limit)
	last := after.Seq
	if n := len(records); n > 0 {
		last = records[n-1].Seq
	}
	return page{records, head, last < head.Seq}, err
}

// Sent is entries as the batch they arrive in.
func Sent(entries []sync.Entry) sync.Push {
	p := sync.Push{Device: entries[0].Device}
	for _, e := range entries {
		p.Sent = append(p.Sent, sync.Sent{Entry: e})
	}
	return p
}

// Written makes entries from to to of a device, as its phone would.
func Written(device, book sync.ID, from, to uint64, prev sync.Hash) []sync.Entry {
	var list []sync.Entry
	for n := from; n <= to; n++ {
		e, err := sync.Seal(sync.Entry{Device: device, N: n, Book: book, Prev: prev, Kind: sync.Fact,
			Body: fmt.Appendf(nil, `{"type":"note","text":"DEMO %d"}`, n)})
		if err != nil {
			panic(err)
		}
		list, prev = append(list, e), e.Hash
	}
	return list
}

func wantStates(t *testing.T, what string, taken taken, err error, want string) {
	t.Helper()
	got := ""
	for i, r := range taken.Results {
		if i > 0 {
			got += ", "
		}
		got += fmt.Sprintf("%d %s", r.N, r.State)
		if r.Seq > 0 {
			got += fmt.Sprintf("@%d", r.Seq)
		}
	}
	if err != nil || got != want {
		t.Errorf("%s: %s, %v; want %s", what, got, err, want)
	}
}

func wantCode(t *testing.T, what string, err error, want fault.Code) {
	t.Helper()
	if got := fault.CodeOf(err); got != want {
		t.Errorf("%s: %v, want code %q", what, err, want)
	}
}

func must(t *testing.T, errs ...error) {
	t.Helper()
	for _, err := range errs {
		if err != nil {
			t.Fatal(err)
		}
	}
}

// drop keeps the error of a pair.
func drop[T any](_ T, err error) error { return err }
