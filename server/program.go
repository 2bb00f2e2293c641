package main

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"time"

	"linkrod/embed"
	"linkrod/server/api"
	"linkrod/server/auth"
	"linkrod/server/cert"
	"linkrod/server/fault"
	"linkrod/server/front"
	"linkrod/server/local"
	"linkrod/server/store"
	"linkrod/server/witness"
)

// Program is the running server. Tests start it on port 0.
type Program struct {
	Config
	Out io.Writer // where the links are printed
	Log *slog.Logger

	// After Run:
	URL      string // the app, without a slash at the end
	SetUpURL string // while there is no account
	PlainURL string // the second address, without TLS; may be empty
	timeout  timeouts

	db       *store.DB
	servers  []*http.Server
	stopping chan struct{}
	failed   chan error
}

// timeouts are how long a client may take. Streams are exempt.
type timeouts struct {
	header, read, write, idle time.Duration
}

// usual leaves a push of 256 KiB two minutes, which is a line of 20 kbit/s.
var usual = timeouts{header: 10 * time.Second, read: 2 * time.Minute, write: 10 * time.Minute, idle: 3 * time.Minute}

const stopWait = 10 * time.Second // for requests in flight, when asked to stop

// Run opens the data, listens, prints the links and returns; the server works
// until Close. After an error there is nothing to close.
func (p *Program) Run(ctx context.Context) (err error) {
	names, err := p.complete()
	if err != nil {
		return err
	}
	if p.timeout == (timeouts{}) {
		p.timeout = usual
	}
	p.stopping, p.failed = make(chan struct{}), make(chan error, 3)
	defer func() {
		if err != nil {
			err = errors.Join(err, p.Close())
		}
	}()

	if err := os.MkdirAll(p.Data, 0o700); err != nil {
		return err
	}
	if p.db, err = store.Open(filepath.Join(p.Data, store.FileName), store.Options{}); err != nil {
		return err
	}
	key, made, err := auth.LoadKey(filepath.Join(p.Data, "access.key"))
	if err != nil {
		return err
	}
	if made {
		p.Log.Info("made a new key for sign-ins", slog.String("file", filepath.Join(p.Data, "access.key")))
	}
	signer, made, err := witness.Load(filepath.Join(p.Data, "receipt.key"))
	if err != nil {
		return err
	}
	if made {
		p.Log.Info("made a new key for receipts; keep it with the backups", slog.String("file", filepath.Join(p.Data, "receipt.key")))
	}
	people := auth.New(p.db, key, p.Log)
	files, built := embed.Front()
	if !built {
		p.Log.Warn("the front end is not built: the app's address shows how to build it")
	}
	app, err := front.New(files)
	if err != nil {
		return err
	}

	listener, err := net.Listen("tcp", p.Addr)
	if err != nil {
		return err
	}
	defer closeOn(&err, listener)
	host := names.First()
	if host == "" {
		host = hostOf(p.Addr)
	}
	p.URL = cert.PlainLink(host, listener.Addr().String())
	if p.TLS != "off" {
		p.URL = cert.Link(host, listener.Addr().String())
	}
	door, err := p.door(names)
	if err != nil {
		return err
	}
	config := api.Config{
		Auth:     people,
		Ledger:   p.db,
		Witness:  signer,
		Front:    app,
		HSTS:     p.TLS == "acme", // a name that is public today is meant to stay so
		Stopping: p.stopping,
		Log:      p.Log,
		Install:  door.install,
	}
	if path, err := filepath.Abs(p.db.Path()); err == nil {
		config.DataFile = path
	}
	if !names.Empty() {
		config.Origin = p.URL
	}
	if p.TLS == "off" && !loopback(listener.Addr()) {
		p.Log.Warn("phones need https to work without signal, and what they send crosses the network in clear: see -tls", slog.String("addr", listener.Addr().String()))
	}

	if p.SetUpURL, err = setUpLink(ctx, people, p.URL); err != nil {
		return err
	}
	if door.plain != nil {
		plain, err := net.Listen("tcp", p.Config.Plain)
		if err != nil {
			return err
		}
		p.PlainURL = cert.PlainLink(host, plain.Addr().String())
		p.start(plain, door.plain, nil)
	}
	p.control(people)
	p.start(listener, api.New(config), door.tls)

	p.print(door)
	return nil
}

// door is how visitors get in: TLS or not, and what is said without it.
type door struct {
	tls         *tls.Config  // nil: plain http
	plain       http.Handler // for the second address; may be nil
	install     http.Handler // how to trust our own authority; may be nil
	fingerprint string       // of that authority
}

func (p *Program) door(names cert.Names) (d door, err error) {
	switch p.TLS {
	case "files":
		d.tls, err = cert.Files(p.Cert, p.Key, p.Log)
	case "acme":
		d.tls, d.plain, err = cert.ACME(names, filepath.Join(p.Data, "acme"))
	case "own":
		var authority *cert.Authority
		var made bool
		authority, made, err = cert.Own(p.Data, names)
		if err != nil {
			return door{}, err
		}
		if made {
			p.Log.Info("made a certificate authority for this hangar; each phone must trust it once", slog.Time("until", authority.Until()))
		}
		d.tls, d.fingerprint = authority.TLS(), authority.Fingerprint()
		d.install = authority.Install(p.URL)
		d.plain = d.install
	}
	return d, err
}

// start serves on l until Close. The server owns l from here.
func (p *Program) start(l net.Listener, h http.Handler, config *tls.Config) {
	s := &http.Server{
		Handler:           h,
		TLSConfig:         config,
		ReadHeaderTimeout: p.timeout.header,
		ReadTimeout:       p.timeout.read,
		WriteTimeout:      p.timeout.write,
		IdleTimeout:       p.timeout.idle,
		MaxHeaderBytes:    32 << 10,
		ErrorLog:          slog.NewLogLogger(p.Log.Handler(), slog.LevelDebug), // handshakes that fail, mostly
	}
	p.servers = append(p.servers, s)
	go func() {
		var err error
		if config != nil {
			err = s.ServeTLS(l, "", "")
		} else {
			err = s.Serve(l)
		}
		if !errors.Is(err, http.ErrServerClosed) {
			p.failed <- err
		}
	}()
}

// control opens the way in for the host's own commands. Without it the server
// works, and backing up has to wait until it stops.
func (p *Program) control(people *auth.Auth) {
	l, err := local.Listen(p.Data)
	if err != nil {
		p.Log.Warn("backup, check, passphrase and cards won't work while the server runs", slog.String("error", err.Error()))
		return
	}
	server := local.Server{Copy: p.db.Copy, NewPassphrase: func(ctx context.Context, n local.Passphrase) error {
		return people.NewPassphrase(ctx, n.Name, n.Passphrase, n.Out)
	}, Shelve: func(ctx context.Context, do local.Shelf) (local.Shelved, error) {
		return shelve(ctx, p.db, do)
	}}
	p.start(l, server.Handler(p.Log), nil)
}

// print writes the lines for people, in one piece, once the server listens.
func (p *Program) print(d door) {
	lines := fmt.Sprintf("Linkrod: %s/\n", p.URL)
	if p.SetUpURL != "" {
		lines += fmt.Sprintf("Set up:  %s\n", p.SetUpURL)
	}
	if d.install != nil {
		lines += fmt.Sprintf("Trust:   %s/install  (once on each phone; compare %s)\n", p.PlainURL, d.fingerprint)
	}
	io.WriteString(p.Out, lines)
	p.Log.Info("listening", slog.String("url", p.URL), slog.String("data", p.Data), slog.String("tls", p.TLS))
}

// Close stops taking requests, lets those in flight finish, and closes the
// data. Whatever was answered is on disk.
func (p *Program) Close() error {
	ctx, cancel := context.WithTimeout(context.Background(), stopWait)
	defer cancel()
	close(p.stopping)
	var err error
	for _, s := range p.servers {
		if e := s.Shutdown(ctx); e != nil {
			err = errors.Join(err, e, s.Close())
		}
	}
	if p.db != nil {
		err = errors.Join(err, p.db.Close())
	}
	return err
}

// setUpLink is where the first account is made; empty once there is one. The
// token stands after the #, which browsers send nowhere.
func setUpLink(ctx context.Context, people *auth.Auth, url string) (string, error) {
	token, err := people.SetupToken(ctx)
	switch fault.CodeOf(err) {
	case "":
		return url + "/set-up#" + token, nil
	case fault.Conflict:
		return "", nil
	}
	return "", err
}

// hostOf is the host to print for an address listened on.
func hostOf(addr string) string {
	host, _, err := net.SplitHostPort(addr)
	if ip := net.ParseIP(host); err != nil || host == "" || (ip != nil && ip.IsUnspecified()) {
		return "localhost"
	}
	return host
}

func loopback(addr net.Addr) bool {
	tcp, ok := addr.(*net.TCPAddr)
	return ok && tcp.IP.IsLoopback()
}

// closeOn closes c when the function that defers it ends with an error.
func closeOn(err *error, c io.Closer) {
	if *err != nil {
		c.Close()
	}
}
