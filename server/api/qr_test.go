package api

import (
	"encoding/xml"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"rsc.io/qr"
)

// drawn reads the picture back: which modules are black.
func drawn(tb testing.TB, svg string) (black map[[2]int]bool, size int) {
	tb.Helper()
	var picture struct {
		ViewBox string `xml:"viewBox,attr"`
		Paths   []struct {
			D string `xml:"d,attr"`
		} `xml:"path"`
	}
	if err := xml.Unmarshal([]byte(svg), &picture); err != nil {
		tb.Fatal(err)
	}
	if _, err := fmt.Sscanf(picture.ViewBox, "0 0 %d %d", &size, &size); err != nil || len(picture.Paths) != 2 {
		tb.Fatalf("picture = %+v, %v", picture, err)
	}
	black = map[[2]int]bool{}
	run := regexp.MustCompile(`M\d+ \d+h\d+v1h-\d+z`)
	if rest := run.ReplaceAllString(picture.Paths[1].D, ""); rest != "" {
		tb.Fatalf("the path has more than runs: %q", rest)
	}
	for _, text := range run.FindAllString(picture.Paths[1].D, -1) {
		var x, y, n, back int
		if _, err := fmt.Sscanf(text, "M%d %dh%dv1h-%dz", &x, &y, &n, &back); err != nil || n != back {
			tb.Fatalf("run %q: %v", text, err)
		}
		for i := range n {
			black[[2]int{x + i, y}] = true
		}
	}
	return black, size
}

// Ensure the picture is the code, module by module, and that its margin and
// its three finders are where a camera looks for them (ISO/IEC 18004, 6.3).
func TestQR(t *testing.T) {
	const text = "https://hangar.test:7443/join#CDFGHJ"
	svg, err := qrSVG(text)
	if err != nil {
		t.Fatal(err)
	}
	black, size := drawn(t, svg)
	code, err := qr.Encode(text, qr.M)
	if err != nil {
		t.Fatal(err)
	}
	if size != code.Size+8 {
		t.Fatalf("size = %d, want %d and 4 modules of margin on each side", size, code.Size)
	}
	for y := range size {
		for x := range size {
			if got, want := black[[2]int{x, y}], code.Black(x-4, y-4); got != want {
				t.Fatalf("module %d,%d: black = %v, want %v", x, y, got, want)
			}
		}
	}
	finder := strings.Fields(`
		1111111
		1000001
		1011101
		1011101
		1011101
		1000001
		1111111`)
	for _, corner := range [][2]int{{4, 4}, {size - 11, 4}, {4, size - 11}} {
		for y, row := range finder {
			for x, module := range row {
				if got := black[[2]int{corner[0] + x, corner[1] + y}]; got != (module == '1') {
					t.Fatalf("finder at %v is damaged at %d,%d", corner, x, y)
				}
			}
		}
	}
	for _, bad := range []string{"style", "script", "href"} {
		if strings.Contains(svg, bad) {
			t.Errorf("the picture has a %s", bad)
		}
	}
}
