package wear

import (
	"slices"
	"strconv"

	"linkrod/radial/quantity"
)

// Station is one place along a bore, a skirt or a pin, measured across two axes at right
// angles. Both are needed: a bore worn oval has one good diameter.
type Station struct {
	Where string // "top of ring travel", as the sheet calls it
	A, B  quantity.Measured
}

// check looks at the readings, which are called by the station's own name or the one given.
func (s Station) check(name string) error {
	if s.Where != "" {
		name = s.Where
	}
	return first(size(name+", A", s.A), size(name+", B", s.B))
}

// OutOfRound is how oval the part is at this station: |A − B|.
func (s Station) OutOfRound() (quantity.Measured, error) {
	if err := s.check("station"); err != nil {
		return quantity.Measured{}, err
	}
	d, err := minus(s.A, s.B)
	return abs(d), err
}

// Mean is (A + B)/2.
func (s Station) Mean() (quantity.Measured, error) {
	if err := s.check("station"); err != nil {
		return quantity.Measured{}, err
	}
	sum, err := plus(s.A, s.B)
	if err != nil {
		return sum, err
	}
	return times(sum, half)
}

// Taper is the mean at the top less the mean at the bottom. Above 0 the head end is the
// larger, as wear leaves it; below 0 it is the smaller, which is choke.
func Taper(top, bottom Station) (quantity.Measured, error) {
	t, err := top.Mean()
	if err != nil {
		return t, err
	}
	b, err := bottom.Mean()
	if err != nil {
		return b, err
	}
	return minus(t, b)
}

// Choke is Taper with the other sign: how much smaller the head end is. Makers who choke a
// barrel give it in this sense.
func Choke(top, bottom Station) (quantity.Measured, error) { return Taper(bottom, top) }

// Wear is how much larger the largest reading is than the nominal size: the oversize, for
// a barrel that was ground to one. Below 0 the part is smaller than it was made, which no
// wear does to a bore.
func Wear(largest, nominal quantity.Measured) (quantity.Measured, error) {
	if err := first(size("largest reading", largest), size("nominal size", nominal)); err != nil {
		return quantity.Measured{}, err
	}
	return minus(largest, nominal)
}

// Stations are those of one part, from the head end down.
type Stations []Station

// Shape is what the stations of a part say of it. What one station cannot say is not given.
type Shape struct {
	Least, Most  quantity.Measured // of all the readings
	OutOfRound   quantity.Measured // the worst
	OutAt        int               // the station of it, counted from 0
	Taper        quantity.Measured // first station less last: below 0 is choke
	Cylindricity quantity.Measured // the worse axis
}

// Shape is the part's shape. Every station needs both its readings; one station alone has
// no taper and no cylindricity.
func (list Stations) Shape() (Shape, error) {
	if len(list) == 0 {
		return Shape{}, problem("stations", "No station is measured. Measure at least the top of ring travel and the skirt, across two axes.")
	}
	var a, b []quantity.Measured
	var s Shape
	for i, st := range list {
		if err := st.check("station " + strconv.Itoa(i+1)); err != nil {
			return Shape{}, err
		}
		a, b = append(a, st.A), append(b, st.B)
		oval, err := st.OutOfRound()
		if err != nil {
			return Shape{}, err
		}
		if !s.OutOfRound.Given() || more(oval, s.OutOfRound) {
			s.OutOfRound, s.OutAt = oval, i
		}
	}
	s.Least, s.Most = ends(slices.Concat(a, b))
	if len(list) == 1 {
		return s, nil
	}
	var err error
	if s.Taper, err = Taper(list[0], list[len(list)-1]); err != nil {
		return Shape{}, err
	}
	alongA, err := along(a)
	if err != nil {
		return Shape{}, err
	}
	alongB, err := along(b)
	if err != nil {
		return Shape{}, err
	}
	s.Cylindricity = alongA
	if more(alongB, alongA) {
		s.Cylindricity = alongB
	}
	return s, nil
}

// along is the largest reading along one axis less the smallest.
func along(axis []quantity.Measured) (quantity.Measured, error) {
	least, most := ends(axis)
	return minus(most, least)
}
