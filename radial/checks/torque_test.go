package checks

import (
	"strings"

	"linkrod/radial/quantity"
	"linkrod/radial/torque"
)

func init() {
	answers("7_torque", table{
		"wrench_setting_with_extension": func(c *Case) Answer {
			s := torque.Setup{Lever: c.Length("wrench"), Adapter: c.Length("extension")}
			if c.Has("angle") {
				s.Angle = c.Angle("angle")
			}
			return is(s.Setting(c.Torque("wanted")))
		},
		"castle_nut_window": func(c *Case) Answer {
			final, err := torque.Final(torqueRange(c, c.Text("table_in_lb")), c.Torque("drag"), torque.AddAlways)
			return is(parts{figureOf(final.Min) + " start", figureOf(final.Max) + " not to exceed"}, err)
		},
		"torque_reduction_lubricated": func(c *Case) Answer {
			return is(torque.Less(c.Torque("table"), c.Number("reduction_percent")))
		},
		"locknut_minimum_breakaway": func(c *Case) Answer {
			th, err := torque.ParseThread(c.Text("thread"))
			if err != nil {
				return is(nil, err)
			}
			return is(torque.Breakaway(th))
		},
		"ac4313_table_7_1": func(c *Case) Answer {
			c.Aside("condition")
			a, err := airframe(c.Text("thread"))
			return is(parts{rangeOf(a.Tension), rangeOf(a.Shear), a.MaxTension, a.MaxShear}, err)
		},
		"bar_force": func(c *Case) Answer {
			return is(torque.Pull(c.Torque("torque"), c.Length("bar")))
		},
	})

	answers("8_fastener", table{
		"tensile_stress_area": func(c *Case) Answer {
			th, err := torque.ParseThread(c.Text("thread"))
			return is(th.StressArea().SquareInches(), err)
		},
		"torque_from_K": func(c *Case) Answer {
			c.Aside("thread") // the row gives the printed area, which is rounded
			var f quantity.Force
			if c.Has("preload") {
				f = c.Force("preload")
			} else {
				var err error
				if f, err = torque.Load(c.Pressure("stress"), stressArea(c)); err != nil {
					return is(nil, err)
				}
			}
			return is(torque.ForPreload(f, c.Length("diameter"), torque.NutFactor(c.Number("K"))))
		},
		"proof_load": func(c *Case) Answer {
			c.Aside("thread", "grade")
			return is(torque.Load(c.Pressure("proof_stress"), stressArea(c)))
		},
		"bolt_stress_from_torque": func(c *Case) Answer {
			th, err := torque.ParseThread(c.Text("thread"))
			if err != nil {
				return is(nil, err)
			}
			f, err := torque.Preload(c.Torque("torque"), th.Diameter(), torque.NutFactor(c.Number("K")))
			if err != nil {
				return is(nil, err)
			}
			return is(torque.Stress(f, stressArea(c)))
		},
		"implied_K_of_ac_table": func(c *Case) Answer {
			th, err := torque.ParseThread(c.Text("thread"))
			if err != nil {
				return is(nil, err)
			}
			f, err := torque.Load(c.Pressure("stress"), stressArea(c))
			if err != nil {
				return is(nil, err)
			}
			return is(torque.FactorShown(c.Torque("max_tension_torque"), th.Diameter(), f))
		},
		"bolt_stretch": func(c *Case) Answer {
			area := quantity.Area(c.Number("area_sqin"))
			return is(torque.Stretch(c.Force("load"), c.Length("grip"), area, quantity.Pressure(c.Number("modulus_psi"))))
		},
	})

	answers("torque", table{
		"recommended range when the maker gives none": func(c *Case) Answer {
			a, err := airframe(c.Text("#1"))
			return is(rangeOf(a.Tension), err)
		},
		"wrench setting T x L/(L+E)": func(c *Case) Answer {
			s := torque.Setup{Lever: c.Length("L"), Adapter: c.Length("E")}
			return is(s.Setting(c.Torque("T")))
		},
		"adapter at 90 degrees to the lever": func(c *Case) Answer {
			// The row gives bare figures; any unit gives the same.
			s := torque.Setup{Lever: quantity.Length(c.Number("L")), Adapter: quantity.Length(c.Number("E")), Angle: c.Angle("#1")}
			return is(s.Setting(quantity.Torque(c.Number("T"))))
		},
		"final torque with run-down drag, AC practice": func(c *Case) Answer { return withDrag(c, torque.AddAlways) },
		"run-down rule in an Army bulletin":            func(c *Case) Answer { return withDrag(c, torque.AddFromThird) },
		"wrench calibration interval":                  func(c *Case) Answer { return just(torque.Calibration) },
	})
}

func airframe(thread string) (torque.Airframe, error) {
	th, err := torque.ParseThread(thread)
	if err != nil {
		return torque.Airframe{}, err
	}
	return torque.AirframeFor(th)
}

func stressArea(c *Case) quantity.Area { return quantity.Area(c.Number("stress_area_sqin")) }

// torqueRange reads 160-190 in inch pounds.
func torqueRange(c *Case, text string) torque.Range {
	low, high, _ := strings.Cut(text, "-")
	a, err := quantity.ParseDecimal(low)
	b, err2 := quantity.ParseDecimal(high)
	if err != nil || err2 != nil {
		c.fail(err)
		c.fail(err2)
	}
	return torque.Range{Min: quantity.Torque(a.Float64()), Max: quantity.Torque(b.Float64())}
}

func rangeOf(r torque.Range) string { return figureOf(r.Min) + "-" + figureOf(r.Max) }

func figureOf(t quantity.Torque) string { return quantity.Figure(t.InchPounds(), 1) }

// withDrag reads "table 160-190; drag 12" and "50-70; drag 30".
func withDrag(c *Case, rule torque.DragRule) Answer {
	wanted := torqueRange(c, strings.TrimPrefix(c.Text("#1"), "table "))
	drag := torqueRange(c, strings.TrimPrefix(c.Text("#2"), "drag ")+"-0").Min
	if c.err != nil {
		return is(nil, c.err)
	}
	final, err := torque.Final(wanted, drag, rule)
	return is(rangeOf(final), err)
}
