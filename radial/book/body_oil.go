package book

import (
	"linkrod/radial/quantity"
)

// Conditions of a level reading. What was not given is empty, which is never
// the same as an answer.
type Conditions struct {
	Minutes   quantity.Measured `json:"minutes,omitzero"` // since the engine stopped
	Temp      quantity.Measured `json:"temp,omitzero"`    // of the oil
	Stands    string            `json:"stands,omitempty"` // level, tail, same, other
	Scavenged string            `json:"scavenged,omitempty"`
	Foam      string            `json:"foam,omitempty"`
}

func (c Conditions) check() error {
	return first(
		wrongKind("The time since stop", c.Minutes, quantity.DimTime),
		wrongKind("The oil temperature", c.Temp, quantity.DimTemperature),
	)
}

// say is the conditions that were given: "20 min after stop, tail down".
func (c Conditions) say() []string {
	var parts []string
	if c.Minutes.Given() {
		parts = append(parts, c.Minutes.Show()+" after stop")
	}
	if c.Temp.Given() {
		parts = append(parts, "oil at "+c.Temp.Show())
	}
	if w := standsWords[c.Stands]; w != "" {
		parts = append(parts, w)
	}
	if w := scavengedWords[c.Scavenged]; w != "" {
		parts = append(parts, w)
	}
	if w := foamWords[c.Foam]; w != "" {
		parts = append(parts, w)
	}
	return parts
}

// The choices a reading offers, as they travel and in words.
var (
	standsWords    = map[string]string{"level": "standing level", "tail": "tail down", "same": "standing as last time", "other": "standing another way"}
	scavengedWords = map[string]string{"yes": "sump scavenged", "no": "sump not scavenged"}
	foamWords      = map[string]string{"yes": "with foam", "no": "no foam"}
	addHowWords    = map[string]string{"measured": "measured can", "normal": "poured as usual", "guessed": "guessed"}
)

// Oil is a level, and what was added after it was read.
type Oil struct {
	Hours  quantity.Measured `json:"hours"`
	Level  quantity.Measured `json:"level"` // before anything was added
	Added  quantity.Measured `json:"added,omitzero"`
	AddHow string            `json:"add_how,omitempty"` // measured, normal, guessed
	Conditions
	Note string `json:"note,omitempty"`
	Stamp
	Late    bool     `json:"late,omitempty"`    // the person says: written later, its hours place it
	Checked []string `json:"checked,omitempty"` // questions the person answered
}

func (*Oil) Type() string            { return "oil" }
func (o *Oil) at() quantity.Measured { return o.Hours }

func (o *Oil) Check() error {
	if !o.Level.Given() {
		return Wrong("What does the stick read? An oil line needs its level.")
	}
	if o.Added.Given() && o.Added.Value.Sign() < 0 {
		return Wrong("Added reads " + o.Added.Show() + ". Oil taken out is a drain, its own entry.")
	}
	return first(
		needHours(o.Hours),
		wrongKind("The level", o.Level, quantity.DimVolume),
		wrongKind("The amount added", o.Added, quantity.DimVolume),
		o.Conditions.check(),
		o.Stamp.check(),
	)
}

// poured reports that something went in.
func (o *Oil) poured() bool { return o.Added.Given() && o.Added.Value.Sign() > 0 }

func (o *Oil) Say() string {
	s := "Level " + inWords(o.Level)
	if o.poured() {
		s += ", " + inWords(o.Added) + " added"
	} else {
		s += ", nothing added"
	}
	return s + aside(o.Note)
}

// Drain is oil drained and the tank filled again: a new level, never an add.
type Drain struct {
	Hours       quantity.Measured `json:"hours"`
	LevelBefore quantity.Measured `json:"level_before,omitzero"`
	LevelAfter  quantity.Measured `json:"level_after,omitzero"` // not Given: not read
	Same        bool              `json:"same,omitempty"`       // filled to the reading it had before
	Conditions
	Note string `json:"note,omitempty"`
	Stamp
	Late    bool     `json:"late,omitempty"`
	Checked []string `json:"checked,omitempty"`
}

func (*Drain) Type() string            { return "drain" }
func (d *Drain) at() quantity.Measured { return d.Hours }

func (d *Drain) Check() error {
	if d.Same && !d.LevelBefore.Given() && !d.LevelAfter.Given() {
		return Wrong("Refilled to the same reading: which reading?")
	}
	return first(
		needHours(d.Hours),
		wrongKind("The level before", d.LevelBefore, quantity.DimVolume),
		wrongKind("The level after", d.LevelAfter, quantity.DimVolume),
		d.Conditions.check(),
		d.Stamp.check(),
	)
}

// before and after are the two levels; with Same, one stands for both.
func (d *Drain) before() quantity.Measured {
	if d.Same && !d.LevelBefore.Given() {
		return d.LevelAfter
	}
	return d.LevelBefore
}

func (d *Drain) after() quantity.Measured {
	if d.Same && !d.LevelAfter.Given() {
		return d.LevelBefore
	}
	return d.LevelAfter
}

func (d *Drain) Say() string {
	s := "Drained and refilled"
	switch {
	case d.Same:
		s += " to the same reading, " + inWords(d.after())
	case d.LevelAfter.Given():
		s += ", now " + inWords(d.LevelAfter)
	default:
		s += ", the level after was not read"
	}
	if d.LevelBefore.Given() && !d.Same {
		s += ", before it " + inWords(d.LevelBefore)
	}
	return s + aside(d.Note)
}
