package checks

import (
	"fmt"
	"strings"

	"linkrod/radial/quantity"
)

func init() {
	answers("units", table{"*": converted})
	answers("13_units", table{"*": converted})
}

// converted turns the figure of the row into the units it asks for. The figure stands in
// the quantity (435 lbf.in in N.m), in the inputs (-40 degF) or in a named input
// (lbf_in=300). The answer is the figure as typed; judge turns it through radial/quantity.
func converted(c *Case) Answer {
	typed, wanted, difference := c.conversion()
	if c.err != nil {
		return is(nil, c.err)
	}
	// The inch of mercury is at 0 °C unless the row says 60 °F.
	if warm := strings.Contains(c.Quantity, "60 F") || c.in["reference"] == "60F"; warm && strings.Contains(strings.ToLower(typed), "inhg") {
		c.Unit = strings.Join(wanted, "; ")
		figure, _, _ := strings.Cut(typed, " ")
		return just(quantity.Pressure(c.figure(figure)) * quantity.InchOfMercury60F)
	}
	for d := quantity.DimLength; d.Base() != ""; d++ {
		if (d == quantity.DimDifference) != difference {
			continue
		}
		from, err := quantity.ParseSaid(typed, d)
		if err != nil || from.Measured.Dimension() != d || !c.known(wanted, d) {
			continue
		}
		c.Unit = strings.Join(wanted, "; ")
		var all parts
		for range wanted {
			all = append(all, from.Measured)
		}
		return just(all)
	}
	return is(nil, fmt.Errorf("no unit of one kind in %q and %q", typed, wanted))
}

func (c *Case) known(wanted []string, d quantity.Dimension) bool {
	for _, w := range wanted {
		if _, ok := unitOf(w, d); !ok {
			return false
		}
	}
	return true
}

// conversion is the figure as it would be typed, the units asked for, and whether it is a
// difference of temperatures.
func (c *Case) conversion() (typed string, wanted []string, difference bool) {
	q := c.Quantity
	if note, ok := between(q, "(", ")"); ok { // 1 inHg (conventional, 0 C) in kPa
		q = strings.Replace(q, "("+note+")", "", 1)
	}
	q = strings.Join(strings.Fields(q), " ")
	if words, amount, ok := strings.Cut(q, "DIFFERENCE "); ok {
		difference, q = strings.TrimSpace(words) == "temperature", amount
	}
	if i := strings.LastIndex(q, " in "); i >= 0 {
		wanted, q = []string{q[i+len(" in "):]}, q[:i]
	}
	q, _, _ = strings.Cut(q, " as ")
	if c.Unit != "" {
		wanted = split2(c.Unit)
	}
	for _, n := range c.names {
		switch name, value := n, c.Text(n); {
		case name == "reference": // of an inch of mercury
		case !strings.HasPrefix(name, "#"):
			typed = value + " " + name
		case typed == "" && strings.ContainsFunc(value, letter):
			typed = strings.TrimSuffix(value, " difference")
		case strings.HasPrefix(q, value+" "): // 1, of 1 US gallon
		case strings.Contains(q, " to "): // -40, of degF to degC
			from, _, _ := strings.Cut(q, " to ")
			typed = value + " " + from
		default:
			c.fail(fmt.Errorf("input %s is not the figure of %q", value, q))
		}
	}
	if typed == "" {
		typed = q
	}
	return typed, wanted, difference
}

func letter(r rune) bool { return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r == '"' }

// between is what stands between two marks.
func between(text, from, to string) (string, bool) {
	_, rest, ok := strings.Cut(text, from)
	inner, _, ok2 := strings.Cut(rest, to)
	return inner, ok && ok2
}
