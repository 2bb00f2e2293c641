package book

import (
	"strings"

	"linkrod/sync/plain"
)

// How a View is written: pwa/src/worker/view.ts, field by field. What may be
// missing there is null here.

// JSON is the view as the screens receive it.
func (v *View) JSON() []byte {
	var w plain.Writer
	v.write(&w, "")
	return w.Bytes()
}

func (v *View) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("book", v.Book)
	w.Bool("demo", v.Demo)
	w.Text("name", v.Name)
	w.Bool("named", v.Named)
	w.Text("model", v.Model)
	w.Text("since", v.Since)
	w.Text("state", v.State)
	putChip(w, "stateChip", v.StateChip)
	w.Text("headline", v.Headline)
	w.Text("sub", v.Sub)
	v.Missing.write(w, "missing")
	v.Next.write(w, "next")
	v.Ring.write(w, "ring")
	v.Tank.write(w, "tank")
	v.Rate.write(w, "rate")
	v.Plot.write(w, "plot")
	w.Open("table", '[')
	for i := range v.Table {
		v.Table[i].write(w, "")
	}
	w.End(']')
	w.Texts("tableHead", v.TableHead)
	w.Open("log", '[')
	for i := range v.Log {
		v.Log[i].write(w, "")
	}
	w.End(']')
	w.Int("more", int64(v.More))
	w.Open("due", '[')
	for i := range v.Due {
		v.Due[i].write(w)
	}
	w.End(']')
	w.Open("times", '[')
	for _, t := range v.Times {
		w.Begin('{')
		w.Text("label", t.Label)
		w.Text("value", t.Value)
		w.Text("words", t.Words)
		w.End('}')
	}
	w.End(']')
	w.Open("findings", '[')
	for i := range v.Findings {
		v.Findings[i].write(w, "")
	}
	w.End(']')
	w.Open("trends", '[')
	for _, t := range v.Trends {
		w.Begin('{')
		w.Int("cyl", int64(t.Cyl))
		w.Text("words", t.Words)
		w.Bool("watch", t.Watch)
		w.Text("go", t.Go)
		w.End('}')
	}
	w.End(']')
	if v.Stopped == nil {
		w.Null("stopped")
	} else {
		v.Stopped.write(w, "stopped")
	}
	w.Open("measures", '[')
	for of := measures; of != ""; {
		var one string
		one, of, _ = strings.Cut(of, "|")
		id, label, _ := strings.Cut(one, "=")
		pair(w, "id", id, "label", label)
	}
	w.End(']')
	w.Open("settings", '[')
	for i := range v.Settings {
		v.Settings[i].write(w, "")
	}
	w.End(']')
	w.Open("open", '[')
	for i := range v.Open {
		v.Open[i].write(w, "")
	}
	w.End(']')
	v.Last.write(w, "last")
	v.Words.write(w, "words")
	w.End('}')
}

func (v *Verdict) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("chip", string(v.Chip))
	w.Text("word", v.Word)
	w.Text("reason", v.Reason)
	w.End('}')
}

func (v *SourceLine) write(w *plain.Writer, name string) {
	if v == nil {
		w.Null(name)
		return
	}
	w.Open(name, '{')
	w.Text("document", v.Document)
	w.Text("page", v.Page)
	w.Text("revision", v.Revision)
	w.Text("date", v.Date)
	w.Text("typedBy", v.TypedBy)
	w.Text("checkedBy", v.CheckedBy)
	w.Text("line", v.Line)
	w.End('}')
}

func (v *Sum) write(w *plain.Writer, name string) {
	if v == nil {
		w.Null(name)
		return
	}
	w.Open(name, '{')
	w.Text("title", v.Title)
	w.Texts("lines", v.Lines)
	w.End('}')
}

func (v *LimitLine) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Number("max", v.Max)
	w.Open("marks", '[')
	for i := range v.Marks {
		v.Marks[i].write(w, "")
	}
	w.End(']')
	putNumber(w, "at", v.At)
	w.Text("pointer", v.Pointer)
	w.Text("chip", string(v.Chip))
	w.Text("spoken", v.Spoken)
	v.Source.write(w, "source")
	w.Text("none", v.None)
	w.End('}')
}

func (v *Mark) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Number("at", v.At)
	w.Text("label", v.Label)
	w.Text("word", v.Word)
	w.End('}')
}

func (v *Missing) write(w *plain.Writer, name string) {
	if v == nil {
		w.Null(name)
		return
	}
	w.Open(name, '{')
	w.Text("words", v.Words)
	v.Verdict.write(w, "verdict")
	v.Line.write(w, "line")
	v.Maths.write(w, "maths")
	w.End('}')
}

func (v *Next) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("title", v.Title)
	w.Text("detail", v.Detail)
	w.Text("go", v.Go)
	w.Texts("why", v.Why)
	w.End('}')
}

func (v *Ring) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Int("cylinders", int64(v.Cylinders))
	putInt(w, "master", v.Master)
	w.Text("view", v.View)
	w.Text("caption", v.Caption)
	w.Text("low", v.Low)
	w.Text("limit", v.Limit)
	v.Source.write(w, "source")
	w.Text("none", v.None)
	w.Text("spoken", v.Spoken)
	w.Open("heads", '[')
	for i := range v.Heads {
		v.Heads[i].write(w, "")
	}
	w.End(']')
	w.Open("flipped", '[')
	for i := range v.Flipped {
		v.Flipped[i].write(w, "")
	}
	w.End(']')
	w.End('}')
}

func (v *Head) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Int("k", int64(v.K))
	w.Number("angle", v.Angle)
	w.Bool("low", v.Low)
	w.Text("text", v.Text)
	putChip(w, "chip", v.Chip)
	w.Text("spoken", v.Spoken)
	w.End('}')
}

func (v *Tank) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("unit", v.Unit)
	w.Text("unitWord", v.UnitWord)
	putNumber(w, "capacity", v.Capacity)
	putNumber(w, "full", v.Full)
	putNumber(w, "min", v.Min)
	w.Number("step", v.Step)
	w.Number("addStep", v.AddStep)
	putNumber(w, "level", v.Level)
	w.Text("levelText", v.LevelText)
	putNumber(w, "before", v.Before)
	w.Text("beforeText", v.BeforeText)
	w.Text("spoken", v.Spoken)
	w.End('}')
}

func (v *Rate) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Bool("has", v.Has)
	w.Text("figure", v.Figure)
	w.Text("band", v.Band)
	w.Text("unit", v.Unit)
	w.Text("inverse", v.Inverse)
	w.Text("line", v.Line)
	v.Verdict.write(w, "verdict")
	w.Text("code", v.Code)
	v.Ceiling.write(w, "ceiling")
	w.Text("ceilingText", v.CeilingText)
	w.Text("none", v.None)
	w.Text("call", v.Call)
	v.Maths.write(w, "maths")
	w.End('}')
}

func (v *Plot) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("unit", v.Unit)
	w.Number("hmax", v.HMax)
	w.Number("rmax", v.RMax)
	w.Number("earlyUntil", v.EarlyUntil)
	w.Open("points", '[')
	for i := range v.Points {
		v.Points[i].write(w, "")
	}
	w.End(']')
	w.Open("curve", '[')
	for i := range v.Curve {
		v.Curve[i].write(w, "")
	}
	w.End(']')
	putNumber(w, "ceiling", v.Ceiling)
	w.Text("ceilingText", v.CeilingText)
	w.Open("marks", '[')
	for i := range v.Marks {
		v.Marks[i].write(w, "")
	}
	w.End(']')
	w.Text("bandMeans", v.BandMeans)
	w.Text("summary", v.Summary)
	w.Text("hoursMean", v.HoursMean)
	w.End('}')
}

func (v *PlotPoint) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("key", v.Key)
	w.Number("h", v.H)
	putNumber(w, "raw", v.Raw)
	putNumber(w, "rawFrom", v.RawFrom)
	putNumber(w, "rate", v.Rate)
	putNumber(w, "lo", v.Lo)
	putNumber(w, "hi", v.Hi)
	w.Text("code", v.Code)
	w.Bool("suspect", v.Suspect)
	w.Text("spoken", v.Spoken)
	w.End('}')
}

func (v *CurvePoint) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Number("h", v.H)
	w.Number("r", v.R)
	w.End('}')
}

func (v *PlotMark) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Number("h", v.H)
	w.Text("kind", v.Kind)
	w.Text("text", v.Text)
	w.End('}')
}

func (v *Row) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("key", v.Key)
	w.Texts("cells", v.Cells)
	v.Sum.write(w, "sum")
	w.End('}')
}

func (v *LogLine) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("key", v.Key)
	w.Text("day", v.Day)
	w.Text("hours", v.Hours)
	w.Text("words", v.Words)
	w.Text("kind", v.Kind)
	putChip(w, "chip", v.Chip)
	w.Text("chipWord", v.ChipWord)
	w.Bool("sent", v.Sent)
	w.Text("by", v.By)
	w.Text("struck", v.Struck)
	w.Bool("correctable", v.Correctable)
	w.Open("fields", '[')
	for i := range v.Fields {
		v.Fields[i].write(w, "")
	}
	w.End(']')
	w.Text("device", v.Device)
	w.Text("clock", v.Clock)
	w.Texts("replaces", v.Replaces)
	w.Text("note", v.Note)
	v.Sum.write(w, "sum")
	w.End('}')
}

func (v *FieldShown) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("label", v.Label)
	w.Text("value", v.Value)
	w.End('}')
}

func (v *OnFile) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("field", v.Field)
	w.Text("label", v.Label)
	w.Text("value", v.Value)
	w.Bool("given", v.Given)
	v.Source.write(w, "source")
	w.Open("others", '[')
	for i := range v.Others {
		v.Others[i].write(w, "")
	}
	w.End(']')
	w.Raw("raw", v.Raw)
	w.End('}')
}

func (v *Side) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("key", v.Key)
	w.Text("value", v.Value)
	w.Text("by", v.By)
	w.Text("day", v.Day)
	w.End('}')
}

func (v *OpenItem) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("key", v.Key)
	w.Text("words", v.Words)
	w.Text("go", v.Go)
	w.End('}')
}

func (v *Last) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("hours", v.Hours)
	w.Text("level", v.Level)
	w.Text("added", v.Added)
	w.Text("stands", v.Stands)
	w.Text("minutes", v.Minutes)
	w.Text("addHow", v.AddHow)
	w.Text("scavenged", v.Scavenged)
	w.End('}')
}

func (v *ShopWords) write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Texts("shop", v.Shop)
	w.End('}')
}

func putChip(w *plain.Writer, name string, c *Chip) {
	if c == nil {
		w.Null(name)
		return
	}
	w.Text(name, string(*c))
}

func putNumber(w *plain.Writer, name string, f *float64) {
	if f == nil {
		w.Null(name)
		return
	}
	w.Number(name, *f)
}

func putInt(w *plain.Writer, name string, n *int) {
	if n == nil {
		w.Null(name)
		return
	}
	w.Int(name, int64(*n))
}

// Write writes the ring as the screens get it.
func (v *Ring) Write(w *plain.Writer) { v.write(w, "") }
