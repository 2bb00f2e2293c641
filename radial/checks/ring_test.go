package checks

import (
	"fmt"
	"strings"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

func init() {
	answers("1_displacement_cr", table{
		"displacement": func(c *Case) Answer {
			return is(ring.Displacement(c.Length("bore"), c.Length("stroke"), c.Int("cylinders")))
		},
		"displacement_trap_depth_not_stroke": func(c *Case) Answer {
			stroke, err := ring.StrokeBetween(c.Length("bore_depth"), c.Length("piston_top_from_bottom_at_bdc"))
			if err != nil {
				return is(nil, err)
			}
			return is(ring.Displacement(c.Length("bore"), stroke, c.Int("cylinders")))
		},
		"compression_ratio": func(c *Case) Answer {
			switch {
			case c.Has("volume_bdc"):
				tdc := c.Volume("volume_tdc")
				return is(ring.CompressionRatio(c.Volume("volume_bdc")-tdc, tdc))
			case c.Has("swept"):
				return is(ring.CompressionRatio(c.Volume("swept"), c.Volume("clearance")))
			}
			swept, err := ring.Swept(c.Length("bore"), c.Length("stroke"))
			if err != nil {
				return is(nil, err)
			}
			return is(ring.CompressionRatio(swept, c.Volume("clearance")))
		},
		"clearance_volume_per_cylinder": clearance,
		"clearance volume":              clearance,
		"designation number": func(c *Case) Answer {
			return is(ring.Designation(c.Volume("displacement")))
		},
	})

	answers("2_power", table{
		"indicated_horsepower": func(c *Case) Answer {
			d, err := ring.Displacement(c.Length("bore"), c.Length("stroke"), c.Int("cylinders"))
			if err != nil {
				return is(nil, err)
			}
			return is(ring.PowerFromMEP(c.Pressure("imep"), d, c.Speed("rpm")))
		},
		"brake_thermal_efficiency": func(c *Case) Answer {
			c.Aside("ftlb_per_btu") // the product has the exact figure
			fuel := quantity.Mass(c.Number("fuel_lb_per_h"))
			return is(ring.ThermalEfficiency(c.Power("bhp"), fuel, c.Number("heat_btu_per_lb")))
		},
		"bmep_from_torque": func(c *Case) Answer {
			return is(ring.BMEPFromTorque(c.Torque("torque"), c.Volume("displacement"), cycle(c)))
		},
		"torque_from_bmep": func(c *Case) Answer {
			return is(ring.TorqueFromBMEP(c.Pressure("bmep"), c.Volume("displacement"), cycle(c)))
		},
		"bmep_from_rating": func(c *Case) Answer {
			return is(ring.BMEP(c.Power("bhp"), c.Volume("displacement"), c.Speed("rpm")))
		},
		"mean_piston_speed": func(c *Case) Answer {
			v, err := ring.MeanPistonSpeed(c.Length("stroke"), c.Speed("rpm"))
			if c.Unit == "m/s" {
				return is(v.MetresPerSecond(), err)
			}
			return is(v.FeetPerMinute(), err)
		},
		"torque_from_power": func(c *Case) Answer {
			return is(ring.TorqueFrom(c.Power("bhp"), c.Speed("rpm")))
		},
		"power_from_torque": func(c *Case) Answer {
			return is(ring.PowerFrom(c.Torque("torque"), c.Speed("rpm")))
		},
	})

	answers("3_slider_crank", table{
		"piston_travel_from_tdc": func(c *Case) Answer {
			p, err := crank(c)
			return is(p.BeforeTop(c.Angle("crank")), err)
		},
		"crank_angle_from_travel": func(c *Case) Answer {
			p, err := crank(c)
			if err != nil {
				return is(nil, err)
			}
			return is(p.Degrees(c.Length("travel")))
		},
		"travel_slope": func(c *Case) Answer {
			p, err := crank(c)
			return is(p.SlopeBeforeTop(c.Angle("crank")).InchesPerDegree(), err)
		},
		"angle_of_max_piston_speed": func(c *Case) Answer {
			p, err := crank(c)
			return is(p.FastestAfter(), err)
		},
	})

	answers("4_articulated", table{
		"tdc_shift":            eachTop(func(d ring.DeadCentre) any { return d.Shift }),
		"tdc_height_vs_master": eachTop(func(d ring.DeadCentre) any { return d.Height }),
		"bdc_shift":            eachBottom(func(d ring.DeadCentre) any { return d.Shift }),
		"bdc_height_vs_master": eachBottom(func(d ring.DeadCentre) any { return d.Height }),
		"stroke":               eachPiston(func(p ring.Piston) any { return p.Stroke() }),
		"link_stroke": func(c *Case) Answer {
			l, err := linkage(c)
			if err != nil {
				return is(nil, err)
			}
			link, err := l.Piston(l.Master()%len(l.Pistons()) + 1)
			return is(link.Stroke(), err)
		},
		"mean_stroke_over_nominal": func(c *Case) Answer {
			// Displacement by own strokes over the plate's: the bore falls out.
			l, err := linkage(c)
			if err != nil {
				return is(nil, err)
			}
			const bore = quantity.Inch
			own, err := l.Displacement(bore)
			if err != nil {
				return is(nil, err)
			}
			plate, err := ring.Displacement(bore, 2*c.Length("throw"), len(l.Pistons()))
			return is(float64(own/plate), err)
		},
		"compression_ratio_each_cylinder": func(c *Case) Answer {
			c.Aside("same_head_and_piston")
			l, err := linkage(c)
			if err != nil {
				return is(nil, err)
			}
			chambers, err := l.Chambers(c.Length("bore"), c.Number("master_compression_ratio"))
			var ratios []float64
			for _, ch := range chambers {
				ratios = append(ratios, ch.Ratio())
			}
			return is(ratios, err)
		},
		"mirror_pairs": func(c *Case) Answer {
			r, err := numbered(c.Int("cylinders"), 1)
			if err != nil {
				return is(nil, err)
			}
			pairs, err := r.Mirrors(c.Int("master_cylinder"))
			var words []string
			for _, p := range pairs {
				words = append(words, fmt.Sprintf("%d-%d", p[0], p[1]))
			}
			return is(strings.Join(words, " "), err)
		},
		"*": travels,
	})

	answers("5_firing_cam", table{
		"firing_order":                           func(c *Case) Answer { return order(c, 1) },
		"firing_order_numbered_against_rotation": func(c *Case) Answer { return order(c, -1) },
		"firing_interval": func(c *Case) Answer {
			r, err := numbered(c.Int("cylinders"), 1)
			return is(r.Interval(), err)
		},
		"cam_ring_lobes;speed": func(c *Case) Answer {
			cam, err := ring.CamFor(c.Int("cylinders"), camTurn(c, "cam_direction_vs_crank"))
			return is(parts{cam.Lobes, cam.Speed()}, err)
		},
		"cam_lobe_spacing_check": func(c *Case) Answer {
			cam, err := ring.CamSeen(c.Int("cylinders"), c.Int("cam_lobes"))
			if err == nil && (cam.Speed().String() != c.Text("cam_ratio") || cam.Turn != camTurn(c, "direction")) {
				err = fmt.Errorf("the lobes say %v", cam)
			}
			next := quantity.Angle(c.Number("next_firing"))
			if got, want := cam.Between(next), cam.Spacing(); err == nil && got != want {
				err = fmt.Errorf("%v from lobe to lobe, spacing %v", got, want)
			}
			return is(cam.Between(next), err)
		},
		"cylinders_below_horizontal": func(c *Case) Answer {
			if c.Text("no1") != "top" || c.Text("level") != "1" {
				return is(nil, fmt.Errorf("no. 1 at %s, level %s", c.Text("no1"), c.Text("level")))
			}
			r, err := numbered(c.Int("cylinders"), 1)
			if err != nil {
				return is(nil, err)
			}
			return is(r.Below(ring.Attitude{}))
		},
	})

	answers("6_ignition", table{
		"magneto_to_crank_speed": func(c *Case) Answer {
			// A magnet gives one spark for each of its poles in a turn.
			r, err := ring.Magneto(c.Int("cylinders"), c.Int("magnet_poles"))
			if err != nil {
				return is(nil, err)
			}
			return just(r.Float())
		},
		"distributor_socket_to_cylinder": func(c *Case) Answer {
			r, err := numbered(c.Int("cylinders"), 1)
			if err != nil {
				return is(nil, err)
			}
			return is(r.FiringOrder(1))
		},
		"true_advance_with_even_cam": func(c *Case) Answer {
			n := c.Angle("master_advance")
			return eachPiston(func(p ring.Piston) any { return p.TrueAdvance(n) })(c)
		},
	})
}

func clearance(c *Case) Answer {
	cr := c.Number("compression_ratio")
	if c.Has("swept") {
		return is(ring.Clearance(c.Volume("swept"), cr))
	}
	swept, err := ring.Swept(c.Length("bore"), c.Length("stroke"))
	if err != nil {
		return is(nil, err)
	}
	return is(ring.Clearance(swept, cr))
}

// cycle is the crank turns to a firing: half the strokes.
func cycle(c *Case) ring.Cycle { return ring.Cycle(c.Int("strokes") / 2) }

// crank is the plain crank of a row that gives its throw or its stroke.
func crank(c *Case) (ring.Piston, error) {
	if c.Has("stroke") {
		return ring.NewCrank(c.Length("stroke")/2, c.Length("rod"))
	}
	return ring.NewCrank(c.Length("throw"), c.Length("rod"))
}

// numbered is a ring with no. 1 at the top, clockwise from the cockpit, that turns
// with its numbers (sense +1) or against them (−1).
func numbered(n, sense int) (ring.Ring, error) {
	turns := ring.Clockwise
	if sense == -1 {
		turns = ring.Anticlockwise
	}
	return ring.New(ring.Layout{Cylinders: n, Seen: ring.FromCockpit, Numbered: ring.Clockwise, Turns: turns})
}

func order(c *Case, sense int) Answer {
	r, err := numbered(c.Int("cylinders"), sense)
	if err != nil {
		return is(nil, err)
	}
	order, err := r.FiringOrder(1)
	return is(strings.Trim(strings.ReplaceAll(fmt.Sprint(order), " ", "-"), "[]"), err)
}

func camTurn(c *Case, name string) ring.CamTurn {
	switch c.Text(name) {
	case "same":
		return ring.WithShaft
	case "opposite":
		return ring.AgainstShaft
	}
	return 0
}

// linkage is the rods of a row. One knuckle radius, link or knuckle angle serves all
// the cylinders; a list has one for each.
func linkage(c *Case) (ring.Linkage, error) {
	n, master := c.Int("cylinders"), c.Int("master_cylinder")
	sense := c.Int("rotation_vs_numbering")
	rods := ring.Rods{Throw: c.Length("throw"), MasterRod: c.Length("master_rod"), Master: master, Links: make([]ring.Link, n)}
	if c.Has("axis") { // not a ring
		rods.Axes = c.Angles("axis")
	} else {
		r, err := numbered(n, sense)
		if err != nil {
			return ring.Linkage{}, err
		}
		if rods.Axes, err = r.Axes(master); err != nil {
			return ring.Linkage{}, err
		}
	}
	pick := func(list []quantity.Length, i int) quantity.Length {
		if len(list) == 1 {
			return list[0]
		}
		return list[i]
	}
	radii, lengths := c.Lengths("knuckle_radius"), c.Lengths("link_rod")
	var knuckles []quantity.Angle
	if c.Has("knuckle_deg") || c.Has("knuckle") {
		knuckles = c.Angles("knuckle_deg")
	}
	if c.err != nil {
		return ring.Linkage{}, c.err
	}
	for i := range rods.Links {
		rods.Links[i] = ring.Link{Knuckle: pick(radii, i), Length: pick(lengths, i)}
		if knuckles != nil {
			rods.Links[i].Offset = knuckles[i] - rods.Axes[i]
		}
	}
	return ring.NewLinkage(rods)
}

// eachPiston answers with one figure for each cylinder, 1 to N.
func eachPiston(figure func(ring.Piston) any) func(*Case) Answer {
	return func(c *Case) Answer {
		l, err := linkage(c)
		var list parts
		for _, p := range l.Pistons() {
			list = append(list, figure(p))
		}
		return is(list, err)
	}
}

func eachTop(figure func(ring.DeadCentre) any) func(*Case) Answer {
	return eachPiston(func(p ring.Piston) any { return figure(p.Top()) })
}

func eachBottom(figure func(ring.DeadCentre) any) func(*Case) Answer {
	return eachPiston(func(p ring.Piston) any { return figure(p.Bottom()) })
}

// travels are the quantities whose name holds an angle: the travel below its own top
// of each cylinder at so many degrees before that top or before the even position.
func travels(c *Case) Answer {
	var n quantity.Angle
	for _, way := range []struct {
		suffix string
		travel func(ring.Piston) any
	}{
		{"deg_before_own_tdc", func(p ring.Piston) any { return p.BeforeTop(n) }},
		{"deg_before_even_position", func(p ring.Piston) any { return p.BeforeEven(n) }},
	} {
		if _, err := fmt.Sscanf(c.Quantity, "travel_below_own_top_at_%g"+way.suffix, (*float64)(&n)); err == nil {
			return eachPiston(way.travel)(c)
		}
	}
	return is(nil, fmt.Errorf("no quantity %q", c.Quantity))
}
