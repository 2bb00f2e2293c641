package identify

import (
	"strings"

	"linkrod/radial/quantity"
)

// problem is an input that cannot be, in the form package quantity has for it.
func problem(field, sentence string) error {
	return &quantity.Problem{Field: field, Sentence: sentence}
}

// refuse is a text that was not taken, with what would be.
func refuse(why quantity.Why, typed, sentence string, instead ...string) error {
	return &quantity.Refusal{Why: why, Typed: typed, Sentence: quoted(typed) + " " + sentence, Instead: instead}
}

// quoted is what was typed, cut to what a sentence has room for.
func quoted(typed string) string {
	shown := []rune(strings.ToValidUTF8(typed, "\uFFFD"))
	if len(shown) > 40 {
		shown = append(shown[:40], '…')
	}
	return "“" + string(shown) + "”"
}

// first is the first error there is.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
