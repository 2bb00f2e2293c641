package main

// table is everything the core can be asked.
var table map[string]call

func init() {
	table = map[string]call{
		"seal":       packed(ledgerSeal),
		"verify":     packed(ledgerVerify),
		"push.take":  packed(ledgerHear),
		"file.read":  packed(fileRead),
		"file.write": packed(fileWrite),

		"book.load": bookLoad,
		"book.add":  bookAdd,
		"book.drop": bookDrop,
		"book.view": bookView,
		"book.open": bookOpen,
	}
}
