package main

import (
	"context"
	"crypto/rand"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"linkrod/server/api"
	"linkrod/server/fault"
	"linkrod/server/intake"
	"linkrod/server/store"
	"linkrod/sync"
)

// imports takes a phone's file of everything into the data, or with -book an
// oil log in CSV into one engine's book. Without -take it says what it would
// do.
func imports(ctx context.Context, args []string, w world) error {
	var c Config
	var as, engine string
	var take bool
	rest, err := parse(&c, "data", args, w, func(set *flag.FlagSet) {
		set.StringVar(&as, "as", "", "")
		set.StringVar(&engine, "book", "", "")
		set.BoolVar(&take, "take", false, "")
	})
	switch {
	case err != nil:
		return err
	case len(rest) != 1:
		return errUsage{"import needs one file, after the flags: what a phone saved with “save everything to one file”, or an oil log in CSV"}
	case as == "":
		return errUsage{"import needs -as and the name of the account whose books these become"}
	case engine == "" && strings.EqualFold(filepath.Ext(rest[0]), ".csv"):
		return errUsage{"a log in CSV goes into one engine's book: say which with -book and its name"}
	}
	if err := there(rest[0]); err != nil {
		return err
	}
	text, err := os.ReadFile(rest[0])
	if err != nil {
		return err
	}
	path := filepath.Join(c.Data, store.FileName)
	if err := there(path); err != nil {
		return err
	}
	db, err := store.Open(path, store.Options{})
	if err != nil {
		return err
	}
	defer db.Close()
	account, err := db.AccountByName(ctx, as)
	if fault.CodeOf(err) == fault.NotFound {
		return fault.New(fault.NotFound, fmt.Sprintf("There is no account named %q on this server.", as))
	}
	if err != nil {
		return err
	}
	desk := intake.Desk{Ledger: db, Account: account.ID, Now: time.Now().UnixMilli(), Check: api.Readable}
	if engine != "" {
		err = importLog(ctx, desk, engine, string(text), take, w)
	} else {
		err = importFile(ctx, desk, text, take, w)
	}
	if err == nil && !take {
		fmt.Fprintf(w.out, "Nothing was taken yet. To take it in as %s, add -take.\n", account.Name)
	}
	return err
}

// importFile takes in, or looks at, a phone's file of everything. What of it
// can't be relied on is said first.
func importFile(ctx context.Context, desk intake.Desk, text []byte, take bool, w world) error {
	file, problems, err := sync.DecodeFile(text)
	for _, words := range problems {
		fmt.Fprintln(w.out, words)
	}
	if err != nil {
		return err
	}
	do, done := desk.Look, "would be new"
	if take {
		do, done = desk.Take, "taken in"
	}
	books, err := do(ctx, file)
	for _, b := range books {
		fmt.Fprintf(w.out, "Book %v: %s, %d %s.\n", b.Book, some(b.Entries, "entry"), b.Fresh, done)
		for _, words := range b.Words {
			fmt.Fprintf(w.out, "  %s\n", words)
		}
	}
	return err
}

// importLog takes in, or looks at, an oil log from paper. Every line that
// can't be read is named with its number.
func importLog(ctx context.Context, desk intake.Desk, engine, csv string, take bool, w world) error {
	id, err := desk.Find(ctx, engine)
	if err != nil {
		return err
	}
	read, err := desk.LookAtLog(ctx, id, csv)
	if err != nil {
		return err
	}
	for _, row := range read.Rows {
		if row.Problem == "" && !row.Already {
			fmt.Fprintf(w.out, "line %d: %s\n", row.Line, row.Words)
		}
	}
	for _, p := range read.Problems {
		fmt.Fprintf(w.out, "line %d is left out: %s\n", p.Line, p.Words)
	}
	if !take {
		fmt.Fprintln(w.out, read.Summary)
		return nil
	}
	var device sync.ID
	rand.Read(device[:])
	_, took, err := desk.TakeLog(ctx, id, device, csv)
	for _, words := range took.Words {
		fmt.Fprintln(w.out, words)
	}
	if err == nil {
		fmt.Fprintf(w.out, "%s taken in.\n", some(took.Fresh, "line"))
	}
	return err
}
