package checks

// skipped names what the product has no function for, with the reason. A quantity
// "*" is the whole topic. An answer elsewhere in this package wins, so a line here
// is taken out when its function is there.
var skipped = map[string]map[string]string{
	"12_dimensional": {
		"rebore_rule":        "one maker's limits for a small engine; the product ships no limits and judges by those typed in",
		"ring_end_gap_range": "one maker's limits for a small compressor; the product ships no limits and judges by those typed in",
	},
	"statistics":      {"*": "the product has none of these: its one fit is the oil filter, which is held to NIST data and the rest of testdata/oil/oil_expected.csv"},
	"security":        {"*": "signing, passphrases and hashes are the server's and sync's, each with published vectors in their own tests"},
	"atmosphere":      {"*": "nothing in the product reckons with the standard atmosphere; where it needs the pressure of the day it asks"},
	"carburettor ice": {"*": "advice in words, which belongs on cards with its source"},
}

func skippedFor(topic, quantity string) (string, bool) {
	if why, ok := skipped[topic][quantity]; ok {
		return why, true
	}
	why, ok := skipped[topic]["*"]
	return why, ok
}
