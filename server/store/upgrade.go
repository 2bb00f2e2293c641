package store

import (
	"bytes"
	"errors"
	"fmt"
	"os"

	bolt "go.etcd.io/bbolt"

	"linkrod/server/people"
	"linkrod/sync"
)

// formatOf tells how a file is laid out; an error is about what isn't one of
// ours.
func formatOf(t *bolt.Tx) (string, error) {
	meta := t.Bucket([]byte(tableMeta))
	if meta == nil {
		return "", fmt.Errorf("store: no table %q", tableMeta)
	}
	return string(meta.Get(keyFormat)), nil
}

// tables1 are those of format 1, which had roles as bare text and neither
// invitations, journal nor photographs.
func tables1() []string {
	return []string{tableMeta, tableAccounts, tableNames, tableDevices, tableSessions, tablePairings,
		tableBooks, tableMembers, tableLedger, tableTurns, tableAside}
}

// takeOver brings an open file to today's format, if it isn't.
func takeOver(db *bolt.DB) error {
	var has string
	err := db.View(func(t *bolt.Tx) (err error) { has, err = formatOf(t); return err })
	if err != nil || has == format {
		return err
	}
	return db.Update(upgrade)
}

// upgrade makes a file of format 1 one of format 2, in one transaction.
func upgrade(t *bolt.Tx) error {
	for _, name := range tables() {
		if _, err := t.CreateBucketIfNotExists([]byte(name)); err != nil {
			return err
		}
	}
	type row struct{ key, value []byte }
	var rows []row
	b := boltTx{t}
	err := b.scan(tableMembers, nil, nil, func(key, value []byte) (bool, error) {
		rows = append(rows, row{bytes.Clone(key), bytes.Clone(value)})
		return true, nil
	})
	if err != nil {
		return err
	}
	for _, r := range rows {
		if len(r.key) != 32 {
			return fmt.Errorf("store: member key %x", r.key)
		}
		account, book := sync.ID(r.key[:16]), sync.ID(r.key[16:])
		var made bookMade
		if _, err := read(b, tableBooks, book[:], &made); err != nil {
			return err
		}
		role := people.Role(r.value)
		if err := putMember(b, book, account, member{Role: role, Signs: role.Signs(), Added: made.Created, By: made.Account}); err != nil {
			return err
		}
	}
	return b.put(tableMeta, keyFormat, []byte(format))
}

// takenOver writes the older file that t reads to a temporary one, and takes
// that over. The caller removes it.
func takenOver(t *bolt.Tx) (path string, err error) {
	f, err := os.CreateTemp("", "linkrod-*.tmp")
	if err != nil {
		return "", err
	}
	_, err = t.WriteTo(f)
	if err = errors.Join(err, f.Close()); err != nil {
		return f.Name(), err
	}
	db, err := openBolt(f.Name(), Options{}, false)
	if err != nil {
		return f.Name(), err
	}
	return f.Name(), db.Close()
}
