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
	tableMeta        = "meta"        // "format" -> "2"; "made" -> Made; "shop" -> people.Shop; "setup" -> setupToken
	tableAccounts    = "accounts"    // account 16 -> people.Account
	tableNames       = "names"       // folded name -> account 16 (raw)
	tableDevices     = "devices"     // device 16 -> people.Device
	tableSessions    = "sessions"    // session 16 -> people.Session
	tablePairings    = "pairings"    // code hash 32 -> people.Pairing
	tableInvitations = "invitations" // secret hash 32 -> people.Invitation
	tableBooks       = "books"       // book 16 -> bookMade
	tableMembers     = "members"     // account 16, book 16 -> member
	tableSharers     = "sharers"     // book 16, account 16 -> 1 (raw): the members the other way round
	tableJournal     = "journal"     // seq 8 -> people.Line
	tableLedger      = "ledger"      // book 16, seq 8 -> sync.Record
	tableTurns       = "turns"       // book 16, device 16, n 8 -> seq 8 (raw); 0: set aside
	tableAside       = "aside"       // book 16, device 16, n 8 -> sync.Aside
	tableOffered     = "offered"     // book 16, device 16, n 8, hash 32 -> sync.Aside that uses up no number
	tablePhotos      = "photos"      // book 16, SHA-256 32 -> photoRow
	tablePieces      = "pieces"      // book 16, SHA-256 32, offset 8 -> bytes of the photograph from there
)

func tables() []string {
	return []string{tableMeta, tableAccounts, tableNames, tableDevices, tableSessions, tablePairings, tableInvitations,
		tableBooks, tableMembers, tableSharers, tableJournal, tableLedger, tableTurns, tableAside, tableOffered, tablePhotos, tablePieces}
}

// The rows of meta.
var (
	keyFormat = []byte("format")
	keyMade   = []byte("made")
	keyShop   = []byte("shop")
	keySetup  = []byte("setup")
)

// format is the layout above. A file of an older one is taken over when it is
// opened (upgrade.go), one of a newer is refused.
const format = "2"

func seqKey(book sync.ID, seq uint64) []byte {
	return binary.BigEndian.AppendUint64(append([]byte(nil), book[:]...), seq)
}

func turnPrefix(book, device sync.ID) []byte {
	return append(append([]byte(nil), book[:]...), device[:]...)
}

func turnKey(book, device sync.ID, n uint64) []byte {
	return binary.BigEndian.AppendUint64(turnPrefix(book, device), n)
}

func offeredKey(book, device sync.ID, n uint64, hash sync.Hash) []byte {
	return append(turnKey(book, device, n), hash[:]...)
}

func memberKey(account, book sync.ID) []byte {
	return append(append([]byte(nil), account[:]...), book[:]...)
}

func sharerKey(book, account sync.ID) []byte { return turnPrefix(book, account) }

func photoKey(book sync.ID, sum sync.Hash) []byte {
	return append(append([]byte(nil), book[:]...), sum[:]...)
}

func pieceKey(book sync.ID, sum sync.Hash, offset int64) []byte {
	return binary.BigEndian.AppendUint64(photoKey(book, sum), uint64(offset))
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
	return true, decode(table, key, data, v)
}

// decode is read of a value that a scan came upon.
func decode(table string, key, value []byte, v any) error {
	if err := json.Unmarshal(value, v); err != nil {
		return fmt.Errorf("store: table %s, key %x: %w", table, key, err)
	}
	return nil
}

func write(t tx, table string, key []byte, v any) error {
	data, err := json.Marshal(v)
	if err != nil {
		return fmt.Errorf("store: table %s: %w", table, err)
	}
	return t.put(table, key, data)
}
