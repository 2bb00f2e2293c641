package checks

import (
	"linkrod/radial/lock"
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

func init() {
	answers("5_firing_cam", table{
		"blades_minimum": func(c *Case) Answer {
			p, err := propeller(c, "crank_turns_per_prop_turn")
			if err != nil {
				return is(nil, err)
			}
			return is(p.BladesFor(1))
		},
		"compressions_passed": func(c *Case) Answer {
			p, err := propeller(c, "gear")
			if err != nil {
				return is(nil, err)
			}
			pulled, err := p.Pull(c.Int("blades_pulled"), c.Int("cylinders"))
			if err != nil {
				return is(nil, err)
			}
			return just(pulled.Compressions.Float())
		},
	})

	answers("10_hydraulic_lock", table{
		"effective_compression_ratio": func(c *Case) Answer {
			ch, err := dry(c)
			if err != nil {
				return is(nil, err)
			}
			f, err := lock.Fill(ch, c.Volume("liquid"))
			return is(f.Ratio, err)
		},
		"effective_compression_ratio_link_cylinder": func(c *Case) Answer {
			l, err := linkage(c)
			if err != nil {
				return is(nil, err)
			}
			chambers, err := l.Chambers(c.Length("bore"), c.Number("master_compression_ratio"))
			if err != nil {
				return is(nil, err)
			}
			f, err := lock.Fill(chambers[c.Int("cylinder")-1], c.Volume("liquid"))
			return is(f.Ratio, err)
		},
		"liquid_that_doubles_ratio": func(c *Case) Answer {
			ch, err := dry(c)
			if err != nil {
				return is(nil, err)
			}
			return is(lock.LiquidFor(ch, 2*ch.Ratio()))
		},
		"clearance_volume": func(c *Case) Answer {
			ch, err := dry(c)
			return is(ch.Clearance, err)
		},
		"adiabatic_pressure":  pressure,
		"polytropic_pressure": pressure,
		"polytropic_temperature": func(c *Case) Answer {
			// The table's kelvins are degrees above absolute zero, going in and coming out.
			zero := quantity.Celsius(-273.15)
			start := zero.Plus(quantity.TemperatureDifference(c.Number("t1_k")) * quantity.CelsiusDegree)
			end, err := lock.Temperature(start, c.Number("compression_ratio"), c.Number("n"))
			return is(end.Above(zero), err)
		},
		"polytropic_index": func(c *Case) Answer {
			return is(lock.Exponent(c.Pressure("p1"), c.Pressure("p2"), c.Number("compression_ratio")))
		},
		"push_through_toggle": func(c *Case) Answer {
			p, err := crank(c)
			if err != nil {
				return is(nil, err)
			}
			return is(lock.Toggle(c.Torque("torque"), p, c.Angle("crank_deg_before_tdc")))
		},
	})
}

func propeller(c *Case, gear string) (lock.Propeller, error) {
	g, err := lock.ParseGear(c.Text(gear))
	return lock.Propeller{Blades: c.Int("blades"), Gear: g}, err
}

// dry is the chamber of a row that gives bore, stroke and ratio.
func dry(c *Case) (ring.Chamber, error) {
	swept, err := ring.Swept(c.Length("bore"), c.Length("stroke"))
	if err != nil {
		return ring.Chamber{}, err
	}
	clearance, err := ring.Clearance(swept, c.Number("compression_ratio"))
	return ring.Chamber{Swept: swept, Clearance: clearance}, err
}

// pressure answers in what the unit column says, absolute or on the gauge.
func pressure(c *Case) Answer {
	start := c.Pressure("p1")
	end, err := lock.Polytropic(start, c.Number("compression_ratio"), c.Number("n"))
	if c.Unit == "psig" {
		end = lock.Gauge(end, start)
	}
	return is(end, err)
}
