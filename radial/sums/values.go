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
