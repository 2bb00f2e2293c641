// Package local lets the host's own commands ask a server that is running on
// the same machine. The data file is the server's alone while it runs; to back
// it up or check it, a command asks for a copy through a socket in the data
// folder, which only the folder's owner can open.
package local

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"log/slog"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"syscall"
)

const socketName = "control.sock"

// ErrNotRunning is what asking gets when no server listens in the data folder.
var ErrNotRunning = errors.New("no server is running on this data folder")

// Listen opens the socket in data. The caller has the data file open, so a
// socket that lies there already was left by a server that was killed.
func Listen(data string) (net.Listener, error) {
	path := filepath.Join(data, socketName)
	if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	l, err := net.Listen("unix", path)
	if err != nil {
		return nil, err
	}
	if err := os.Chmod(path, 0o600); err != nil {
		l.Close()
		return nil, err
	}
	return l, nil
}

// Handler answers on the socket. copy writes the data file as it is at that
// moment.
func Handler(copy func(io.Writer) error, log *slog.Logger) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /copy", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "application/octet-stream")
		if err := copy(w); err != nil {
			log.Error("copy for the host failed", slog.String("error", err.Error()))
			panic(http.ErrAbortHandler) // so that the other end sees a copy cut off, not a short one
		}
	})
	return mux
}

// Copy writes the running server's data file to w. [ErrNotRunning] when there
// is none to ask.
func Copy(ctx context.Context, data string, w io.Writer) error {
	client := &http.Client{Transport: &http.Transport{
		DisableKeepAlives: true,
		DialContext: func(ctx context.Context, _, _ string) (net.Conn, error) {
			return new(net.Dialer).DialContext(ctx, "unix", filepath.Join(data, socketName))
		},
	}}
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://linkrod/copy", nil)
	if err != nil {
		return err
	}
	res, err := client.Do(r)
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ECONNREFUSED) {
		return ErrNotRunning
	}
	if err != nil {
		return err
	}
	defer res.Body.Close()
	if res.StatusCode != http.StatusOK {
		return fmt.Errorf("the running server answered %s", res.Status)
	}
	_, err = io.Copy(w, res.Body)
	return err
}
