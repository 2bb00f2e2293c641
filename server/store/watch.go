package store

import (
	"context"
	"maps"
	stdsync "sync"

	"linkrod/sync"
)

// Watch tells of books whose ledger moved, whoever moved it: each time the
// newest position of every one since the time before. It ends when ctx does.
// Whoever is slow misses positions in between, never the last one. A position
// that is lost, as when the engine's other processes can't be heard for a
// while, costs its reader waiting only: nobody may rely on more.
func (d *DB) Watch(ctx context.Context) <-chan map[sync.ID]uint64 {
	out := make(chan map[sync.ID]uint64)
	e := d.news.listen()
	go func() {
		defer close(out)
		defer d.news.leave(e)
		for {
			select {
			case <-ctx.Done():
				return
			case <-e.wake:
			}
			select {
			case <-ctx.Done():
				return
			case out <- e.take():
			}
		}
	}()
	return out
}

// news passes on, within this process, which books moved.
type news struct {
	mu   stdsync.Mutex
	ears map[*ear]struct{}
}

// ear is one listener. News waits in moved, the latest of each book only, so
// that a slow one costs no memory and holds nobody up.
type ear struct {
	mu    stdsync.Mutex
	moved map[sync.ID]uint64
	wake  chan struct{}
}

func newNews() *news { return &news{ears: make(map[*ear]struct{})} }

func (n *news) listen() *ear {
	e := &ear{moved: make(map[sync.ID]uint64), wake: make(chan struct{}, 1)}
	n.mu.Lock()
	defer n.mu.Unlock()
	n.ears[e] = struct{}{}
	return e
}

func (n *news) leave(e *ear) {
	n.mu.Lock()
	defer n.mu.Unlock()
	delete(n.ears, e)
}

// tell never waits.
func (n *news) tell(book sync.ID, head uint64) {
	n.mu.Lock()
	defer n.mu.Unlock()
	for e := range n.ears {
		e.hear(book, head)
	}
}

func (e *ear) hear(book sync.ID, head uint64) {
	e.mu.Lock()
	e.moved[book] = max(e.moved[book], head)
	e.mu.Unlock()
	select {
	case e.wake <- struct{}{}:
	default: // awake already
	}
}

// take hands over what has come since the last time.
func (e *ear) take() map[sync.ID]uint64 {
	e.mu.Lock()
	defer e.mu.Unlock()
	moved := maps.Clone(e.moved)
	clear(e.moved)
	return moved
}
