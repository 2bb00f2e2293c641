package card

import (
	"strconv"

	"linkrod/radial/quantity"
)

// What numbers are about is a shared vocabulary, so that the sheet of one shop and the
// reading of another mechanic mean the same thing. A card may use an id that is not here;
// then it brings its own label.
//
// Where the words are from: the trade's own, common practice, no source.

// label is what an id is called in a sentence, "" for one not known here.
func label(id string) string {
	switch id {
	// engine
	case "cylinders":
		return "cylinders"
	case "bore":
		return "bore"
	case "stroke":
		return "stroke"
	case "displacement":
		return "displacement"
	case "ratio":
		return "compression ratio"
	case "power":
		return "rated power"
	case "rated_speed":
		return "rated speed"
	case "throw":
		return "crank throw"
	case "master_rod":
		return "master rod, centre to centre"
	case "knuckle_radius":
		return "knuckle-pin radius"
	case "master":
		return "cylinder of the master rod"
	case "timing_cylinder":
		return "cylinder the ignition is timed on"
	case "timing":
		return "ignition timing, before top centre"
	case "timing_travel":
		return "piston travel at the timing"
	case "firing_order":
		return "firing order"
	case "weight":
		return "dry weight"
	case "blades":
		return "blades to pull through"
	// limits
	case "bore_wear":
		return "bore over nominal"
	case "out_of_round":
		return "out-of-round"
	case "taper":
		return "taper"
	case "choke":
		return "choke"
	case "skirt_clearance":
		return "piston skirt clearance"
	case "top_ring_side":
		return "top ring side clearance"
	case "ring_side":
		return "other rings, side clearance"
	case "ring_gap":
		return "ring gap"
	case "inlet_stem":
		return "inlet stem in guide"
	case "exhaust_stem":
		return "exhaust stem in guide"
	case "pin_in_piston":
		return "pin in piston"
	case "valve_inlet":
		return "inlet valve clearance, cold"
	case "valve_exhaust":
		return "exhaust valve clearance, cold"
	case "points_gap":
		return "points gap"
	case "plug_gap":
		return "plug gap"
	case "oil_ceiling":
		return "oil use at cruise"
	case "oil_red":
		return "oil use at any time"
	case "overnight":
		return "oil gone while standing"
	case "compression":
		return "differential compression"
	case "drop":
		return "ignition drop"
	case "drop_difference":
		return "difference between the two drops"
	case "oil_pressure_idle":
		return "oil pressure at idle"
	case "oil_pressure":
		return "oil pressure at cruise"
	case "oil_temp_takeoff":
		return "oil inlet temperature before take-off"
	case "oil_temp":
		return "oil inlet temperature"
	case "cht_takeoff":
		return "head temperature before take-off"
	case "cht":
		return "head temperature, continuous"
	case "cht_short":
		return "head temperature for five minutes"
	case "top_height":
		return "top height against the mirror cylinder"
	case "tank_usable":
		return "tank, usable"
	case "tank_full":
		return "tank, full mark"
	case "tank_least":
		return "tank, least for flight"
	// torque
	case "hold_down":
		return "cylinder hold-down"
	case "rocker_cover":
		return "rocker cover nuts"
	case "rocker_lock":
		return "rocker lock nut"
	case "intake_pipe":
		return "intake pipe"
	case "exhaust_flange":
		return "exhaust flange nut"
	case "spark_plug":
		return "spark plug"
	case "prop_hub":
		return "propeller hub nut"
	case "mount_bolt":
		return "engine mount bolts"
	case "sump_plug":
		return "sump plug"
	case "sump_magnet":
		return "sump magnet"
	// tool
	case "effective_length":
		return "effective length, centre to centre"
	case "lever":
		return "lever it was proved with"
	case "proof":
		return "proof torque"
	// run
	case "rpm":
		return "speed"
	case "minutes":
		return "for"
	case "total":
		return "in all"
	}
	return ""
}

// labelOf is what an item is called: its own label first.
func labelOf(own, id string) string {
	if own != "" {
		return own
	}
	if l := label(id); l != "" {
		return l
	}
	return id
}

func itoa(n int) string { return strconv.Itoa(n) }

// numberWord is a small number in words.
func numberWord(n int) string { return quantity.Whole(n).Words() }

// wordless reports a field whose text is no prose: names, keys, codes.
func wordless(field string) bool {
	switch field {
	case "id", "src", "u", "per", "models", "fits", "not_fits", "mark", "part", "serials", "who", "joints", "thread", "every":
		return true
	}
	return false
}
