package quantity

// psiPa is one pound per square inch in pascals, 6894.757293168…, exactly.
const psiPa = poundN / (inchM * inchM)

// Pressure is a pressure in pounds per square inch. Whether it is absolute or
// above the atmosphere is for the caller to say: manifold pressure in inches of
// mercury is absolute, oil pressure and the compression tester are not.
//
// All units but one are exact. The inch of mercury is the conventional one,
// mercury at 0 °C, 3386.389 Pa as rounded in NIST SP 811; tables that print
// 3376.8 mean mercury at 60 °F and are 0.3 per cent lower; InchOfMercury60F is
// that one, 3376.85 Pa in the same publication, and no reading is kept in it.
type Pressure float64

// Units of pressure.
const (
	PSI                              Pressure = 1
	InchOfMercury                    Pressure = 3386.389 / psiPa
	InchOfMercury60F                 Pressure = 3376.85 / psiPa
	Pascal                           Pressure = 1 / psiPa
	Hectopascal                      Pressure = 100 / psiPa
	Kilopascal                       Pressure = 1000 / psiPa
	Bar                              Pressure = 100000 / psiPa
	KilogramForcePerSquareCentimetre Pressure = 10000 * gravity / psiPa
	Atmosphere                       Pressure = 101325 / psiPa
)

// PSI is the pressure in pounds per square inch.
func (p Pressure) PSI() float64 { return float64(p) }

// InchesOfMercury is the pressure in conventional inches of mercury.
func (p Pressure) InchesOfMercury() float64 { return float64(p / InchOfMercury) }

// Pascals is the pressure in pascals.
func (p Pressure) Pascals() float64 { return float64(p) * psiPa }

// Hectopascals is the pressure in hectopascals, which are millibars.
func (p Pressure) Hectopascals() float64 { return float64(p) * psiPa / 100 }

// Kilopascals is the pressure in kilopascals.
func (p Pressure) Kilopascals() float64 { return float64(p) * psiPa / 1000 }

// Bar is the pressure in bar.
func (p Pressure) Bar() float64 { return float64(p) * psiPa / 100000 }

// KilogramsForcePerSquareCentimetre is the pressure in kgf/cm².
func (p Pressure) KilogramsForcePerSquareCentimetre() float64 {
	return float64(p / KilogramForcePerSquareCentimetre)
}

// Atmospheres is the pressure in standard atmospheres.
func (p Pressure) Atmospheres() float64 { return float64(p) * psiPa / 101325 }

// Pressure is the value as a Pressure. It refuses another kind of quantity.
func (m Measured) Pressure() (Pressure, error) {
	v, err := m.float(DimPressure)
	return Pressure(v), err
}
