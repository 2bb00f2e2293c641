// Package checks runs tables of outside values against the product.
//
// A table (testdata/checks/*.csv) has one line per value: id, topic, quantity,
// inputs, expected, unit, tolerance, source, status, where. Its README says where
// each came from. Nothing here computes an answer. A file of this package, one per
// package of radial, names for each topic and quantity the function of the product
// that answers it:
//
//	func init() {
//		answers("2_power", table{
//			"bmep_from_rating": func(c *Case) Answer {
//				return is(ring.BMEP(c.Power("bhp"), c.Volume("displacement"), c.Speed("rpm")))
//			},
//		})
//	}
//
// How a line is read:
//
//   - an input is found by the name before its unit: c.Length("bore") takes
//     bore_in=5.5, bore_mm=146 or bore=5.5 in. The unit is turned by
//     radial/quantity, never here.
//   - every input of the line must be asked for, or named in c.Aside. What is not
//     asked for would be a line that passes without being understood.
//   - the answer keeps its type (quantity.Volume); it is turned into the unit
//     column through radial/quantity. A length for a line in cubic inches fails.
//   - several values stand in a list, 1..N, with blanks between, or as parts with
//     semicolons between.
//
// What fails: a line that cannot be read, an input nobody asked for, an answer
// outside the tolerance, a topic or quantity that nobody answers and that is not
// named in skipped. Run it with -v for the counts by topic, and with
//
//	go test ./radial/checks -tables DIR
//
// against other tables of the same kind.
package checks
