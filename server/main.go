// Command linkrod is the whole server: the app for phones, the ledger behind
// it, and the commands of whoever runs it. This package is wiring only.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strings"
	"syscall"

	"linkrod/server/fault"
)

func main() {
	// The first signal asks to stop, the second one isn't waited for.
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop)
	os.Exit(run(ctx, os.Args[1:], world{os.Getenv, os.Stdin, os.Stdout, os.Stderr}))
}

// world is what a command sees of the outside.
type world struct {
	env      func(string) string
	in       io.Reader
	out, err io.Writer
}

// command is one thing the program does.
type command struct {
	name  string
	args  string // as shown in help
	about string
	run   func(ctx context.Context, args []string, w world) error
}

func commands() []command {
	return []command{
		{"serve", "[flags]", "start the server (the default)", serve},
		{"check", "[-data DIR] [FILE]", "look the data file over, or a backup: structure, hashes, chains", check},
		{"backup", "[-data DIR] FILE", "write a checked copy of the data, also while the server runs", backup},
		{"restore", "[-data DIR] FILE", "put a backup in the place of the data; stop the server first", restore},
		{"passphrase", "[-data DIR] [-out] NAME", "set a lost passphrase anew; -out also signs the account out everywhere", newPassphrase},
		{"import", "-as NAME [-book ENGINE] [-take] FILE", "take in what a phone saved to one file, or an oil log in CSV; stop the server first", imports},
		{"cards", "check|json|import|export …", "cards as text: look them over, put a folder on a shelf, write a shelf to a folder", cards},
	}
}

// errUsage is a command line that can't be meant; the words say why.
type errUsage struct{ words string }

func (e errUsage) Error() string { return e.words }

// run does what args say and returns the exit code: 0 done, 1 failed, 2 not
// understood.
func run(ctx context.Context, args []string, w world) int {
	name := "serve"
	if len(args) > 0 && !strings.HasPrefix(args[0], "-") {
		name, args = args[0], args[1:]
	}
	if name == "help" || slices.ContainsFunc(args, func(a string) bool { return strings.TrimLeft(a, "-") == "help" || a == "-h" }) {
		help(w.out)
		return 0
	}
	for _, c := range commands() {
		if c.name == name {
			return report(c.run(ctx, args, w), w.err)
		}
	}
	return report(errUsage{fmt.Sprintf("there is no command %q", name)}, w.err)
}

// report prints an error for whoever runs the server, cause included.
func report(err error, out io.Writer) int {
	var usage errUsage
	switch {
	case err == nil:
		return 0
	case errors.As(err, &usage):
		fmt.Fprintf(out, "linkrod: %s\nlinkrod help lists the commands and flags.\n", usage.words)
		return 2
	}
	var f *fault.Fault
	if errors.As(err, &f) {
		fmt.Fprintf(out, "linkrod: %s\n", f.Words)
		if f.Cause != nil {
			fmt.Fprintf(out, "  (%v)\n", f.Cause)
		}
	} else {
		fmt.Fprintf(out, "linkrod: %v\n", err)
	}
	return 1
}

func help(out io.Writer) {
	fmt.Fprintf(out, "Linkrod keeps the readings of radial engines: one server, phones that work without it.\n\n")
	for _, c := range commands() {
		fmt.Fprintf(out, "  linkrod %s %s\n      %s\n", c.name, c.args, c.about)
	}
	fmt.Fprintf(out, "  linkrod help\n      show this\n\nFlags of serve, each also as an environment variable:\n\n")
	for _, f := range flags(new(Config)) {
		fmt.Fprintf(out, "  -%-11s %-19s %s\n", f.name, f.env(), f.about)
	}
}
