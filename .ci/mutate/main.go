// Mutate asks whether the tests would notice. It breaks the arithmetic of a
// package in one place at a time, a sign, a unit, a boundary or a guard, runs
// that package's tests against the broken copy, and lists what they did not
// notice. The tree is not touched: the compiler is given the copy by -overlay.
//
//	go run ./.ci/mutate [-seed 1] [-each 30] [-also ./radial/checks] [PACKAGE...]
//
// A mutant is killed when a test fails, panics, or runs out of time. One that
// does not compile is not counted and another is drawn. One that lives is tried
// once more against the tables of -also, which test every package of the trade.
// One that cannot be told from the original by anything the package promises is
// listed with the reason in equivalent.txt, and not counted.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

var trade = []string{
	"./radial/quantity", "./radial/civil", "./radial/oil", "./radial/ring", "./radial/lock", "./radial/torque", "./radial/wear",
	"./radial/compression", "./radial/ignition", "./radial/due", "./radial/identify", "./radial/book", "./radial/sums",
}

func main() {
	seed := flag.Uint64("seed", 1, "of the draw; each package's draw depends on the seed and its own files only")
	each := flag.Int("each", 30, "mutants of each package")
	also := flag.String("also", "./radial/checks", "what survivors are tried against as well; empty: nothing")
	slowest := flag.Duration("timeout", time.Minute, "for the tests of one mutant, beside their usual time")
	keys := flag.Bool("keys", false, "list survivors as equivalent.txt would name them, too")
	list := flag.Bool("list", false, "list every place that could be changed, and run nothing")
	flag.Parse()
	packages := flag.Args()
	if len(packages) == 0 {
		packages = trade
	}
	if err := run(packages, *seed, *each, *also, *slowest, *list, *keys); err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(1)
	}
}

func run(packages []string, seed uint64, each int, also string, slowest time.Duration, list, keys bool) error {
	equivalents, err := readEquivalents(filepath.Join(".ci", "mutate", "equivalent.txt"))
	if err != nil {
		return err
	}
	dir, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	var rows []row
	var survivors, bad []string
	for _, pkg := range packages {
		sites, err := sitesOf(pkg)
		if err != nil {
			return err
		}
		if list {
			for _, s := range sites {
				fmt.Println(s)
			}
			continue
		}
		began := time.Now()
		if out, fate := try(dir, pkg, nil, slowest); fate != survived {
			fmt.Fprintf(os.Stderr, "%s fails before anything is changed, and is left out:\n%s\n", pkg, out)
			bad = append(bad, pkg)
			continue
		}
		limit := slowest + time.Since(began)
		r := row{pkg: pkg, sites: len(sites)}
		for _, s := range draw(sites, seed, pkg) {
			if r.killed+r.survived == each {
				break
			}
			if why := equivalents[s.key()]; why != "" {
				r.equivalent++
				fmt.Printf("equivalent  %v   (%s)\n", s, why)
				continue
			}
			out, fate := try(dir, pkg, &s, limit)
			if fate == survived && also != "" {
				out, fate = try(dir, also, &s, limit)
			}
			if fate == untested {
				return fmt.Errorf("the tests of %s do not build any more:\n%s", pkg, out)
			}
			fmt.Printf("%-11s %v\n", fate, s)
			switch fate {
			case stillborn:
				r.stillborn++
			case killed, outOfTime:
				r.killed++
			case survived:
				r.survived++
				survivors = append(survivors, "- "+s.String())
				if keys {
					survivors = append(survivors, s.key())
				}
			}
			r.count(s.operator, fate)
		}
		rows = append(rows, r)
	}
	if !list {
		report(rows, survivors, seed, each)
	}
	if len(bad) > 0 {
		return fmt.Errorf("left out: %s", strings.Join(bad, ", "))
	}
	return nil
}

// row is what came of one package.
type row struct {
	pkg                                            string
	sites, killed, survived, stillborn, equivalent int
	operators                                      map[string][2]int // drawn, killed
}

func (r *row) count(operator string, f fate) {
	if f == stillborn {
		return
	}
	if r.operators == nil {
		r.operators = map[string][2]int{}
	}
	n := r.operators[operator]
	n[0]++
	if f != survived {
		n[1]++
	}
	r.operators[operator] = n
}

// report is the result in Markdown.
func report(rows []row, survivors []string, seed uint64, each int) {
	fmt.Printf("\nSeed %d, %d of each package.\n\n| package | places | mutants | killed | survived | equivalent |\n| --- | ---: | ---: | ---: | ---: | ---: |\n", seed, each)
	var all row
	operators := map[string][2]int{}
	for _, r := range rows {
		fmt.Printf("| %s | %d | %d | %d | %d | %d |\n", strings.TrimPrefix(r.pkg, "./"), r.sites, r.killed+r.survived, r.killed, r.survived, r.equivalent)
		all.sites += r.sites
		all.killed += r.killed
		all.survived += r.survived
		all.equivalent += r.equivalent
		for o, n := range r.operators {
			m := operators[o]
			operators[o] = [2]int{m[0] + n[0], m[1] + n[1]}
		}
	}
	total := all.killed + all.survived
	fmt.Printf("| all | %d | %d | %d | %d | %d |\n\n", all.sites, total, all.killed, all.survived, all.equivalent)
	if total > 0 {
		fmt.Printf("%.1f %% killed.\n\n| change | mutants | killed |\n| --- | ---: | ---: |\n", 100*float64(all.killed)/float64(total))
	}
	var names []string
	for o := range operators {
		names = append(names, o)
	}
	slices.Sort(names)
	for _, o := range names {
		fmt.Printf("| %s | %d | %d |\n", o, operators[o][0], operators[o][1])
	}
	fmt.Println()
	for _, s := range survivors {
		fmt.Println(s)
	}
}
