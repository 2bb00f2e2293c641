package checks

// skipped names what the product has no function for, with the reason. A quantity
// "*" is the whole topic. An answer elsewhere in this package wins, so a line here
// is taken out when its function is there.
var skipped = map[string]map[string]string{
	"2_power": {
		"oil_limit_from_specific_consumption": "for radial/oil",
		"oil_limit_opposed_formula":           "for radial/oil",
	},
	"11_thermal": {"oil_volume_change": "for radial/oil"},
	"12_dimensional": {
		"rebore_rule":        "one maker's limits; the product ships none",
		"ring_end_gap_range": "one maker's limits; the product ships none",
	},
	"13_units":        {"*": "for radial/quantity"},
	"units":           {"*": "for radial/quantity"},
	"oil volume":      {"*": "for radial/oil"},
	"oil consumption": {"*": "for radial/oil"},
	"oil grade":       {"*": "for radial/oil"},
	"oil analysis":    {"*": "for radial/oil"},
	"statistics":      {"*": "for radial/oil, where the product has the function"},
	"security":        {"*": "signing and passphrases are the server's, with published vectors of their own"},
	"atmosphere":      {"*": "nothing in the product reckons with the standard atmosphere"},
	"carburettor ice": {"*": "advice in words, which belongs on cards with its source"},
}

func skippedFor(topic, quantity string) (string, bool) {
	if why, ok := skipped[topic][quantity]; ok {
		return why, true
	}
	why, ok := skipped[topic]["*"]
	return why, ok
}
