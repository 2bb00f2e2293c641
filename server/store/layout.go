package store

import (
	"encoding/binary"
	"encoding/json"
	"fmt"

	"linkrod/sync"
)

// The tables, one bbolt bucket each. Values are JSON unless said otherwise;
// numbers in keys are big-endian, so that keys sort as they count.
const (
	tableMeta     = "meta"     // "format" -> "1"; "made" -> Made; "shop" -> people.Shop; "setup" -> setupToken
	tableAccounts = "accounts" // account 16 -> people.Account
	tableNames    = "names"    // folded name -> account 16 (raw)
	tableDevices  = "devices"  // device 16 -> people.Device
	tableSessions = "sessions" // session 16 -> people.Session
	tablePairings = "pairings" // code hash 32 -> people.Pairing
	tableBooks    = "books"    // book 16 -> bookMade
	tableMembers  = "members"  // account 16, book 16 -> role (its text)
	tableLedger   = "ledger"   // book 16, seq 8 -> sync.Record
	tableTurns    = "turns"    // book 16, device 16, n 8 -> seq 8 (raw); 0: set aside
	tableAside    = "aside"    // book 16, device 16, n 8 -> sync.Aside
)

func tables() []string {
	return []string{tableMeta, tableAccounts, tableNames, tableDevices, tableSessions, tablePairings,
		tableBooks, tableMembers, tableLedger, tableTurns, tableAside}
}

// The rows of meta.
var (
	keyFormat = []byte("format")
	keyMade   = []byte("made")
	keyShop   = []byte("shop")
	keySetup  = []byte("setup")
)

// format is the layout above; a file with another one is refused.
const format = "1"

func seqKey(book sync.ID, seq uint64) []byte {
	return binary.BigEndian.AppendUint64(append([]byte(nil), book[:]...), seq)
}

func turnPrefix(book, device sync.ID) []byte {
	return append(append([]byte(nil), book[:]...), device[:]...)
}

func turnKey(book, device sync.ID, n uint64) []byte {
	return binary.BigEndian.AppendUint64(turnPrefix(book, device), n)
}

func memberKey(account, book sync.ID) []byte {
	return append(append([]byte(nil), account[:]...), book[:]...)
}

// lastNumber is the number a key of ledger, turns or aside ends with.
func lastNumber(key []byte) uint64 { return binary.BigEndian.Uint64(key[len(key)-8:]) }

func putNumber(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }

// read decodes the value under key into v and reports whether it was there.
func read(t tx, table string, key []byte, v any) (bool, error) {
	data := t.get(table, key)
	if data == nil {
		return false, nil
	}
	if err := json.Unmarshal(data, v); err != nil {
		return false, fmt.Errorf("store: table %s, key %x: %w", table, key, err)
	}
	return true, nil
}

func write(t tx, table string, key []byte, v any) error {
	data, err := json.Marshal(v)
	if err != nil {
		return fmt.Errorf("store: table %s: %w", table, err)
	}
	return t.put(table, key, data)
}
