package storetest

import (
	"fmt"
	"strings"
	stdsync "sync"
	"testing"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

var cyd = people.Account{ID: sync.ID{0xc1}, Name: "Cyd Example", Passphrase: "phc"}

// invited makes an invitation to Ann's book; its secret's hash is seven and
// what the test says.
func invited(s Store, secret byte, role people.Role) (sync.Hash, error) {
	inv := people.Invitation{ID: sync.ID{7, secret}, Secret: sync.Hash{7, secret}, Book: book, Role: role, Signs: role.Signs(),
		By: ann.ID, Created: 10, Expires: 100}
	return inv.Secret, s.PutInvitation(ctx, inv)
}

// joined makes an account a member of Ann's book.
func joined(t *testing.T, s Store, secret byte, who people.Account, role people.Role) {
	t.Helper()
	sum, err := invited(s, secret, role)
	must(t, err, s.PutAccount(ctx, who), drop(s.Join(ctx, sum, who, nil, 20)))
}

func members(t *testing.T, s Store) {
	opened(t, s)
	_, err := s.Members(ctx, book, ben.ID)
	wantCode(t, "members of another's book", err, fault.NotFound)
	joined(t, s, 1, ben, people.Reader)
	list, err := s.Members(ctx, book, ben.ID)
	if err != nil || len(list) != 2 || list[0].Account != ann.ID || list[1].Name != ben.Name || list[1].Role != people.Reader || list[1].Signs || list[1].By != ann.ID {
		t.Errorf("Members = %+v, %v", list, err)
	}
	no := false
	_, err = s.SetMember(ctx, book, ben.ID, ben.ID, people.Change{Role: people.Owner}, 30)
	wantCode(t, "a reader makes himself owner", err, fault.Refused)
	_, err = s.SetMember(ctx, book, cyd.ID, ben.ID, people.Change{Role: people.Owner}, 30)
	wantCode(t, "a stranger changes a role", err, fault.NotFound)
	_, err = s.SetMember(ctx, book, ann.ID, cyd.ID, people.Change{Role: people.Owner}, 30)
	wantCode(t, "the role of nobody", err, fault.NotFound)
	_, err = s.SetMember(ctx, book, ann.ID, ben.ID, people.Change{Role: people.Curator}, 30)
	wantCode(t, "a shelf's role in an engine's book", err, fault.Invalid)
	_, err = s.SetMember(ctx, book, ann.ID, ann.ID, people.Change{Role: people.Helper}, 30)
	wantCode(t, "the last owner steps down", err, fault.Conflict)
	wantCode(t, "the last owner goes", s.RemoveMember(ctx, book, ann.ID, ann.ID, 30), fault.Conflict)
	m, err := s.SetMember(ctx, book, ann.ID, ben.ID, people.Change{Role: people.Mechanic, Signs: &no}, 30)
	if err != nil || m.Role != people.Mechanic || m.Signs {
		t.Errorf("a mechanic who does not sign: %+v, %v", m, err)
	}
	m, err = s.SetMember(ctx, book, ann.ID, ben.ID, people.Change{Role: people.Owner}, 30)
	if err != nil || !m.Signs {
		t.Errorf("a second owner: %+v, %v", m, err)
	}
	must(t, s.RemoveMember(ctx, book, ben.ID, ann.ID, 40))
	_, err = s.Member(ctx, book, ann.ID)
	wantCode(t, "who was removed asks", err, fault.NotFound)
	if books, err := s.Books(ctx, ann.ID); err != nil || len(books) != 0 {
		t.Errorf("and has still %+v, %v", books, err)
	}
	_, err = s.OpenBook(ctx, book, ann.ID, people.Engine, 50)
	wantCode(t, "or brings the book again", err, fault.NotFound)

	shelf := sync.ID{0x5e}
	in, err := s.OpenBook(ctx, shelf, ann.ID, people.Shelf, 60)
	if err != nil || in.Of != people.Shelf || in.Role != people.Curator {
		t.Errorf("a shelf: %+v, %v", in, err)
	}
}

func invitations(t *testing.T, s Store) {
	opened(t, s)
	first, err := invited(s, 1, people.Helper)
	must(t, err)
	err = s.PutInvitation(ctx, people.Invitation{Secret: sync.Hash{8}, Book: book, Role: people.Owner, By: ben.ID, Created: 10, Expires: 100})
	wantCode(t, "to another's book", err, fault.NotFound)
	_, err = invited(s, 2, people.Curator)
	wantCode(t, "in a role there isn't", err, fault.Invalid)

	if in, err := s.LookInvitation(ctx, first, 100); err != nil || in.Role != people.Helper || in.Of != people.Engine || in.Name != ann.Name || in.Book != book {
		t.Errorf("LookInvitation = %+v, %v", in, err)
	}
	for name, at := range map[string]struct {
		secret sync.Hash
		now    int64
	}{"too late": {first, 101}, "a secret nobody has": {sync.Hash{9}, 20}} {
		_, err := s.LookInvitation(ctx, at.secret, at.now)
		wantCode(t, name, err, fault.NotFound)
		_, err = s.Join(ctx, at.secret, ben, nil, at.now)
		wantCode(t, name+", joining", err, fault.NotFound)
	}
	list, err := s.Invitations(ctx, book, ann.ID, 50)
	if err != nil || len(list) != 1 || list[0].ID != (sync.ID{7, 1}) {
		t.Errorf("open: %+v, %v", list, err)
	}
	_, err = s.Join(ctx, first, ann, nil, 20)
	wantCode(t, "a member joins", err, fault.Conflict)
	for range 2 { // the first answer may be lost
		in, err := s.Join(ctx, first, ben, nil, 20)
		if err != nil || in.Role != people.Helper || in.Signs || in.Book != book {
			t.Errorf("Join = %+v, %v", in, err)
		}
	}
	_, err = s.Join(ctx, first, cyd, &people.Device{ID: other, Account: cyd.ID}, 20)
	wantCode(t, "by the same link somebody else", err, fault.NotFound)
	_, err = s.Account(ctx, cyd.ID)
	wantCode(t, "who has no account by that", err, fault.NotFound)
	_, err = s.LookInvitation(ctx, first, 20)
	wantCode(t, "looked at when spent", err, fault.NotFound)
	if list, err := s.Invitations(ctx, book, ann.ID, 20); err != nil || len(list) != 0 {
		t.Errorf("open when spent: %+v, %v", list, err)
	}
	_, err = s.Invitations(ctx, book, ben.ID, 20)
	wantCode(t, "a helper lists them", err, fault.Refused)

	second, err := invited(s, 3, people.Reader)
	must(t, err)
	thief := cyd
	thief.Name = ann.Name
	_, err = s.Join(ctx, second, thief, &people.Device{ID: other, Account: cyd.ID}, 20)
	wantCode(t, "somebody new under a name that is taken", err, fault.Conflict)
	in, err := s.Join(ctx, second, cyd, &people.Device{ID: other, Account: cyd.ID}, 20)
	if err != nil || in.Role != people.Reader {
		t.Errorf("somebody new, the link being unspent: %+v, %v", in, err)
	}
	if d, err := s.Device(ctx, other); err != nil || d.Account != cyd.ID {
		t.Errorf("their device: %+v, %v", d, err)
	}

	third, err := invited(s, 4, people.Reader)
	must(t, err)
	wantCode(t, "a helper withdraws", s.DropInvitation(ctx, book, ben.ID, sync.ID{7, 4}, 20), fault.Refused)
	wantCode(t, "withdrawn", s.DropInvitation(ctx, book, ann.ID, sync.ID{7, 4}, 20), "")
	wantCode(t, "withdrawn twice", s.DropInvitation(ctx, book, ann.ID, sync.ID{7, 4}, 20), fault.NotFound)
	_, err = s.LookInvitation(ctx, third, 20)
	wantCode(t, "looked at when withdrawn", err, fault.NotFound)

	must(t, drop(s.SetMember(ctx, book, ann.ID, ben.ID, people.Change{Role: people.Owner}, 30)))
	fourth, err := invited(s, 5, people.Reader)
	must(t, err, s.RemoveMember(ctx, book, ben.ID, ann.ID, 30))
	_, err = s.LookInvitation(ctx, fourth, 31)
	wantCode(t, "made by somebody who has no say any more", err, fault.NotFound)

	// Two with one link: one of them joins.
	inv := people.Invitation{ID: sync.ID{7, 6}, Secret: sync.Hash{7, 6}, Book: book, Role: people.Reader, By: ben.ID, Created: 10, Expires: 100}
	must(t, s.PutInvitation(ctx, inv))
	var wait stdsync.WaitGroup
	var mu stdsync.Mutex
	in2 := 0
	for i := range 4 {
		wait.Go(func() {
			who := people.Account{ID: sync.ID{0xd0, byte(i)}, Name: fmt.Sprint("Example ", i)}
			_, err := s.Join(ctx, inv.Secret, who, &people.Device{ID: sync.ID{0xdd, byte(i)}, Account: who.ID}, 40)
			mu.Lock()
			defer mu.Unlock()
			if err == nil {
				in2++
			} else if fault.CodeOf(err) != fault.NotFound {
				t.Errorf("the slower one: %v", err)
			}
		})
	}
	wait.Wait()
	if in2 != 1 {
		t.Errorf("%d people joined by one link", in2)
	}
	for i := range 60 {
		inv := people.Invitation{ID: sync.ID{9, byte(i)}, Secret: sync.Hash{9, byte(i)}, Book: book, Role: people.Reader, By: ben.ID, Created: 10, Expires: 100}
		if err = s.PutInvitation(ctx, inv); err != nil {
			break
		}
	}
	wantCode(t, "sixty links", err, fault.Conflict)
	inv = people.Invitation{ID: sync.ID{10}, Secret: sync.Hash{10}, Book: book, Role: people.Reader, By: ben.ID, Created: 101, Expires: 200}
	wantCode(t, "when they are over", s.PutInvitation(ctx, inv), "")
}

func removals(t *testing.T, s Store) {
	opened(t, s) // Ann is the host, Ben owns a book of his own and reads Ann's
	joined(t, s, 1, ben, people.Mechanic)
	bens := sync.ID{0xb9}
	must(t, drop(s.OpenBook(ctx, bens, ben.ID, people.Engine, 5)))
	must(t, drop(send(ctx, s, ben, Written(other, book, 1, 2, sync.Hash{}))))
	in := people.Session{ID: sync.ID{9}, Account: ben.ID, Device: other, Created: 60, Expires: 100}
	also := people.Session{ID: sync.ID{8}, Account: ben.ID, Device: sync.ID{0x33}, Created: 60, Expires: 100}
	must(t, s.PutSession(ctx, in), s.PutSession(ctx, also))

	last, err := s.LastFrom(ctx, ben.ID, other)
	if err != nil || len(last) != 1 || last[0] != (people.Last{Book: book, N: 2, Received: received}) {
		t.Errorf("LastFrom = %+v, %v", last, err)
	}
	_, err = s.LastFrom(ctx, ann.ID, other)
	wantCode(t, "what another's phone sent last", err, fault.NotFound)
	wantCode(t, "removing another's phone", s.RemoveDevice(ctx, ann.ID, other, 70), fault.NotFound)
	wantCode(t, "removing a phone nobody has", s.RemoveDevice(ctx, ben.ID, sync.ID{0x77}, 70), fault.NotFound)
	must(t, s.RemoveDevice(ctx, ben.ID, other, 70), s.RemoveDevice(ctx, ben.ID, other, 71))
	if d, _ := s.Device(ctx, other); d.Revoked != 70 {
		t.Errorf("removed: %+v", d)
	}
	if got, _ := s.Session(ctx, in.ID); got.Revoked != 70 || got.Ended != people.DeviceRemoved {
		t.Errorf("its sign-in: %+v", got)
	}
	if got, _ := s.Session(ctx, also.ID); got.Revoked != 0 {
		t.Errorf("another phone's sign-in: %+v", got)
	}
	_, err = send(ctx, s, ben, Written(other, book, 3, 3, sync.Hash{1}))
	wantCode(t, "what it sends", err, fault.Revoked)

	_, err = s.People(ctx, ben.ID)
	wantCode(t, "who is not the host lists people", err, fault.NotFound)
	wantCode(t, "or removes one", s.RemoveAccount(ctx, ben.ID, ann.ID, 80), fault.NotFound)
	wantCode(t, "or himself", s.RemoveAccount(ctx, ben.ID, ben.ID, 80), fault.NotFound)
	wantCode(t, "the host removes nobody", s.RemoveAccount(ctx, ann.ID, cyd.ID, 80), fault.NotFound)
	wantCode(t, "the host removes the host", s.RemoveAccount(ctx, ann.ID, ann.ID, 80), fault.Conflict)
	must(t, s.RemoveAccount(ctx, ann.ID, ben.ID, 80))
	list, err := s.People(ctx, ann.ID)
	if err != nil || len(list) != 2 || list[0].Removed+list[1].Removed != 80 {
		t.Errorf("People = %+v, %v", list, err)
	}
	if got, _ := s.Session(ctx, also.ID); got.Revoked != 80 {
		t.Errorf("a sign-in of who was removed: %+v", got)
	}
	if a, err := s.Account(ctx, ben.ID); err != nil || a.Passphrase != "" {
		t.Errorf("who was removed: %+v, %v", a, err)
	}
	wantCode(t, "their passphrase", s.SetPassphrase(ctx, ben.ID, "phc2", false, 90), fault.NotFound)
	wantCode(t, "their name", s.PutAccount(ctx, people.Account{ID: cyd.ID, Name: ben.Name}), fault.Conflict)
	if m, err := s.Members(ctx, book, ann.ID); err != nil || len(m) != 1 {
		t.Errorf("Ann's book has %+v, %v", m, err)
	}
	if m, err := s.Members(ctx, bens, ann.ID); err != nil || len(m) != 1 || m[0].Role != people.Owner {
		t.Errorf("the book nobody owned any more has %+v, %v; want the host", m, err)
	}
	if page, err := read(s, book, ann, sync.Head{}, 10); err != nil || len(page.Records) != 2 || page.Records[0].Author != ben.Name {
		t.Errorf("what they wrote: %+v, %v", page, err)
	}
}

func journal(t *testing.T, s Store) {
	opened(t, s)
	joined(t, s, 1, ben, people.Reader)
	must(t, s.PutSession(ctx, people.Session{ID: sync.ID{9}, Account: ben.ID, Device: other, Created: 60, Expires: 100}))
	must(t, s.UpdateSession(ctx, sync.ID{9}, func(p *people.Session) error { p.Revoked, p.Ended = 61, people.SignedOut; return nil }))
	must(t, s.SetPassphrase(ctx, ben.ID, "phc2", true, 62))
	if a, err := s.Account(ctx, ben.ID); err != nil || a.Passphrase != "phc2" {
		t.Errorf("new passphrase: %+v, %v", a, err)
	}
	_, err := s.Journal(ctx, ben.ID, 0, 100)
	wantCode(t, "who is not the host reads it", err, fault.NotFound)
	lines, err := s.Journal(ctx, ann.ID, 0, 100)
	must(t, err)
	var what []string
	var at people.Line
	for i := len(lines) - 1; i >= 0; i-- {
		what = append(what, string(lines[i].What))
		if next := at.Next(lines[i].Event); next != lines[i] {
			t.Errorf("line %d does not follow", lines[i].Seq)
		}
		at = lines[i]
	}
	if got, want := strings.Join(what, ", "), "book opened, invited, joined, signed in, signed out, new passphrase"; got != want {
		t.Errorf("the journal has %s; want %s", got, want)
	}
	some, err := s.Journal(ctx, ann.ID, 4, 2)
	if err != nil || len(some) != 2 || some[0].Seq != 3 || some[1].Seq != 2 {
		t.Errorf("before line 4: %+v, %v", some, err)
	}
	if none, err := s.Journal(ctx, ann.ID, 1, 2); err != nil || len(none) != 0 {
		t.Errorf("before line 1: %+v, %v", none, err)
	}
}
