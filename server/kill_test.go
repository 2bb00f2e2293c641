package main_test

import (
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/json"
	"flag"
	"fmt"
	"image"
	"image/jpeg"
	"io"
	"math/rand/v2"
	"net/http"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	stdsync "sync"
	"sync/atomic"
	"testing"
	"time"

	"linkrod/server/store"
	"linkrod/sync"
)

var (
	kills  = flag.Int("kills", 20, "how often the server is killed in TestKill; make soak does it 200 times")
	pushes = flag.Int("pushes", 300, "how many pushes TestKill makes at least; make soak makes 10,000")
)

func TestKill(t *testing.T) {
	if testing.Short() {
		t.Skip("NOT TESTED in -short: kills")
	}
	t.Run("kill -9 or power loss: what was acknowledged is there once, at its place", killed)
}

// The real server is killed with SIGKILL in the middle
// of pushes, again and again. Four phones write into two books all the while
// and keep a list of what was acknowledged; after each kill they send again
// whatever was not. A fifth sends photographs in pieces. Then the data file
// must be sound, and hold every acknowledged entry exactly once, at the place
// that was promised, and every byte of a photograph that was said to be there.
func killed(t *testing.T) {
	p := &program{binary: build(t), data: t.TempDir()}
	t.Cleanup(p.kill)

	shop := p.start(t, true)
	access := shop.signUp(t)
	books := []sync.ID{{0xb1}, {0xb2}}
	for _, b := range books {
		status, answer, err := shop.call(t.Context(), access, "PUT", "/api/v1/books/"+b.String(), map[string]any{})
		if err != nil || status != http.StatusOK {
			t.Fatalf("%d %s %v", status, answer, err)
		}
	}
	var phones []*phone
	for i := range 4 {
		phones = append(phones, &phone{device: sync.ID{0x0a, byte(i)}, book: books[i%2], rnd: rand.New(rand.NewPCG(50, uint64(i)))})
	}
	cam := &camera{book: books[0]}
	rnd := rand.New(rand.NewPCG(50, 50))
	inFlight, unheard := 0, 0
	var pushed atomic.Int64
	// work has everybody send until as many pushes were acknowledged as wanted;
	// then stop is called, and they go on until no answer comes.
	work := func(want int64, stop func()) {
		var acknowledged atomic.Int64
		enough, over := make(chan struct{}), make(chan struct{})
		var wait stdsync.WaitGroup
		for _, ph := range phones {
			wait.Go(func() {
				for ph.push(t, shop, access) {
					pushed.Add(1)
					if acknowledged.Add(1) == want {
						close(enough)
					}
				}
				<-over // only a killed server may fail a push
			})
		}
		wait.Go(func() {
			for cam.send(t, shop, access) {
			}
			<-over
		})
		<-enough
		stop()
		close(over)
		wait.Wait()
	}
	for kill := 1; kill <= *kills; kill++ {
		want := int64(1 + rnd.IntN(12))
		if kill == *kills { // the rest of the pushes, and then the last blow
			want = max(want, int64(*pushes)-pushed.Load())
		}
		work(want, func() {
			time.Sleep(time.Duration(rnd.IntN(3000)) * time.Microsecond) // so that the blow falls anywhere in a commit
			p.kill()
		})
		for _, ph := range phones {
			if ph.sending {
				inFlight++
			}
		}
		unheard += inspect(t, filepath.Join(p.data, store.FileName), phones, cam, kill)
		if t.Failed() {
			t.Fatalf("stopped after kill %d", kill)
		}
		if kill < *kills {
			shop = p.start(t, false)
			access = shop.signIn(t) // the run may outlast an access token
		}
	}
	acknowledged := 0
	for _, ph := range phones {
		acknowledged += len(ph.seqs)
	}
	t.Logf("%d pushes answered, %d kills, %d pushes of %d phones in flight at them; %d entries acknowledged and all there once; %d were in the file before anybody was told; %d photographs whole",
		pushed.Load(), *kills, inFlight, len(phones), acknowledged, unheard, len(cam.whole))
	if inFlight < *kills {
		t.Errorf("only %d pushes were in flight at %d kills: they did not fall in the middle of anything", inFlight, *kills)
	}
}

// camera sends one photograph after the other, in pieces.
type camera struct {
	book  sync.ID
	data  []byte
	sum   sync.Hash
	told  int         // bytes that are said to be there
	whole []sync.Hash // photographs that are
}

// send sends the next piece. It returns false when no answer came.
func (c *camera) send(t *testing.T, s *server, access string) bool {
	ask := func(method string, body []byte, headers map[string]string) (status, offset int, err error) {
		r, err := http.NewRequestWithContext(t.Context(), method, s.url+"/api/v1/books/"+c.book.String()+"/photos/"+c.sum.String(), bytes.NewReader(body))
		if err != nil {
			return 0, 0, err
		}
		r.Header.Set("Authorization", "Bearer "+access)
		r.Header.Set("Content-Type", "application/offset+octet-stream")
		for name, value := range headers {
			r.Header.Set(name, value)
		}
		res, err := s.client.Do(r)
		if err != nil {
			return 0, 0, err
		}
		res.Body.Close()
		offset, _ = strconv.Atoi(res.Header.Get("Upload-Offset"))
		return res.StatusCode, offset, nil
	}
	if c.data == nil {
		var b bytes.Buffer
		if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 8, 8)), nil); err != nil {
			t.Error(err)
			return false
		}
		c.data = append(b.Bytes(), bytes.Repeat([]byte{byte(len(c.whole)), byte(len(c.whole) >> 8), 1}, 60_000)...) // what follows a picture's end is no matter
		c.sum, c.told = sha256.Sum256(c.data), 0
	}
	status, offset, err := ask("POST", nil, map[string]string{"Upload-Length": strconv.Itoa(len(c.data))})
	if err != nil {
		return false
	}
	if status/100 != 2 || offset < c.told {
		t.Errorf("a photograph was said to be at %d and is at %d (%d)", c.told, offset, status)
		return false
	}
	if c.told = offset; c.told < len(c.data) {
		if status, offset, err = ask("PATCH", c.data[c.told:min(len(c.data), c.told+50_000)], map[string]string{"Upload-Offset": strconv.Itoa(c.told)}); err != nil {
			return false
		}
		if status != http.StatusNoContent {
			t.Errorf("a piece: %d", status)
			return false
		}
		c.told = offset
	}
	if c.told == len(c.data) {
		c.whole, c.data = append(c.whole, c.sum), nil
	}
	return true
}

// inspect reads the data file as the kill left it, and returns how many
// entries are in it whose acknowledgement never arrived.
func inspect(t *testing.T, path string, phones []*phone, cam *camera, kill int) (unheard int) {
	t.Helper()
	report, err := store.Check(path)
	if err != nil || len(report.Problems) > 0 {
		t.Fatalf("after kill %d: %v %q", kill, err, report.Problems)
	}
	db, err := store.Open(path, store.Options{})
	if err != nil {
		t.Fatalf("after kill %d: %v", kill, err)
	}
	defer db.Close()
	found := make(map[sync.Hash][]uint64)
	owner, err := db.AccountByName(t.Context(), "Ann Example")
	if err != nil {
		t.Fatal(err)
	}
	for _, book := range []sync.ID{phones[0].book, phones[1].book} {
		var head sync.Head
		for more := true; more; {
			records, end, err := db.Read(t.Context(), book, owner.ID, head, 1000)
			if err != nil {
				t.Fatal(err)
			}
			if head, err = sync.Follow(head, records); err != nil {
				t.Fatalf("after kill %d: %v", kill, err)
			}
			for _, r := range records {
				found[r.Entry.Hash] = append(found[r.Entry.Hash], r.Seq)
			}
			more = head != end
		}
	}
	entries := 0
	for _, ph := range phones {
		for _, e := range ph.wrote {
			at := found[e.Hash]
			entries += len(at)
			seq, told := ph.seqs[e.N]
			switch {
			case len(at) > 1:
				t.Errorf("after kill %d: entry %d of phone %d is there %d times", kill, e.N, ph.device[1], len(at))
			case told && (len(at) == 0 || at[0] != seq):
				t.Errorf("after kill %d: entry %d of phone %d was acknowledged at %d and is at %v", kill, e.N, ph.device[1], seq, at)
			case !told && len(at) == 1:
				unheard++
			}
		}
	}
	for _, sum := range cam.whole {
		if state, err := db.Photo(t.Context(), cam.book, owner.ID, sum); err != nil || !state.Whole() {
			t.Errorf("after kill %d: a photograph that was whole is %+v, %v", kill, state, err)
		}
	}
	if cam.data != nil && cam.told > 0 {
		if state, err := db.Photo(t.Context(), cam.book, owner.ID, cam.sum); err != nil || state.Offset < int64(cam.told) {
			t.Errorf("after kill %d: a photograph was said to be at %d and is %+v, %v", kill, cam.told, state, err)
		}
	}
	if entries != report.Records {
		t.Errorf("after kill %d: %d records, and the phones wrote %d of them", kill, report.Records, entries)
	}
	return unheard
}

// phone writes entries and sends them, in order, until each is acknowledged.
type phone struct {
	device, book sync.ID
	rnd          *rand.Rand
	wrote        []sync.Entry
	seqs         map[uint64]uint64 // of acknowledged entries: where they are
	sending      bool              // a push whose answer never came
}

// push sends what is not acknowledged and a few new entries. It returns false
// when no answer came.
func (ph *phone) push(t *testing.T, s *server, access string) bool {
	var prev sync.Hash
	if n := len(ph.wrote); n > 0 {
		prev = ph.wrote[n-1].Hash
	}
	for range 1 + ph.rnd.IntN(3) {
		e, err := sync.Seal(sync.Entry{Device: ph.device, N: uint64(len(ph.wrote) + 1), Book: ph.book, Prev: prev, Kind: sync.Fact,
			Body: fmt.Appendf(nil, `{"type":"note","text":"DEMO %d %d"}`, ph.device[1], len(ph.wrote)+1), Schema: 1})
		if err != nil {
			t.Error(err)
			return false
		}
		ph.wrote, prev = append(ph.wrote, e), e.Hash
	}
	// A phone that is unsure sends some of what arrived once more.
	from := max(0, len(ph.seqs)-ph.rnd.IntN(3))
	batch := ph.wrote[from:min(len(ph.wrote), from+sync.MaxBatchEntries)]
	ph.sending = true
	status, answer, err := s.call(t.Context(), access, "POST", "/api/v1/books/"+ph.book.String()+"/push",
		map[string]any{"device": ph.device, "entries": batch})
	if err != nil {
		return false // killed in the middle
	}
	ph.sending = false
	var reply struct{ Results []sync.Result }
	if err := json.Unmarshal(answer, &reply); err != nil || status != http.StatusOK || len(reply.Results) != len(batch) {
		t.Errorf("phone %d: %d %s", ph.device[1], status, answer)
		return false
	}
	if ph.seqs == nil {
		ph.seqs = make(map[uint64]uint64)
	}
	for _, r := range reply.Results {
		if r.State != sync.OK && r.State != sync.Dup {
			continue
		}
		if seq, told := ph.seqs[r.N]; told && seq != r.Seq {
			t.Errorf("phone %d: entry %d was at %d and is now at %d", ph.device[1], r.N, seq, r.Seq)
		}
		ph.seqs[r.N] = r.Seq
	}
	if len(ph.seqs) != int(batch[len(batch)-1].N) {
		t.Errorf("phone %d: %d of %d acknowledged: %s", ph.device[1], len(ph.seqs), batch[len(batch)-1].N, answer)
		return false
	}
	return true
}

// program is the real binary with one data folder.
type program struct {
	binary, data string
	cmd          *exec.Cmd
}

func build(t *testing.T) string {
	t.Helper()
	binary := filepath.Join(t.TempDir(), "linkrod")
	out, err := exec.Command("go", "build", "-o", binary, "linkrod/server").CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return binary
}

// kill ends the program as a power cut does. Twice is fine.
func (p *program) kill() {
	if p.cmd != nil {
		p.cmd.Process.Kill()
		p.cmd.Wait()
		p.cmd = nil
	}
}

// server is a program that listens.
type server struct {
	url    string
	setUp  string // the token of the set-up link
	client *http.Client
}

// start starts the program and waits until it says where it listens; the first
// time, also where it is set up.
func (p *program) start(t *testing.T, first bool) *server {
	t.Helper()
	cmd := exec.Command(p.binary, "serve", "-data", p.data, "-addr", "127.0.0.1:0", "-log", "warn")
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	var log bytes.Buffer
	cmd.Stderr = &log
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	p.cmd = cmd
	s := &server{client: &http.Client{Timeout: 20 * time.Second, Transport: &http.Transport{MaxIdleConnsPerHost: 8}}}
	lines := bufio.NewScanner(out)
	for (s.url == "" || first && s.setUp == "") && lines.Scan() {
		if url, ok := strings.CutPrefix(lines.Text(), "Linkrod: "); ok {
			s.url = strings.TrimSuffix(url, "/")
		}
		if url, ok := strings.CutPrefix(lines.Text(), "Set up:"); ok {
			_, s.setUp, _ = strings.Cut(url, "#")
		}
	}
	if s.url == "" || first && s.setUp == "" {
		p.kill()
		t.Fatalf("the server did not start:\n%s", log.String())
	}
	return s
}

// signUp makes the first account and returns its access token.
func (s *server) signUp(t *testing.T) string {
	t.Helper()
	status, answer, err := s.call(t.Context(), "", "POST", "/api/v1/setup", map[string]any{"token": s.setUp, "shop": "DEMO shop", "telephone": "555",
		"name": "Ann Example", "role": "owner", "passphrase": "a passphrase long enough", "device": sync.ID{0x0a}, "label": "phone"})
	var session struct{ Access string }
	if err != nil || status != http.StatusOK || json.Unmarshal(answer, &session) != nil || session.Access == "" {
		t.Fatalf("set-up: %d %s %v", status, answer, err)
	}
	return session.Access
}

// signIn signs that account in again and returns its access token.
func (s *server) signIn(t *testing.T) string {
	t.Helper()
	status, answer, err := s.call(t.Context(), "", "POST", "/api/v1/session", map[string]any{"name": "Ann Example",
		"passphrase": "a passphrase long enough", "device": sync.ID{0x0a}, "label": "phone"})
	var session struct{ Access string }
	if err != nil || status != http.StatusOK || json.Unmarshal(answer, &session) != nil || session.Access == "" {
		t.Fatalf("sign-in: %d %s %v", status, answer, err)
	}
	return session.Access
}

// call is one request. An error means that no whole answer came.
func (s *server) call(ctx context.Context, access, method, path string, body any) (status int, answer []byte, err error) {
	data, err := json.Marshal(body)
	if err != nil {
		return 0, nil, err
	}
	r, err := http.NewRequestWithContext(ctx, method, s.url+path, bytes.NewReader(data))
	if err != nil {
		return 0, nil, err
	}
	r.Header.Set("Content-Type", "application/json")
	if access != "" {
		r.Header.Set("Authorization", "Bearer "+access)
	}
	res, err := s.client.Do(r)
	if err != nil {
		return 0, nil, err
	}
	defer res.Body.Close()
	answer, err = io.ReadAll(res.Body)
	return res.StatusCode, answer, err
}
