// Package photo is what a photograph may be here: which kinds, how large, and
// how far one has come up. It never decodes a picture.
package photo

import (
	"bytes"
	"encoding/binary"
	"image"
	_ "image/jpeg" // only their headers are read
	_ "image/png"

	"linkrod/server/fault"
)

const (
	MaxBytes  = 10 << 20  // of one; phones make them smaller before they send
	MaxPixels = 50 << 20  // a header may promise more than any phone can unpack
	MaxPiece  = 256 << 10 // bytes that are put on disk at a time
	MaxBook   = 2 << 30   // bytes of all photographs of one book
)

// State is how far a photograph has come.
type State struct {
	Length int64  // bytes of the whole
	Offset int64  // bytes that are here
	Kind   string // media type; set when it is whole and what its name says
}

// Whole reports whether it can be looked at.
func (s State) Whole() bool { return s.Kind != "" }

// Kind tells the media type of a picture by its first bytes, and looks how
// large it says it is. The fault is of what is no picture this server hands
// out.
func Kind(data []byte) (string, error) {
	var kind string
	var width, height int
	switch {
	case bytes.HasPrefix(data, []byte("RIFF")) && len(data) >= 30 && string(data[8:12]) == "WEBP":
		kind = "image/webp"
		width, height = webpSize(data)
	default:
		c, name, err := image.DecodeConfig(bytes.NewReader(data))
		if err != nil || name != "jpeg" && name != "png" {
			return "", fault.Wrap(fault.Invalid, "That is no JPEG, PNG or WebP picture. It was not kept; take it again, or save it in one of these.", err)
		}
		kind, width, height = "image/"+name, c.Width, c.Height
	}
	if width < 1 || height < 1 || int64(width)*int64(height) > MaxPixels {
		return "", fault.New(fault.Invalid, "That picture says it is larger than any phone can show. It was not kept.")
	}
	return kind, nil
}

// webpSize reads width and height of the three forms of WebP (RFC 9649,
// sections 2.5 to 2.7); zeros when it is none.
func webpSize(data []byte) (width, height int) {
	switch string(data[12:16]) {
	case "VP8 ": // key frame: start code, then 14 bits each
		if bytes.Equal(data[23:26], []byte{0x9d, 0x01, 0x2a}) {
			return int(binary.LittleEndian.Uint16(data[26:]) & 0x3fff), int(binary.LittleEndian.Uint16(data[28:]) & 0x3fff)
		}
	case "VP8L": // signature, then 14 bits each, less one
		if data[20] == 0x2f {
			bits := binary.LittleEndian.Uint32(data[21:])
			return int(bits&0x3fff) + 1, int(bits>>14&0x3fff) + 1
		}
	case "VP8X": // 24 bits each, less one
		return int(uint24(data[24:])) + 1, int(uint24(data[27:])) + 1
	}
	return 0, 0
}

func uint24(b []byte) uint32 { return uint32(b[0]) | uint32(b[1])<<8 | uint32(b[2])<<16 }
