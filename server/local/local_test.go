package local

import (
	"bytes"
	"errors"
	"io"
	"log/slog"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func MustServe(tb testing.TB, data string, copy func(io.Writer) error) *http.Server {
	tb.Helper()
	l, err := Listen(data)
	if err != nil {
		tb.Fatal(err)
	}
	s := &http.Server{Handler: Server{Copy: copy}.Handler(slog.New(slog.DiscardHandler))}
	go s.Serve(l)
	tb.Cleanup(func() { s.Close() })
	return s
}

// Ensure a command gets exactly what the server has, through a socket nobody
// else can open, also where a killed server left one behind.
func TestCopy(t *testing.T) {
	data := t.TempDir()
	if err := Copy(t.Context(), data, io.Discard); !errors.Is(err, ErrNotRunning) {
		t.Errorf("nobody there: %v", err)
	}
	if err := os.WriteFile(filepath.Join(data, socketName), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	whole := strings.Repeat("page", 100_000)
	s := MustServe(t, data, func(w io.Writer) error {
		_, err := io.WriteString(w, whole)
		return err
	})
	var got bytes.Buffer
	if err := Copy(t.Context(), data, &got); err != nil || got.String() != whole {
		t.Errorf("copied %d bytes of %d, %v", got.Len(), len(whole), err)
	}
	if info, err := os.Stat(filepath.Join(data, socketName)); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode of the socket = %v, %v", info.Mode().Perm(), err)
	}
	s.Close()
	if err := Copy(t.Context(), data, io.Discard); !errors.Is(err, ErrNotRunning) {
		t.Errorf("stopped: %v", err)
	}
}

// Ensure a copy that breaks off is never taken for a whole one.
func TestCopyBreaksOff(t *testing.T) {
	data := t.TempDir()
	MustServe(t, data, func(w io.Writer) error {
		io.WriteString(w, strings.Repeat("page", 100_000))
		return errors.New("disk")
	})
	if err := Copy(t.Context(), data, io.Discard); err == nil {
		t.Error("half a copy passes for a whole one")
	}
}
