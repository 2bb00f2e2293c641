package store

import (
	"bytes"
	"context"
	"slices"
	stdsync "sync"
)

// Memory is a store without a file, for tests and simulations. It forgets
// everything when it is closed.
func Memory() *DB {
	m := &memory{tables: make(map[string]*table)}
	for _, name := range tables() {
		m.tables[name] = new(table)
	}
	return &DB{engine: m, news: newNews()}
}

// memory keeps each table as one sorted list. Updates run one at a time and
// undo what they did when they fail.
type memory struct {
	mu     stdsync.RWMutex
	tables map[string]*table
}

type table struct{ rows []row }

type row struct{ key, value []byte }

func (m *memory) view(fn func(tx) error) error {
	m.mu.RLock()
	defer m.mu.RUnlock()
	return fn(&memoryTx{tables: m.tables})
}

func (m *memory) update(ctx context.Context, fn func(tx) error) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	t := &memoryTx{tables: m.tables}
	err := fn(t)
	if err != nil {
		for _, undo := range slices.Backward(t.undo) {
			undo()
		}
	}
	return err
}

func (m *memory) close() error { return nil }

type memoryTx struct {
	tables map[string]*table
	undo   []func()
}

func (t *table) find(key []byte) (int, bool) {
	return slices.BinarySearchFunc(t.rows, key, func(r row, key []byte) int { return bytes.Compare(r.key, key) })
}

func (t *memoryTx) get(name string, key []byte) []byte {
	tab := t.tables[name]
	if i, ok := tab.find(key); ok {
		return tab.rows[i].value
	}
	return nil
}

func (t *memoryTx) put(name string, key, value []byte) error {
	tab := t.tables[name]
	key, value = bytes.Clone(key), bytes.Clone(value)
	i, ok := tab.find(key)
	if ok {
		old := tab.rows[i].value
		tab.rows[i].value = value
		t.undo = append(t.undo, func() { tab.rows[i].value = old })
		return nil
	}
	tab.rows = slices.Insert(tab.rows, i, row{key, value})
	t.undo = append(t.undo, func() { tab.rows = slices.Delete(tab.rows, i, i+1) })
	return nil
}

func (t *memoryTx) remove(name string, key []byte) error {
	tab := t.tables[name]
	if i, ok := tab.find(key); ok {
		old := tab.rows[i]
		tab.rows = slices.Delete(tab.rows, i, i+1)
		t.undo = append(t.undo, func() { tab.rows = slices.Insert(tab.rows, i, old) })
	}
	return nil
}

func (t *memoryTx) scan(name string, prefix, from []byte, fn func(key, value []byte) (bool, error)) error {
	if from == nil {
		from = prefix
	}
	tab := t.tables[name]
	i, _ := tab.find(from)
	rows := slices.Clone(tab.rows[i:]) // fn may put and remove
	for _, r := range rows {
		if !bytes.HasPrefix(r.key, prefix) {
			return nil
		}
		if more, err := fn(r.key, r.value); err != nil || !more {
			return err
		}
	}
	return nil
}

func (t *memoryTx) last(name string, prefix []byte) (key, value []byte) {
	tab := t.tables[name]
	i, _ := tab.find(after(prefix))
	if i == 0 || !bytes.HasPrefix(tab.rows[i-1].key, prefix) {
		return nil, nil
	}
	return tab.rows[i-1].key, tab.rows[i-1].value
}

// after is a key above every key of this package that starts with prefix:
// none goes on with more than 24 bytes.
func after(prefix []byte) []byte {
	return append(bytes.Clone(prefix), bytes.Repeat([]byte{0xff}, 25)...)
}
