package wear

import (
	"strings"

	"linkrod/radial/quantity"
)

// Expansion is a coefficient of linear expansion: growth by length for each Fahrenheit
// degree. 6.3 of PerMillion is the steel of every old handbook.
type Expansion float64

// PerMillion is one millionth for each Fahrenheit degree, the unit tables print.
const PerMillion Expansion = 1e-6

// PerMillion is the coefficient in millionths for each Fahrenheit degree.
func (e Expansion) PerMillion() float64 { return float64(e) * 1e6 }

// PerMillionCelsius is the coefficient in millionths for each Celsius degree, 1.8 times
// as much.
func (e Expansion) PerMillionCelsius() float64 { return float64(e) * 1.8e6 }

func (e Expansion) check(of string) error {
	if e > 0 && e <= 30*PerMillion {
		return nil
	}
	return problem("expansion of the "+of, "The ", of, " is said to grow by ", quantity.Figure(e.PerMillion(), 2),
		" millionths for a Fahrenheit degree. Metals are from 0 to 30: steel about 6.3, aluminium about 12.8.")
}

// Material is a family of metals with the ends of what is printed for it; the two are the
// same where one figure is printed. A part's own alloy lies somewhere between.
type Material struct {
	Name      string
	Low, High Expansion
}

// Middle is the coefficient half-way, which is within 15 per cent for a steel.
func (m Material) Middle() Expansion { return (m.Low + m.High) / 2 }

// Materials are the families met in these engines. Source: a published table of expansion
// by family, ranges from room temperature to a few hundred degrees.
var Materials = []Material{
	{"alloy steels", 6.3 * PerMillion, 8.6 * PerMillion},
	{"nitriding steels", 6.5 * PerMillion, 6.5 * PerMillion},
	{"carbon free-cutting steels", 8.1 * PerMillion, 8.4 * PerMillion},
	{"alloy steels (cast)", 8 * PerMillion, 8.3 * PerMillion},
	{"austenitic stainless steels", 9 * PerMillion, 10.2 * PerMillion},
	{"martensitic stainless steels", 5.5 * PerMillion, 6.5 * PerMillion},
	{"ferritic stainless steels", 5.8 * PerMillion, 6 * PerMillion},
	{"grey irons (cast)", 6 * PerMillion, 6 * PerMillion},
	{"malleable irons", 5.9 * PerMillion, 7.5 * PerMillion},
	{"nodular or ductile irons (cast)", 6.6 * PerMillion, 10.4 * PerMillion},
	{"aluminium alloys", 11.7 * PerMillion, 13.7 * PerMillion},
	{"magnesium alloys", 14 * PerMillion, 16 * PerMillion},
	{"tin bronzes (cast)", 10 * PerMillion, 10.3 * PerMillion},
	{"phosphor silicon bronzes", 9.6 * PerMillion, 10.2 * PerMillion},
	{"aluminium bronzes (cast)", 9 * PerMillion, 9.5 * PerMillion},
	{"plain and leaded brasses", 10 * PerMillion, 11.6 * PerMillion},
	{"coppers", 7.7 * PerMillion, 9.8 * PerMillion},
	{"titanium alloys", 4.9 * PerMillion, 7.1 * PerMillion},
}

// MaterialNamed is the family of that name, one of them or several, in either spelling of
// aluminium and grey. It refuses what is not in Materials.
func MaterialNamed(name string) (Material, error) {
	for _, same := range []func(m string) bool{
		func(m string) bool { return strings.EqualFold(m, strings.TrimSpace(name)) },
		func(m string) bool { return plain(m) == plain(name) },
	} {
		for _, m := range Materials {
			if same(m.Name) {
				return m, nil
			}
		}
	}
	return Material{}, problem("material", "“", strings.ToValidUTF8(name, "\uFFFD"), "” is no family of metals with a figure here. There are alloy steels, aluminium alloys and others; or type the coefficient.")
}

func plain(name string) string {
	name, _, _ = strings.Cut(strings.ToLower(name), "(")
	name = strings.TrimSuffix(strings.TrimSpace(name), "s")
	return strings.NewReplacer("aluminum", "aluminium", "gray", "grey", "&", "and").Replace(name)
}

// Growth is how much longer a length gets by so many degrees: L α ΔT. A bore grows as if
// it were solid.
func Growth(l quantity.Length, e Expansion, d quantity.TemperatureDifference) quantity.Length {
	return l * quantity.Length(float64(e)*d.FahrenheitDegrees())
}

// ClearanceChange is how much a clearance opens, or with a minus closes, when hole and
// shaft are warmed together by so many degrees: the difference of their growths.
func ClearanceChange(hole, shaft quantity.Length, ofHole, ofShaft Expansion, d quantity.TemperatureDifference) quantity.Length {
	return Growth(hole, ofHole, d) - Growth(shaft, ofShaft, d)
}

// Standard is the temperature that sizes on drawings are meant at: 68 °F, which is 20 °C.
// ISO 1.
const Standard quantity.Temperature = 68

// AtStandard is the size at 68 °F of a part that was read warm, by a gauge at its own
// temperature. A gauge grows too, and reads short by as much:
//
//	size = reading (1 + αg (tg − 68)) / (1 + αp (tp − 68))
//
// A steel gauge and a steel part at one temperature need no correction, which is why they
// are left side by side.
func AtStandard(reading quantity.Length, part Expansion, partAt quantity.Temperature, gauge Expansion, gaugeAt quantity.Temperature) (quantity.Length, error) {
	err := first(length("reading", reading), part.check("part"), gauge.check("gauge"),
		number("temperature of the part", partAt), number("temperature of the gauge", gaugeAt))
	if err != nil {
		return 0, err
	}
	grown := func(e Expansion, t quantity.Temperature) quantity.Length {
		return quantity.Length(1 + float64(e)*t.Above(Standard).FahrenheitDegrees())
	}
	return reading * grown(gauge, gaugeAt) / grown(part, partAt), nil
}
