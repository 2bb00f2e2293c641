package api

import (
	"fmt"
	"strings"

	"rsc.io/qr"
)

// quiet is the empty margin around a QR code, in modules (ISO/IEC 18004: 4).
const quiet = 4

// qrSVG draws text as a QR code: one path of black runs on white, one unit a
// module. It has no style, script or outside reference, so it shows under the
// strictest policy.
func qrSVG(text string) (string, error) {
	code, err := qr.Encode(text, qr.M)
	if err != nil {
		return "", fmt.Errorf("qr: %w", err)
	}
	size := code.Size + 2*quiet
	var path strings.Builder
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			start := x
			for code.Black(x, y) { // false outside, so a run ends at the edge
				x++
			}
			if x > start {
				fmt.Fprintf(&path, "M%d %dh%dv1h-%dz", start+quiet, y+quiet, x-start, x-start)
			}
		}
	}
	return fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" shape-rendering="crispEdges">`+
		`<path fill="#fff" d="M0 0h%dv%dH0z"/><path d="%s"/></svg>`, size, size, size, size, path.String()), nil
}
