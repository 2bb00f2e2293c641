package oil

// Settings are what is on file about one engine and its tank.
type Settings struct {
	// Capacity of the tank. Not given: only the wildest levels are left out.
	Capacity Given[Quarts]
	// StickStep is the smallest step the level is read to. Not given: half a
	// quart is assumed and every Answer says so (StepAssumed).
	StickStep Given[Quarts]
	// Ceiling is the shop's own limit. Not given: nothing can be called seated
	// or not seating, only "levelled off, no limit on file".
	Ceiling Given[QtPerHour]
	// RefTemp is the oil temperature levels are brought to. Not given: 150 °F.
	RefTemp Given[Fahrenheit]
	// HoursKnown: Reading.Hours counts from the overhaul or re-ring. When
	// false, Hours is any one clock, the curves are laid from the first
	// reading, and no bedding-in verdict is given: only the rate, steps and
	// doubtful readings.
	HoursKnown bool
}

// Reading is one look at the stick. The level is the one before anything was
// added or drained at that stop.
type Reading struct {
	Hours   Hours
	Level   Quarts
	Added   Quarts // poured in after the level was read; 0 is nothing
	Poured  Poured
	Drained Drained // after the level was read
	// ChainBroken: between the reading before and this one, oil was drained,
	// refilled or added in an unknown amount. No consumption is taken from
	// that interval; this level starts a new chain.
	//
	// A drain whose level after is known is a reading with Drained ==
	// DrainedUnknown (the level before) and another at the same Hours (the
	// level after). Where the level before is not known, the level after
	// alone, with ChainBroken, says the same.
	ChainBroken bool
	Conditions  Conditions
}

// Poured is how the added oil was measured.
type Poured int

const (
	PouredNormal   Poured = iota // poured as usual: sd 0.10 qt
	PouredMeasured               // a measured can or jug: sd 0.03 qt
	PouredGuessed                // sd 0.25 qt
)

// Drained says whether the tank was emptied after the level was read.
type Drained int

const (
	NotDrained     Drained = iota
	DrainedSame            // drained, and refilled to the same reading
	DrainedUnknown         // drained and refilled to a level not read, or the chain of adds is lost
)

// Conditions of one reading. What is not given widens the reading's error.
type Conditions struct {
	SinceStop Given[Minutes]    // 10 to 60 minutes is the usual window
	Temp      Given[Fahrenheit] // of the oil when read
	Stands    Stands
	Scavenged YesNo // sump scavenged before the reading
	Foam      YesNo
	// SD, where given, is the whole standard deviation that conditions add to
	// a reading, known from outside (repeat readings of this tank), and is
	// used in place of all of the above except the temperature correction.
	SD Given[Quarts]
}

// Stands is how the aeroplane stood when the level was read.
type Stands int

const (
	StandsNotGiven Stands = iota
	StandsLevel
	StandsTail  // tail down: like StandsSame after another tail-down reading, else StandsOther
	StandsSame  // as at the last reading
	StandsOther // any other way
)

// YesNo is an answer that may not have been given.
type YesNo int

const (
	NotSaid YesNo = iota
	Yes
	No
)
