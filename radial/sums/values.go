package sums

import (
	"strings"

	"linkrod/radial/civil"
	"linkrod/radial/quantity"
)

// What the work reads. A box that is empty is the zero value; has tells it from nought.

func (p *Page) has(name string) bool { return p.reading(name).ok }

func (p *Page) of(name string) quantity.Measured { return p.reading(name).value }

func (p *Page) length(name string) quantity.Length { v, _ := p.of(name).Length(); return v }

func (p *Page) torque(name string) quantity.Torque { v, _ := p.of(name).Torque(); return v }

func (p *Page) angle(name string) quantity.Angle { v, _ := p.of(name).Angle(); return v }

func (p *Page) volume(name string) quantity.Volume { v, _ := p.of(name).Volume(); return v }

func (p *Page) speed(name string) quantity.Speed { v, _ := p.of(name).Speed(); return v }

func (p *Page) power(name string) quantity.Power { v, _ := p.of(name).Power(); return v }

func (p *Page) pressure(name string) quantity.Pressure { v, _ := p.of(name).Pressure(); return v }

func (p *Page) force(name string) quantity.Force { v, _ := p.of(name).Force(); return v }

func (p *Page) hours(name string) quantity.Hours { v, _ := p.of(name).Hours(); return v }

func (p *Page) temperature(name string) quantity.Temperature {
	v, _ := p.of(name).Temperature()
	return v
}

func (p *Page) mass(name string) quantity.Mass { v, _ := p.of(name).Mass(); return v }

func (p *Page) number(name string) float64 { return p.reading(name).number.Float64() }

// count is a whole number; what is beyond counting is a thousand million, which every
// package refuses.
func (p *Page) count(name string) int {
	v := p.number(name)
	return int(max(-1e9, min(1e9, v)))
}

func (p *Page) chosen(name string) string {
	if !p.has(name) {
		return ""
	}
	return p.reading(name).typed
}

func (p *Page) text(name string) string { return strings.TrimSpace(p.reading(name).typed) }

func (p *Page) day(name string) civil.Day { return p.reading(name).day }
