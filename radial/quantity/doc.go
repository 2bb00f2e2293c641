/*
Package quantity is what every figure in a book is made of: an exact decimal as
it was typed, its unit, and the words that say it back. It takes 5 1/4 and 8 thou
from a thumb on glass, keeps them as they are, compares them with a limit without
rounding anything, and says "eight thou, 0.008 inch, 0.20 millimetre", so that a
wrong unit is heard before it is saved.

# Two kinds of value

A reading is a [Measured]: a [Decimal] and a [Unit], exactly as given. It is what
is stored, sent, echoed and compared. 26.5 qt and 26.50 qt are equal and yet two
different readings, because the places say how finely the stick was read.

A quantity to calculate with is a float with a name: [Length], [Volume], [Torque],
[Pressure], [Temperature], [TemperatureDifference], [Speed], [Angle], [Power],
[Mass], [Force], [Area], [Hours], [OilRate] and [SpecificConsumption]. Units are constants
of the type and conversions are methods, so 15*Quart is a Volume, its Litres() is
a number, and adding a length to a torque does not compile. Measured.Volume and
its like lead from the first kind to the second. Nothing leads back but a person
or a figure shown as computed.

A temperature is a point and a temperature difference is not, so they are two
types: 50 °F is 10 °C, and a rise of 50 F° is a rise of 27.8 C°.

# What is exact

Every conversion is a quotient of whole numbers that follows from definitions:

	1 in       = 25.4 mm                      yard and pound agreement, 1959
	1 lb       = 0.45359237 kg                the same
	1 US gal   = 231 cu in, 4 qt, 128 fl oz   NIST SP 811 App. B, Handbook 44 App. C
	1 imp gal  = 4.54609 L, 4 qt, 160 fl oz   UK Weights and Measures Act 1985, Sch. 1
	g          = 9.80665 m/s²                 3rd CGPM, 1901 (for lbf and kgf)
	1 hp       = 550 ft·lbf/s                 NIST SP 811 App. B
	1 PS       = 75 kgf·m/s                   NIST SP 811 App. B
	1 atm      = 101 325 Pa                   10th CGPM, 1954
	t/°F       = 1.8 t/°C + 32                NIST SP 811 App. B

One is a rounded figure by nature: the inch of mercury, taken as the conventional
3386.389 Pa of NIST SP 811 (mercury at 0 °C). Unit.Exact and Unit.Source say it
for each unit.

So [Compare] is exact across units, on whole numbers of up to 384 bits: 300 in-lb
equals 25 ft-lb, and a reading equal to a maximum is not over it. Converting a
reading is another matter. 1 qt is 0.946352946 L, to the last digit; 1 L is
1.0566882… qt and never ends. Measured.Exactly converts where the figure ends and
refuses where it does not; Measured.Rounded rounds and says whether it had to.
Decimal arithmetic is exact or refused. It never wraps.

The floats are as good as float64: a conversion is within three roundings, a
few parts in 10^16, which for a 5-inch bore is less than a millionth of a
millionth of a millimetre. Counted in its base unit a value is not touched at
all. Angles are degrees for that reason; radians are a rounding away, and 1.5
degrees to radians and back is 1.5000000000000002. A float is never stored,
signed or compared with a limit.

# What people type

[Parse] reads a text for a box that is kept in some unit, and [ParseSaid] one where
the unit has to be typed, as it has for torque. They never guess. 1,500 can be one
and a half or fifteen hundred, a quart on an imperial engine can be either quart,
and 300 can be inch pounds or foot pounds: each is refused with the ways it could
be meant. Every refusal is a [Refusal], a sentence for the person who typed.

# What is shown and said

Show keeps a reading as typed. [Figure] and [Computed] round a computed figure for
the eye: a leading zero, no trailing zeros on a whole number, a thin space before
the unit, the real minus sign. Torque is always shown in inch pounds and foot
pounds, thousandths always in inches as well. Words says a reading as on the
telephone. A rounded figure is for showing; it is never compared.

Quart, gallon, pint and fluid ounce alone are the US ones throughout.
*/
package quantity
