package oil

// Verdict is what can be said about the engine after a reading.
type Verdict int

const (
	None           Verdict = iota // no reading yet
	TooEarly                      // too few readings or hours
	Falling                       // bedding in
	Levelling                     // not proven either way yet
	Seated                        // level and under the ceiling; "levelled off" with no ceiling on file
	NotSeating                    // not heading under the ceiling
	StepUp                        // something changed
	ReadingSuspect                // this line does not fit, or cannot be used
	RateOnly                      // hours since overhaul not known: a rate, no bedding-in verdict
)

// String is the code as the screens know it.
func (v Verdict) String() string {
	switch v {
	case TooEarly:
		return "too early"
	case Falling:
		return "falling"
	case Levelling:
		return "levelling"
	case Seated:
		return "seated"
	case NotSeating:
		return "not seating"
	case StepUp:
		return "step up"
	case ReadingSuspect:
		return "reading suspect"
	case RateOnly:
		return "rate only"
	}
	return "none"
}

// Shows says which figure may be shown as the rate.
type Shows int

const (
	ShowsNothing Shows = iota // one reading: no rate at all
	ShowsAverage              // fewer than three readings or 3 h: Answer.Average, never "now"
	ShowsNow                  // Answer.Now
)

// LeftOut is why a line is kept but not used. Zero: it is used.
type LeftOut int

const (
	Used               LeftOut = iota
	HoursGoBack                // fewer hours than the reading before it in the log
	HoursNotNumber             // not a number, or beyond any meter
	HoursBefore                // before the overhaul the hours are counted from
	LevelNotNumber             // not a number
	LevelOutsideTank           // below empty or above the tank
	AddedNotNumber             // not a number, below nothing, or more than any tank
	ConditionNotNumber         // minutes or temperature that cannot be
)

// Band is a rate with the range that holds the true one with 95 % chance. The
// range is seldom even on both sides; it is never shown as plus-or-minus.
type Band struct{ Rate, Lo, Hi QtPerHour }

// Average since the first reading, the fallback while there is no rate now.
type Average struct {
	Band
	Hours Hours  // from the first reading of the unbroken chain
	Used  Quarts // over those hours
	OK    bool
}

// Chances are the weights behind the verdict, each 0 to 1. Where hours since
// overhaul are not known, Flat and Seated are reckoned from the first reading
// and stay behind the screen; without a ceiling Seated is Flat and NotSeating
// and Over are 0.
type Chances struct {
	Flat       Chance // falls by less than 15 % in the next 10 h
	Seated     Chance // the same, and under the ceiling
	NotSeating Chance // over the ceiling 30 h from now
	Over       Chance // over the ceiling now
	Step       Chance // the rate stepped up
	Suspect    Chance // this very reading is no plain reading
	Creep      Chance // over 1.5 times the rate first called seated
}

// Cause is what made "step up" true.
type Cause int

const (
	NoCause     Cause = iota
	Stepped           // between two readings
	Crept             // gradually, since it was first seated
	OverCeiling       // once seated, now over the ceiling
)

// Step is what changed.
type Step struct {
	Cause  Cause
	About  Hours // when it stepped; for Crept and OverCeiling, when it was first seated
	Before QtPerHour
	Now    QtPerHour
}

// Fell reports that the rate now is under the one before the step: it came up
// and went down again, or the change was downward all along. The verdict stays,
// since something changed; the words say which way.
func (s Step) Fell() bool { return s.Now < s.Before }

// Fit compares a reading with what was expected of it.
type Fit struct {
	OK       bool   // false for the first reading of a chain
	Expected Quarts // on the stick, at the temperature it was read at
	Off      Quarts // read minus expected
	Z        float64
	Why      []Hint // likely reasons, nearest first; only for a suspect reading
}

// HintKind is a question to ask about a reading that does not fit. Ask; never
// correct by itself.
type HintKind int

const (
	ReadAgain    HintKind = iota // nothing better known
	OilNotNoted                  // near whole quarts too much: put in and not written down?
	AddNotPoured                 // near minus the last add: written but not put in?
	Litres                       // near 0.946 of the expected: litres?
	ReadCold                     // near what a cold tank would read
)

// Hint is one question, with the quarts it is about where there are any: for
// OilNotNoted as many as the level is too high by, for AddNotPoured the add.
type Hint struct {
	Kind   HintKind
	Quarts Quarts
}

// Direction of the rate.
type Direction int

const (
	NoDirection Direction = iota
	GoingDown
	NearlyLevel
	Level
	GoingUp
)

// Interval is the plain difference of two readings over their hours: noise,
// drawn faintly, judged never. Rate may be below nothing.
type Interval struct {
	From, To Hours
	Rate     QtPerHour
}

// Curve is the consumption curve of the likeliest explanation.
type Curve struct {
	OK       bool
	Shape    Shape
	Start    QtPerHour // s: the rate where the shape is 1
	Origin   Hours     // Reading.Hours at which the shape is 1
	From, To Hours     // where the readings bear it out; From is the last step
	Weight   Chance
}

// Answer is what one reading led to. Store it: the past is not redrawn.
type Answer struct {
	Hours Hours  // of this line, as given
	Level Quarts // of this line, as given
	Left  LeftOut

	Verdict Verdict
	Said    Verdict // verdict in force, unmoved by suspect or left-out lines
	Shows   Shows
	// Now is the rate at the last used reading. While Shows is not ShowsNow it
	// rests on what is assumed before any reading, and is not to be shown.
	Now       Band
	Average   Average
	Chances   Chances
	Step      Step // Verdict StepUp
	Fit       Fit
	Direction Direction
	Raw       Given[Interval]
	Curve     Curve

	Readings int       // used, this one included
	Span     Hours     // from the first used reading to the last
	LeftOuts []LeftOut // every line left out so far, in order

	StickStep   Quarts // used
	StepAssumed bool   // not on file
	Ceiling     Given[QtPerHour]
	HoursKnown  bool
	Noise       float64 // multiplier on the reading variance, learnt from the readings
}
