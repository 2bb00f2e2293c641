package checks

import (
	"strings"

	"linkrod/radial/compression"
	"linkrod/radial/quantity"
)

func init() {
	answers("9_compression_test", table{
		"tester_orifice_diameter": func(c *Case) Answer {
			return orifice(c.Measured("bore", quantity.DimLength, ""))
		},
		"tester_orifice_length;approach": func(c *Case) Answer {
			c.Aside("any")
			return just(parts{compression.OrificeLength, compression.OrificeApproach})
		},
		"suspect_by_ac_rule": func(c *Case) Answer {
			return is(compression.Suspect(psi(c, "supply"), psi(c, "cylinder")))
		},
		"leak_percent": func(c *Case) Answer {
			return is(compression.LossPercent(psi(c, "supply"), psi(c, "cylinder")))
		},
		"piston_force": func(c *Case) Answer {
			return is(compression.PistonForce(c.Length("bore"), c.Pressure("pressure")))
		},
		"torque_off_tdc": func(c *Case) Answer {
			p, err := crank(c)
			if err != nil {
				return is(nil, err)
			}
			return is(compression.HoldingTorque(p, c.Length("bore"), c.Pressure("pressure"), c.Angle("crank_deg")))
		},
		"critical_pressure_ratio": func(c *Case) Answer {
			return is(compression.Gas{Gamma: c.Number("gamma"), R: compression.Air.R}.CriticalRatio())
		},
		"choked_mass_flow":   massFlow,
		"subsonic_mass_flow": massFlow,
		"gauge_reading_ideal_model": func(c *Case) Answer {
			t := tester(c)
			leak := quantity.Area(c.Number("leak_area_over_orifice_area")) * quantity.Circle(t.Orifice)
			return is(t.Reading(leak))
		},
		"leak_area_from_reading": func(c *Case) Answer {
			t := tester(c)
			leak, err := t.Leak(c.Pressure("cylinder"))
			return is(float64(leak/quantity.Circle(t.Orifice)), err)
		},
		"same_leak_other_tester": func(c *Case) Answer {
			return is(tester(c).With(c.Length("other_orifice"), c.Pressure("cylinder")))
		},
	})

	answers("compression", table{
		"25 % loss of 80 psi": func(c *Case) Answer {
			supply, err := quantity.ParseSaid(strings.TrimSuffix(c.Text("#1"), " input"), quantity.DimPressure)
			if err != nil {
				return is(nil, err)
			}
			limit, err := compression.SuspectBelow(supply.Measured)
			if err != nil {
				return is(nil, err)
			}
			return is(limit.Pressure())
		},
		"orifice, bore 5.00 in and over": func(c *Case) Answer { return orifice(c.Measured("#1", quantity.DimLength, "")) },
		"orifice, 5.125 in bore":         func(c *Case) Answer { return orifice(c.Measured("#1", quantity.DimLength, "")) },
		"force on piston at 80 psi": func(c *Case) Answer {
			bore, err := quantity.ParseSaid(strings.TrimPrefix(c.Text("#1"), "bore "), quantity.DimLength)
			if err != nil {
				return is(nil, err)
			}
			l, err := bore.Measured.Length()
			if err != nil {
				return is(nil, err)
			}
			return is(compression.PistonForce(l, 80*quantity.PSI))
		},
	})
}

func orifice(bore quantity.Measured) Answer {
	o, err := compression.OrificeFor(bore)
	if err != nil {
		return is(nil, err)
	}
	return is(o.Length())
}

// psi is a gauge's reading as typed, for what is compared in decimals.
func psi(c *Case, name string) quantity.Measured { return c.Measured(name, quantity.DimPressure, "") }

// tester is the tester of a row. What a row leaves out makes no difference to its answer,
// or is the common 80 psi at sea level.
func tester(c *Case) compression.Tester {
	t := compression.Tester{Supply: 80 * quantity.PSI, Orifice: 0.060 * quantity.Inch, Atmosphere: compression.SeaLevel}
	if c.Has("supply") {
		t.Supply = c.Pressure("supply")
	}
	if c.Has("orifice") {
		t.Orifice = c.Length("orifice")
	}
	if c.Has("atmosphere") {
		t.Atmosphere = c.Pressure("atmosphere")
	}
	return t
}

// massFlow is choked where no back pressure is given.
func massFlow(c *Case) Answer {
	gas := compression.Gas{Gamma: c.Number("gamma"), R: c.Number("R")}
	var back quantity.Pressure
	if c.Has("back_pressure") {
		back = c.Pressure("back_pressure")
	}
	t0 := quantity.Celsius(c.Number("t0_k") - 273.15)
	m, err := gas.MassFlow(c.Pressure("p0"), t0, back, quantity.Area(c.Number("area_m2"))*quantity.SquareMetre)
	return is(m.KilogramsPerSecond(), err)
}
