package store

import "context"

// engine is what the rules of this package stand on: ordered tables of bytes
// and transactions over them. bbolt is one, memory the other.
type engine interface {
	// view runs fn on one unchanging state.
	view(fn func(tx) error) error
	// update runs fn and keeps everything it put, or nothing: when fn or the
	// commit fails, the error comes back and the state is as before. A nil
	// error means it is on disk. fn may run more than once.
	update(ctx context.Context, fn func(tx) error) error
	close() error
}

// tx is one transaction. What get, scan and last hand out is valid inside it
// only and must not be changed.
type tx interface {
	get(table string, key []byte) []byte // nil: no such key
	put(table string, key, value []byte) error
	remove(table string, key []byte) error
	// scan calls fn for each key with the prefix, ascending, from the key from
	// on (nil: all), until fn returns false or an error.
	scan(table string, prefix, from []byte, fn func(key, value []byte) (bool, error)) error
	// last returns the highest key with the prefix, or nil.
	last(table string, prefix []byte) (key, value []byte)
}
