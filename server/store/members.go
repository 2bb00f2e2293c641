package store

import (
	"cmp"
	"context"
	"slices"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// member is a row of the table members. Somebody who left has no role any
// more, and is remembered: what they wrote before they knew is held.
type member struct {
	Role  people.Role `json:"role"`
	Signs bool        `json:"signs"`
	Added int64       `json:"added"`
	By    sync.ID     `json:"by"`
	Left  int64       `json:"left,omitempty"` // ms
}

func memberOf(t tx, book, account sync.ID) (m member, err error) {
	_, err = read(t, tableMembers, memberKey(account, book), &m)
	return m, err
}

func putMember(t tx, book, account sync.ID, m member) error {
	if err := write(t, tableMembers, memberKey(account, book), m); err != nil {
		return err
	}
	return t.put(tableSharers, sharerKey(book, account), []byte{1})
}

func dropMember(t tx, book, account sync.ID, now int64) error {
	if err := write(t, tableMembers, memberKey(account, book), member{Left: now}); err != nil {
		return err
	}
	return t.remove(tableSharers, sharerKey(book, account))
}

var (
	errNotAllowed = fault.New(fault.Refused, "What you are in this book doesn't include that. Ask its owner.")
	errNotHere    = fault.New(fault.NotFound, "There is nothing at this address.")
	errNoMember   = fault.New(fault.NotFound, "Nobody of that account belongs to this book.")
	errLastOwner  = fault.New(fault.Conflict, "A book keeps at least one owner. Make somebody else an owner first.")
	errRole       = fault.New(fault.Invalid, "There is no such role in a book of this kind.")
)

// inBook returns what account is in a book, when it may do act there. NotFound
// to strangers, as if there were no such book; Refused to those who belong and
// may not.
func inBook(t tx, book, account sync.ID, act people.Act) (member, error) {
	m, err := memberOf(t, book, account)
	if err != nil {
		return m, err
	}
	host, err := isHost(t, account)
	switch {
	case err != nil:
		return m, err
	case people.May(m.Role, host, act) && t.get(tableBooks, book[:]) != nil:
		return m, nil
	case m.Role == "":
		return m, errNoBook
	}
	return m, errNotAllowed
}

// onInstance lets through whom the table of rights lets; to others there is
// nothing.
func onInstance(t tx, account sync.ID, act people.Act) error {
	host, err := isHost(t, account)
	if err == nil && !people.May("", host, act) {
		err = errNotHere
	}
	return err
}

func isHost(t tx, account sync.ID) (bool, error) {
	var a people.Account
	_, err := read(t, tableAccounts, account[:], &a)
	return a.Host && a.Removed == 0, err
}

func ofBook(t tx, book sync.ID) (people.Of, error) {
	var made bookMade
	_, err := read(t, tableBooks, book[:], &made)
	if made.Of == "" {
		made.Of = people.Engine
	}
	return made.Of, err
}

// Members lists who belongs to a book, in the order they came, for those who
// read it.
func (d *DB) Members(ctx context.Context, book, who sync.ID) (list []people.Member, err error) {
	err = d.engine.view(func(t tx) error {
		if _, err := inBook(t, book, who, people.Read); err != nil {
			return err
		}
		list, err = membersOf(t, book)
		return err
	})
	return list, err
}

func membersOf(t tx, book sync.ID) (list []people.Member, err error) {
	err = t.scan(tableSharers, book[:], nil, func(key, _ []byte) (bool, error) {
		account := sync.ID(key[16:])
		m, err := memberOf(t, book, account)
		if err != nil {
			return false, err
		}
		var a people.Account
		if _, err := read(t, tableAccounts, account[:], &a); err != nil {
			return false, err
		}
		list = append(list, people.Member{Account: account, Name: a.Name, Role: m.Role, Signs: m.Signs, Added: m.Added, By: m.By})
		return true, nil
	})
	slices.SortStableFunc(list, func(a, b people.Member) int { return cmp.Compare(a.Added, b.Added) })
	return list, err
}

// SetMember gives a member of a book another role and right to sign. Invalid
// when the book's kind has no such role, Conflict when it would be left
// without an owner.
func (d *DB) SetMember(ctx context.Context, book, by, account sync.ID, change people.Change, now int64) (after people.Member, err error) {
	err = d.engine.update(ctx, func(t tx) error {
		m, err := sharedMember(t, book, by, account)
		if err != nil {
			return err
		}
		of, err := ofBook(t, book)
		if err != nil {
			return err
		}
		if change.Role != "" && change.Role != m.Role {
			if !slices.Contains(of.Roles(), change.Role) {
				return errRole
			}
			if err := notLast(t, book, account, m.Role); err != nil {
				return err
			}
			m.Role, m.Signs = change.Role, change.Role.Signs()
		}
		if change.Signs != nil {
			m.Signs = *change.Signs
		}
		if err := putMember(t, book, account, m); err != nil {
			return err
		}
		var a people.Account
		if _, err := read(t, tableAccounts, account[:], &a); err != nil {
			return err
		}
		after = people.Member{Account: account, Name: a.Name, Role: m.Role, Signs: m.Signs, Added: m.Added, By: m.By}
		return note(t, people.Event{At: now, What: people.Changed, By: by, Account: account, Book: book, Words: m.words()})
	})
	return after, err
}

// RemoveMember ends a membership. What they wrote stays; what they send from
// now on finds no book.
func (d *DB) RemoveMember(ctx context.Context, book, by, account sync.ID, now int64) error {
	return d.engine.update(ctx, func(t tx) error {
		m, err := sharedMember(t, book, by, account)
		if err != nil {
			return err
		}
		if err := notLast(t, book, account, m.Role); err != nil {
			return err
		}
		if err := dropMember(t, book, account, now); err != nil {
			return err
		}
		return note(t, people.Event{At: now, What: people.MemberRemoved, By: by, Account: account, Book: book})
	})
}

// sharedMember is a member that by may change.
func sharedMember(t tx, book, by, account sync.ID) (member, error) {
	if _, err := inBook(t, book, by, people.Share); err != nil {
		return member{}, err
	}
	m, err := memberOf(t, book, account)
	if err == nil && m.Role == "" {
		err = errNoMember
	}
	return m, err
}

// notLast is the fault of taking a role away that a book can't be without.
func notLast(t tx, book, account sync.ID, role people.Role) error {
	if !people.May(role, false, people.Share) {
		return nil
	}
	others, err := membersOf(t, book)
	if err != nil {
		return err
	}
	for _, o := range others {
		if o.Account != account && people.May(o.Role, false, people.Share) {
			return nil
		}
	}
	return errLastOwner
}

// words say what a member is, for the journal.
func (m member) words() string {
	if m.Signs {
		return string(m.Role) + ", signs"
	}
	return string(m.Role)
}
