package card

import (
	"strings"

	"linkrod/sync/plain"
)

// A card that speaks of work that can hurt must warn of it on the card itself: people
// print one sheet and leave the others.
//
// demands is what a card that has one of the words must say in a caution: one of the words
// of each group. The cautions are those that texts on these jobs print: FAA AC 43.13-1B
// chapters 7 and 8 (propeller live, torque table, carbon pencils), the FAA powerplant
// handbook on cylinder removal and ignition checks, Army TM 1-1500-204-23-1 (solvent and
// air, preserved engines), an AAIB report and a UK leaflet on liquid lock; the master rod
// from memory.
var demands = []struct {
	speaks []string
	warns  [][]string
	words  string
}{
	{[]string{"pull through", "pulled through", "pull-through", "pulling through", "turn the propeller", "turning the propeller", "turn the engine by hand", "swing the propeller"},
		[][]string{{"propeller"}, {"live", "kill", "ignition"}},
		"A card on turning the propeller warns that a propeller can turn and kill whenever it is touched: treat it as live."},
	{[]string{"liquid lock", "hydraulic lock", "clearing a lock"},
		[][]string{{"never", "not"}, {"starter", "force", "backward", "back"}},
		"A card on liquid lock warns never to force it, by starter or backwards: the rod bends and fails later."},
	{[]string{"differential", "leak-down"},
		[][]string{{"propeller", "swing"}, {"hold", "held", "two people", "second person"}},
		"A card on differential compression warns that air in the cylinder swings the propeller: two people, one holding it."},
	{[]string{"preservative", "preserved", "preservation", "spray the cylinders", "sprayed"},
		[][]string{{"lock", "drain", "not be turned", "not turn"}},
		"A card on preservation warns that a sprayed engine is a lock risk and isn’t turned until it is drained."},
	{[]string{"solvent"},
		[][]string{{"glasses", "goggles", "eye"}},
		"A card on solvent warns to wear safety glasses with solvent and air."},
	{[]string{"nitric", "caustic", "muriatic", "acid"},
		[][]string{{"shop"}},
		"A card that names acids warns that they are for the shop only."},
	{[]string{"exhaust stack", "stack", "mark on the exhaust", "temperature crayon"},
		[][]string{{"carbon", "pencil", "lead"}},
		"A card on marking stacks warns against lead and carbon pencils: carbon and heat start cracks."},
	{[]string{"cylinder off", "cylinder removal", "remove the cylinder", "removing a cylinder", "master rod"},
		[][]string{{"master rod", "master-rod"}, {"turn"}},
		"A card on taking cylinders off warns not to turn the crankshaft with the master rod unsupported."},
	{[]string{"magneto", "ground lead", "p-lead"},
		[][]string{{"live", "hot", "ungrounded"}},
		"A card on magnetos warns that one with its ground lead off or broken is live."},
	{[]string{"torque table", "table 7-1", "standard torque"},
		[][]string{{"engine", "stud"}},
		"A card with the general torque table warns that it isn’t for engine studs."},
	{[]string{"metal in", "metal on the screen", "granule", "flakes"},
		[][]string{{"shop", "certificated", "mechanic"}},
		"A card on metal warns that what it means is a certificated person’s to say, not the owner’s."},
	{[]string{"battery distributor", "battery ignition"},
		[][]string{{"master", "current"}, {"propeller"}},
		"A card on battery ignition warns that it fires at any speed while its current is on: master off before anybody touches the propeller."},
	{[]string{"sudden stoppage", "propeller strike"},
		[][]string{{"screen"}, {"certificated", "mechanic"}},
		"A card on a sudden stoppage warns that clean screens don’t clear the engine, and that a certificated person decides."},
}

// demanded says which cautions are missing.
func (k *checker) demanded(c Card, v plain.Value) {
	text := strings.ToLower(c.Title + "\n" + prose(c.Body))
	warned := strings.ToLower(strings.Join(c.Cautions, "\n"))
	at := "/cautions"
	if !v.Get("cautions").Given() {
		at = "/card"
	}
	for _, d := range demands {
		if measuring(c.Kind) { // sheets of numbers, not of work
			break
		}
		if containsAny(text, d.speaks) && !all(warned, d.warns) {
			k.fault(at, d.words)
		}
	}
	switch c.Kind {
	case "torque", "run", "step", "tool":
		if len(c.Cautions) == 0 {
			k.fault(at, "A "+strings.ToLower(KindWords(c.Kind))+" has at least one caution. What hurts if this goes wrong?")
		}
	}
}

func containsAny(text string, words []string) bool {
	for _, w := range words {
		if strings.Contains(text, w) {
			return true
		}
	}
	return false
}

func all(text string, groups [][]string) bool {
	for _, g := range groups {
		if !containsAny(text, g) {
			return false
		}
	}
	return true
}

// prose is every text of a body, a line each.
func prose(v plain.Value) string {
	if v.Kind() == plain.Text {
		return v.Text() + "\n"
	}
	var said strings.Builder
	for _, e := range v.Items() {
		said.WriteString(prose(e))
	}
	return said.String()
}
