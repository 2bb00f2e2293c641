// Package embed carries the built front end inside the binary.
//
// The bundle is built from the same tree as the server and never committed:
// phone and server share their rules, and a bundle one commit behind would
// judge and merge by other rules than the server it talks to. On a checkout
// whose front end isn't built yet the committed placeholder answers instead,
// and says what to do.
package embed

import (
	"embed"
	"io/fs"
)

// all: is needed, because dist holds only a dot-file until the first build.
//
//go:embed all:dist
var dist embed.FS

//go:embed placeholder
var placeholder embed.FS

// Front returns the front end's files, index.html at the root, and whether
// they are the built ones (false: the placeholder page).
func Front() (files fs.FS, built bool) {
	if _, err := fs.Stat(dist, "dist/index.html"); err == nil {
		return sub(dist, "dist"), true
	}
	return sub(placeholder, "placeholder"), false
}

func sub(f embed.FS, dir string) fs.FS {
	s, err := fs.Sub(f, dir)
	if err != nil {
		panic(err) // only for an invalid name, and the two names above are fixed
	}
	return s
}
