package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/cookiejar"
	"os"
	"os/exec"
	"strings"
	stdsync "sync"
	"syscall"
	"testing"
	"time"

	"linkrod/sync"
)

// The program under test is this test binary, told by the environment to be
// the program: the real main, in a process of its own, built once.
func TestMain(m *testing.M) {
	if os.Getenv("LINKROD_BE_THE_PROGRAM") != "" {
		main()
		panic("main returned")
	}
	os.Exit(m.Run())
}

func program(ctx context.Context, args ...string) *exec.Cmd {
	cmd := exec.CommandContext(ctx, os.Args[0], args...)
	cmd.Env = append(os.Environ(), "LINKROD_BE_THE_PROGRAM=1")
	return cmd
}

// MustExit runs a command to its end and returns what it printed.
func MustExit(tb testing.TB, code int, args ...string) (out string) {
	tb.Helper()
	text, err := program(tb.Context(), args...).CombinedOutput()
	if err != nil && code == 0 {
		tb.Fatalf("linkrod %s: %v\n%s", strings.Join(args, " "), err, text)
	}
	if exit, _ := err.(*exec.ExitError); code != 0 && (exit == nil || exit.ExitCode() != code) {
		tb.Fatalf("linkrod %s: %v, want exit %d\n%s", strings.Join(args, " "), err, code, text)
	}
	return string(text)
}

// running is the program serving in a process of its own.
type running struct {
	cmd   *exec.Cmd
	lines []string // printed on stdout before anything could be asked
	url   string
	log   *lockedBuffer
}

type lockedBuffer struct {
	mu  stdsync.Mutex
	buf bytes.Buffer
}

func (b *lockedBuffer) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.buf.Write(p)
}

func (b *lockedBuffer) String() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.buf.String()
}

// MustServe starts the program on a free port and reads the links it prints.
func MustServe(tb testing.TB, lines int, args ...string) *running {
	tb.Helper()
	r := &running{log: new(lockedBuffer)}
	r.cmd = program(context.Background(), args...)
	r.cmd.Stderr = r.log
	out, err := r.cmd.StdoutPipe()
	if err != nil {
		tb.Fatal(err)
	}
	if err := r.cmd.Start(); err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { r.cmd.Process.Kill(); r.cmd.Wait() })
	for s := bufio.NewScanner(out); len(r.lines) < lines; {
		if !s.Scan() {
			tb.Fatalf("the program ended: %v\n%s", s.Err(), r.log)
		}
		r.lines = append(r.lines, s.Text())
	}
	var ok bool
	if r.url, ok = strings.CutPrefix(r.lines[0], "Linkrod: "); !ok || !strings.HasSuffix(r.url, "/") {
		tb.Fatalf("line 1 = %q", r.lines[0])
	}
	r.url = strings.TrimSuffix(r.url, "/")
	return r
}

// setUpToken is the part of line 2 after the #.
func (r *running) setUpToken(tb testing.TB) string {
	tb.Helper()
	token, ok := strings.CutPrefix(r.lines[1], "Set up:  "+r.url+"/set-up#")
	if !ok || len(token) < 40 {
		tb.Fatalf("line 2 = %q", r.lines[1])
	}
	return token
}

// stop ends the program by signal and returns its exit code, -1 when killed.
func (r *running) stop(tb testing.TB, s os.Signal) int {
	tb.Helper()
	if err := r.cmd.Process.Signal(s); err != nil {
		tb.Fatal(err)
	}
	r.cmd.Wait()
	return r.cmd.ProcessState.ExitCode()
}

// browser keeps cookies, as one does.
func browser() *http.Client {
	jar, _ := cookiejar.New(nil) // never fails without options
	return &http.Client{Jar: jar, Timeout: time.Minute}
}

// send asks as the app does and returns status and answer.
func send(tb testing.TB, c *http.Client, method, url, access string, body any) (int, map[string]any) {
	tb.Helper()
	text, err := json.Marshal(body)
	if err != nil {
		tb.Fatal(err)
	}
	r, err := http.NewRequest(method, url, bytes.NewReader(text))
	if err != nil {
		tb.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/json")
	if access != "" {
		r.Header.Set("Authorization", "Bearer "+access)
	}
	res, err := c.Do(r)
	if err != nil {
		tb.Fatal(err)
	}
	defer res.Body.Close()
	answer := map[string]any{}
	if data, err := io.ReadAll(res.Body); err != nil {
		tb.Fatal(err)
	} else if len(data) > 0 {
		if err := json.Unmarshal(data, &answer); err != nil {
			tb.Fatalf("%s %s: %v in %s", method, url, err, data)
		}
	}
	return res.StatusCode, answer
}

const passphrase = "four words kept apart"

func founding(token string) map[string]any {
	return map[string]any{"token": token, "shop": "Quill Radials", "name": "Ada Quill", "passphrase": passphrase, "device": device(1), "label": "bench"}
}

func device(n int) string { return fmt.Sprintf("%032x", n) }

// Ensure the first run of the real program goes as README tells it: the link,
// the set-up link that works once, a restart that remembers, a kill that
// costs nobody their sign-in, a stop that is clean.
func TestFirstRun(t *testing.T) {
	data := t.TempDir()
	serve := []string{"serve", "-data", data, "-addr", "localhost:0"}

	// No account: each start prints a new link, and only the newest works.
	r := MustServe(t, 2, serve...)
	if !strings.HasPrefix(r.url, "http://localhost:") {
		t.Errorf("link = %s", r.url)
	}
	stale := r.setUpToken(t)
	if code := r.stop(t, syscall.SIGTERM); code != 0 {
		t.Errorf("asked to stop: exit %d\n%s", code, r.log)
	}
	r = MustServe(t, 2, serve...)
	token := r.setUpToken(t)
	phone := browser()
	if status, a := send(t, phone, "POST", r.url+"/api/v1/setup", "", founding(stale)); status != 403 {
		t.Errorf("an old link: %d %v", status, a)
	}
	status, first := send(t, phone, "POST", r.url+"/api/v1/setup", "", founding(token))
	if status != 200 || first["shop"] != "Quill Radials" {
		t.Fatalf("set-up: %d %v", status, first)
	}
	if status, a := send(t, browser(), "POST", r.url+"/api/v1/setup", "", founding(token)); status != 404 {
		t.Errorf("the link a second time: %d %v", status, a)
	}

	// Killed and started again: no link any more, the sign-in goes on.
	r.stop(t, syscall.SIGKILL)
	r = MustServe(t, 1, serve...)
	if status, a := send(t, phone, "GET", r.url+"/api/v1/hello", first["access"].(string), nil); status != 200 {
		t.Errorf("the access token after a kill: %d %v", status, a)
	}
	// The cookie belongs to localhost, whatever the port.
	if status, a := send(t, phone, "POST", r.url+"/api/v1/session/refresh", "", map[string]any{"nonce": "0123456789abcdef"}); status != 200 {
		t.Errorf("the refresh cookie after a kill: %d %v", status, a)
	}
	if status, a := send(t, phone, "GET", r.url+"/healthz", "", nil); status != 200 || a["state"] != "up" {
		t.Errorf("healthz: %d %v", status, a)
	}
	if code := r.stop(t, os.Interrupt); code != 0 {
		t.Errorf("interrupted: exit %d\n%s", code, r.log)
	}
	for _, secret := range []string{token, stale, passphrase, first["access"].(string)} {
		if strings.Contains(r.log.String(), secret) {
			t.Error("a secret is in the log")
		}
	}
	for name, mode := range map[string]os.FileMode{"access.key": 0o600, "receipt.key": 0o600, "linkrod.db": 0o600} {
		if info, err := os.Stat(data + "/" + name); err != nil || info.Mode().Perm() != mode {
			t.Errorf("%s: %v, %v; want mode %v", name, info, err, mode)
		}
	}
}

// Ensure the host's commands: back up and check while the server runs and
// when it doesn't, restore what was backed up, and refuse to do harm.
func TestHostCommands(t *testing.T) {
	data, out := t.TempDir(), t.TempDir()
	r := MustServe(t, 2, "-data", data, "-addr", "localhost:0")
	if status, a := send(t, browser(), "POST", r.url+"/api/v1/setup", "", founding(r.setUpToken(t))); status != 200 {
		t.Fatalf("set-up: %d %v", status, a)
	}
	contains := func(text string, parts ...string) {
		t.Helper()
		for _, part := range parts {
			if !strings.Contains(text, part) {
				t.Errorf("no %q in:\n%s", part, text)
			}
		}
	}
	contains(MustExit(t, 0, "backup", "-data", data, out+"/one.db"), "1 account, 1 device, 0 books, 0 records", "Checked.")
	contains(MustExit(t, 0, "check", "-data", data), "1 account", "Sound.")
	contains(MustExit(t, 1, "backup", "-data", data, out+"/one.db"), "never overwrites")
	contains(MustExit(t, 1, "restore", "-data", data, out+"/one.db"), "Stop it first")
	contains(MustExit(t, 1, "serve", "-data", data, "-addr", "localhost:0"), "already running")
	r.stop(t, syscall.SIGKILL) // leaves its socket behind

	contains(MustExit(t, 0, "check", "-data", data), "1 account", "Sound.")
	contains(MustExit(t, 0, "backup", "-data", data, out+"/two.db"), "1 account", "Checked.")
	contains(MustExit(t, 0, "check", out+"/one.db"), "1 account", "Sound.")

	fresh := t.TempDir()
	contains(MustExit(t, 0, "restore", "-data", fresh, out+"/one.db"), "1 account", "put back what they still hold")
	r = MustServe(t, 1, "serve", "-data", fresh, "-addr", "localhost:0") // no set-up link: the account is there
	if status, a := send(t, browser(), "POST", r.url+"/api/v1/session", "", map[string]any{"name": "Ada Quill", "passphrase": passphrase, "device": device(1)}); status != 200 {
		t.Errorf("sign-in on the restored server: %d %v", status, a)
	}
	r.stop(t, syscall.SIGTERM)
	contains(MustExit(t, 0, "restore", "-data", fresh, out+"/two.db"), "What was there before is kept as "+fresh+"/linkrod.db.before-restore-")

	if err := os.WriteFile(out+"/rubbish.db", []byte("not a data file"), 0o600); err != nil {
		t.Fatal(err)
	}
	contains(MustExit(t, 1, "restore", "-data", fresh, out+"/rubbish.db"), "rubbish.db")
	contains(MustExit(t, 1, "check", out+"/rubbish.db"), "damaged or not one of Linkrod's")
	contains(MustExit(t, 1, "check", "-data", out), "There is no file "+out+"/linkrod.db")
	contains(MustExit(t, 1, "backup", "-data", out, out+"/three.db"), "There is no file")
	contains(MustExit(t, 1, "restore", "-data", fresh, out+"/none.db"), "There is no file")
}

// Ensure a restore is told to every phone by the running program, by the time
// it happened and by the chain, and that the key that proves what was there
// outlives it.
func TestRestoreTellsEveryPhone(t *testing.T) {
	data, out := t.TempDir(), t.TempDir()
	serve := []string{"serve", "-data", data, "-addr", "localhost:0"}
	r := MustServe(t, 2, serve...)
	status, a := send(t, browser(), "POST", r.url+"/api/v1/setup", "", founding(r.setUpToken(t)))
	if status != 200 {
		t.Fatalf("set-up: %d %v", status, a)
	}
	access, book := a["access"].(string), "/api/v1/books/"+device(0xb0)
	call := func(method, path string, body any, want int) map[string]any {
		t.Helper()
		status, a := send(t, browser(), method, r.url+path, access, body)
		if status != want {
			t.Fatalf("%s %s: %d %v, want %d", method, path, status, a, want)
		}
		return a
	}
	call("PUT", book, map[string]any{}, 200)
	MustExit(t, 0, "backup", "-data", data, out+"/one.db")
	id := sync.ID{15: 1}
	var entries []sync.Entry
	var prev sync.Hash
	for n := uint64(1); n <= 3; n++ {
		e, err := sync.Seal(sync.Entry{Device: id, N: n, Book: sync.ID{15: 0xb0}, Prev: prev, Kind: sync.Fact, Body: []byte(`{"type":"note","text":"DEMO"}`)})
		if err != nil {
			t.Fatal(err)
		}
		entries, prev = append(entries, e), e.Hash
	}
	call("POST", book+"/push", map[string]any{"device": device(1), "entries": entries}, 200)
	page := call("GET", book+"/pull", nil, 200)
	r.stop(t, syscall.SIGKILL)
	MustExit(t, 0, "restore", "-data", data, out+"/one.db")
	began := time.Now().Add(-time.Minute).UnixMilli()
	r = MustServe(t, 1, serve...)
	if hello := call("GET", "/api/v1/hello", nil, 200); hello["restored"] == nil || int64(hello["restored"].(float64)) < began {
		t.Errorf("hello says restored: %v", hello["restored"])
	}
	after := fmt.Sprintf("/pull?after=3&chain=%v", page["chain"])
	if a := call("GET", book+after, nil, 409); a["error"].(map[string]any)["code"] != "rewound" {
		t.Errorf("a pull from where the phone was: %v", a)
	}
	zero := sync.Head{}
	back := call("POST", book+"/salvage", map[string]any{"after": zero, "records": page["records"], "receipt": page["receipt"]}, 200)
	if back["chain"] != page["chain"] {
		t.Errorf("put back: %v", back)
	}
	if now := call("GET", book+after, nil, 200); now["more"] != false {
		t.Errorf("the phone's place is a place again: %v", now)
	}
	r.stop(t, syscall.SIGTERM)
	if out := MustExit(t, 0, "check", "-data", data); !strings.Contains(out, "3 records") || !strings.Contains(out, "Sound.") {
		t.Errorf("check: %s", out)
	}
}

// Ensure a lost passphrase is set anew at the machine, whether the server runs
// or not, signs nobody out unless told so, and gets into no log.
func TestLostPassphrase(t *testing.T) {
	data := t.TempDir()
	r := MustServe(t, 2, "-data", data, "-addr", "localhost:0")
	phone := browser()
	status, a := send(t, phone, "POST", r.url+"/api/v1/setup", "", founding(r.setUpToken(t)))
	if status != 200 {
		t.Fatalf("set-up: %d %v", status, a)
	}
	access := a["access"].(string)
	change := func(code int, typed string, args ...string) string {
		t.Helper()
		cmd := program(t.Context(), append([]string{"passphrase", "-data", data}, args...)...)
		cmd.Stdin = strings.NewReader(typed)
		out, _ := cmd.CombinedOutput()
		if got := cmd.ProcessState.ExitCode(); got != code {
			t.Errorf("passphrase %v: exit %d, want %d\n%s", args, got, code, out)
		}
		return string(out)
	}
	signIn := func(with string, want int) {
		t.Helper()
		if status, a := send(t, browser(), "POST", r.url+"/api/v1/session", "", map[string]any{"name": "Ada Quill", "passphrase": with, "device": device(2)}); status != want {
			t.Errorf("sign-in with %q: %d %v, want %d", with, status, a, want)
		}
	}
	const second, third = "another four words here", "and now quite other ones"
	for _, bad := range []struct{ typed, name, words string }{
		{"short\n", "Ada Quill", "at least 12 characters"},
		{second + "\n", "Nobody", "no such account"},
	} {
		if out := change(1, bad.typed, bad.name); !strings.Contains(out, bad.words) {
			t.Errorf("%q for %s: %s, want …%s…", bad.typed, bad.name, out, bad.words)
		}
	}
	change(2, "", "Ada Quill")
	change(2, second+"\n")
	change(0, second+"\n", "ada", "quill")
	signIn(passphrase, 403)
	signIn(second, 200)
	if status, a := send(t, phone, "GET", r.url+"/api/v1/hello", access, nil); status != 200 {
		t.Errorf("the phone that was signed in: %d %v", status, a)
	}
	r.stop(t, syscall.SIGTERM)

	change(0, third+"\r\n", "-out", "Ada Quill")
	running := r.log.String()
	r = MustServe(t, 1, "-data", data, "-addr", "localhost:0")
	signIn(second, 403)
	signIn(third, 200)
	if status, a := send(t, phone, "GET", r.url+"/api/v1/hello", access, nil); status != 401 {
		t.Errorf("the phone that was signed in, after -out: %d %v", status, a)
	}
	for _, secret := range []string{second, third} {
		if strings.Contains(running+r.log.String(), secret) {
			t.Error("a passphrase is in the log")
		}
	}
	if out := MustExit(t, 0, "check", "-data", data); !strings.Contains(out, "The journal of sign-ins and administration has 8 lines.") {
		t.Errorf("check: %s", out)
	}
}

// Ensure a phone's file, and an oil log in CSV, are looked at first, taken in
// when told, and taking them twice changes nothing.
func TestImport(t *testing.T) {
	data, file := t.TempDir(), "../testdata/wire/file-1.json"
	log, engine := "../testdata/csv/series_a.csv", "00112233445566778899aabbccddeeff"
	r := MustServe(t, 2, "-data", data, "-addr", "localhost:0")
	if status, a := send(t, browser(), "POST", r.url+"/api/v1/setup", "", founding(r.setUpToken(t))); status != 200 {
		t.Fatalf("set-up: %d %v", status, a)
	}
	for _, tt := range []struct {
		code  int
		args  string
		words string
	}{
		{1, "import -data " + data + " -as Ada_Quill " + file, "Stop it first"},
		{0, "import -data " + data + " -as Ada_Quill " + file, "3 entries, 3 would be new."},
		{0, "import -data " + data + " -as Ada_Quill " + file, "Nothing was taken yet."},
		{0, "import -data " + data + " -as ada_quill -take " + file, "3 entries, 3 taken in."},
		{0, "import -data " + data + " -as Ada_Quill -take " + file, "3 entries, 0 taken in."},
		{0, "check -data " + data, "2 books, 3 records"},
		{2, "import -data " + data + " -as Ada_Quill " + log, "say which with -book"},
		{1, "import -data " + data + " -as Ada_Quill -book E9 " + log, "no engine “E9” here"},
		{0, "import -data " + data + " -as Ada_Quill -book " + engine + " " + log, "21 lines to take"},
		{0, "import -data " + data + " -as Ada_Quill -book " + engine + " -take " + log, "21 lines taken in."},
		{0, "import -data " + data + " -as Ada_Quill -book " + engine + " -take " + log, "0 lines taken in."},
		{1, "import -data " + data + " -as Nobody " + file, `no account named "Nobody"`},
		{1, "import -data " + data + " -as Ada_Quill main_test.go", "not one that Linkrod saved"},
		{1, "import -data " + data + " -as Ada_Quill none.json", "There is no file none.json"},
		{1, "import -data " + t.TempDir() + " -as Ada_Quill " + file, "There is no file"},
		{2, "import -data " + data + " " + file, "needs -as"},
		{2, "import -data " + data + " -as Ada_Quill", "needs one file"},
	} {
		args := strings.Fields(tt.args)
		for i := range args {
			args[i] = strings.ReplaceAll(args[i], "_Quill", " Quill")
			args[i] = strings.ReplaceAll(args[i], "_quill", " quill")
		}
		if out := MustExit(t, tt.code, args...); !strings.Contains(out, tt.words) {
			t.Errorf("linkrod %s:\n%swant …%s…", tt.args, out, tt.words)
		}
		if strings.Contains(tt.words, "Stop it first") {
			r.stop(t, syscall.SIGTERM)
		}
	}
}

// Ensure a command line that can't be meant is refused with what to change.
func TestUsage(t *testing.T) {
	for _, tt := range []struct {
		args  string
		words string
	}{
		{"dance", `no command "dance"`},
		{"serve -colour red", "-colour"},
		{"serve here", `there is "here"`},
		{"serve -tls maybe", "off, files, acme or own"},
		{"serve -tls files -cert a.pem", "both -cert and -key"},
		{"serve -cert a.pem -key b.pem", "go with -tls files"},
		{"serve -plain :80", "-plain goes with"},
		{"serve -addr 7075", "write host:port"},
		{"serve -name https://hangar.local", "without https://"},
		{"serve -log loud", "debug, info, warn or error"},
		{"serve -data", "-data"},
		{"backup", "needs the name of a file"},
		{"restore", "needs the backup's file name"},
		{"backup one.db two.db", "one file at a time"},
	} {
		if out := MustExit(t, 2, strings.Fields(tt.args)...); !strings.Contains(out, tt.words) || !strings.Contains(out, "linkrod help") {
			t.Errorf("linkrod %s:\n%swant …%s…", tt.args, out, tt.words)
		}
	}
	for _, args := range []string{"help", "-h", "--help", "serve -h"} {
		out := MustExit(t, 0, strings.Fields(args)...)
		for _, want := range []string{"serve", "check", "backup", "restore", "-tls", "LINKROD_TLS", "localhost:7075"} {
			if !strings.Contains(out, want) {
				t.Errorf("linkrod %s doesn't show %q", args, want)
			}
		}
	}
}

// Ensure each flag can be given by the environment, and the flag wins.
func TestEnvironment(t *testing.T) {
	var c Config
	env := map[string]string{"LINKROD_DATA": "/srv/linkrod", "LINKROD_LOG": "debug"}
	w := world{env: func(name string) string { return env[name] }}
	if _, err := parse(&c, "", []string{"-log", "warn"}, w); err != nil {
		t.Fatal(err)
	}
	if c.Data != "/srv/linkrod" || c.Log != "warn" || c.TLS != "off" {
		t.Errorf("config = %+v", c)
	}
}
