package simulate

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"
)

// within is how many seeds a mutant may survive, from the first or, where it
// takes a rare chain of mishaps, from the one that rare names.
const within = 300

var rare = map[string]int{
	"a number put back out of its order is called missing":                   500,
	"what was handed back and lost once more is forgotten":                   2600,
	"two restores in one round make a phone take itself for a copy":          11000,
	"what a device wrote behind an exchanged entry is put back all the same": 4000,
	"what the ledger holds waits again":                                      300,
	"somebody let out of a book takes their phone for a copy":                400,
	"a value comes back to life when what it replaced is put back behind it": 1900,
}

// mutants are breakages of the protocol of one line each, and what the person
// would notice of it. A simulation that does not catch them proves nothing.
var mutants = []struct{ file, line, instead, story string }{
	{"desk.go", "	case e.N > d.Last+1:", "	case e.N > d.Last+2:",
		"the ledger takes an entry before the one it follows"},
	{"device_reply.go", "		case r.State == Fork && forked == 0:", "		case false:",
		"a copied phone waits for ever"},
	{"device_reply.go", "			effects = append(effects, patch(key, AtRefused, 0, r.Words))", "			later = true",
		"a refused entry blocks those behind it"},
	{"desk.go", "	if d.Check != nil {", "	if s.Entry.Clock.Wall > d.Received+1000 {\n\t\treturn Rejected, torn()\n\t}\n	if d.Check != nil {",
		"the server believes its own clock more than the mechanic"},
	{"salvage.go", "		case !proven:", "		case !proven && false:",
		"anybody can put entries into a book as if they had been lost"},
	{"salvage.go", "		case used && turn.Seq > 0 && turn.Hash == e.Hash: // R3", "		case false:",
		"two phones put back the same entry twice"},
	{"salvage.go", "			out.Head = out.Head.Next(e.Hash, r.Account, r.Received)", "			r.Received = d.Received\n\t\t\tout.Head = out.Head.Next(e.Hash, r.Account, r.Received-1)",
		"what is put back has another time in the chain than on its face"},
	{"salvage.go", "			out.fill(key)", "",
		"a number put back out of its order is called missing"},
	{"salvage.go", "		case used && !turn.fits(e.Hash), !before.Hash.IsZero() && before.Hash != e.Prev, apart[e.Device]:", "		case used && !turn.fits(e.Hash), !before.Hash.IsZero() && before.Hash != e.Prev:",
		"what a device wrote behind an exchanged entry is put back all the same"},
	{"snapshot.go", "		if e.Prev != last.Hash {", "		if false {",
		"a snapshot forgets which entry came before a gap"},
	{"device_pull.go", "		if here && row.Own && row.Hash != r.Entry.Hash {", "		if here && row.Own && false {",
		"what a copied phone wrote is replaced by its twin's entry"},
	{"device_line.go", "	return d.unanswered()", "	return nil",
		"an entry counts as sent although the server was put back right after"},
	{"device_reply.go", "	return []Effect{d.revive(asked)}", "	return nil",
		"what the server lost of this phone is never sent again"},
	{"device_rewind.go", "			d.Pages = append(d.Pages, page)", "			_ = page",
		"other people's lost entries are not handed back"},
	{"device_rewind.go", "			effects = append(effects, patch(r.Ref, AtWaiting, 0, \"\"))", "			_ = r",
		"own lost entries stay marked as sent"},
	{"device_rewind.go", "	for keep > 0 && !fits(there, d.Marks[keep-1].Head) {", "	for keep > 1 && !fits(there, d.Marks[keep-1].Head) {",
		"a ledger that shares nothing with ours is followed from our first mark on"},
	{"device_rewind.go", "			p.Handed = false", "			continue",
		"what was handed back and lost once more is forgotten"},
	{"device_line.go", "		d.Joined, d.Away = false, false // perhaps a restore from before the book was there", "		d.Away = false",
		"a book that a restore lost is never made again"},
	{"device_write.go", "		e.Hash = e.Sum() // it was sealed once; a kind of a newer program moves too", "		if _, err := Seal(e); err != nil {\n\t\t\treturn append(effects, changed)\n\t\t}\n\t\te.Hash = e.Sum()",
		"one line of a newer program keeps a copied phone from going on"},
	{"device_reply.go", "	return Effect{Do: DoRevive, Row: Row{Ref: Ref(from), Seq: d.Head.Seq}}", "	return Effect{Do: DoRevive, Row: Row{Ref: Ref(from)}}",
		"what the ledger holds waits again"},
	{"device_reply.go", "		case (r.State == OK || r.State == Dup) && r.Seq > d.Head.Seq:", "		case r.State == OK || r.State == Dup:",
		"a place that the ledger we followed gave to another is believed"},
	{"device_reply.go", "	case gap > 0 && in.Errand.Turn == len(d.Gaps) && !d.Away: // away, nobody can see what the ledger lost", "	case gap > 0 && in.Errand.Turn == len(d.Gaps):",
		"somebody let out of a book takes their phone for a copy"},
	{"device_pull.go", "	d.There, d.Gaps = there, nil // another gap is of another restore", "	d.There = there",
		"two restores in one round make a phone take itself for a copy"},
	{"device_write.go", "	if in.Mine == in.Device || moved[in.Mine] {", "	if false {",
		"a copied phone goes on under the number it shares"},
	{"device_write.go", "				e.Refs[i] = new", "				_, _ = i, new",
		"a replacement written anew names its twin's value"},
	{"heads/heads.go", "		if counts(changes, i, j) && (j < i || !leads(changes, j, i, nil)) {", "		if counts(changes, i, j) && j < i {",
		"a value comes back to life when what it replaced is put back behind it"},
	{"heads/heads.go", "	return j >= 0 && j < len(changes) && j != i && changes[j].Of == changes[i].Of", "	return j >= 0 && j < len(changes) && j != i && len(changes[i].Over) == 1 && changes[j].Of == changes[i].Of",
		"settling a disagreement settles nothing"},
}

// TestMutants builds package sync with one line changed, and runs the world with
// it until it fails.
func TestMutants(t *testing.T) {
	if runtime.GOARCH == "wasm" || slowly || testing.Short() || *seedFlag != 0 || *seedsFlag != 0 {
		t.Skip("in the plain run only")
	}
	seed := regexp.MustCompile(`seed (\d+): (.*)`)
	for i, m := range mutants {
		source, err := filepath.Abs(filepath.Join("..", m.file))
		if err != nil {
			t.Fatal(err)
		}
		text, err := os.ReadFile(source)
		if err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(string(text), m.line+"\n"); n != 1 {
			t.Errorf("mutant %d: the line stands %d times in %s: %s", i+1, n, m.file, m.line)
			continue
		}
		dir := t.TempDir()
		changed, overlay := filepath.Join(dir, "mutant.go"), filepath.Join(dir, "overlay.json")
		list, _ := json.Marshal(map[string]any{"Replace": map[string]string{source: changed}})
		write(t, changed, strings.Replace(string(text), m.line+"\n", m.instead+"\n", 1))
		write(t, overlay, string(list))
		out, err := exec.Command("go", "test", "-overlay", overlay, "-run", "^TestWorld$", "-seeds", strconv.Itoa(within), "-from", strconv.Itoa(max(1, rare[m.story])), "-stop", "1", "-timeout", "3m").CombinedOutput()
		caught := seed.FindStringSubmatch(string(out))
		switch {
		case err == nil:
			t.Errorf("mutant %d lives through %d seeds: %s", i+1, within, m.story)
		case caught == nil:
			t.Errorf("mutant %d does not run: %s", i+1, out)
		default:
			t.Logf("| %s | %s | %s | %.90s |", m.story, m.file, caught[1], caught[2])
		}
	}
}

func write(t *testing.T, file, text string) {
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}
