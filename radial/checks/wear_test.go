package checks

import (
	"fmt"

	"linkrod/radial/quantity"
	"linkrod/radial/wear"
)

func init() {
	answers("11_thermal", table{
		"linear_expansion_coefficient": func(c *Case) Answer {
			m, err := wear.MaterialNamed(c.Text("material"))
			low, high := quantity.Figure(m.Low.PerMillion(), 1), quantity.Figure(m.High.PerMillion(), 1)
			if low == high {
				return is(low, err)
			}
			return is(low+"-"+high, err)
		},
		"growth": func(c *Case) Answer {
			return just(wear.Growth(c.Length("length"), perMillion(c, "alpha_1e-6_per_degF"), c.Difference("delta")))
		},
		"clearance_change": func(c *Case) Answer {
			return just(wear.ClearanceChange(c.Length("bore"), c.Length("piston"),
				perMillion(c, "alpha_bore"), perMillion(c, "alpha_piston"), c.Difference("delta")))
		},
		"reduce_to_68F": func(c *Case) Answer {
			if c.Int("instrument_at_68F") != 1 {
				return is(nil, fmt.Errorf("where is the instrument?"))
			}
			alpha := perMillion(c, "alpha_1e-6_per_degF")
			return is(wear.AtStandard(c.Length("reading"), alpha, c.Temperature("part"), alpha, wear.Standard))
		},
	})

	answers("12_dimensional", table{
		"out_of_round": func(c *Case) Answer {
			return exact(wear.Station{A: inch(c, "A"), B: inch(c, "B")}.OutOfRound())
		},
		"cylindricity_yanmar": func(c *Case) Answer {
			var list wear.Stations
			for _, at := range []string{"a", "b", "c", "d", "e"} {
				if c.Has(at + "_A") {
					list = append(list, wear.Station{A: inch(c, at+"_A"), B: inch(c, at+"_B")})
				}
			}
			s, err := list.Shape()
			if err != nil {
				return is(nil, err)
			}
			return exact(s.Cylindricity, nil)
		},
		"taper_sign": func(c *Case) Answer {
			// A station whose mean is known and its two axes are not.
			top, bottom := inch(c, "mean_top"), inch(c, "mean_bottom")
			return exact(wear.Taper(wear.Station{A: top, B: top}, wear.Station{A: bottom, B: bottom}))
		},
		"ring_gap_change_in_choke": func(c *Case) Answer {
			return just(wear.GapWhere(c.Length("gap_at_skirt"), c.Length("diameter_difference")))
		},
		"wear_over_nominal": func(c *Case) Answer { return exact(wear.Wear(inch(c, "bore_max"), inch(c, "nominal"))) },
		"skirt_clearance":   func(c *Case) Answer { return exact(wear.Clearance(inch(c, "min_bore"), inch(c, "max_skirt"))) },
	})
}

func perMillion(c *Case, name string) wear.Expansion {
	return wear.Expansion(c.Number(name)) * wear.PerMillion
}

// inch is a length as typed, for what is reckoned in decimals. A bare figure is in inches.
func inch(c *Case, name string) quantity.Measured {
	return c.Measured(name, quantity.DimLength, quantity.UnitIn)
}

// exact is an exact answer, which is a length here.
func exact(m quantity.Measured, err error) Answer {
	if err != nil {
		return is(nil, err)
	}
	return is(m.Length())
}
