package quantity

// hpW is one mechanical horsepower in watts, 745.69987158227022, exactly.
const hpW = 550 * 12 * inchLbNm

// Power is a power in horsepower of 550 ft·lbf/s, the one on these engines'
// plates. The metric horsepower (PS, cv) of 75 kgf·m/s is 1.4 per cent less and
// stands on some others.
type Power float64

// Units of power.
const (
	Horsepower       Power = 1
	Kilowatt         Power = 1000 / hpW
	MetricHorsepower Power = 75 * gravity / hpW
)

// Horsepower is the power in mechanical horsepower.
func (p Power) Horsepower() float64 { return float64(p) }

// Kilowatts is the power in kilowatts.
func (p Power) Kilowatts() float64 { return float64(p) * hpW / 1000 }

// MetricHorsepower is the power in metric horsepower.
func (p Power) MetricHorsepower() float64 { return float64(p / MetricHorsepower) }

// Power is the value as a Power. It refuses another kind of quantity.
func (m Measured) Power() (Power, error) { v, err := m.float(DimPower); return Power(v), err }

// SpecificConsumption is what is used by power and time, in pounds per
// horsepower hour. Makers state ceilings for oil and guarantees for fuel in it.
type SpecificConsumption float64

// Units of consumption by power.
const (
	PoundPerHorsepowerHour SpecificConsumption = 1
	GramPerKilowattHour    SpecificConsumption = hpW / 1000 / (1000 * poundKg)
)

// PoundsPerHorsepowerHour is the consumption in lb/hp·h.
func (c SpecificConsumption) PoundsPerHorsepowerHour() float64 { return float64(c) }

// GramsPerKilowattHour is the consumption in g/kWh.
func (c SpecificConsumption) GramsPerKilowattHour() float64 { return float64(c / GramPerKilowattHour) }

// SpecificConsumption is the value as a SpecificConsumption. It refuses another
// kind of quantity.
func (m Measured) SpecificConsumption() (SpecificConsumption, error) {
	v, err := m.float(DimSpecific)
	return SpecificConsumption(v), err
}
