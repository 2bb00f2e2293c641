package main

import (
	"context"
	"errors"
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
	"linkrod/server/local"
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
	do := local.Shelf{}
	c, folder, err := shelfFlags(args, w, &do, func(set *flag.FlagSet) {
		set.StringVar(&do.Reason, "reason", "", "")
		set.BoolVar(&do.Take, "take", false, "")
	})
	if err != nil {
		return err
	}
	read, err := readCards(folder)
	if err != nil {
		return err
	}
	do.Folder, do.Texts = folder, read.Texts()
	done, err := shelveSomewhere(ctx, c, do)
	if err != nil {
		return err
	}
	if len(done.Faults) > 0 {
		for _, f := range done.Faults {
			fmt.Fprintln(w.out, f)
		}
		return fault.New(fault.Invalid, "Nothing was taken. What is wrong stands above with its place.")
	}
	for _, line := range done.Cards {
		fmt.Fprintln(w.out, line)
	}
	became := "would be put on"
	if do.Take {
		became = "put on"
	}
	fmt.Fprintf(w.out, "%s %s the shelf %q, %d there already as they are.\n", some(len(done.Cards), "card"), became, do.Title, done.Same)
	if !do.Take {
		fmt.Fprintln(w.out, "Nothing was taken yet. To take it in, add -take.")
	}
	return nil
}

// cardsExport writes a shelf into a new folder, each card as it was written.
func cardsExport(ctx context.Context, args []string, w world) error {
	do := local.Shelf{}
	c, folder, err := shelfFlags(args, w, &do)
	if err != nil {
		return err
	}
	done, err := shelveSomewhere(ctx, c, do)
	if err != nil {
		return err
	}
	if there, err := os.ReadDir(folder); err == nil && len(there) > 0 {
		return fault.New(fault.Conflict, fmt.Sprintf("There is something in %s already. An export goes into a new folder.", folder))
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	for name, text := range done.Texts {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			return err
		}
	}
	fmt.Fprintf(w.out, "%s written to %s.\n", some(len(done.Texts), "file"), folder)
	return nil
}

// shelfFlags reads the flags of import and export, and the folder named after them.
func shelfFlags(args []string, w world, do *local.Shelf, own ...func(*flag.FlagSet)) (c Config, folder string, err error) {
	names, err := parse(&c, "data", args, w, append(own, func(set *flag.FlagSet) {
		set.StringVar(&do.As, "as", "", "")
		set.StringVar(&do.Title, "shelf", "", "")
	})...)
	switch {
	case err != nil:
		return c, "", err
	case len(names) != 1:
		return c, "", errUsage{"one folder of cards is needed, after the flags"}
	case do.As == "" || do.Title == "":
		return c, "", errUsage{"-as and the name of a curator's account, and -shelf and the shelf's name, are needed"}
	}
	return c, names[0], nil
}

// shelveSomewhere asks the running server, or, when there is none, the data it left.
func shelveSomewhere(ctx context.Context, c Config, do local.Shelf) (local.Shelved, error) {
	done, err := local.Shelve(ctx, c.Data, do)
	if !errors.Is(err, local.ErrNotRunning) {
		return done, err
	}
	path := filepath.Join(c.Data, store.FileName)
	if err := there(path); err != nil {
		return done, err
	}
	db, err := store.Open(path, store.Options{})
	if err != nil {
		return done, err
	}
	defer db.Close()
	return shelve(ctx, db, do)
}

// shelve does it.
func shelve(ctx context.Context, db *store.DB, do local.Shelf) (done local.Shelved, err error) {
	account, err := db.AccountByName(ctx, do.As)
	if fault.CodeOf(err) == fault.NotFound {
		return done, fault.New(fault.NotFound, fmt.Sprintf("There is no account named %q on this server.", do.As))
	}
	if err != nil {
		return done, err
	}
	desk := intake.Desk{Ledger: db, Account: account.ID, Now: time.Now().UnixMilli(), Check: api.Readable}
	if len(do.Texts) == 0 {
		done.Texts, err = desk.Unshelve(ctx, do.Title)
		return done, err
	}
	from := cardtext.ReadTexts(do.Texts, do.Folder)
	put := intake.Shelved{Faults: from.Faults}
	if len(put.Faults) == 0 {
		put, err = desk.Shelve(ctx, do.Title, from, do.Folder, account.Name, time.Now().Format(time.DateOnly), do.Reason, do.Take)
	}
	for _, f := range put.Faults {
		done.Faults = append(done.Faults, f.String())
	}
	done.Cards, done.Same = put.Cards, put.Same
	return done, err
}
