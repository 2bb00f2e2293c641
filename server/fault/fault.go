// Package fault is how the server says that something went wrong: a code for
// the program at the other end, words for the person in front of it, and the
// cause for whoever runs the server, which never leaves the log.
//
// Every layer returns faults or plain errors; package api turns them into
// HTTP in one place. A plain error is [Internal]: its text may name files,
// keys or other people's data, so nobody outside sees it.
package fault

import "errors"

// Code is what a program decides on. There are few on purpose; a new one is
// worth it only if a phone would do something else.
type Code string

const (
	Invalid  Code = "invalid"   // what was sent can't be taken as it is; the words say why
	SignIn   Code = "sign_in"   // no sign-in, or it is over: get a new one, keep everything
	Refused  Code = "refused"   // signed in, and still not allowed
	Revoked  Code = "revoked"   // this device was removed from its account, or the account from here
	NotFound Code = "not_found" // isn't there, or isn't the caller's to know of
	Conflict Code = "conflict"  // somebody was faster, or it exists already
	Rewound  Code = "rewound"   // the ledger is not the one the caller last saw
	TooLarge Code = "too_large" // body over the limit; send less at a time
	Damaged  Code = "hash"      // what came is not what it was announced as; send it again from the beginning
	TooMany  Code = "too_many"  // too many attempts; wait
	Busy     Code = "busy"      // can't be done now (disk full, stopping); nothing was taken, try again
	Internal Code = "internal"  // a defect or a broken machine
)

// Fault is an error with a code and words for people.
type Fault struct {
	Code  Code
	Words string // one or two sentences: what was wrong, what to do
	Field string // the form field it belongs to, or empty
	Cause error  // for the log only; may be nil
}

// New makes a fault without a cause.
func New(code Code, words string) *Fault { return &Fault{Code: code, Words: words} }

// At makes an [Invalid] fault about one field of what was typed.
func At(field, words string) *Fault { return &Fault{Code: Invalid, Words: words, Field: field} }

// Wrap makes a fault that remembers its cause for the log.
func Wrap(code Code, words string, cause error) *Fault {
	return &Fault{Code: code, Words: words, Cause: cause}
}

// Error is the operator's text: words and cause.
func (f *Fault) Error() string {
	s := string(f.Code) + ": " + f.Words
	if f.Cause != nil {
		s += ": " + f.Cause.Error()
	}
	return s
}

// Unwrap returns the cause.
func (f *Fault) Unwrap() error { return f.Cause }

// From finds the fault in err. A nil error gives nil; an error that is no
// fault gives an [Internal] one, with err as its cause and words that tell
// nothing about it.
func From(err error) *Fault {
	if err == nil {
		return nil
	}
	var f *Fault
	if errors.As(err, &f) {
		return f
	}
	return &Fault{
		Code:  Internal,
		Words: "The server could not do that. Nothing on this phone is lost; try again later.",
		Cause: err,
	}
}

// CodeOf returns the code of err: empty for nil, [Internal] for a plain error.
func CodeOf(err error) Code {
	if err == nil {
		return ""
	}
	return From(err).Code
}
