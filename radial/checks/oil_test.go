package checks

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"linkrod/radial/oil"
	"linkrod/radial/quantity"
)

func init() {
	answers("oil volume", table{
		"0.6278/1.8 against 0.34878":    func(c *Case) Answer { return just(oil.At15C.K1(quantity.FahrenheitDegree)) },
		"volume factor to 60 F":         func(c *Case) Answer { return volumeFactor(c, "density60", oil.At60F) },
		"volume factor to 60 F at 60 F": func(c *Case) Answer { return volumeFactor(c, "density60", oil.At60F) },
		"volume factor to 15 C":         func(c *Case) Answer { return volumeFactor(c, "density15", oil.At15C) },
		"volume factor to 15 C at 15 C": func(c *Case) Answer { return volumeFactor(c, "density15", oil.At15C) },
		"thermal expansion at 60 F":     func(c *Case) Answer { return is(oil.Expansion(c.density("density60"))) },
		"density to lb per US gallon":   func(c *Case) Answer { return just(c.density("#1")) },
		"*":                             oilVolume,
	})
	answers("11_thermal", table{
		"oil_volume_change": func(c *Case) Answer {
			return just(oil.Swelling(c.Volume("volume"), c.Number("beta_per_degF"), c.Difference("delta")))
		},
	})

	grade := func(c *Case) (oil.Grade, error) { return oil.ParseGrade(c.Text("#1")) }
	answers("oil grade", table{
		"SAE J300 kinematic viscosity at 100 C, min inclusive to max exclusive": func(c *Case) Answer {
			g, err := grade(c)
			return is(g.Viscosity, err)
		},
		"SAE grade to military and commercial grade numbers": func(c *Case) Answer {
			g, err := grade(c)
			return is(parts{g.Military, g.Commercial}, err)
		},
	})

	byPower := func(c *Case) Answer {
		d := oil.Density(c.Number("oil_lb_per_usgal")) * oil.PoundPerGallon
		s := quantity.SpecificConsumption(c.Number("specific_lb_per_hp_h"))
		return is(oil.RateByPower(s, c.Power("bhp"), d))
	}
	answers("2_power", table{
		"oil_limit_from_specific_consumption": byPower,
		"oil_limit_opposed_formula":           byPower,
	})
	answers("oil consumption", table{
		"ceiling by the formula at rated power": func(c *Case) Answer { return opposed(c, 1) },
		"standard error of a two-reading rate": func(c *Case) Answer {
			sd := c.figures(c.Text("#1"), `^reading sd (\S+) qt each$`)
			h := c.figures(c.Text("#2"), `^(\S+) h$`)
			if c.err != nil {
				return is(nil, c.err)
			}
			return just(quantity.OilRate(oil.RateSD(oil.Quarts(sd[0]), oil.Quarts(sd[0]), oil.Hours(h[0]))))
		},
		"*": oilConsumption,
	})

	x := func(c *Case) (added, charge quantity.Volume) {
		return quantity.Volume(c.Number("x")) * quantity.Quart, quantity.Quart
	}
	answers("oil analysis", table{
		"factor to undo make-up dilution, exact x/(1-exp(-x)), x = make-up/charge": func(c *Case) Answer { return is(oil.MakeUp(x(c))) },
		"trade-brief factor 1 + x/2": func(c *Case) Answer { return is(oil.MakeUpByHand(x(c))) },
		"own-history alarm mean + 2 sd": func(c *Case) Answer {
			_, list, _ := strings.Cut(c.Text("#1"), " ppm ")
			var samples []oil.PPM
			for _, f := range strings.Fields(list) {
				samples = append(samples, oil.PPM(c.figure(f)))
			}
			h, err := oil.OwnHistory(samples)
			return is(h.Line(), err)
		},
		"ppm per 10 h": func(c *Case) Answer {
			f := c.figures(c.Text("#1"), `^[A-Z][a-z]? (\S+) ppm after (\S+) h$`)
			if c.err != nil {
				return is(nil, c.err)
			}
			return is(oil.PerTenHours(oil.PPM(f[0]), quantity.Hours(f[1])))
		},
		"*": func(c *Case) Answer {
			f := c.figures(c.Quantity, `^discrete top-up: (\S+) qt charge, (\S+) ppm\.qt metal per (\S+) h, (\S+) qt lost and replaced each (\S+) h, (\d+) cycles$`)
			if c.err == nil && (f[2] != f[4] || c.Text("#1") != "ppm after last top-up") {
				c.fail(fmt.Errorf("not metal and oil by one spell, or not asked after the last top-up"))
			}
			if c.err != nil {
				return is(nil, c.err)
			}
			return is(oil.AfterTopUps(oil.PPM(f[1]/f[0]), quantity.Volume(f[0]), quantity.Volume(f[3]), int(f[5])))
		},
	})
}

// oilVolume is rows whose figures stand in the quantity.
func oilVolume(c *Case) Answer {
	q := c.Quantity
	switch {
	case strings.HasPrefix(q, "K1 constant, lubricating oils, 60 F"):
		return just(oil.At60F.K1(quantity.FahrenheitDegree))
	case strings.HasPrefix(q, "K1 constant, lubricating oils, 15 C"):
		return just(oil.At15C.K1(quantity.CelsiusDegree))
	case strings.HasPrefix(q, "level at "):
		said := c.dipped(q, `^level at (.+) of oil read (.+) at (.+)$`, 2, 3)
		asked, _ := between(q, "level at ", " of oil")
		if c.Has("V") {
			if v := c.dipped(c.Text("V"), `^(.+) @ ?(.+)$`, 1, 2); v != said {
				c.fail(fmt.Errorf("V is %v and the quantity says %v", v, said))
			}
		}
		return is(oil.VolumeAt(said.Volume, c.density("density60"), said.At, c.temperature(asked)))
	case strings.HasPrefix(q, "apparent loss on cooling "):
		hot := c.dipped(q, `cooling (.+) to .+ of a (.+) hot reading$`, 2, 1)
		to, _ := between(q, " to ", " of a ")
		return is(oil.Cooling(hot.Volume, c.density("density60"), hot.At, c.temperature(to)))
	case strings.HasPrefix(q, "true loss: "):
		const pattern = `^true loss: (.+) @ ?(.+) at shutdown, (.+) @ ?(.+) next morning, both referred to 60 F$`
		return is(oil.Lost(c.dipped(q, pattern, 1, 2), c.dipped(q, pattern, 3, 4), c.density("density60")))
	case strings.HasPrefix(q, "API "):
		api := c.figures(q, `^API (\S+) oil weight per US gal at 60 F in vacuum$`)
		water := c.figures(c.Text("#1"), `^SG (\S+) x (\S+) kg/m3$`)
		if c.err != nil {
			return is(nil, c.err)
		}
		if oil.Density(water[1]) != oil.WaterAt60F {
			return is(nil, fmt.Errorf("water is %v kg/m3 there and %v here", water[1], oil.WaterAt60F))
		}
		d, err := oil.APIGravity(api[0])
		return is(d.PoundsPerGallon(), err) // the weight of a gallon is the density's figure
	case strings.HasPrefix(q, "density implied by "):
		return just(c.density("#1"))
	}
	return is(nil, fmt.Errorf("no quantity %q", q))
}

func volumeFactor(c *Case, density string, base oil.Base) Answer {
	return is(oil.VolumeFactor(c.density(density), base, c.Temperature("T")))
}

// density is an input such as 880 kg/m3, 7.4 lb/US gal or 890, which is in kg/m3.
func (c *Case) density(name string) oil.Density {
	figure, unit, _ := strings.Cut(c.Text(name), " ")
	d := oil.Density(c.figure(figure))
	switch unit {
	case "", "kg/m3":
		return d
	case "lb/US gal":
		return d * oil.PoundPerGallon
	}
	c.fail(fmt.Errorf("%q is no unit of density", unit))
	return 0
}

// dipped is a volume and a temperature that stand in a text, by the groups of a pattern.
func (c *Case) dipped(text, pattern string, volume, at int) oil.Dipped {
	m := regexp.MustCompile(pattern).FindStringSubmatch(text)
	if m == nil {
		c.fail(fmt.Errorf("%q is not like %s", text, pattern))
		return oil.Dipped{}
	}
	v, err := quantity.ParseSaid(m[volume], quantity.DimVolume)
	if err != nil {
		c.fail(err)
	}
	out, err := v.Measured.Volume()
	if err != nil {
		c.fail(err)
	}
	return oil.Dipped{Volume: out, At: c.temperature(m[at])}
}

func (c *Case) temperature(text string) quantity.Temperature {
	r, err := quantity.ParseSaid(text, quantity.DimTemperature)
	if err != nil {
		c.fail(err)
	}
	t, err := r.Measured.Temperature()
	if err != nil {
		c.fail(err)
	}
	return t
}

// oilConsumption is rows whose figures stand in the quantity.
func oilConsumption(c *Case) Answer {
	q := c.Quantity
	switch {
	case strings.HasSuffix(q, " per BHP"):
		f := c.figures(q, `^(\S+) x 4/(\S+) per BHP$`)
		if c.err != nil {
			return is(nil, c.err)
		}
		return is(oil.RateByPower(quantity.SpecificConsumption(f[0]), quantity.Horsepower, oil.Density(f[1])*oil.PoundPerGallon))
	case strings.HasPrefix(q, "formula at "):
		f := c.figures(q, `^formula at (\S+) % power$`)
		if c.err != nil {
			return is(nil, c.err)
		}
		return opposed(c, f[0]/100)
	case strings.HasPrefix(q, "lb/h to qt/h "):
		d := c.figures(q, `\((\S+) lb/gal\)$`)
		m := c.figures(c.Text("#1"), `^(\S+) lb/h$`)
		c.Aside("#2") // of which engine
		if c.err != nil {
			return is(nil, c.err)
		}
		return is(oil.RateByMass(quantity.Mass(m[0]), oil.Density(d[0])*oil.PoundPerGallon))
	case strings.HasPrefix(q, "specific to qt/h at "):
		d := c.figures(q, `^specific to qt/h at (\S+) lb/gal$`)
		s, err := quantity.ParseSaid(c.Text("#1"), quantity.DimSpecific)
		if err != nil {
			return is(nil, err)
		}
		specific, err := s.Measured.SpecificConsumption()
		power := c.Power("#2")
		if err != nil || c.err != nil {
			return is(nil, err)
		}
		return is(oil.RateByPower(specific, power, oil.Density(d[0])*oil.PoundPerGallon))
	}
	return converted(c) // 0.25 qt/h as hours per quart
}

// opposed is the rows' own formula, of a maker of opposed engines: 0.006 lb/hp·h and 7.4 lb
// to the gallon, at a share of the power given as "225 hp" or "225 hp x 0.65".
func opposed(c *Case, share float64) Answer {
	figure, times, cut := strings.Cut(c.Text("#1"), " x ")
	if cut && c.figure(times) != share || !cut && share != 1 {
		c.fail(fmt.Errorf("%s is not at %g of the power", c.Inputs, share))
	}
	r, err := quantity.ParseSaid(figure, quantity.DimPower)
	if err != nil {
		return is(nil, err)
	}
	p, err := r.Measured.Power()
	if err != nil {
		return is(nil, err)
	}
	return is(oil.RateByPower(0.006, p*quantity.Power(share), 7.4*oil.PoundPerGallon))
}

// figures is the numbers that the groups of a pattern find in a text.
func (c *Case) figures(text, pattern string) []float64 {
	m := regexp.MustCompile(pattern).FindStringSubmatch(text)
	if m == nil {
		c.fail(fmt.Errorf("%q is not like %s", text, pattern))
		return nil
	}
	var list []float64
	for _, f := range m[1:] {
		list = append(list, c.figure(f))
	}
	return list
}

func (c *Case) figure(text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		c.fail(fmt.Errorf("%q is not a number", text))
	}
	return v
}
