package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"linkrod/server/fault"
	"linkrod/server/local"
	"linkrod/server/store"
)

// dataFile reads the flags of a command about the data. It returns the data
// folder, the data file in it, and the file named after the flags, if any.
func dataFile(args []string, w world) (folder, data, file string, err error) {
	var c Config
	rest, err := parse(&c, "data", args, w)
	if err != nil {
		return "", "", "", err
	}
	if len(rest) > 1 {
		return "", "", "", errUsage{fmt.Sprintf("one file at a time: %q is too many (flags go before the file)", rest[1])}
	}
	if len(rest) == 1 {
		file = rest[0]
	}
	return c.Data, filepath.Join(c.Data, store.FileName), file, nil
}

// there says in plain words that a file is missing: a wrong folder is the
// commonest mistake with these commands, and must not look like damage.
func there(path string) error {
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return fault.New(fault.NotFound, fmt.Sprintf("There is no file %s.", path))
	}
	return nil
}

// check looks a data file over and says what it holds.
func check(ctx context.Context, args []string, w world) error {
	folder, path, file, err := dataFile(args, w)
	if err != nil {
		return err
	}
	if file != "" {
		path = file
	}
	if err := there(path); err != nil {
		return err
	}
	r, err := store.Check(path)
	if fault.CodeOf(err) == fault.Busy && file == "" {
		r, err = checkRunning(ctx, folder)
	}
	if err != nil {
		return err
	}
	for _, problem := range r.Problems {
		fmt.Fprintln(w.out, problem)
	}
	fmt.Fprintf(w.out, "%s: %s.\n", path, contents(r))
	if len(r.Problems) > 0 {
		return fault.New(fault.Conflict, fmt.Sprintf("%s is not sound; what is wrong stands above. Leave the file as it is and put the last backup back.", path))
	}
	fmt.Fprintf(w.out, "Sound. The journal of sign-ins and administration has %s.\n", some(r.Journal, "line"))
	return nil
}

// checkRunning checks a copy of what the running server has.
func checkRunning(ctx context.Context, folder string) (store.Report, error) {
	f, err := os.CreateTemp(folder, "check-*.tmp")
	if err != nil {
		return store.Report{}, err
	}
	defer os.Remove(f.Name())
	if err := errors.Join(local.Copy(ctx, folder, f), f.Close()); err != nil {
		return store.Report{}, err
	}
	return store.Check(f.Name())
}

// backup writes a checked copy of the data to a new file.
func backup(ctx context.Context, args []string, w world) error {
	folder, path, out, err := dataFile(args, w)
	if err != nil {
		return err
	}
	if out == "" {
		return errUsage{"backup needs the name of a file to write, for example: linkrod backup linkrod-2026-03-01.db"}
	}
	if err := there(path); err != nil {
		return err
	}
	r, err := store.Backup(path, out, func(to io.Writer) error {
		err := local.Copy(ctx, folder, to)
		if errors.Is(err, local.ErrNotRunning) {
			return store.CopyFile(path, to)
		}
		return err
	})
	if err != nil {
		return err
	}
	fmt.Fprintf(w.out, "%s: %s. Checked.\n", out, contents(r))
	return nil
}

// restore puts a backup in the place of the data.
func restore(ctx context.Context, args []string, w world) error {
	_, path, from, err := dataFile(args, w)
	if err != nil {
		return err
	}
	if from == "" {
		return errUsage{"restore needs the backup's file name"}
	}
	if err := there(from); err != nil {
		return err
	}
	kept, r, err := store.Restore(path, from, time.Now())
	if err != nil {
		return err
	}
	fmt.Fprintf(w.out, "%s is now: %s.\n", path, contents(r))
	if kept != "" {
		fmt.Fprintf(w.out, "What was there before is kept as %s.\n", kept)
	}
	fmt.Fprintln(w.out, "Start the server again. Phones notice by themselves and put back what they still hold.")
	return nil
}

func contents(r store.Report) string {
	s := fmt.Sprintf("%s, %s, %s, %s", some(r.Accounts, "account"), some(r.Devices, "device"), some(r.Books, "book"), some(r.Records, "record"))
	if r.Photos > 0 {
		s += ", " + some(r.Photos, "photograph")
	}
	if r.Aside > 0 {
		s += fmt.Sprintf(" and %d set aside", r.Aside)
	}
	return s
}

func some(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	if stem, ok := strings.CutSuffix(what, "y"); ok {
		return fmt.Sprintf("%d %sies", n, stem)
	}
	return fmt.Sprintf("%d %ss", n, what)
}
