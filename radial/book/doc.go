/*
Package book is what can be written about one engine, and what it adds up to.

Entries come in as they lie in storage (Record); Open makes a Book of them, and
from then on everything is asked of the Book:

	b := book.Open(records)
	v := b.View(id, now)                     // what the screens show
	d := b.Draft("oil", fields, me, now)     // what a form would save, or what is in its way
	i := b.ReadCSV(text); s := b.WriteCSV()  // the oil log as a file

There is no clock, disk or network in here; now is told by whoever asks. The
phone and the server run this same package.

# Entries

A body is JSON with a type: engine, setting, oil, drain, step_closed, meter,
compression, note, strike (body.go and the files body_*.go, setting.go). Every
measured value is text with its unit, as it was typed. A type this program does
not know is kept and shown as written by a newer Linkrod; a body that cannot be
read is kept and shown as such. Nothing is ever dropped, and nothing that cannot
be read is counted.

# What they add up to

	strikes     take a line out of use; it stays readable                     book.go
	settings    heads; two that differ stay open until a person settles       heads.go
	hours       one line of hours over all meters, and the order of readings  hours.go
	answers     the readings through package oil, each as it was answered     answers.go
	standing    what left the tank while the engine stood                     standing.go

Arrival decides nothing: the same entries in any order make the same book.

# What is said

	View                 view.go, written by viewjson.go, mirrored by pwa/src/worker/view.ts
	headline, next step  headline.go, next.go: rules in their order, the first that fits
	questions            guards.go: they ask and never correct

A verdict always stands beside the limit it leans on and the paper that limit is
from; where there is none, that is said. Nothing here ever says that an engine
may be turned, run or flown.
*/
package book
