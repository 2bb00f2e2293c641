package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"linkrod/radial/card"
	"linkrod/radial/card/cardtext"
	"linkrod/server/api"
	"linkrod/server/fault"
	"linkrod/server/intake"
	"linkrod/server/people"
	"linkrod/server/store"
)

// cards are the commands about cards. Only import and export need the data.
func cards(ctx context.Context, args []string, w world) error {
	if len(args) == 0 {
		return errUsage{"cards needs what to do: check, json, import or export"}
	}
	do, rest := args[0], args[1:]
	switch do {
	case "check":
		return cardsCheck(rest, w)
	case "json":
		return cardsJSON(rest, w)
	case "import":
		return cardsImport(ctx, rest, w)
	case "export":
		return cardsExport(ctx, rest, w)
	}
	return errUsage{fmt.Sprintf("cards can check, json, import and export, not %q", do)}
}

// cardsCheck tells every fault of shelves' folders and of single cards, one a line.
func cardsCheck(args []string, w world) error {
	if len(args) == 0 {
		return errUsage{"cards check needs a shelf's folder or a card's file"}
	}
	found, faults := 0, 0
	for _, arg := range args {
		read, err := readCards(arg)
		if err != nil {
			return err
		}
		tell(w.out, read.Faults)
		found, faults = found+len(read.Files), faults+len(read.Faults)
	}
	if faults > 0 {
		return fault.New(fault.Invalid, fmt.Sprintf("%s looked at, %s found; each stands above with its place.", some(found, "card"), some(faults, "fault")))
	}
	fmt.Fprintf(w.out, "%s looked at, nothing found.\n", some(found, "card"))
	return nil
}

// cardsJSON writes a shelf as the one file that the phone keeps.
func cardsJSON(args []string, w world) error {
	if len(args) != 1 {
		return errUsage{"cards json needs one shelf's folder"}
	}
	read, err := readCards(args[0])
	if err != nil {
		return err
	}
	if len(read.Faults) > 0 {
		tell(w.err, read.Faults)
		return fault.New(fault.Invalid, "Nothing was written.")
	}
	_, err = w.out.Write(append(read.Bundle(), '\n'))
	return err
}

// readCards reads a shelf's folder, or one card's file by the rules of the folder it
// lies in.
func readCards(path string) (cardtext.Folder, error) {
	info, err := os.Stat(path)
	if err != nil {
		return cardtext.Folder{}, there(path)
	}
	if info.IsDir() {
		d, err := cardtext.ReadFolder(os.DirFS(path), path)
		if err == nil && len(d.Files) == 0 {
			err = fault.New(fault.NotFound, fmt.Sprintf("There is no card (*.yaml) in %s.", path))
		}
		return d, err
	}
	rules := card.Rules{}
	if d, err := cardtext.ReadFolder(os.DirFS(filepath.Dir(path)), filepath.Dir(path)); err == nil {
		rules = d.Rules
	}
	text, err := os.ReadFile(path)
	if err != nil {
		return cardtext.Folder{}, err
	}
	t := cardtext.Read(path, text, rules)
	return cardtext.Folder{Files: []cardtext.File{{Name: filepath.Base(path), Text: text, Read: t}}, Faults: t.Faults}, nil
}

// tell writes faults, one a line: file:line:column: sentence.
func tell(out io.Writer, faults []cardtext.Fault) {
	for _, f := range faults {
		fmt.Fprintln(out, f)
	}
}

// cardsImport puts a folder of cards on a shelf: all of them, or none. Without -take it
// says what it would do.
func cardsImport(ctx context.Context, args []string, w world) error {
	var as, shelf, reason string
	var take bool
	desk, rest, done, err := cardsDesk(ctx, args, w, &as, &shelf, func(set *flag.FlagSet) {
		set.StringVar(&reason, "reason", "", "")
		set.BoolVar(&take, "take", false, "")
	})
	if err != nil {
		return err
	}
	defer done()
	read, err := readCards(rest)
	if err != nil {
		return err
	}
	if len(read.Faults) > 0 {
		tell(w.out, read.Faults)
		return fault.New(fault.Invalid, "Nothing was taken. What is wrong stands above with its place.")
	}
	put, err := desk.Shelve(ctx, shelf, read, rest, as, time.Now().Format(time.DateOnly), reason, take)
	if err != nil {
		return err
	}
	if len(put.Faults) > 0 {
		tell(w.out, put.Faults)
		return fault.New(fault.Conflict, "Nothing was taken. What stands against it is above, with its place.")
	}
	for _, line := range put.Cards {
		fmt.Fprintln(w.out, line)
	}
	became := "would be put on"
	if take {
		became = "put on"
	}
	fmt.Fprintf(w.out, "%s %s the shelf %q, %d there already as they are.\n", some(len(put.Cards), "card"), became, shelf, put.Same)
	if !take {
		fmt.Fprintln(w.out, "Nothing was taken yet. To take it in, add -take.")
	}
	return nil
}

// cardsExport writes a shelf into a new folder, each card as it was written.
func cardsExport(ctx context.Context, args []string, w world) error {
	var as, shelf string
	desk, folder, done, err := cardsDesk(ctx, args, w, &as, &shelf)
	if err != nil {
		return err
	}
	defer done()
	files, err := desk.Unshelve(ctx, shelf)
	if err != nil {
		return err
	}
	if there, err := os.ReadDir(folder); err == nil && len(there) > 0 {
		return fault.New(fault.Conflict, fmt.Sprintf("There is something in %s already. An export goes into a new folder.", folder))
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	for _, f := range files {
		if err := os.WriteFile(filepath.Join(folder, f.Name), []byte(f.Text), 0o644); err != nil {
			return err
		}
	}
	fmt.Fprintf(w.out, "%s written to %s.\n", some(len(files), "file"), folder)
	return nil
}

// cardsDesk reads the flags of import and export and opens the stopped server's data for
// the account; done closes it. rest is the folder named after the flags.
func cardsDesk(ctx context.Context, args []string, w world, as, shelf *string, own ...func(*flag.FlagSet)) (desk intake.Desk, rest string, done func(), err error) {
	var c Config
	names, err := parse(&c, "data", args, w, append(own, func(set *flag.FlagSet) {
		set.StringVar(as, "as", "", "")
		set.StringVar(shelf, "shelf", "", "")
	})...)
	switch {
	case err != nil:
		return desk, "", nil, err
	case len(names) != 1:
		return desk, "", nil, errUsage{"one folder of cards is needed, after the flags"}
	case *as == "" || *shelf == "":
		return desk, "", nil, errUsage{"-as and the name of a curator's account, and -shelf and the shelf's name, are needed"}
	}
	db, account, err := openAs(ctx, c, *as)
	if err != nil {
		return desk, "", nil, err
	}
	*as = account.Name
	return intake.Desk{Ledger: db, Account: account.ID, Now: time.Now().UnixMilli(), Check: api.Readable}, names[0], func() { db.Close() }, nil
}

// openAs opens the data file, and finds an account in it.
func openAs(ctx context.Context, c Config, name string) (*store.DB, people.Account, error) {
	path := filepath.Join(c.Data, store.FileName)
	if err := there(path); err != nil {
		return nil, people.Account{}, err
	}
	db, err := store.Open(path, store.Options{})
	if err != nil {
		return nil, people.Account{}, err
	}
	account, err := db.AccountByName(ctx, name)
	if fault.CodeOf(err) == fault.NotFound {
		err = fault.New(fault.NotFound, fmt.Sprintf("There is no account named %q on this server.", name))
	}
	if err != nil {
		db.Close()
		return nil, people.Account{}, err
	}
	return db, account, nil
}
