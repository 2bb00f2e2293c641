package wear

import (
	"math"

	"linkrod/radial/quantity"
)

// Clearance is the smallest hole less the largest shaft: what is left between two parts
// that were measured at one temperature. Below 0 it is the interference of a tight fit.
func Clearance(hole, shaft quantity.Measured) (quantity.Measured, error) {
	if err := first(size("hole", hole), size("shaft", shaft)); err != nil {
		return quantity.Measured{}, err
	}
	return minus(hole, shaft)
}

// Part is a part as it was measured.
type Part struct {
	Size        quantity.Measured
	Temperature quantity.Measured // of the part itself, not of the room; not given is not known
	Expands     Expansion
}

// Fit is two parts that go into one another.
type Fit struct{ Hole, Shaft Part }

// Soaked is the most that a difference of temperature between the parts may put into
// their clearance before it is refused: a tenth of a thou, as fine as it is read.
const Soaked = quantity.Tenth

// Clearance is the clearance as measured, exact, and whether both temperatures were on
// file to show that it means something. It refuses parts whose difference of temperature
// alone makes more than a tenth of a thou: they are left side by side and measured again.
func (f Fit) Clearance() (c quantity.Measured, known bool, err error) {
	c, err = Clearance(f.Hole.Size, f.Shaft.Size)
	if err != nil || !f.Hole.Temperature.Given() || !f.Shaft.Temperature.Given() {
		return c, false, err
	}
	hole, shaft, err := f.temperatures()
	if err != nil || hole == shaft {
		return c, err == nil, err
	}
	size, err := f.Shaft.Size.Length()
	if err := first(err, f.Shaft.Expands.check("shaft")); err != nil {
		return quantity.Measured{}, false, err
	}
	off := Growth(size, f.Shaft.Expands, hole.Above(shaft))
	if math.Abs(float64(off)) > float64(Soaked) {
		return quantity.Measured{}, false, problem("temperature", "The hole was measured at ", brief(f.Hole.Temperature), " and the shaft at ", brief(f.Shaft.Temperature),
			": that alone is ", quantity.Computed(math.Abs(off.Thou()), 1, quantity.UnitThou), ". Leave both side by side, the gauge with them, and measure again.")
	}
	return c, true, nil
}

// At is the clearance there would be with both parts at another temperature, for showing:
// each is brought there from its own. The coefficients are good to some 15 per cent and
// so is the change; a limit is compared with what was measured.
func (f Fit) At(t quantity.Temperature) (quantity.Length, error) {
	if _, err := Clearance(f.Hole.Size, f.Shaft.Size); err != nil {
		return 0, err
	}
	hole, shaft, err := f.temperatures()
	if err := first(err, f.Hole.Expands.check("hole"), f.Shaft.Expands.check("shaft"), number("temperature", t)); err != nil {
		return 0, err
	}
	h, _ := f.Hole.Size.Length() // both are lengths: there is a clearance
	s, _ := f.Shaft.Size.Length()
	return h + Growth(h, f.Hole.Expands, t.Above(hole)) - s - Growth(s, f.Shaft.Expands, t.Above(shaft)), nil
}

func (f Fit) temperatures() (hole, shaft quantity.Temperature, err error) {
	if hole, err = f.Hole.Temperature.Temperature(); err != nil {
		return 0, 0, problem("hole temperature", err.Error())
	}
	if shaft, err = f.Shaft.Temperature.Temperature(); err != nil {
		return 0, 0, problem("shaft temperature", err.Error())
	}
	return hole, shaft, nil
}

func number(field string, t quantity.Temperature) error {
	if math.IsNaN(float64(t)) || math.IsInf(float64(t), 0) {
		return problem(field, "The ", field, " is no number.")
	}
	return nil
}
