package auth

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"linkrod/server/fault"
)

// lineMax is the longest one-line answer, in characters.
const lineMax = 80

// line checks one line somebody typed: what calls it in a sentence ("name for
// the shop"). It returns the text with outer blanks removed and inner runs of
// blanks made one.
func line(field, what, typed string, needed bool) (string, error) {
	text := strings.Join(strings.Fields(typed), " ")
	switch {
	case text == "" && needed:
		return "", fault.At(field, fmt.Sprintf("A %s is needed here.", what))
	case utf8.RuneCountInString(text) > lineMax:
		return "", fault.At(field, fmt.Sprintf("That %s has %d characters; %d fit.", what, utf8.RuneCountInString(text), lineMax))
	case !utf8.ValidString(text) || strings.ContainsFunc(text, func(r rune) bool { return !unicode.IsPrint(r) }):
		return "", fault.At(field, fmt.Sprintf("That %s contains a character that can't be shown. Type it again.", what))
	}
	return text, nil
}

// checked returns the phone as it will be kept.
func (p Phone) checked() (Phone, error) {
	if p.Device.IsZero() {
		return Phone{}, fault.At("device", "The phone sent no id of its own. Reload the app and try again.")
	}
	label, err := line("label", "name for this phone", p.Label, false)
	if err != nil {
		return Phone{}, err
	}
	if label == "" {
		label = "Phone"
	}
	p.Label = label
	return p, nil
}
