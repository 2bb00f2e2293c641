package main

// table is everything the core can be asked.
var table map[string]call

func init() {
	table = map[string]call{
		"seal":       ledgerSeal,
		"verify":     ledgerVerify,
		"push.take":  ledgerHear,
		"file.read":  fileRead,
		"file.write": fileWrite,

		"book.load":  bookLoad,
		"book.add":   bookAdd,
		"book.drop":  bookDrop,
		"book.view":  bookView,
		"book.open":  bookOpen,
		"book.draft": bookDraft,
		"book.paper": bookPaper,
		"book.tail":  bookTail,

		"csv.read":  csvRead,
		"csv.write": csvWrite,

		"sums.list": sumsList,
		"sums.work": sumsWork,
	}
}
