package main

import "linkrod/sync"

// ledgerSeal {entry without body and hash, text} completes an entry: its body
// is the bytes of text, and its hash covers them.
func ledgerSeal(args []byte) (any, error) {
	a, err := unpack[struct {
		Entry struct {
			Device sync.ID    `json:"device"`
			N      uint64     `json:"n"`
			Book   sync.ID    `json:"book"`
			Prev   sync.Hash  `json:"prev"`
			Kind   sync.Kind  `json:"kind"`
			Refs   []sync.Ref `json:"refs"`
			Seen   uint64     `json:"seen"`
			Schema int        `json:"schema"`
			Clock  sync.Clock `json:"clock"`
		} `json:"entry"`
		Text string `json:"text"`
	}](args)
	if err != nil {
		return nil, err
	}
	e := a.Entry
	return sync.Seal(sync.Entry{
		Device: e.Device, N: e.N, Book: e.Book, Prev: e.Prev, Kind: e.Kind, Refs: e.Refs, Body: []byte(a.Text),
		Seen: e.Seen, Schema: e.Schema, Clock: e.Clock,
	})
}

// ledgerVerify {records, after} checks that records continue a ledger, and
// says where they lead.
func ledgerVerify(args []byte) (any, error) {
	a, err := unpack[struct {
		Records []sync.Record `json:"records"`
		After   sync.Head     `json:"after"`
	}](args)
	if err != nil {
		return nil, err
	}
	head, err := sync.Follow(a.After, a.Records)
	return struct {
		Head sync.Head `json:"head"`
	}{head}, err
}

// ledgerHear {pending, results} says what the answer to a push means. Of what
// was sent only the numbers matter, so that an entry storage has damaged
// doesn't stand in the way of the others.
func ledgerHear(args []byte) (any, error) {
	a, err := unpack[struct {
		Pending []struct {
			N uint64 `json:"n"`
		} `json:"pending"`
		Results []sync.Result `json:"results"`
	}](args)
	if err != nil {
		return nil, err
	}
	var sent []uint64
	for _, p := range a.Pending {
		sent = append(sent, p.N)
	}
	return sync.Hear(sent, a.Results), nil
}
