package checks

import (
	"fmt"
	"strings"

	"linkrod/radial/ignition"
	"linkrod/radial/quantity"
)

func init() {
	answers("3_slider_crank", table{
		"tdc_by_positive_stop": func(c *Case) Answer {
			return is(ignition.Halve(c.Angle("stop_before_tdc_disc"), c.Angle("stop_after_tdc_disc")))
		},
	})

	answers("6_ignition", table{
		"compensated_cam_lobe_angles": func(c *Case) Answer {
			l, err := linkage(c)
			if err != nil {
				return is(nil, err)
			}
			r, err := numbered(c.Int("cylinders"), c.Int("rotation_vs_numbering"))
			if err != nil {
				return is(nil, err)
			}
			// Neither the advance nor the timing cylinder moves a lobe against the others.
			t, err := ignition.New(ignition.Maker{Ring: r, Rods: l, Cylinder: l.Master(), Cam: ignition.Compensated})
			if err != nil {
				return is(nil, err)
			}
			var at []quantity.Angle
			var order []string
			for _, lobe := range t.Lobes() {
				at = append(at, lobe.At)
				order = append(order, fmt.Sprint(lobe.Cylinder))
			}
			if got, want := strings.Join(order, "-"), c.Text("serving_order"); got != want {
				return is(nil, fmt.Errorf("serving order %s, want %s", got, want))
			}
			return just(at)
		},
		"back_off_before_timing": func(c *Case) Answer {
			if rule := c.Text("rule"); rule != "one-fourth turn against rotation" {
				return is(nil, fmt.Errorf("no rule %q", rule))
			}
			return just(ignition.BackOff)
		},
	})
}
