package ignition

import (
	"math"
	"strconv"

	"linkrod/radial/quantity"
)

// Finding is what somebody measured on a cylinder, against where it should be fired.
type Finding struct {
	Spark Spark // where it should be fired
	Found quantity.Angle
	Early quantity.Angle // than it should be; late is negative
	// Looks is how early it would look against the timing cylinder's figure. On a link
	// cylinder with an even cam that is another number, and a wrong one.
	Looks quantity.Angle
	// PerThou is what a thou of travel is in degrees there, and so what the gauge can
	// tell; 0 for a finding by disc. It grows without bound towards the top.
	PerThou quantity.Angle

	timed   int
	advance quantity.Angle
	cam     Cam
}

// Found is a cylinder's spark found so many degrees before its own top, by a disc zeroed
// on that cylinder. Which cylinder it was has to be said.
func (t Timing) Found(k int, degrees quantity.Angle) (Finding, error) {
	s, err := t.Spark(k)
	if err != nil {
		return Finding{}, err
	}
	if !(math.Abs(degrees.Degrees()) <= 180) {
		return Finding{}, problem("found", "It was found "+angle(degrees)+" before the top. It must be from −180° to 180°, after the top being less than 0.")
	}
	return Finding{
		Spark: s, Found: degrees, Early: degrees - s.Advance, Looks: degrees - t.maker.Advance,
		timed: t.maker.Cylinder, advance: t.maker.Advance, cam: t.maker.Cam,
	}, nil
}

// FoundTravel is a cylinder's spark found with its piston so far below its own top on the
// way up, by a gauge along the cylinder's axis. It goes by that cylinder's own rod.
func (t Timing) FoundTravel(k int, travel quantity.Length) (Finding, error) {
	if _, err := t.Spark(k); err != nil {
		return Finding{}, err
	}
	p := t.pistons[k-1]
	degrees, err := p.Degrees(travel)
	if err != nil {
		return Finding{}, err
	}
	f, err := t.Found(k, degrees)
	f.PerThou = quantity.Angle(quantity.Thou.Inches() / p.SlopeBeforeTop(degrees).InchesPerDegree())
	return f, err
}

// Words is the finding in sentences. It judges nothing: how far off is too far is the
// maker's to say.
func (f Finding) Words() string {
	s, timed, this := f.Spark, cylinder(f.timed), "Cylinder "+strconv.Itoa(f.Spark.Cylinder)
	is := " is fired " + angle(s.Advance) + " before its own top, " + quantity.Computed(s.Travel.Inches(), 3, quantity.UnitIn) + " down."
	var said string
	switch {
	case s.Cylinder == f.timed:
		said = this + " is the timing cylinder and" + is
	case f.cam == Compensated:
		said = this + " has a lobe of its own on the compensated cam, so it" + is
	default:
		said = this + shifted(s) + " With an even cam and " + angle(f.advance) + " on " + timed + " it" + is
	}
	said += " " + angle(f.Found) + " was found, " + compared(f.Early, "the same", "earlier", "later") + "."
	if !nought(f.Looks - f.Early) {
		said += " Against the " + angle(f.advance) + " of " + timed + " it would look " + compared(f.Looks, "right", "early", "late") + "."
	}
	switch {
	case math.IsInf(f.PerThou.Degrees(), 0):
		said += " At the top a thou of travel is any angle: time off the way up, never off the top."
	case f.PerThou != 0:
		said += " A thou of travel there is " + quantity.Computed(math.Abs(f.PerThou.Degrees()), 2, quantity.UnitDeg) + "."
	}
	return said
}

// nought reports an angle that is shown as none.
func nought(a quantity.Angle) bool { return angle(quantity.Angle(math.Abs(a.Degrees()))) == angle(0) }

// shifted is where the cylinder's top comes.
func shifted(s Spark) string {
	said := " hangs on a link rod, and its top comes "
	if !s.Link {
		said = " has the master rod, and its top comes "
	}
	return said + compared(s.Shift, "evenly spaced", "late", "early") + "."
}

// compared is an angle in words: as it is if it is shown as none, otherwise its size and
// which way it goes.
func compared(a quantity.Angle, none, above, below string) string {
	switch {
	case nought(a):
		return none
	case a > 0:
		return angle(a) + " " + above
	}
	return angle(-a) + " " + below
}
