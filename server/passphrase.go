package main

import (
	"bufio"
	"context"
	"errors"
	"flag"
	"fmt"
	"path/filepath"
	"strings"

	"linkrod/server/auth"
	"linkrod/server/local"
	"linkrod/server/store"
)

// newPassphrase replaces a lost one, typed at the machine by its owner.
func newPassphrase(ctx context.Context, args []string, w world) error {
	var c Config
	p := local.Passphrase{}
	rest, err := parse(&c, "data", args, w, func(set *flag.FlagSet) { set.BoolVar(&p.Out, "out", false, "") })
	if err != nil {
		return err
	}
	if p.Name = strings.Join(rest, " "); p.Name == "" {
		return errUsage{"passphrase needs the name of an account, as it stands on their phone"}
	}
	path := filepath.Join(c.Data, store.FileName)
	if err := there(path); err != nil {
		return err
	}
	fmt.Fprintf(w.out, "New passphrase for %s, at least 12 characters (it shows while it is typed): ", p.Name)
	typed, err := bufio.NewReader(w.in).ReadString('\n')
	if typed == "" {
		return errUsage{fmt.Sprintf("nothing was typed, so nothing was changed (%v)", err)}
	}
	p.Passphrase = strings.TrimRight(typed, "\r\n")
	fmt.Fprintln(w.out)
	err = local.NewPassphrase(ctx, c.Data, p)
	if errors.Is(err, local.ErrNotRunning) {
		err = newPassphraseAtRest(ctx, c, path, p, w)
	}
	if err != nil {
		return err
	}
	fmt.Fprintf(w.out, "%s signs in with the new passphrase from now on.\n", p.Name)
	if p.Out {
		fmt.Fprintln(w.out, "Every phone of this account must sign in again; what is on them is kept.")
	} else {
		fmt.Fprintln(w.out, "Phones that are signed in stay so. If the old one may be in wrong hands, do this again with -out.")
	}
	return nil
}

func newPassphraseAtRest(ctx context.Context, c Config, path string, p local.Passphrase, w world) error {
	c.Log = "warn"
	log, err := c.logger(w.err)
	if err != nil {
		return err
	}
	db, err := store.Open(path, store.Options{})
	if err != nil {
		return err
	}
	// No token is made here, so any key will do.
	err = auth.New(db, auth.NewKey([32]byte{}), log).NewPassphrase(ctx, p.Name, p.Passphrase, p.Out)
	return errors.Join(err, db.Close())
}
