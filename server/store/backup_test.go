package store_test

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	stdsync "sync"
	"testing"
	"time"

	"linkrod/server/fault"
	"linkrod/server/store"
	"linkrod/server/store/storetest"
	"linkrod/sync"
)

// Ensure a backup made in the middle of writing is a sound piece of the
// ledger: everything acknowledged before it began is in it, in order.
func TestBackupWhileWriting(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, store.FileName)
	db := mustOpen(t, path, store.Options{})
	annsBook(t, db)
	entries := storetest.Written(phone, book, 1, 400, sync.Hash{})

	acknowledged := make(chan uint64, len(entries))
	var wait stdsync.WaitGroup
	wait.Go(func() {
		for i := 0; i < len(entries); i += 4 {
			if _, _, err := push(db, entries[i:i+4]); err != nil {
				t.Error(err)
			}
			acknowledged <- uint64(i + 4)
		}
	})
	for i, name := range []string{"one.db", "two.db", "three.db"} {
		before := <-acknowledged
		out := filepath.Join(dir, name)
		report, err := store.Backup(path, out, db.Copy)
		if err != nil || uint64(report.Records) < before {
			t.Errorf("backup %d: %d records, %d were acknowledged before it (%v)", i+1, report.Records, before, err)
		}
		if again, err := store.Check(out); err != nil || len(again.Problems) > 0 || again.Records != report.Records {
			t.Errorf("backup %d, looked at again: %+v, %v", i+1, again, err)
		}
	}
	wait.Wait()
	if left, _ := filepath.Glob(filepath.Join(dir, "*.tmp")); len(left) > 0 {
		t.Errorf("copies were left behind: %v", left)
	}
}

// Ensure a backup that can't be finished leaves no file that looks like one,
// and never overwrites another.
func TestBackupAllOrNothing(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, store.FileName)
	fill(t, path, 20)
	whole := func(w io.Writer) error { return store.CopyFile(path, w) }

	out := filepath.Join(dir, "out.db")
	_, err := store.Backup(path, out, func(w io.Writer) error {
		var b bytes.Buffer
		if err := whole(&b); err != nil {
			return err
		}
		_, err := w.Write(b.Bytes()[:b.Len()/2]) // the connection broke, and nobody said so
		return err
	})
	if err == nil {
		t.Error("half a copy was accepted as a backup")
	}
	boom := errors.New("boom")
	if _, err := store.Backup(path, out, func(io.Writer) error { return boom }); !errors.Is(err, boom) {
		t.Errorf("Backup = %v, want the source's error", err)
	}
	if left, _ := filepath.Glob(out + "*"); len(left) > 0 {
		t.Errorf("failed backups left %v behind", left)
	}
	if _, err := store.Backup(path, out, whole); err != nil {
		t.Fatal(err)
	}
	_, err = store.Backup(path, out, whole)
	wantFault(t, "a name that is taken", err, fault.Conflict, "never overwrites")
}

// Ensure restoring brings back the backup, keeps what was there, and refuses
// what is not sound before anything is touched.
func TestRestore(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, store.FileName)
	fill(t, path, 30)
	backup := filepath.Join(dir, "backup.db")
	if _, err := store.Backup(path, backup, func(w io.Writer) error { return store.CopyFile(path, w) }); err != nil {
		t.Fatal(err)
	}

	db := mustOpenOnly(t, path)
	records, backedUp, err := db.Read(ctx, book, ann.ID, sync.Head{}, 100)
	if err != nil {
		t.Fatal(err)
	}
	last := records[29].Entry
	if _, _, err := push(db, storetest.Written(phone, book, 31, 40, last.Hash)); err != nil {
		t.Fatal(err)
	}
	_, after, err := db.Read(ctx, book, ann.ID, backedUp, 100)
	if err != nil || after.Seq != 40 {
		t.Fatalf("%+v, %v", after, err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	present, _ := os.ReadFile(path)

	bad := filepath.Join(dir, "bad.db")
	data, _ := os.ReadFile(backup)
	if err := os.WriteFile(bad, bytes.ReplaceAll(data, []byte(`"seq":7,`), []byte(`"seq":8,`)), 0o600); err != nil {
		t.Fatal(err)
	}
	_, _, err = store.Restore(path, bad, time.Now())
	wantFault(t, "a backup that is not sound", err, fault.Conflict, "nothing was changed")
	if now, _ := os.ReadFile(path); !bytes.Equal(now, present) {
		t.Error("a refused restore changed the data file")
	}

	kept, report, err := store.Restore(path, backup, time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC))
	if err != nil || report.Records != 30 || !strings.HasSuffix(kept, ".before-restore-20260102-030405") {
		t.Fatalf("Restore = %q, %+v, %v", kept, report, err)
	}
	if now, _ := os.ReadFile(kept); !bytes.Equal(now, present) {
		t.Error("what was there was not kept as it was")
	}
	db = mustOpenOnly(t, path)
	defer db.Close()
	if _, head, err := db.Read(ctx, book, ann.ID, sync.Head{}, 1); err != nil || head != backedUp {
		t.Errorf("restored to %+v, %v; want %+v", head, err, backedUp)
	}
	if made, err := db.Made(); err != nil || len(made.Restored) != 1 || made.At == 0 {
		t.Errorf("the file does not say that it was put back: %+v, %v", made, err)
	}
	_, _, err = db.Read(ctx, book, ann.ID, after, 1)
	wantFault(t, "a phone that had seen more", err, fault.Rewound, "put back from a backup")

	// The phone puts back what the backup did not have.
	results, head, err := push(db, storetest.Written(phone, book, 31, 40, last.Hash))
	if err != nil || head.Seq != 40 {
		t.Errorf("offered again: %+v, %v", results, err)
	}
}

// Ensure a damaged data file can be replaced, which is what restoring is for.
func TestRestoreOverDamage(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, store.FileName)
	backup := filepath.Join(dir, "backup.db")
	fill(t, backup, 10)
	if err := os.WriteFile(path, []byte("noise"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, _, err := store.Restore(path, backup, time.Now()); err != nil {
		t.Fatal(err)
	}
	if r, err := store.Check(path); err != nil || r.Records != 10 || len(r.Problems) > 0 {
		t.Errorf("afterwards: %+v, %v", r, err)
	}
}

func mustOpenOnly(tb testing.TB, path string) *store.DB {
	tb.Helper()
	db, err := store.Open(path, store.Options{})
	if err != nil {
		tb.Fatal(err)
	}
	return db
}
