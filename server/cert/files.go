package cert

import (
	"crypto/tls"
	"fmt"
	"log/slog"
	"os"
	"sync"
	"time"
)

// Files serves the certificate chain in certFile with the key in keyFile,
// both PEM. Renewed files are picked up by the next visitor without a
// restart; while the two don't fit, as in the middle of a renewal, the ones
// before go on being used.
func Files(certFile, keyFile string, log *slog.Logger) (*tls.Config, error) {
	f := &files{cert: certFile, key: keyFile, log: log}
	if err := f.load(); err != nil {
		return nil, err
	}
	return base(f.get), nil
}

type files struct {
	cert, key string
	log       *slog.Logger

	mu     sync.Mutex
	loaded *tls.Certificate
	stamp  [2]stamp // of the files as last looked at
}

// stamp tells one state of a file from another.
type stamp struct {
	size int64
	time time.Time
}

func (f *files) get(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.changed() {
		if err := f.load(); err != nil {
			f.log.Warn("certificate files changed and can't be used yet; going on with the ones before", slog.String("error", err.Error()))
		} else {
			f.log.Info("certificate files taken anew", slog.Time("until", f.loaded.Leaf.NotAfter))
		}
	}
	return f.loaded, nil
}

func (f *files) changed() bool { return f.look() != f.stamp }

func (f *files) look() (s [2]stamp) {
	for i, name := range []string{f.cert, f.key} {
		if info, err := os.Stat(name); err == nil {
			s[i] = stamp{info.Size(), info.ModTime()}
		}
	}
	return s
}

func (f *files) load() error {
	f.stamp = f.look() // before reading: a change in between is seen next time
	pair, err := tls.LoadX509KeyPair(f.cert, f.key)
	if err != nil {
		return fmt.Errorf("certificate %s with key %s: %w", f.cert, f.key, err)
	}
	f.loaded = &pair
	return nil
}
