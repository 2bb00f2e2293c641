package card

import (
	"linkrod/radial/identify"
	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// feature is what can be looked at to tell engines apart. An engine card says what its
// model has there, under the key. What may be seen is whatever the shelf's engine cards
// say between them.
//
// The doubts and the effort are judgements: how often an eye or a later repair deceives,
// and how much work a look is against a glance. Common practice, no source.
func feature(key string) (f identify.Feature, ok bool) {
	put := func(name, part, how string, effort, doubt float64) {
		f = identify.Feature{Key: key, Name: name, Part: part, How: how, Effort: effort, Doubt: doubt}
	}
	figure := func(unit quantity.Unit, within string) {
		f.Unit, f.Within = unit, quantity.MustDecimal(within)
	}
	switch key {
	case "cylinders":
		put("number of cylinders", "power case", "count", 1, 0.001)
	case "hold_down":
		put("barrel hold-down", "power case", "count at one barrel, size by the socket", 2, 0.05)
	case "power_case":
		put("power case", "power case", "colour, and the bosses at 5 o’clock", 2, 0.05)
	case "shaft":
		put("crankshaft end", "crankshaft", "eye, from the front", 1, 0.05)
	case "push_rod_housing":
		put("push-rod housing", "push-rod housings", "eye, both ends", 1, 0.05)
	case "ignition":
		put("ignition", "ignition", "eye, from the back", 1, 0.2)
	case "drains":
		put("intake-pipe drains", "intake pipes", "eye, from below", 1, 0.1)
	case "rocker_lubrication":
		put("rocker lubrication", "heads", "eye, at the rocker boxes", 1, 0.05)
	case "plug_reach":
		put("spark-plug reach", "heads", "depth gauge, plug out", 3, 0.05)
	case "flange":
		put("barrel flange", "barrels", "calliper, and the shape seen from above", 2, 0.05)
	case "magneto_ratio":
		put("magneto speed to crank speed", "accessory drives", "turn and count, plugs out of every cylinder", 5, 0.05)
		figure("", "0.02")
	case "stroke":
		put("stroke", "crankshaft", "soft probe, plugs out of every cylinder", 5, 0.05)
		figure(quantity.UnitIn, "0.0625")
	case "bore":
		put("bore", "barrels", "telescoping gauge, cylinder off", 20, 0.02)
		figure(quantity.UnitIn, "0.060")
	case "ratio":
		put("compression ratio", "pistons", "burette at top centre; drained before anything turns", 10, 0.1)
		figure("", "0.25")
	default:
		return f, false
	}
	return f, true
}

// featureKeys are the features, in the order of a walk round the engine.
var featureKeys = []string{"cylinders", "hold_down", "power_case", "shaft", "push_rod_housing", "ignition", "drains",
	"rocker_lubrication", "plug_reach", "flange", "magneto_ratio", "stroke", "bore", "ratio"}

// others is the share of engines that turn out to be none of a shelf's models or built of
// several, and serialDoubt how often a number on a plate or a pad is not the engine's: a
// judgement, common practice, no source.
const others, serialDoubt = 0.1, 0.05

// traits is what an engine card says its model has.
func traits(v plain.Value) []identify.Trait {
	var all []identify.Trait
	for i, key := range v.Names() {
		is := v.Items()[i]
		if is.Kind() != plain.List {
			all = append(all, identify.Trait{Feature: key, Values: []string{is.Text()}})
			continue
		}
		for _, one := range is.Items() {
			t := identify.Trait{Feature: key, Values: []string{one.Text()}}
			if one.Kind() == plain.Object {
				t.Values, t.Serials = []string{one.Get("is").Text()}, one.Get("serials").Text()
			}
			all = append(all, t)
		}
	}
	return all
}

// Family is the models of a shelf's engine cards, told apart. It refuses a shelf without
// engine cards and cards that contradict themselves.
func Family(cards []Card) (identify.Catalogue, error) {
	d := identify.Data{Others: others, SerialDoubt: serialDoubt}
	for _, c := range cards {
		if c.Kind != "engine" || c.State != "published" || len(c.Applies.Models) != 1 {
			continue
		}
		d.Candidates = append(d.Candidates, identify.Candidate{
			Name: c.Applies.Models[0], Serials: c.Body.Get("serials").Get("says").Text(), Weight: 1,
			Traits: traits(c.Body.Get("features")),
		})
	}
	for _, key := range featureKeys {
		f, _ := feature(key)
		if f.Unit == "" && f.Within.Sign() == 0 {
			f.Values = seen(d.Candidates, key)
			if len(f.Values) < 2 { // nothing to tell by it
				for i, m := range d.Candidates {
					d.Candidates[i].Traits = without(m.Traits, key)
				}
				continue
			}
		}
		d.Features = append(d.Features, f)
	}
	return identify.New(d)
}

// seen is what the models have at a feature between them, each once.
func seen(models []identify.Candidate, key string) []string {
	var all []string
	for _, m := range models {
		for _, t := range m.Traits {
			if t.Feature == key && !has(all, t.Values[0]) {
				all = append(all, t.Values[0])
			}
		}
	}
	return all
}

func without(list []identify.Trait, key string) []identify.Trait {
	var kept []identify.Trait
	for _, t := range list {
		if t.Feature != key {
			kept = append(kept, t)
		}
	}
	return kept
}

func has(list []string, s string) bool {
	for _, t := range list {
		if t == s {
			return true
		}
	}
	return false
}
