package photo

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/gif"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"

	"linkrod/server/fault"
)

// Ensure the three kinds are told by their bytes, and nothing else passes.
func TestKind(t *testing.T) {
	gray := image.NewGray(image.Rect(0, 0, 30, 20))
	encode := func(f func(*bytes.Buffer) error) []byte {
		t.Helper()
		var b bytes.Buffer
		if err := f(&b); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	good := encode(func(b *bytes.Buffer) error { return png.Encode(b, gray) })
	for _, tt := range []struct {
		name, want string
		data       []byte
	}{
		{"a PNG", "image/png", good},
		{"a JPEG", "image/jpeg", encode(func(b *bytes.Buffer) error { return jpeg.Encode(b, gray, nil) })},
		// RFC 9649: 2.5 simple lossy, 2.6 simple lossless, 2.7 extended
		{"a lossy WebP", "image/webp", webp("VP8 ", "\x00\x00\x00\x9d\x01\x2a\x1e\x00\x14\x00")},
		{"a lossless WebP", "image/webp", webp("VP8L", "\x2f\x1d\xc0\x04\x00\x00\x00\x00\x00\x00")},
		{"an extended WebP", "image/webp", webp("VP8X", "\x00\x00\x00\x00\x1d\x00\x00\x13\x00\x00")},
		{"a WebP of another form", "", webp("VP9 ", "0123456789")},
		{"a lossy WebP without its start code", "", webp("VP8 ", "\x00\x00\x00\x9d\x01\x2b\x1e\x00\x14\x00")},
		{"a lossless WebP without its mark", "", webp("VP8L", "\x2e\x1d\xc0\x04\x00\x00\x00\x00\x00\x00")},
		{"a WebP of no width", "", webp("VP8 ", "\x00\x00\x00\x9d\x01\x2a\x00\x00\x14\x00")},
		{"a WebP cut short", "", webp("VP8X", "")[:29]},
		{"another RIFF file", "", []byte("RIFF\x30\x00\x00\x00WAVEfmt " + strings.Repeat("x", 40))},
		{"a GIF", "", encode(func(b *bytes.Buffer) error { return gif.Encode(b, gray, nil) })},
		{"SVG", "", []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>`)},
		{"a page", "", []byte("<!doctype html>")},
		{"nothing", "", nil},
		{"a PNG cut short", "", good[:20]},
		{"a PNG that says it is 60000 x 60000", "", bomb(good)},
		{"a WebP that says it is 16384 x 16384", "", webp("VP8X", "\x00\x00\x00\x00\xff\x3f\x00\xff\x3f\x00")},
	} {
		got, err := Kind(tt.data)
		if got != tt.want || (err == nil) != (tt.want != "") {
			t.Errorf("%s: %q, %v; want %q", tt.name, got, err, tt.want)
		}
		if err != nil && fault.CodeOf(err) != fault.Invalid {
			t.Errorf("%s: %v", tt.name, err)
		}
	}
	for name, data := range map[string][]byte{"VP8": webp("VP8 ", "\x00\x00\x00\x9d\x01\x2a\x1e\x00\x14\x00"),
		"VP8L": webp("VP8L", "\x2f\x1d\xc0\x04\x00\x00\x00\x00\x00\x00"), "VP8X": webp("VP8X", "\x00\x00\x00\x00\x1d\x00\x00\x13\x00\x00")} {
		if w, h := webpSize(data); w != 30 || h != 20 {
			t.Errorf("%s: %d x %d, want 30 x 20", name, w, h)
		}
	}
}

// webp is the beginning of a WebP file whose first chunk is of a kind.
func webp(kind, chunk string) []byte {
	b := []byte("RIFF\x00\x00\x00\x00WEBP" + kind + "\x0a\x00\x00\x00" + chunk)
	return append(b, make([]byte, 10)...)
}

// bomb makes a PNG's header promise what nobody can unpack.
func bomb(good []byte) []byte {
	b := bytes.Clone(good)
	binary.BigEndian.PutUint32(b[16:], 60_000)
	binary.BigEndian.PutUint32(b[20:], 60_000)
	binary.BigEndian.PutUint32(b[29:], crc32.ChecksumIEEE(b[12:29]))
	return b
}

// FuzzKind looks for bytes that panic.
func FuzzKind(f *testing.F) {
	f.Add(webp("VP8 ", "\x00\x00\x00\x9d\x01\x2a\x1e\x00\x14\x00"))
	f.Add(webp("VP8L", "\x2f\x1d\xc0\x04\x00\x00\x00\x00\x00\x00"))
	f.Add([]byte("\xff\xd8\xff\xe0"))
	f.Add([]byte("\x89PNG\r\n\x1a\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if kind, err := Kind(data); (kind == "") == (err == nil) {
			t.Errorf("%q, %v", kind, err)
		}
	})
}
