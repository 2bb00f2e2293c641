package store_test

import (
	"path/filepath"
	"testing"

	"linkrod/server/store"
	"linkrod/server/store/storetest"
)

func TestMemory(t *testing.T) {
	storetest.Run(t, func(testing.TB) storetest.Store { return store.Memory() })
}

func TestBolt(t *testing.T) {
	storetest.Run(t, func(tb testing.TB) storetest.Store {
		return mustOpen(tb, filepath.Join(tb.TempDir(), "data", store.FileName), store.Options{})
	})
}

// mustOpen opens a data file that is closed when the test ends.
func mustOpen(tb testing.TB, path string, o store.Options) *store.DB {
	tb.Helper()
	db, err := store.Open(path, o)
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() {
		if err := db.Close(); err != nil {
			tb.Error(err)
		}
	})
	return db
}
