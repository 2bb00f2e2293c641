package quantity

// Temperature is a point on the scale, in degrees Fahrenheit. Two of them do not
// add; their difference is a TemperatureDifference, which is another type,
// because the 32 degrees between the zeros of the two scales belong to points
// only. A rise of 50 F° is a rise of 27.8 C°; 50 °F is 10 °C.
//
// t/°F = 1.8 t/°C + 32, exact (NIST SP 811, App. B).
type Temperature float64

// Fahrenheit is the temperature of t degrees Fahrenheit.
func Fahrenheit(t float64) Temperature { return Temperature(t) }

// Celsius is the temperature of t degrees Celsius.
func Celsius(t float64) Temperature { return Temperature(t*9/5 + 32) }

// Fahrenheit is the temperature in degrees Fahrenheit.
func (t Temperature) Fahrenheit() float64 { return float64(t) }

// Celsius is the temperature in degrees Celsius.
func (t Temperature) Celsius() float64 { return (float64(t) - 32) * 5 / 9 }

// Above is how far t lies above u, less than nothing if it lies below.
func (t Temperature) Above(u Temperature) TemperatureDifference {
	return TemperatureDifference(t - u)
}

// Plus is the temperature that lies d above t.
func (t Temperature) Plus(d TemperatureDifference) Temperature { return t + Temperature(d) }

// TemperatureDifference is a rise or fall in Fahrenheit degrees.
type TemperatureDifference float64

// Units of temperature difference. A kelvin and a Celsius degree are the same.
const (
	FahrenheitDegree TemperatureDifference = 1
	CelsiusDegree    TemperatureDifference = 9.0 / 5
)

// FahrenheitDegrees is the difference in Fahrenheit degrees.
func (d TemperatureDifference) FahrenheitDegrees() float64 { return float64(d) }

// CelsiusDegrees is the difference in Celsius degrees, which are kelvins.
func (d TemperatureDifference) CelsiusDegrees() float64 { return float64(d) * 5 / 9 }

// Temperature is the value as a Temperature. It refuses another kind of
// quantity, a difference included.
func (m Measured) Temperature() (Temperature, error) {
	v, err := m.float(DimTemperature)
	return Temperature(v), err
}

// TemperatureDifference is the value as a difference. It refuses another kind of
// quantity, a temperature included.
func (m Measured) TemperatureDifference() (TemperatureDifference, error) {
	v, err := m.float(DimDifference)
	return TemperatureDifference(v), err
}
