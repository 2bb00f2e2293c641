package main

// table is everything the core can be asked.
var table map[string]call

func init() {
	table = map[string]call{
		"device.step": deviceStep,
		"file.read":   fileRead,
		"file.write":  fileWrite,

		"book.load":  bookLoad,
		"book.add":   bookAdd,
		"book.drop":  bookDrop,
		"book.view":  bookView,
		"book.open":  bookOpen,
		"book.draft": bookDraft,
		"book.paper": bookPaper,
		"book.tail":  bookTail,

		"book.kinds":    bookKinds,
		"book.form":     bookForm,
		"book.ring":     bookRing,
		"book.log":      bookLog,
		"book.cylinder": bookCylinder,

		"csv.read":  csvRead,
		"csv.write": csvWrite,

		"cards.load":    cardsLoad,
		"cards.drop":    cardsDrop,
		"cards.list":    cardsList,
		"cards.show":    cardsShow,
		"cards.use":     cardsUse,
		"cards.changes": cardsChanges,
		"cards.which":   cardsWhich,
		"cards.family":  cardsFamily,
	}
}
