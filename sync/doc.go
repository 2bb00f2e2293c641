// Package sync carries entries from the phone they were written on to
// everybody who shares the book, exactly once and in one order.
//
// It knows nothing of engines: a body is bytes. What it knows is
//
//   - an [Entry]: its key (device, n), its hash, and the hash of the entry
//     that device wrote before it;
//   - a ledger: the one order of a book, kept by the server, where every
//     accepted entry is a [Record] with the next seq and a hash chain;
//   - what the ledger does with a batch that comes in ([Desk.Take]);
//   - what the answer means for the phone that sent it ([Hear]);
//   - how anyone checks what they are handed ([Entry.Verify], [Follow]).
//
// All of it is a function of its arguments. There is no clock, disk, network,
// goroutine or randomness here; the time a batch was received is passed in.
// The phone runs the same code, compiled to WebAssembly.
package sync
