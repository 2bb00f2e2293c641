package ignition

import (
	"strconv"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// A breaker's points are closed while the follower is off the lobe, and the coil takes up
// current; the lobe opens them, and at that moment there is a spark. Gap is how far they
// stand apart at full lift, dwell how many degrees of cam they are closed for. One moves
// the other: a wider gap opens sooner and closes later.

// Dwell is the share of the time that points are closed, from the degrees of cam they are
// closed for on one of so many even lobes.
//
//	dwell / (360° / lobes)
//
// On a compensated cam the lobes are not even and dwell is taken on the marked one alone.
func Dwell(closed quantity.Angle, lobes int) (float64, error) {
	if lobes < 1 || lobes > 18 {
		return 0, problem("lobes", "The cam has "+strconv.Itoa(lobes)+" lobes. It must have from 1 to 18.")
	}
	each := quantity.Angle(360 / float64(lobes))
	if !(closed > 0 && closed < each) {
		return 0, problem("dwell", "The points are closed for "+angle(closed)+" of cam. With "+strconv.Itoa(lobes)+" lobes it must be more than 0° and less than "+angle(each)+".")
	}
	return float64(closed / each), nil
}

// Milliseconds is a time too short for quantity.Hours.
type Milliseconds float64

// Closed is how long the points stay closed at a crank speed, which is what the coil of a
// battery ignition has to take up its current in. cam is the breaker cam's share of
// the crank's speed, 1/2 for a distributor.
//
//	t = dwell / (360° × cam rpm) minutes
func Closed(dwell quantity.Angle, crank quantity.Speed, cam ring.Ratio) (Milliseconds, error) {
	switch {
	case !(dwell > 0 && dwell < 360):
		return 0, problem("dwell", "The dwell is "+angle(dwell)+". It must be more than 0° and less than a turn.")
	case !positive(crank):
		return 0, problem("speed", "The speed is "+rpm(crank)+". It must be more than 0.")
	case !geared(cam):
		return 0, problem("cam speed", "The cam's share of the crank's speed is "+cam.String()+". Both numbers must be above 0.")
	}
	return Milliseconds(dwell.Degrees() / 360 / (crank.RPM() * cam.Float()) * 60_000), nil
}

// Later is how many degrees of crank later a spark comes when the dwell has grown from
// before to now, with nothing moved but the points: what a closing gap does. A lobe that
// is cut the same on both sides gives half of the change to its opening side.
//
//	later = (now − before)/2 / cam speed
//
// At half crank speed a degree of dwell is a degree of timing.
func Later(before, now quantity.Angle, cam ring.Ratio) (quantity.Angle, error) {
	if !finite(before) || !finite(now) {
		return 0, problem("dwell", "Both dwells must be numbers of degrees.")
	}
	if !geared(cam) {
		return 0, problem("cam speed", "The cam's share of the crank's speed is "+cam.String()+". Both numbers must be above 0.")
	}
	return (now - before) / 2 / quantity.Angle(cam.Float()), nil
}

func geared(r ring.Ratio) bool { return r.Num >= 1 && r.Den >= 1 }

// Points is a breaker as it was measured, gap and timing at one time.
type Points struct {
	Gap   quantity.Measured // a length
	Opens quantity.Measured // degrees before the top of the timing cylinder
}

// Drift is what has become of a breaker between two measurements with nothing touched in
// between.
type Drift uint8

// The drifts.
const (
	Steady       Drift = iota // neither has moved by what a gauge can tell
	FollowerWorn              // gap closing, spark later: the follower wears
	PointsWorn                // gap opening, spark earlier: the contacts burn away
	Slipped                   // timing moved, gap did not: coupling, drive or a clamp
	GapAlone                  // gap moved, timing did not: set again, or misread
	Disagree                  // gap and timing moved as no wear moves them: measure again
)

// What a feeler gauge and a disc can tell. Common practice, no source.
var (
	gapTold   = quantity.Of("1", quantity.UnitThou)
	angleTold = quantity.Of("0.5", quantity.UnitDeg)
)

// DriftOf is what has become of a breaker. Gap and timing are logged together, because
// only together do they say what happened; find out why before setting either.
//
// Source: published shop article for the follower; the others follow from the geometry.
func DriftOf(before, now Points) (Drift, error) {
	gap, err1 := moved("gap", before.Gap, now.Gap, gapTold, quantity.DimLength)
	timing, err2 := moved("timing", before.Opens, now.Opens, angleTold, quantity.DimAngle)
	if err := first(err1, err2); err != nil {
		return Steady, err
	}
	switch [2]int{gap, timing} {
	case [2]int{0, 0}:
		return Steady, nil
	case [2]int{-1, -1}:
		return FollowerWorn, nil
	case [2]int{1, 1}:
		return PointsWorn, nil
	}
	switch {
	case gap == 0:
		return Slipped, nil
	case timing == 0:
		return GapAlone, nil
	}
	return Disagree, nil
}

// moved is the sign of a change that can be told, 0 for one that cannot.
func moved(field string, before, now, told quantity.Measured, want quantity.Dimension) (int, error) {
	for _, m := range []quantity.Measured{before, now} {
		if m.Dimension() != want {
			return 0, problem(field, "The "+field+" is "+m.Show()+". It takes "+want.Base().Plural()+", once before and once now.")
		}
	}
	up, err1 := quantity.Add(before, told)
	down, err2 := quantity.Add(now, told)
	if err := first(err1, err2); err != nil {
		return 0, problem(field, err.Error())
	}
	more, _ := quantity.Compare(now, up) // of one kind
	less, _ := quantity.Compare(before, down)
	switch {
	case more >= 0:
		return 1, nil
	case less >= 0:
		return -1, nil
	}
	return 0, nil
}

// Words is the drift and where to look.
func (d Drift) Words() string {
	switch d {
	case Steady:
		return "Gap and timing are where they were."
	case FollowerWorn:
		return "The gap has closed and the spark comes later: the follower wears. Look at it, and at its oil pad, before setting either."
	case PointsWorn:
		return "The gap has opened and the spark comes earlier: the contacts burn away. Look at them and at the condenser before setting either."
	case Slipped:
		return "The timing has moved and the gap has not: coupling, drive or clamp. Look there before setting it."
	case GapAlone:
		return "The gap has moved and the timing has not. Was one of them set in between, or read off the wrong lobe?"
	}
	return "The gap and the timing have moved in ways that no wear moves them. Measure both again."
}
