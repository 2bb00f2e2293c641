package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"linkrod/radial/card"
	"linkrod/radial/card/cardtext"
	"linkrod/server/fault"
)

// cards are the commands about cards, none of which needs the data but import and export.
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
		for _, f := range read.Faults {
			fmt.Fprintln(w.out, f)
		}
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
		for _, f := range read.Faults {
			fmt.Fprintln(w.err, f)
		}
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
