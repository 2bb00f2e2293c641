package store_test

import (
	"fmt"
	"path/filepath"
	"testing"

	"linkrod/server/store"
	"linkrod/server/store/storetest"
	"linkrod/sync"
)

// BenchmarkAppend is entries per second into the file, in batches of one, of a
// hundred and of five hundred; with many phones at once a commit is shared.
func BenchmarkAppend(b *testing.B) {
	for _, size := range []uint64{1, 100, 500} {
		b.Run(fmt.Sprint("batch=", size), func(b *testing.B) {
			db := mustOpen(b, filepath.Join(b.TempDir(), store.FileName), store.Options{})
			annsBook(b, db)
			batches := make([][]sync.Entry, b.N)
			var prev sync.Hash
			for i := range batches {
				from := uint64(i)*size + 1
				batches[i] = storetest.Written(phone, book, from, from+size-1, prev)
				prev = batches[i][size-1].Hash
			}
			b.ResetTimer()
			for _, batch := range batches {
				if _, _, err := push(db, batch); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.N)*float64(size)/b.Elapsed().Seconds(), "entries/s")
		})
	}
	b.Run("phones=64", func(b *testing.B) {
		db := mustOpen(b, filepath.Join(b.TempDir(), store.FileName), store.Options{})
		annsBook(b, db)
		b.SetParallelism(32)
		next := make(chan byte, 256)
		for i := range 256 {
			next <- byte(i)
		}
		b.RunParallel(func(pb *testing.PB) {
			device := sync.ID{2, <-next}
			var prev sync.Hash
			for n := uint64(1); pb.Next(); n++ {
				e := storetest.Written(device, book, n, n, prev)
				if _, _, err := push(db, e); err != nil {
					b.Error(err)
					return
				}
				prev = e[0].Hash
			}
		})
		b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "entries/s")
	})
}
