package oil

import (
	"math"

	"linkrod/radial/quantity"
)

// ByPower is oil used by power and time, as makers state ceilings:
//
//	lb/hp·h = rate in qt/h × lb to the gallon / 4 / hp
func ByPower(rate quantity.OilRate, p quantity.Power, d Density) (quantity.SpecificConsumption, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	if !(rate >= 0) || math.IsInf(float64(rate), 0) {
		return 0, &quantity.Problem{Field: "rate", Sentence: "The rate is " + quantity.Computed(rate.QuartsPerHour(), 2, quantity.UnitQtPerH) + ". It must be 0 or more."}
	}
	if !(p > 0) || math.IsInf(float64(p), 0) {
		return 0, powerless(p)
	}
	return quantity.SpecificConsumption(d.Mass(quantity.Quart).Pounds() * rate.QuartsPerHour() / p.Horsepower()), nil
}

// RateByPower is the rate that a consumption by power is at a power, the inverse of
// ByPower. 0.006 lb/hp·h at 300 hp and 7.4 lb to the gallon is 0.97 qt/h: the formula of a
// maker of opposed engines, on a radial a line to look at and no limit.
func RateByPower(c quantity.SpecificConsumption, p quantity.Power, d Density) (quantity.OilRate, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	if !(c >= 0) || math.IsInf(float64(c), 0) {
		return 0, &quantity.Problem{Field: "consumption", Sentence: "The consumption is " + quantity.Computed(float64(c), 4, quantity.UnitLbPerHpH) + ". It must be 0 or more."}
	}
	if !(p > 0) || math.IsInf(float64(p), 0) {
		return 0, powerless(p)
	}
	return quantity.OilRate(c.PoundsPerHorsepowerHour() * p.Horsepower() / d.Mass(quantity.Quart).Pounds()), nil
}

// RateByMass is the rate at which so much oil is used in an hour, as makers' tables state it:
// 1 lb/h at 7.2 lb to the gallon is 0.56 qt/h. State the density with the figure; the same
// maker's formula and table differ by 3 per cent for want of it.
func RateByMass(perHour quantity.Mass, d Density) (quantity.OilRate, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	if !(perHour >= 0) || math.IsInf(float64(perHour), 0) {
		return 0, &quantity.Problem{Field: "oil an hour", Sentence: "The oil used in an hour is " + quantity.Computed(perHour.Pounds(), 2, quantity.UnitLb) + ". It must be 0 or more."}
	}
	return quantity.OilRate(d.Volume(perHour).Quarts()), nil
}

func powerless(p quantity.Power) error {
	return &quantity.Problem{Field: "power", Sentence: "The power is " + quantity.Computed(p.Horsepower(), 1, quantity.UnitHp) + ". It must be more than 0."}
}
