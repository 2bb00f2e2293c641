// Package sync carries entries from the phone they were written on to
// everybody who shares the book, exactly once and in one order.
//
// It knows nothing of engines: a body is bytes. It is two machines and what
// they hand each other. Inputs go in, decisions come out; there is no clock,
// disk, network, goroutine or chance here, and the time a batch was received is
// passed in. So the same inputs always give the same outputs, the phone runs the
// same code as the server, and a simulation can put both through years of
// mishaps in a second (package simulate).
//
//	entry.go, hash.go, id.go     what is written, once and for ever: E1 to E5
//	ledger.go                    the one order of a book: L1 to L5
//
//	desk.go                      the ledger's side, a push: D1 to D5
//	salvage.go                   the ledger's side, what a restore lost: R1 to R4
//
//	device.go                    the device's side: P1 to P9
//	  device_write.go            a person saved something; a copied phone writes anew
//	  device_line.go             a round begins; what to ask next
//	  device_reply.go            what an answer means; a push
//	  device_pull.go             the ledger arrives, page by page or as a snapshot
//	  device_rewind.go           the server was put back
//
//	snapshot.go, receipt.go      a ledger in columns; the server's signed word
//	signed.go, when.go, heads/   what signatures cover; when it was written; which of several edits holds
//	push.go, file.go             a batch, a backup, as they come in
//	wire.go, message.go, device_wire.go, plain/   JSON, without reflection
//
// What whoever runs a [Device] has to do, in this order, for each input:
//
//  1. In one transaction: read the Device and the rows the input asks for, give
//     the input, perform the effects on rows, store the Device. Nothing of it
//     may be kept without the rest.
//  2. When the transaction is durable, and not before: show what is to be shown,
//     send the errand or rest.
//  3. Give the answer back with its errand, or Silence; then ask Line again.
//
// What whoever runs a [Desk] has to do: fill it in, take the batch and keep what
// comes out in one transaction, and answer when that is on disk.
package sync
