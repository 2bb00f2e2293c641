package store

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	bolt "go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"

	"linkrod/server/fault"
)

// FileName is the data file's name in the data folder.
const FileName = "linkrod.db"

// DB is a store. It is safe for concurrent use.
type DB struct {
	engine engine
	path   string // empty for memory
	news   *news
}

// Options of [Open]; the zero value is right outside tests.
type Options struct {
	MaxSize  int           // bytes the file may grow to; 0: as the disk allows
	LockWait time.Duration // for another process to let go of the file; 0: 1 s
}

// Made is how a data file came to be.
type Made struct {
	At       int64   `json:"at"`                 // ms
	Restored []int64 `json:"restored,omitempty"` // ms, each time it was put back from a backup
}

// Open opens the data file at path, making it and its folder when there is
// none. A file it makes is complete and its name on disk before Open returns.
//
// Errors are faults with words for whoever runs the server: Busy when another
// process has the file, Conflict when it is damaged or of another version
// (the words name the last backup).
func Open(path string, o Options) (*DB, error) {
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		if err := create(path); err != nil {
			return nil, fault.Wrap(fault.Refused, fmt.Sprintf("The data file %s can't be made. Check that the folder exists and can be written to.", path), err)
		}
	} else if err != nil {
		return nil, fault.Wrap(fault.Refused, fmt.Sprintf("The data file %s can't be reached.", path), err)
	}
	db, err := openBolt(path, o, false)
	if err != nil {
		return nil, err
	}
	return &DB{engine: newBoltEngine(db), path: path, news: newNews()}, nil
}

// Close finishes what is being written and lets go of the file.
func (d *DB) Close() error { return d.engine.close() }

// Path is where the data file is; empty for [Memory].
func (d *DB) Path() string { return d.path }

// Restored is when the data was last put back from a backup (ms); 0: never.
func (d *DB) Restored(context.Context) (int64, error) {
	made, err := d.Made()
	if fault.CodeOf(err) == fault.NotFound || err == nil && len(made.Restored) == 0 {
		return 0, nil
	}
	if err != nil {
		return 0, err
	}
	return made.Restored[len(made.Restored)-1], nil
}

// Made says how the data came to be, and when it was put back.
func (d *DB) Made() (Made, error) {
	return one[Made](d, tableMeta, keyMade, errNotMade)
}

func openBolt(path string, o Options, readOnly bool) (*bolt.DB, error) {
	if o.LockWait == 0 {
		o.LockWait = time.Second
	}
	options := bolt.Options{Timeout: o.LockWait, ReadOnly: true, MaxSize: o.MaxSize, FreelistType: bolt.FreelistMapType}
	var db *bolt.DB
	err := careful(func() (err error) {
		// A first look that writes nothing: bbolt meets a file cut short with a
		// fault, and keeps the file locked.
		if db, err = bolt.Open(path, 0o600, &options); err != nil {
			return err
		}
		if err := db.View(look); err != nil {
			return err
		}
		if err := db.Close(); err != nil {
			return err
		}
		options.ReadOnly, options.PreLoadFreelist = readOnly, true
		if db, err = bolt.Open(path, 0o600, &options); err != nil || readOnly {
			return err
		}
		return takeOver(db)
	})
	var told *fault.Fault
	switch {
	case err == nil:
		return db, nil
	case errors.As(err, &told):
	case errors.Is(err, berrors.ErrTimeout):
		return nil, fault.Wrap(fault.Busy, fmt.Sprintf("Another process has %s open, most likely a Linkrod that is already running. Stop it first, or ask it (backup and check do).", path), err)
	case errors.Is(err, fs.ErrPermission):
		return nil, fault.Wrap(fault.Refused, fmt.Sprintf("The data file %s may not be opened by this user.", path), err)
	default:
		err = fault.Wrap(fault.Conflict, fmt.Sprintf("The data file %s is damaged or not one of Linkrod's. Leave it as it is. %s", path, lastBackupWords(path)), err)
	}
	if db != nil {
		db.Close()
	}
	return nil, err
}

// look tells a whole file of this format from anything else.
func look(t *bolt.Tx) error {
	info, err := os.Stat(t.DB().Path())
	if err != nil {
		return err
	}
	if info.Size() < t.Size() {
		return fmt.Errorf("store: the file has %d bytes of %d: it is cut short", info.Size(), t.Size())
	}
	got, err := formatOf(t)
	if err != nil {
		return err
	}
	want := tables()
	switch got {
	case format:
	case "1":
		want = tables1()
	default:
		return fault.New(fault.Conflict, fmt.Sprintf("The data file has format %q and this version knows up to %q. Use the version that wrote it.", got, format))
	}
	for _, name := range want {
		if t.Bucket([]byte(name)) == nil {
			return fmt.Errorf("store: no table %q", name)
		}
	}
	return nil
}

// create makes the file under another name, whole, and only then gives it its
// own: a power cut leaves either nothing or a good file.
func create(path string) error {
	dir := filepath.Dir(path)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	fresh := path + ".new"
	if err := os.Remove(fresh); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	db, err := bolt.Open(fresh, 0o600, &bolt.Options{Timeout: time.Second})
	if err != nil {
		return err
	}
	err = db.Update(func(t *bolt.Tx) error {
		for _, name := range tables() {
			if _, err := t.CreateBucket([]byte(name)); err != nil {
				return err
			}
		}
		made, err := json.Marshal(Made{At: time.Now().UnixMilli()})
		if err != nil {
			return err
		}
		meta := t.Bucket([]byte(tableMeta))
		return errors.Join(meta.Put(keyFormat, []byte(format)), meta.Put(keyMade, made))
	})
	if err = errors.Join(err, db.Sync(), db.Close()); err != nil {
		return err
	}
	if err := os.Rename(fresh, path); err != nil {
		return err
	}
	return syncDir(dir)
}

// syncDir makes names in dir last through a power cut.
func syncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}
