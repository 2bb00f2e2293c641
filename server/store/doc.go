// Package store keeps everything the server knows, in one bbolt file.
//
// [Open] makes or opens it; [Memory] is the same without a file, for tests.
// Both are a [DB]: what it promises is written once, over ordered tables of
// bytes (layout.go lists them), and the engine underneath is bbolt or memory.
// The packages that use a store declare the part they need as an interface of
// their own; package storetest is the conformance suite for all of it.
//
// Every method takes a context and returns faults (package fault) where a
// caller can do something about it:
//
//	NotFound  isn't there, or isn't the caller's: the two can't be told apart
//	Conflict  it exists already, or belongs to somebody else
//	Refused   it is there and not allowed
//	Revoked   the device was removed from its account
//	Invalid   there is no such role, or it is no picture
//	TooLarge  more than there is room for
//	Damaged   a photograph is not what its name says, and is gone
//	Rewound   the ledger is not the one the caller last saw
//	Busy      the disk is full, or the server is stopping: nothing was taken
//
// Anything else is a plain error for the operator.
//
// Promises:
//
//	S1  A method that writes returns no error only when it is on disk.
//	S2  A method that returns an error has changed nothing. (But a photograph
//	    that turns out wrong at its last piece is thrown away.)
//	S3  Who may do what is read in the same transaction that does it.
//	S4  What the ledger holds is never changed or removed (sync, L1 to L5).
//	S5  A full disk stops writing and nothing else.
package store
