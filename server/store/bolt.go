package store

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strings"
	"syscall"

	bolt "go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"

	"linkrod/server/fault"
)

// boltEngine keeps the tables in one bbolt file. Updates that wait at the
// same time share one commit and so one wait for the disk.
type boltEngine struct {
	db   *bolt.DB
	jobs chan job
	stop chan struct{} // closed by close: nothing new is taken
	done chan struct{} // closed when the last commit is over
}

type job struct {
	fn   func(tx) error
	done chan error // buffered, gets exactly one answer
}

func newBoltEngine(db *bolt.DB) *boltEngine {
	e := &boltEngine{db: db, jobs: make(chan job), stop: make(chan struct{}), done: make(chan struct{})}
	go e.run()
	return e
}

func (e *boltEngine) view(fn func(tx) error) error {
	return guard(func() error {
		return e.db.View(func(t *bolt.Tx) error { return fn(boltTx{t}) })
	})
}

// update waits until fn is on disk. Once fn is in the queue a cancelled ctx
// no longer matters: the answer must say what happened.
func (e *boltEngine) update(ctx context.Context, fn func(tx) error) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	j := job{fn: fn, done: make(chan error, 1)}
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-e.stop:
		return errStopping
	case e.jobs <- j:
		return <-j.done
	}
}

var errStopping = fault.New(fault.Busy, "The server is stopping. Nothing was taken; it will be sent again.")

// maxShared is how many updates share a commit at most.
const maxShared = 64

func (e *boltEngine) run() {
	defer close(e.done)
	for {
		select {
		case <-e.stop:
			return
		case j := <-e.jobs:
			shared := []job{j}
			for more := true; more && len(shared) < maxShared; {
				select {
				case j := <-e.jobs:
					shared = append(shared, j)
				default:
					more = false
				}
			}
			e.commit(shared)
		}
	}
}

// commit runs all jobs in one transaction. One that fails is answered, and
// the others start over without it, so no job sees anything of a failed one.
func (e *boltEngine) commit(jobs []job) {
	for len(jobs) > 0 {
		failed := -1
		err := guard(func() error {
			return e.db.Update(func(t *bolt.Tx) error {
				for i, j := range jobs {
					if err := j.fn(boltTx{t}); err != nil {
						failed = i
						return err
					}
				}
				return nil
			})
		})
		if failed < 0 {
			for _, j := range jobs {
				j.done <- err
			}
			return
		}
		jobs[failed].done <- err
		jobs = append(jobs[:failed:failed], jobs[failed+1:]...)
	}
}

func (e *boltEngine) close() error {
	close(e.stop)
	<-e.done
	return e.db.Close()
}

// guard turns what bbolt reports, and what it panics with on a damaged file,
// into errors a caller can use.
func guard(fn func() error) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("store: a damaged data file, or a defect: %v", p)
		}
	}()
	if err = fn(); full(err) {
		return fault.Wrap(fault.Busy, "The server's disk is full. Nothing of this was taken and nothing is lost; it will be sent again when there is room.", err)
	}
	return err
}

// full reports whether err says that there is no room. bbolt passes some of
// the system's errors on as text only.
func full(err error) bool {
	if errors.Is(err, berrors.ErrMaxSizeReached) {
		return true
	}
	for _, no := range []syscall.Errno{syscall.ENOSPC, syscall.EDQUOT, syscall.EFBIG} {
		if errors.Is(err, no) || err != nil && strings.Contains(err.Error(), no.Error()) {
			return true
		}
	}
	return false
}

type boltTx struct{ t *bolt.Tx }

func (b boltTx) get(table string, key []byte) []byte { return b.t.Bucket([]byte(table)).Get(key) }

func (b boltTx) put(table string, key, value []byte) error {
	return b.t.Bucket([]byte(table)).Put(key, value)
}

func (b boltTx) remove(table string, key []byte) error {
	return b.t.Bucket([]byte(table)).Delete(key)
}

func (b boltTx) scan(table string, prefix, from []byte, fn func(key, value []byte) (bool, error)) error {
	if from == nil {
		from = prefix
	}
	c := b.t.Bucket([]byte(table)).Cursor()
	for k, v := c.Seek(from); k != nil && bytes.HasPrefix(k, prefix); k, v = c.Next() {
		if more, err := fn(k, v); err != nil || !more {
			return err
		}
	}
	return nil
}

func (b boltTx) last(table string, prefix []byte) (key, value []byte) {
	c := b.t.Bucket([]byte(table)).Cursor()
	step := c.Prev
	if beyond, _ := c.Seek(after(prefix)); beyond == nil {
		step = c.Last
	}
	if key, value = step(); !bytes.HasPrefix(key, prefix) {
		return nil, nil
	}
	return key, value
}
