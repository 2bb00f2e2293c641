package front

import (
	"crypto/sha256"
	"encoding/base64"
	"io/fs"
	"path"
	"strings"
)

// file is one address: what it is, how long it holds, its bytes in each
// encoding the build made.
type file struct {
	kind   string // Content-Type
	cache  string // Cache-Control
	bodies map[string]body
}

// body is the bytes of one encoding. The tag is theirs, not the file's: two
// encodings are two different answers (RFC 9110, section 8.8.3.3).
type body struct {
	bytes []byte
	tag   string
}

func (f file) encodings() map[string]bool {
	have := make(map[string]bool, len(f.bodies))
	for e := range f.bodies {
		have[e] = true
	}
	return have
}

// read indexes a tree. Hidden files stay hidden.
func read(files fs.FS) (map[string]file, error) {
	index := map[string]file{}
	err := fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() || strings.HasPrefix(d.Name(), ".") {
			return nil
		}
		bytes, err := fs.ReadFile(files, name)
		if err != nil {
			return err
		}
		plain, encoding := encodingOf(name)
		f, ok := index[plain]
		if !ok {
			f = file{kind: kindOf(plain), cache: cacheOf(plain), bodies: map[string]body{}}
			index[plain] = f
		}
		sum := sha256.Sum256(bytes)
		f.bodies[encoding] = body{bytes, `"` + base64.RawURLEncoding.EncodeToString(sum[:16]) + `"`}
		return nil
	})
	for name, f := range index {
		if _, ok := f.bodies[identity]; !ok {
			delete(index, name) // compressed, and the original is gone: not ours to guess
		}
	}
	return index, err
}

func encodingOf(name string) (plain, encoding string) {
	for _, e := range compressed {
		if plain, ok := strings.CutSuffix(name, e.suffix); ok {
			return plain, e.name
		}
	}
	return name, identity
}

func cacheOf(name string) string {
	if strings.HasPrefix(name, "assets/") {
		return cacheForever
	}
	return cacheAsk
}

// kinds is our own table, because the system's differs from machine to
// machine, and a browser neither starts a worker nor compiles WebAssembly that
// comes under another name.
var kinds = map[string]string{
	".css":         "text/css; charset=utf-8",
	".html":        "text/html; charset=utf-8",
	".ico":         "image/x-icon",
	".js":          "text/javascript; charset=utf-8",
	".json":        "application/json",
	".png":         "image/png",
	".svg":         "image/svg+xml",
	".txt":         "text/plain; charset=utf-8",
	".wasm":        "application/wasm",
	".webmanifest": "application/manifest+json",
	".woff2":       "font/woff2",
}

func kindOf(name string) string {
	if kind, ok := kinds[path.Ext(name)]; ok {
		return kind
	}
	return "application/octet-stream"
}
