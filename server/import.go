package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"linkrod/server/api"
	"linkrod/server/fault"
	"linkrod/server/intake"
	"linkrod/server/store"
	"linkrod/sync"
)

// imports takes a phone's file of everything into the data. Without -take it
// says what it would do.
func imports(ctx context.Context, args []string, w world) error {
	var c Config
	var as string
	var take bool
	rest, err := parse(&c, "data", args, w, func(set *flag.FlagSet) {
		set.StringVar(&as, "as", "", "")
		set.BoolVar(&take, "take", false, "")
	})
	switch {
	case err != nil:
		return err
	case len(rest) != 1:
		return errUsage{"import needs one file, after the flags: what a phone saved with “save everything to one file”"}
	case as == "":
		return errUsage{"import needs -as and the name of the account whose books these become"}
	}
	file, err := readFile(rest[0], w)
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
	if err == nil && !take {
		fmt.Fprintf(w.out, "Nothing was taken yet. To take it in as %s, add -take.\n", account.Name)
	}
	return err
}

// readFile reads a phone's file and says what of it can't be relied on.
func readFile(path string, w world) (sync.File, error) {
	if err := there(path); err != nil {
		return sync.File{}, err
	}
	text, err := os.ReadFile(path)
	if err != nil {
		return sync.File{}, err
	}
	file, problems, err := sync.DecodeFile(text)
	for _, words := range problems {
		fmt.Fprintln(w.out, words)
	}
	return file, err
}
