package card_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"linkrod/radial/card"
	"linkrod/radial/identify"
)

var seed = flag.Uint64("seed", 7, "of the random orders of questions")

// family is the demo shelf's models, told apart by its engine cards.
func family(t testing.TB) identify.Catalogue {
	t.Helper()
	s := demo(t)
	f, err := card.Family(s.Current())
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// truths is what an engine of each model shows at each feature, one way for each variant
// that was built: ignition and the changes at serial numbers. It is written down here from
// the scenario's table, apart from the cards.
var truths = map[string][]map[string]string{
	"T7-A": variants(map[string]string{
		"cylinders": "7", "hold_down": "12 studs 3/8-24", "power_case": "aluminium, 2 bosses", "shaft": "taper and key",
		"push_rod_housing": "gland nut both ends", "drains": "none", "rocker_lubrication": "grease nipple", "plug_reach": "short",
		"flange": "round, 0.312 in thick", "magneto_ratio": "0.875", "stroke": "5.000", "bore": "5.000", "ratio": "5.4",
	}, "ignition", "2 battery distributors", "magneto left, distributor right"),
	"T7-B": slices.Concat(
		variants(t7b("grease nipple", "short"), "ignition", "magneto left, distributor right", "2 magnetos"),
		variants(t7b("grease nipple", "long"), "ignition", "magneto left, distributor right", "2 magnetos"),
		variants(t7b("pressure oil", "long"), "ignition", "magneto left, distributor right", "2 magnetos")),
	"T9-C": variants(map[string]string{
		"cylinders": "9", "hold_down": "16 studs 3/8-24", "power_case": "aluminium, 3 bosses, short", "shaft": "20-spline, governor pad",
		"push_rod_housing": "rubber sleeve both ends", "drains": "plugs on 5, 6", "rocker_lubrication": "pressure oil", "plug_reach": "long",
		"flange": "round with one flat, 0.344 in thick", "magneto_ratio": "1.125", "stroke": "5.000", "bore": "5.000", "ratio": "6.2",
	}, "ignition", "2 magnetos"),
}

func t7b(rockers, reach string) map[string]string {
	return map[string]string{
		"cylinders": "7", "hold_down": "14 cap screws 7/16-20", "power_case": "magnesium, 3 bosses, long", "shaft": "20-spline",
		"push_rod_housing": "rubber sleeve at case, gland at head", "drains": "plugs on 4, 5", "rocker_lubrication": rockers, "plug_reach": reach,
		"flange": "round with two flats, 0.375 in thick", "magneto_ratio": "0.875", "stroke": "5.000", "bore": "5.375", "ratio": "6.1",
	}
}

func variants(of map[string]string, feature string, values ...string) (all []map[string]string) {
	for _, v := range values {
		one := map[string]string{feature: v}
		for k, x := range of {
			one[k] = x
		}
		all = append(all, one)
	}
	return all
}

func look(t testing.TB, f identify.Catalogue, seen []identify.Observation) identify.Result {
	t.Helper()
	r, err := f.Identify(seen)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func saw(feature, value string) identify.Observation {
	return identify.Observation{Feature: feature, State: identify.Observed, Values: []string{value}}
}

// For every model of the demo, as it was built, any order of truthful answers ends in the
// right name with nothing against it, and no true answer on the way ever speaks against it.
func TestAnyOrderOfTruthfulAnswers(t *testing.T) {
	f := family(t)
	random := rand.New(rand.NewPCG(*seed, 5))
	for model, built := range truths {
		for _, truth := range built {
			for range 12 {
				var features []string
				for k := range truth {
					features = append(features, k)
				}
				slices.Sort(features)
				random.Shuffle(len(features), func(i, j int) { features[i], features[j] = features[j], features[i] })
				var seen []identify.Observation
				for _, k := range features {
					seen = append(seen, saw(k, truth[k]))
					r := look(t, f, seen)
					for _, s := range r.Ranked {
						if s.Name == model && len(s.Against) > 0 {
							t.Fatalf("seed %d: %s in the order %q: %v speaks against it", *seed, model, features, s.Against)
						}
					}
				}
				r := look(t, f, seen)
				if r.Ranked[0].Name != model || r.Ranked[0].Share < 0.99 || r.Build.Mixed || len(r.Ranked[1].Against) == 0 {
					t.Fatalf("seed %d: %s in the order %q ends in %s (%v)", *seed, model, features, r.Ranked[0].Name, r.Ranked[0].Share)
				}
			}
		}
	}
}

// ask counts how many features are looked at until one name stands alone with nothing
// against it, every other model having something.
func ask(t testing.TB, f identify.Catalogue, truth map[string]string, next func(identify.Result, []identify.Observation) string) int {
	t.Helper()
	var seen []identify.Observation
	for n := 0; ; n++ {
		r := look(t, f, seen)
		free := 0
		for _, s := range r.Ranked {
			if len(s.Against) == 0 {
				free++
			}
		}
		if free == 1 {
			return n
		}
		k := next(r, seen)
		if k == "" {
			t.Fatalf("nothing left to ask, and %d models stand: %v", free, truth)
		}
		seen = append(seen, saw(k, truth[k]))
	}
}

// The guided look asks no more than a walk in fixed order does, and no less than the
// information bound allows: with three models as likely, log2 3 = 1.585 bits, no
// question of at most three answers can always tell in fewer than one (Shannon 1948).
func TestHowManyQuestions(t *testing.T) {
	f := family(t)
	var walk []string
	for _, feature := range f.Features() {
		walk = append(walk, feature.Key)
	}
	guided := func(r identify.Result, _ []identify.Observation) string {
		for _, l := range r.Looks {
			if !l.Hidden {
				return l.Feature.Key
			}
		}
		return ""
	}
	order := func(keys []string) func(identify.Result, []identify.Observation) string {
		return func(_ identify.Result, seen []identify.Observation) string {
			if len(seen) == len(keys) {
				return ""
			}
			return keys[len(seen)]
		}
	}
	mean := func(next func(identify.Result, []identify.Observation) string) (m float64) {
		for _, built := range truths { // models as likely, their variants as likely
			sum := 0
			for _, truth := range built {
				sum += ask(t, f, truth, next)
			}
			m += float64(sum) / float64(len(built)) / float64(len(truths))
		}
		return m
	}
	g, w := mean(guided), mean(order(walk))
	random, all := rand.New(rand.NewPCG(*seed, 6)), 0.0
	const rounds = 200
	for range rounds {
		shuffled := slices.Clone(walk)
		random.Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		all += mean(order(shuffled)) / rounds
	}
	answers := 0
	for _, feature := range f.Features() {
		answers = max(answers, len(feature.Values))
	}
	bound := math.Log2(float64(len(truths))) / math.Log2(float64(answers))
	t.Logf("mean number of questions: guided %.2f, walk in fixed order %.2f, any order %.2f, bound %.2f", g, w, all, bound)
	if g > w || g > all || g < bound {
		t.Errorf("guided %.2f, fixed %.2f, any %.2f, bound %.2f", g, w, all, bound)
	}
}

// An engine seen one way at a part and another way at the next contradicts every model,
// and one feature seen two ways stays open and in no share.
func TestContradictoryAnswers(t *testing.T) {
	f := family(t)
	r := look(t, f, []identify.Observation{saw("cylinders", "9"), saw("shaft", "taper and key"), saw("hold_down", "14 cap screws 7/16-20")})
	for _, s := range r.Ranked {
		if len(s.Against) == 0 {
			t.Errorf("nothing speaks against %s", s.Name)
		}
	}
	if !strings.Contains(r.Words(), "No model listed has all that was seen.") {
		t.Error(r.Words())
	}
	two := identify.Observation{Feature: "flange", State: identify.Contradictory, Values: []string{"round, 0.312 in thick", "round with two flats, 0.375 in thick"}}
	before := look(t, f, nil)
	r = look(t, f, []identify.Observation{two})
	if len(r.Open) != 1 || r.Ranked[0].Share != before.Ranked[0].Share {
		t.Errorf("seen two ways: %+v", r)
	}
}

// E1: its case, shaft, glands and nipples are an A's, its barrels and pistons a B's. Three
// contradictions, a base with deviations, and no limit.
func TestTheDemosMixedBuildIsToldApart(t *testing.T) {
	r := look(t, family(t), []identify.Observation{
		saw("serial", "1187"), saw("cylinders", "7"), saw("hold_down", "12 studs 3/8-24"), saw("shaft", "taper and key"),
		saw("push_rod_housing", "gland nut both ends"), saw("rocker_lubrication", "grease nipple"), saw("bore", "5.375"),
		saw("flange", "round with two flats, 0.375 in thick"), saw("ratio", "5.9"),
	})
	var against []string
	for _, c := range r.Ranked[0].Against {
		against = append(against, c.Feature)
	}
	if r.Ranked[0].Name != "T7-A" || fmt.Sprint(against) != "[barrel flange bore compression ratio]" || !r.Build.Mixed || r.Build.Base != "T7-A" {
		t.Errorf("%s, against it %v, %+v", r.Ranked[0].Name, against, r.Build)
	}
}
