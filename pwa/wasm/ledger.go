package main

import (
	"linkrod/sync"
	"linkrod/sync/plain"
)

// ledgerSeal {entry without body and hash, text} completes an entry: its body
// is the bytes of text, and its hash covers them.
func ledgerSeal(args plain.Value, w *plain.Writer) error {
	e, err := sync.ReadUnsealed(args.Get("entry"))
	if err != nil {
		return err
	}
	e.Body = []byte(args.Get("text").Text())
	if e, err = sync.Seal(e); err != nil {
		return err
	}
	e.Write(w, "")
	return nil
}

// ledgerVerify {records, after} checks that records continue a ledger, and
// says where they lead -> {head}.
func ledgerVerify(args plain.Value, w *plain.Writer) error {
	head, err := sync.ReadHead(args.Get("after"))
	if err != nil {
		return err
	}
	for _, v := range args.Get("records").Items() {
		r, err := sync.ReadRecord(v)
		if err != nil {
			return err
		}
		if head, err = sync.Follow(head, []sync.Record{r}); err != nil {
			return err
		}
	}
	w.Begin('{')
	head.Write(w, "head")
	w.End('}')
	return nil
}

// ledgerHear {pending, results} says what the answer to a push means. Of what
// was sent only the numbers matter, so that an entry storage has damaged
// doesn't stand in the way of the others.
func ledgerHear(args plain.Value, w *plain.Writer) error {
	var sent []uint64
	for _, v := range args.Get("pending").Items() {
		if n, ok := v.Get("n").Int(); ok && n > 0 {
			sent = append(sent, uint64(n))
		}
	}
	var results []sync.Result
	for _, v := range args.Get("results").Items() {
		results = append(results, sync.ReadResult(v))
	}
	sync.Hear(sent, results).Write(w, "")
	return nil
}

// deviceStep {state, book, mine, input} is one input to this phone's side of a
// book -> {state, effects}; sync.Step has the shapes.
func deviceStep(args plain.Value, w *plain.Writer) error { return sync.Step(args, w) }
