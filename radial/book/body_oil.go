package book

import (
	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// Conditions of a level reading. What was not given is empty, which is never
// the same as an answer.
type Conditions struct {
	Minutes   quantity.Measured // since the engine stopped
	Temp      quantity.Measured // of the oil
	Stands    string            // level, tail, same, other
	Scavenged string
	Foam      string
}

func (c *Conditions) read(r *reader) {
	c.Minutes, c.Temp = r.measured("minutes"), r.measured("temp")
	c.Stands, c.Scavenged, c.Foam = r.text("stands"), r.text("scavenged"), r.text("foam")
}

func (c Conditions) write(w *plain.Writer) {
	putMeasured(w, "minutes", c.Minutes)
	putMeasured(w, "temp", c.Temp)
	putText(w, "stands", c.Stands)
	putText(w, "scavenged", c.Scavenged)
	putText(w, "foam", c.Foam)
}

func (c Conditions) check() error {
	return first(
		wrongKind("The time since stop", c.Minutes, quantity.DimTime),
		wrongKind("The oil temperature", c.Temp, quantity.DimTemperature),
	)
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
	Hours  quantity.Measured
	Level  quantity.Measured // before anything was added
	Added  quantity.Measured
	AddHow string // measured, normal, guessed
	Conditions
	Note string
	Stamp
	Late    bool     // the person says: written later, its hours place it
	Checked []string // questions the person answered
}

func (*Oil) Type() string            { return "oil" }
func (o *Oil) at() quantity.Measured { return o.Hours }

func (o *Oil) read(r *reader) {
	o.Hours, o.Level, o.Added, o.AddHow = r.measured("hours"), r.measured("level"), r.measured("added"), r.text("add_how")
	o.Conditions.read(r)
	o.Note = r.text("note")
	o.Stamp.read(r)
	o.Late, o.Checked = r.flag("late"), r.texts("checked")
}

func (o *Oil) write(w *plain.Writer) {
	putMeasured(w, "hours", o.Hours)
	putMeasured(w, "level", o.Level)
	putMeasured(w, "added", o.Added)
	putText(w, "add_how", o.AddHow)
	o.Conditions.write(w)
	putText(w, "note", o.Note)
	o.Stamp.write(w)
	putFlag(w, "late", o.Late)
	putTexts(w, "checked", o.Checked)
}

func (o *Oil) Check() error {
	if !o.Level.Given() {
		return Wrong("What does the stick read? An oil line needs its level.")
	}
	if o.Added.Given() && o.Added.Value.Sign() < 0 {
		return Wrong("Added reads " + short(o.Added) + ". Oil taken out is a drain, its own entry.")
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
	Hours       quantity.Measured
	LevelBefore quantity.Measured
	LevelAfter  quantity.Measured // not Given: not read
	Same        bool              // filled to the reading it had before
	Conditions
	Note string
	Stamp
	Late    bool
	Checked []string
}

func (*Drain) Type() string            { return "drain" }
func (d *Drain) at() quantity.Measured { return d.Hours }

func (d *Drain) read(r *reader) {
	d.Hours, d.LevelBefore, d.LevelAfter = r.measured("hours"), r.measured("level_before"), r.measured("level_after")
	d.Same = r.flag("same")
	d.Conditions.read(r)
	d.Note = r.text("note")
	d.Stamp.read(r)
	d.Late, d.Checked = r.flag("late"), r.texts("checked")
}

func (d *Drain) write(w *plain.Writer) {
	putMeasured(w, "hours", d.Hours)
	putMeasured(w, "level_before", d.LevelBefore)
	putMeasured(w, "level_after", d.LevelAfter)
	putFlag(w, "same", d.Same)
	d.Conditions.write(w)
	putText(w, "note", d.Note)
	d.Stamp.write(w)
	putFlag(w, "late", d.Late)
	putTexts(w, "checked", d.Checked)
}

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
