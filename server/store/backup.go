package store

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	bolt "go.etcd.io/bbolt"

	"linkrod/server/fault"
	"linkrod/server/people"
)

// Copy writes the data file as it is at this moment to w, while the store goes
// on working. The copy is made beside the file first, so that a slow reader
// holds nothing up.
func (d *DB) Copy(w io.Writer) error {
	e, ok := d.engine.(*boltEngine)
	if !ok {
		return errors.New("store: a store in memory has no file to copy")
	}
	f, err := os.CreateTemp(filepath.Dir(d.path), "copy-*.tmp")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	defer f.Close()
	err = guard(func() error {
		return e.db.View(func(t *bolt.Tx) error {
			_, err := t.WriteTo(f)
			return err
		})
	})
	if err != nil {
		return err
	}
	if _, err := f.Seek(0, io.SeekStart); err != nil {
		return err
	}
	_, err = io.Copy(w, f)
	return err
}

// CopyFile is [DB.Copy] of a data file no server has open.
func CopyFile(path string, w io.Writer) error {
	db, err := openBolt(path, Options{}, true)
	if err != nil {
		return err
	}
	defer db.Close()
	return guard(func() error {
		return db.View(func(t *bolt.Tx) error {
			_, err := t.WriteTo(w)
			return err
		})
	})
}

// Backup puts what source writes into a new file at out, checks every promise
// on that copy, and notes beside the data file at path that it was made. Until
// all of that is done there is no file at out. An existing file is never
// overwritten.
func Backup(path, out string, source func(io.Writer) error) (Report, error) {
	out, err := filepath.Abs(out)
	if err != nil {
		return Report{}, err
	}
	if _, err := os.Lstat(out); err == nil {
		return Report{}, fault.New(fault.Conflict, fmt.Sprintf("There is a file %s already, and a backup never overwrites one. Choose another name.", out))
	}
	part := out + ".part"
	report, err := writeChecked(part, source)
	if err != nil {
		os.Remove(part)
		return report, err
	}
	if err := os.Rename(part, out); err != nil {
		return report, err
	}
	if err := syncDir(filepath.Dir(out)); err != nil {
		return report, err
	}
	return report, noteBackup(path, backupNote{At: time.Now().UnixMilli(), Path: out, Records: report.Records})
}

// writeChecked writes and checks a data file at path.
func writeChecked(path string, source func(io.Writer) error) (Report, error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if err != nil {
		return Report{}, fault.Wrap(fault.Refused, fmt.Sprintf("The file %s can't be made.", path), err)
	}
	if err := errors.Join(guard(func() error { return source(f) }), f.Sync(), f.Close()); err != nil {
		return Report{}, err
	}
	report, err := Check(path)
	if err == nil && len(report.Problems) > 0 {
		err = fault.New(fault.Conflict, fmt.Sprintf("The copy is not sound: %s", report.Problems[0]))
	}
	return report, err
}

// Restore puts the backup at from in the place of the data file at path. The
// backup is checked first; the file that was there is kept under a name that
// says when, and returned. No server may be running.
//
// Sign-ins made after the backup are gone, and so are entries; phones notice
// by the ledger's chain and put back what they still hold.
func Restore(path, from string, now time.Time) (kept string, report Report, err error) {
	if report, err = Check(from); err != nil {
		return "", report, err
	}
	if len(report.Problems) > 0 {
		return "", report, fault.New(fault.Conflict, fmt.Sprintf("The backup %s is not sound, so nothing was changed: %s", from, report.Problems[0]))
	}
	if err := inUse(path); err != nil {
		return "", report, err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return "", report, err
	}
	part := path + ".part"
	defer os.Remove(part)
	if _, err := writeChecked(part, func(w io.Writer) error { return CopyFile(from, w) }); err != nil {
		return "", report, err
	}
	if err := noteRestore(part, now); err != nil {
		return "", report, err
	}
	if _, err := os.Lstat(path); err == nil {
		kept = path + ".before-restore-" + now.UTC().Format("20060102-150405")
		// A hard link first: at no moment is there no data file.
		if err := os.Link(path, kept); err != nil {
			return "", report, fault.Wrap(fault.Refused, fmt.Sprintf("The present data file can't be kept as %s, so nothing was changed.", kept), err)
		}
	}
	if err := os.Rename(part, path); err != nil {
		return kept, report, err
	}
	return kept, report, syncDir(filepath.Dir(path))
}

// inUse is the fault of a data file another process has open. One that is
// missing or damaged is not in use: that is what restoring is for.
func inUse(path string) error {
	if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	db, err := openBolt(path, Options{}, false)
	if err == nil {
		return db.Close()
	}
	if fault.CodeOf(err) == fault.Busy {
		return err
	}
	return nil
}

// noteRestore writes into the file that it was put back, for whoever asks why
// phones send so much again.
func noteRestore(path string, now time.Time) error {
	db, err := openBolt(path, Options{}, false)
	if err != nil {
		return err
	}
	err = db.Update(func(t *bolt.Tx) error {
		var made Made
		if _, err := read(boltTx{t}, tableMeta, keyMade, &made); err != nil {
			return err
		}
		made.Restored = append(made.Restored, now.UnixMilli())
		if err := note(boltTx{t}, people.Event{At: now.UnixMilli(), What: people.PutBack}); err != nil {
			return err
		}
		return write(boltTx{t}, tableMeta, keyMade, made)
	})
	return errors.Join(err, db.Sync(), db.Close())
}

// backupNote is kept beside the data file, where it is still readable when
// that no longer is.
type backupNote struct {
	At      int64  `json:"at"` // ms
	Path    string `json:"path"`
	Records int    `json:"records"`
}

func notePath(path string) string { return path + ".last-backup" }

func noteBackup(path string, n backupNote) error {
	data, err := json.Marshal(n)
	if err != nil {
		return err
	}
	return os.WriteFile(notePath(path), append(data, '\n'), 0o600)
}

// lastBackupWords says where the last backup of the data file at path went.
func lastBackupWords(path string) string {
	var n backupNote
	data, err := os.ReadFile(notePath(path))
	if err != nil || json.Unmarshal(data, &n) != nil {
		return "No backup was made from here that is known of; look for one, and put it back with: linkrod restore FILE."
	}
	return fmt.Sprintf("The last backup, of %s with %d entries, went to %s: put it back with: linkrod restore %s",
		time.UnixMilli(n.At).UTC().Format("2006-01-02 15:04 UTC"), n.Records, n.Path, n.Path)
}
