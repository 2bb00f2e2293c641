// Package local lets the host's own commands ask a server that is running on
// the same machine. The data file is the server's alone while it runs; to back
// it up, check it or set a lost passphrase anew, a command asks through a
// socket in the data folder, which only the folder's owner can open.
package local

import (
	"bytes"
	"context"
	"encoding/json"
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

	"linkrod/server/fault"
)

const socketName = "control.sock"

// ErrNotRunning is what asking gets when no server listens in the data folder.
var ErrNotRunning = errors.New("no server is running on this data folder")

// Server is what the host's commands may ask of it.
type Server struct {
	// Copy writes the data file as it is at that moment.
	Copy func(io.Writer) error
	// NewPassphrase replaces an account's passphrase.
	NewPassphrase func(context.Context, Passphrase) error
	// Shelve puts cards on a shelf, or gives a shelf's texts.
	Shelve func(context.Context, Shelf) (Shelved, error)
}

// Shelf is what to do with a shelf of an account: put the texts of a folder on it, or,
// without any, give those it has.
type Shelf struct {
	As     string            `json:"as"` // the account
	Title  string            `json:"title"`
	Folder string            `json:"folder"` // as faults name it
	Texts  map[string]string `json:"texts,omitempty"`
	Reason string            `json:"reason,omitempty"`
	Take   bool              `json:"take,omitempty"` // else only say what would be done
}

// Shelved is what became of it.
type Shelved struct {
	Cards  []string          `json:"cards"` // put on the shelf, a line each
	Same   int               `json:"same"`  // there already as they are
	Faults []string          `json:"faults"`
	Texts  map[string]string `json:"texts,omitempty"`
}

// Passphrase is a new one for an account.
type Passphrase struct {
	Name       string `json:"name"`
	Passphrase string `json:"passphrase"`
	Out        bool   `json:"out"` // also end all its sign-ins
}

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

// Handler answers on the socket.
func (s Server) Handler(log *slog.Logger) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /copy", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "application/octet-stream")
		if err := s.Copy(w); err != nil {
			log.Error("copy for the host failed", slog.String("error", err.Error()))
			panic(http.ErrAbortHandler) // so that the other end sees a copy cut off, not a short one
		}
	})
	mux.HandleFunc("POST /passphrase", func(w http.ResponseWriter, r *http.Request) {
		var p Passphrase
		err := json.NewDecoder(io.LimitReader(r.Body, 16<<10)).Decode(&p)
		if err == nil {
			err = s.NewPassphrase(r.Context(), p)
		}
		refuse(w, err)
	})
	mux.HandleFunc("POST /shelf", func(w http.ResponseWriter, r *http.Request) {
		var do Shelf
		err := json.NewDecoder(io.LimitReader(r.Body, 64<<20)).Decode(&do)
		var done Shelved
		if err == nil {
			done, err = s.Shelve(r.Context(), do)
		}
		if !refuse(w, err) {
			json.NewEncoder(w).Encode(done)
		}
	})
	return mux
}

// refuse tells an error, if there is one: the other end is the host and is told the cause
// as well.
func refuse(w http.ResponseWriter, err error) bool {
	if err == nil {
		return false
	}
	f := *fault.From(err)
	w.WriteHeader(http.StatusConflict)
	json.NewEncoder(w).Encode(refusal{f.Code, f.Words, f.Error()})
	return true
}

// refusal is a fault on its way to a command.
type refusal struct {
	Code  fault.Code `json:"code"`
	Words string     `json:"words"`
	Cause string     `json:"cause"`
}

// Copy writes the running server's data file to w. [ErrNotRunning] when there
// is none to ask.
func Copy(ctx context.Context, data string, w io.Writer) error {
	res, err := ask(ctx, data, http.MethodGet, "copy", nil)
	if err != nil {
		return err
	}
	defer res.Body.Close()
	_, err = io.Copy(w, res.Body)
	return err
}

// NewPassphrase has the running server replace a passphrase. [ErrNotRunning]
// when there is none to ask.
func NewPassphrase(ctx context.Context, data string, p Passphrase) error {
	body, err := json.Marshal(p)
	if err != nil {
		return err
	}
	res, err := ask(ctx, data, http.MethodPost, "passphrase", body)
	if err == nil {
		res.Body.Close()
	}
	return err
}

// Shelve has the running server do something with a shelf. [ErrNotRunning] when there is
// none to ask.
func Shelve(ctx context.Context, data string, do Shelf) (done Shelved, err error) {
	body, err := json.Marshal(do)
	if err != nil {
		return Shelved{}, err
	}
	res, err := ask(ctx, data, http.MethodPost, "shelf", body)
	if err != nil {
		return Shelved{}, err
	}
	defer res.Body.Close()
	return done, json.NewDecoder(res.Body).Decode(&done)
}

func ask(ctx context.Context, data, method, what string, body []byte) (*http.Response, error) {
	client := &http.Client{Transport: &http.Transport{
		DisableKeepAlives: true,
		DialContext: func(ctx context.Context, _, _ string) (net.Conn, error) {
			return new(net.Dialer).DialContext(ctx, "unix", filepath.Join(data, socketName))
		},
	}}
	r, err := http.NewRequestWithContext(ctx, method, "http://linkrod/"+what, bytes.NewReader(body))
	if err != nil {
		return nil, err
	}
	res, err := client.Do(r)
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ECONNREFUSED) {
		return nil, ErrNotRunning
	}
	if err != nil {
		return nil, err
	}
	if res.StatusCode == http.StatusOK {
		return res, nil
	}
	defer res.Body.Close()
	var no refusal
	if json.NewDecoder(res.Body).Decode(&no) != nil {
		return nil, fmt.Errorf("the running server answered %s", res.Status)
	}
	return nil, fault.Wrap(no.Code, no.Words, errors.New(no.Cause))
}
