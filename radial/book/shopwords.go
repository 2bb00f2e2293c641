package book

import (
	"strings"
	"unicode"
)

// shopWords is what to read to the shop, a sentence a line, figures with their
// units and hard letters by the spelling alphabet.
func (b *Book) shopWords(f findings, v View) []string {
	var s []string
	add := func(parts ...string) { s = append(s, strings.Join(parts, "")) }
	if b.demo {
		add("This is a demo engine. Every number is invented.")
	}
	about := "This is about " + b.ownName()
	if b.ownName() == "" {
		about = "This is about an unnamed engine"
	}
	if model := b.text("model"); model != "" {
		about += ", a " + model
	}
	if n := b.engine.cylinders; n > 0 {
		about += " with " + itoa(n) + " cylinders"
	}
	add(about, ".")
	if serial := b.text("serial"); serial != "" {
		add("Serial number ", serial, ". ", spelled(serial), ".")
	} else {
		add("The serial number is not known.")
	}
	meter := ""
	if l := b.hours.highest; l != nil {
		meter = "The meter reads " + atHours(l) + ". "
	}
	switch {
	case f.hours != "":
		add(meter, "That is ", f.hours, ".")
	case meter != "":
		add(meter)
	}
	if f.rate.Line != "" {
		add("Oil: ", f.rate.Line, ".")
	}
	add(f.rate.Verdict.Reason)
	s = append(s, f.about...)
	if c := f.rate.Ceiling; c != nil {
		add("The ceiling on file is ", f.rate.CeilingText, ", from ", c.Line, ".")
	} else {
		add("No ceiling is on file.")
	}
	if m := f.missing; m != nil {
		add("It stood ", counted(max(f.days, 0), "day", "days"), ". ", f.levels(), " ", sentence(m.Words))
	} else if f.idle {
		add("It has stood ", counted(f.days, "day", "days"), ".")
	}
	if set := b.lastOf(&compressionSet); set != nil {
		add(set.Say(), ", ", longDay(set.Day), ".")
	}
	for _, i := range v.Open[:min(3, len(v.Open))] {
		add("Open: ", i.Words)
	}
	return s
}

var alphabet = strings.Fields("Alfa Bravo Charlie Delta Echo Foxtrot Golf Hotel India Juliett Kilo Lima Mike November " +
	"Oscar Papa Quebec Romeo Sierra Tango Uniform Victor Whiskey X-ray Yankee Zulu")

// spelled says a serial number sign by sign, letters by the ICAO spelling
// alphabet (Annex 10, Volume II, 5.2.1.3; from memory).
func spelled(serial string) string {
	var said []string
	for _, r := range serial {
		switch u := unicode.ToUpper(r); {
		case u >= 'A' && u <= 'Z':
			said = append(said, alphabet[u-'A'])
		case r == '-':
			said = append(said, "dash")
		case r == '/':
			said = append(said, "stroke")
		case r != ' ':
			said = append(said, string(r))
		}
	}
	return strings.Join(said, " ")
}
