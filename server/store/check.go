package store

import (
	"encoding/json"
	"fmt"
	"runtime/debug"

	bolt "go.etcd.io/bbolt"

	"linkrod/server/people"
	"linkrod/sync"
)

// Report is what a data file holds and what is wrong with it.
type Report struct {
	Accounts int
	Devices  int
	Books    int
	Records  int
	Aside    int
	Problems []string // sentences; none: the file is sound
}

// maxProblems ends a report on a file that is beyond counting.
const maxProblems = 100

// Check reads the whole data file at path, changing nothing: the file's own
// structure, and every promise about what is in it. An error means that it
// could not be looked at (Busy: another process has it open); what is wrong
// inside is in the Report.
func Check(path string) (Report, error) {
	db, err := openBolt(path, Options{}, true)
	if err != nil {
		return Report{}, err
	}
	defer db.Close()
	var r Report
	err = db.View(func(t *bolt.Tx) error {
		if err := careful(func() error { return r.verify(boltTx{t}) }); err != nil {
			r.problem("Reading stopped: %v.", err)
			return nil // what bbolt's own check would do now is anybody's guess
		}
		for err := range t.Check() {
			r.problem("The file's structure: %v.", err)
		}
		return nil
	})
	return r, err
}

// Verify is [Check] of a store that is open, without the file's own structure.
func (d *DB) Verify() (r Report, err error) {
	err = d.engine.view(func(t tx) error { return careful(func() error { return r.verify(t) }) })
	return r, err
}

// careful makes a damaged memory-mapped page an error.
func careful(fn func() error) (err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	return guard(fn)
}

func (r *Report) problem(format string, args ...any) {
	if len(r.Problems) < maxProblems {
		r.Problems = append(r.Problems, fmt.Sprintf(format, args...))
	}
}

func (r *Report) verify(t tx) error {
	if err := r.people(t); err != nil {
		return err
	}
	var books []sync.ID
	err := t.scan(tableBooks, nil, nil, func(key, value []byte) (bool, error) {
		var made bookMade
		if len(key) != 16 || json.Unmarshal(value, &made) != nil {
			r.problem("Book %x can't be read.", key)
			return true, nil
		}
		books = append(books, sync.ID(key))
		return true, nil
	})
	if err != nil {
		return err
	}
	r.Books = len(books)
	var turns, aside int
	for _, book := range books {
		nt, na, err := r.book(t, book)
		if err != nil {
			return err
		}
		turns, aside = turns+nt, aside+na
	}
	// Whatever no book accounts for was written by nobody.
	for _, table := range []struct {
		name string
		want int
	}{{tableLedger, r.Records}, {tableTurns, turns}, {tableAside, aside}} {
		n, err := count(t, table.name)
		if err != nil {
			return err
		}
		if n != table.want {
			r.problem("Table %s has %d rows and the books account for %d.", table.name, n, table.want)
		}
	}
	return nil
}

// book checks L1 to L4 of one ledger, and that ledger, turns and aside tell
// the same story.
func (r *Report) book(t tx, book sync.ID) (turns, aside int, err error) {
	var head sync.Head
	records := 0
	err = t.scan(tableLedger, book[:], nil, func(key, value []byte) (bool, error) {
		records++
		var rec sync.Record
		if err := json.Unmarshal(value, &rec); err != nil {
			r.problem("Book %v, record %d can't be read: %v.", book, lastNumber(key), err)
			return false, nil
		}
		next, err := sync.Follow(head, []sync.Record{rec})
		switch {
		case err != nil:
			r.problem("Book %v: %v", book, err)
			return false, nil
		case lastNumber(key) != rec.Seq || rec.Entry.Book != book:
			r.problem("Book %v, record %d stands in the wrong place.", book, rec.Seq)
		case string(t.get(tableTurns, turnKey(book, rec.Entry.Device, rec.Entry.N))) != string(putNumber(rec.Seq)):
			r.problem("Book %v, record %d: its device's number %d leads elsewhere.", book, rec.Seq, rec.Entry.N)
		}
		head = next
		return true, nil
	})
	if err != nil {
		return 0, 0, err
	}
	var device sync.ID
	var n, last uint64 // of the device: its number, and the seq before
	taken := 0
	err = t.scan(tableTurns, book[:], nil, func(key, value []byte) (bool, error) {
		turns++
		if d := sync.ID(key[16:32]); d != device {
			device, n, last = d, 0, 0
		}
		if n++; lastNumber(key) != n {
			r.problem("Book %v, device %v: number %d is missing.", book, device, n)
			n = lastNumber(key)
		}
		seq := lastNumber(value)
		if seq == 0 {
			aside++
			var a sync.Aside
			if ok, err := read(t, tableAside, key, &a); err != nil || !ok || a.N != n {
				r.problem("Book %v, device %v: number %d was set aside and is not there.", book, device, n)
			}
			return true, nil
		}
		taken++
		if seq <= last {
			r.problem("Book %v, device %v: number %d stands before number %d.", book, device, n, n-1)
		}
		last = seq
		return true, nil
	})
	if taken != records {
		r.problem("Book %v has %d records and %d numbers that lead to one.", book, records, taken)
	}
	r.Records += records
	r.Aside += aside
	return turns, aside, err
}

// people checks accounts, their names, and that devices and memberships lead
// to somebody.
func (r *Report) people(t tx) error {
	err := t.scan(tableAccounts, nil, nil, func(key, value []byte) (bool, error) {
		r.Accounts++
		var a people.Account
		if json.Unmarshal(value, &a) != nil || string(t.get(tableNames, foldName(a.Name))) != string(key) {
			r.problem("Account %x can't be read or not be found by its name.", key)
		}
		return true, nil
	})
	if err != nil {
		return err
	}
	err = t.scan(tableDevices, nil, nil, func(key, value []byte) (bool, error) {
		r.Devices++
		var d people.Device
		if json.Unmarshal(value, &d) != nil || t.get(tableAccounts, d.Account[:]) == nil {
			r.problem("Device %x can't be read or belongs to nobody.", key)
		}
		return true, nil
	})
	if err != nil {
		return err
	}
	return t.scan(tableMembers, nil, nil, func(key, _ []byte) (bool, error) {
		if len(key) != 32 || t.get(tableAccounts, key[:16]) == nil || t.get(tableBooks, key[16:]) == nil {
			r.problem("A membership leads to no account or no book: %x.", key)
		}
		return true, nil
	})
}

func count(t tx, table string) (n int, err error) {
	err = t.scan(table, nil, nil, func(_, _ []byte) (bool, error) { n++; return true, nil })
	return n, err
}
