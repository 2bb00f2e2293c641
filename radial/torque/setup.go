package torque

import (
	"math"

	"linkrod/radial/quantity"
)

// Setup is a torque wrench with what stands between its drive and the nut.
type Setup struct {
	// Lever is L, from the centre of the drive to the mark on the grip, or to the pin
	// of a grip that hangs on one.
	Lever quantity.Length
	// Adapter is E, from the centre of the drive to the centre of the nut; 0 is none.
	// Less than 0 is the way some manuals write an adapter that points back to the
	// grip; Angle is then 0.
	Adapter quantity.Length
	// Angle is a, from the wrench's line drawn on beyond its drive to the adapter: 0
	// straight out, 90 square to the wrench (to either side), 180 back along the grip.
	Angle quantity.Angle
}

// Effective is the arm at which a pull on the mark turns the nut: L + E cos a. It
// refuses an adapter that reaches back to the hand or past it, where nothing turns.
func (s Setup) Effective() (quantity.Length, error) {
	if err := aboveLength("lever", s.Lever); err != nil {
		return 0, err
	}
	switch a := s.Angle; {
	case math.IsNaN(float64(s.Adapter)) || math.IsInf(float64(s.Adapter), 0):
		return 0, problem("adapter", "The adapter's length is no number. It is from the centre of the drive to the centre of the nut; 0 is none.")
	case !(a >= 0 && a <= 180):
		return 0, problem("angle", "The adapter stands at ", quantity.Computed(a.Degrees(), 1, quantity.UnitDeg),
			". It must be from 0° straight out, by 90° square, to 180° back along the grip.")
	case s.Adapter < 0 && a != 0:
		return 0, problem("adapter", "The adapter is ", inches(s.Adapter), " long and at an angle. Less than 0 already means back along the grip: give its length and the angle, or a length below 0 alone.")
	}
	arm := s.Lever + s.Adapter*cos(s.Angle)
	if !(arm > 0) {
		return 0, problem("adapter", "The adapter reaches ", inches(-s.Adapter*cos(s.Angle)), " back along a lever of ", inches(s.Lever),
			". The nut would be under the hand or behind it, and no pull turns it the right way.")
	}
	return arm, nil
}

// cos is the cosine, with the square and the straight adapter exact.
func cos(a quantity.Angle) quantity.Length {
	if a == 90 {
		return 0
	}
	return quantity.Length(math.Cos(a.Radians()))
}

// Setting is what the wrench must read for the wanted torque at the nut.
//
//	setting = T L/(L + E cos a)
func (s Setup) Setting(wanted quantity.Torque) (quantity.Torque, error) {
	arm, err := s.Effective()
	if err := first(err, aboveTorque("torque wanted", wanted)); err != nil {
		return 0, err
	}
	return wanted * quantity.Torque(s.Lever/arm), nil
}

// Applied is what the nut got when the wrench read so much: the inverse of Setting.
//
//	T = reading (L + E cos a)/L
func (s Setup) Applied(reading quantity.Torque) (quantity.Torque, error) {
	arm, err := s.Effective()
	if err := first(err, aboveTorque("reading", reading)); err != nil {
		return 0, err
	}
	return reading * quantity.Torque(arm/s.Lever), nil
}

// PulledAt is what the nut got when the hand was not on the mark but at another distance
// from the centre of the drive. Without an adapter the grip point makes no difference to
// a wrench that measures the moment at its drive; with one it does, because the two arms
// no longer stand in the same proportion. A grip that hangs on a pin puts the pull at the
// pin wherever the hand is, and is never off its mark.
func (s Setup) PulledAt(grip quantity.Length, reading quantity.Torque) (quantity.Torque, error) {
	if err := aboveLength("grip", grip); err != nil {
		return 0, err
	}
	s.Lever = grip
	return s.Applied(reading)
}

// Say is the setting in a sentence, loud in its unit, with the sum that gave it.
func (s Setup) Say(wanted quantity.Torque) (string, error) {
	set, err := s.Setting(wanted)
	if err != nil {
		return "", err
	}
	if set == wanted {
		return "Set the wrench to " + shown(set) + ": this adapter changes nothing.", nil
	}
	arm, _ := s.Effective() // there is a setting, so there is an arm
	return "Set the wrench to " + shown(set) + ", and the nut gets " + quantity.Figure(wanted.InchPounds(), 1) +
		": " + quantity.Figure(wanted.InchPounds(), 1) + " × " + inches(s.Lever) + " / " + inches(arm) + ".", nil
}

// Spoken is a reckoned torque as it is read out beside the engine, loud in its unit:
// "three hundred thirty-five point eight INCH pounds, about twenty-eight point zero foot
// pounds".
func Spoken(t quantity.Torque) string { return said(t, quantity.Measured.Loud) }

// Calibration is how often a torque wrench is checked: FAA AC 43.13-1B 7-40a. A wrench
// that was dropped is out of date from that moment, whatever its label says.
const Calibration = "at least once a year, or at once after a drop or abuse"

// OffScale is a warning where a setting lies on the part of the wrench's scale that it
// is not trusted in, "" where not: under a fifth of full scale, or over it. The ends
// themselves pass.
//
// Source: common practice, no source for the fifth. Army TB 43-0218 table 3-1 is
// narrower and calls 50 to 150 of 200 the most effective range.
func OffScale(setting, full quantity.Torque) (string, error) {
	if err := first(aboveTorque("setting", setting), aboveTorque("full scale", full)); err != nil {
		return "", err
	}
	switch {
	case setting > full:
		return "The setting, " + shown(setting) + ", is beyond the end of the scale, " + shown(full) + ". Take a longer wrench.", nil
	case setting*5 < full:
		return "The setting, " + shown(setting) + ", is under a fifth of the scale, which ends at " + shown(full) + ". Take a smaller wrench.", nil
	}
	return "", nil
}
