package main

import (
	"strings"
	"testing"
)

// The example is AC 43.13-1B fig. 7-2 with the figures of testdata/checks, tq_ext_b: 335.79.
func TestSums(t *testing.T) {
	if out := string(program.Answer("sums.list", []byte(`{}`))); !strings.Contains(out, `{"id":"torque-wrench","title":"Torque with this wrench"`) {
		t.Errorf("%s", out)
	}
	out := string(program.Answer("sums.work", []byte(`{"id":"torque-wrench","typed":{"wanted":"435","lever":"11","adapter":"3 1/4"},"units":{"wanted":"in_lb"}}`)))
	if !strings.HasPrefix(out, `{"ok":{"id":"torque-wrench"`) || !strings.Contains(out, `"figure":"335.8","unit":"in-lb"`) {
		t.Errorf("%s", out)
	}
	if out := string(program.Answer("sums.work", []byte(`{"id":"no-such"}`))); !strings.Contains(out, `{"error":{"code":"wrong","words":"There is no such sum. Look for it in the list."}}`) {
		t.Errorf("%s", out)
	}
}
