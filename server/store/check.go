package store

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"os"
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
	Photos   int
	Journal  int      // lines
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
	var copied string // of an older file, as this version takes it over
	err = db.View(func(t *bolt.Tx) error {
		has, err := formatOf(t)
		if err != nil {
			return err
		}
		if has != format {
			copied, err = takenOver(t)
			return err
		}
		if err := careful(func() error { return r.verify(boltTx{t}) }); err != nil {
			r.problem("Reading stopped: %v.", err)
			return nil // what bbolt's own check would do now is anybody's guess
		}
		for err := range t.Check() {
			r.problem("The file's structure: %v.", err)
		}
		return nil
	})
	if copied != "" {
		defer os.Remove(copied)
	}
	if err == nil && copied != "" {
		return Check(copied)
	}
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
	var rows rows
	for _, book := range books {
		if err := r.book(t, book, &rows); err != nil {
			return err
		}
		if err := r.photos(t, book, &rows); err != nil {
			return err
		}
	}
	if err := r.journal(t); err != nil {
		return err
	}
	// Whatever no book accounts for was written by nobody.
	for _, table := range []struct {
		name string
		want int
	}{{tableLedger, r.Records}, {tableTurns, rows.turns}, {tableAside, rows.aside}, {tableOffered, rows.offered},
		{tablePhotos, rows.photos}, {tablePieces, rows.pieces}} {
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

// rows are how many of each table the books account for.
type rows struct{ turns, aside, offered, photos, pieces int }

// book checks L1 to L4 of one ledger, and that ledger, turns and aside tell
// the same story.
func (r *Report) book(t tx, book sync.ID, rows *rows) error {
	var head sync.Head
	records := 0
	err := t.scan(tableLedger, book[:], nil, func(key, value []byte) (bool, error) {
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
		return err
	}
	var device sync.ID
	var n uint64 // of the device
	taken := 0
	err = t.scan(tableTurns, book[:], nil, func(key, value []byte) (bool, error) {
		rows.turns++
		if d := sync.ID(key[16:32]); d != device {
			device, n = d, 0
		}
		if n++; lastNumber(key) != n {
			r.problem("Book %v, device %v: number %d is missing.", book, device, n)
			n = lastNumber(key)
		}
		seq := lastNumber(value)
		if seq == 0 {
			rows.aside++
			var a sync.Aside
			if ok, err := read(t, tableAside, key, &a); err != nil || !ok || a.N != n {
				r.problem("Book %v, device %v: number %d was set aside and is not there.", book, device, n)
			} else if a.State != sync.Missing {
				r.Aside++
			}
			return true, nil
		}
		taken++
		return true, nil
	})
	if err != nil {
		return err
	}
	if taken != records {
		r.problem("Book %v has %d records and %d numbers that lead to one.", book, records, taken)
	}
	r.Records += records
	return t.scan(tableOffered, book[:], nil, func(key, value []byte) (bool, error) {
		rows.offered++
		r.Aside++
		var a sync.Aside
		if len(key) != 72 || json.Unmarshal(value, &a) != nil || string(a.Hash[:]) != string(key[40:]) {
			r.problem("Book %v: what was offered under %x can't be read.", book, key)
		}
		return true, nil
	})
}

// photos checks that every piece belongs to a photograph, that the pieces are
// as many bytes as it counts, and of whole ones that they are what their name
// says.
func (r *Report) photos(t tx, book sync.ID, rows *rows) error {
	return t.scan(tablePhotos, book[:], nil, func(key, value []byte) (bool, error) {
		rows.photos++
		r.Photos++
		var row photoRow
		if len(key) != 48 || json.Unmarshal(value, &row) != nil {
			r.problem("Book %v: photograph %x can't be read.", book, key[16:])
			return true, nil
		}
		h, bytes := sha256.New(), int64(0)
		err := t.scan(tablePieces, key, nil, func(at, piece []byte) (bool, error) {
			rows.pieces++
			if int64(lastNumber(at)) != bytes {
				r.problem("Book %v: photograph %x has a gap at byte %d.", book, key[16:], bytes)
			}
			h.Write(piece)
			bytes += int64(len(piece))
			return true, nil
		})
		switch {
		case bytes != row.Offset || bytes > row.Length:
			r.problem("Book %v: photograph %x has %d bytes and counts %d.", book, key[16:], bytes, row.Offset)
		case row.Kind != "" && (string(h.Sum(nil)) != string(key[16:]) || bytes != row.Length):
			r.problem("Book %v: photograph %x is not what its name says.", book, key[16:])
		}
		return true, err
	})
}

// journal checks J1 and J2.
func (r *Report) journal(t tx) error {
	var last people.Line
	return t.scan(tableJournal, nil, nil, func(key, value []byte) (bool, error) {
		r.Journal++
		var line people.Line
		if json.Unmarshal(value, &line) != nil || lastNumber(key) != line.Seq || last.Next(line.Event) != line {
			r.problem("The journal does not go on from line %d to line %d.", last.Seq, lastNumber(key))
			return false, nil
		}
		last = line
		return true, nil
	})
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
	members := 0
	err = t.scan(tableMembers, nil, nil, func(key, value []byte) (bool, error) {
		var m member
		if len(key) != 32 || json.Unmarshal(value, &m) != nil || t.get(tableAccounts, key[:16]) == nil || t.get(tableBooks, key[16:]) == nil {
			r.problem("A membership leads to no account or no book: %x.", key)
			return true, nil
		}
		there := t.get(tableSharers, sharerKey(sync.ID(key[16:]), sync.ID(key[:16]))) != nil
		if there != (m.Role != "") {
			r.problem("A membership stands in one list and not in the other: %x.", key)
		}
		if there {
			members++
		}
		return true, nil
	})
	if err != nil {
		return err
	}
	sharers, err := count(t, tableSharers)
	if sharers != members {
		r.problem("Table %s has %d rows and there are %d members.", tableSharers, sharers, members)
	}
	return err
}

func count(t tx, table string) (n int, err error) {
	err = t.scan(table, nil, nil, func(_, _ []byte) (bool, error) { n++; return true, nil })
	return n, err
}
