package checks

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

var tables = flag.String("tables", filepath.Join("..", "..", "testdata", "checks"), "folder of the tables to run")

// table names the function of the product that answers each quantity of a topic.
type table map[string]func(*Case) Answer

// known is every topic's table, filled by the files of this package.
var known = map[string]table{}

// answers adds to a topic. Two answers to one quantity are a mistake.
func answers(topic string, t table) {
	if known[topic] == nil {
		known[topic] = table{}
	}
	for quantity, fn := range t {
		if known[topic][quantity] != nil {
			panic("checks: " + topic + ", " + quantity + " is answered twice")
		}
		known[topic][quantity] = fn
	}
}

// answered is the function for a quantity. The part of a name in brackets, and what
// follows an equals sign, are notes: "tdc_shift (+ late)".
func answered(topic, quantity string) func(*Case) Answer {
	if fn := known[topic][quantity]; fn != nil {
		return fn
	}
	plain, _, _ := strings.Cut(quantity, " (")
	if fn := known[topic][plain]; fn != nil {
		return fn
	}
	return known[topic]["*"]
}

// TestTables runs every table of the folder. The counts by topic are its log.
func TestTables(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(*tables, "*.csv"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no tables in %s (%v)", *tables, err)
	}
	for _, name := range files {
		t.Run(filepath.Base(name), func(t *testing.T) { runTable(t, name) })
	}
}

func runTable(t *testing.T, name string) {
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := read(f)
	if err != nil {
		t.Fatal(err)
	}
	count := map[string]*struct{ passed, failed, skipped int }{}
	var topics, skips []string
	for _, r := range rows {
		n := count[r.Topic]
		if n == nil {
			n = &struct{ passed, failed, skipped int }{}
			count[r.Topic] = n
			topics = append(topics, r.Topic)
		}
		fn := answered(r.Topic, r.Quantity)
		if why, skip := skippedFor(r.Topic, r.Quantity); fn == nil && skip {
			n.skipped++
			line := fmt.Sprintf("skipped %s, %s: %s", r.Topic, r.Quantity, why)
			if len(known[r.Topic]) == 0 {
				line = fmt.Sprintf("skipped %s, all of it: %s", r.Topic, why)
			}
			if !slices.Contains(skips, line) {
				skips = append(skips, line)
			}
			continue
		}
		err := fmt.Errorf("no function of the product answers %s, %s, and it is not named as skipped", r.Topic, r.Quantity)
		if fn != nil {
			c := open(r)
			err = judged(c, fn)
		}
		if err != nil {
			n.failed++
			t.Errorf("%s:%d %s %s(%s): %v [%s]", filepath.Base(name), r.Line, r.ID, r.Quantity, r.Inputs, err, r.Source)
			continue
		}
		n.passed++
	}
	for _, s := range skips {
		t.Log(s)
	}
	for _, topic := range topics {
		n := count[topic]
		t.Logf("%-20s %3d passed %3d failed %3d skipped", topic, n.passed, n.failed, n.skipped)
	}
}

// judged asks fn for the answer and compares it. A panic of the product fails the
// row and not the run.
func judged(c *Case, fn func(*Case) Answer) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v", p)
		}
	}()
	return c.judge(fn(c))
}
