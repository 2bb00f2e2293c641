package torque

import (
	"strconv"

	"linkrod/radial/quantity"
)

// mostNuts is more than stand on any one flange of these engines.
const mostNuts = 64

// CrissCross is an order in which to tighten n fasteners evenly spaced on a circle and
// numbered round it. Each comes opposite the one before, or as nearly as an odd number
// allows, and each pair as far as can be from the pairs already drawn down:
//
//	 8   1 5 3 7 2 6 4 8
//	12   1 7 4 10 2 8 5 11 3 9 6 12
//	 5   1 3 5 2 4
//
// For 4, 8, 12 and 16 it is the cross pattern of ASME PCC-1 (from memory). Common
// practice; the maker's own sequence comes before it.
func CrissCross(n int) ([]int, error) {
	if n < 1 || n > mostNuts {
		return nil, problem("fasteners", "There are ", strconv.Itoa(n), " fasteners. It must be from 1 to ", strconv.Itoa(mostNuts), ".")
	}
	if n%2 == 1 {
		return spread(n), nil
	}
	// Even: spread the diameters, and take both ends of each.
	order := make([]int, 0, n)
	for _, k := range spread(n / 2) {
		order = append(order, k, k+n/2)
	}
	return order, nil
}

// spread is the places 1 to n of a circle, each as far as can be from all before it, then
// from the last, then the lowest.
func spread(n int) []int {
	order := []int{1}
	for len(order) < n {
		best, bestNear, bestLast := 0, -1, -1
		for k := 1; k <= n; k++ {
			near := n
			for _, done := range order {
				near = min(near, apart(k, done, n))
			}
			last := apart(k, order[len(order)-1], n)
			if near > bestNear || near == bestNear && last > bestLast {
				best, bestNear, bestLast = k, near, last
			}
		}
		order = append(order, best)
	}
	return order
}

// apart is how many places lie between a and b, the shorter way round n.
func apart(a, b, n int) int {
	d := (a - b + n) % n
	return min(d, n-d)
}

// Pass is once round all the fasteners.
type Pass struct {
	Torque quantity.Torque
	Order  []int
	Round  bool // the last look: one after another round the circle
}

// Passes is how a ring of n nuts is drawn down: criss-cross at each stage, then once more
// round at the last torque to see that none still moves. The first two of the first pass
// stand opposite each other and seat the part; go on only when it sits square. Hold each
// nut a few seconds, longer where a gasket gives. The first nuts go slack as the others
// come up, which is what the last pass is for.
//
// The stages must rise and end with the torque wanted. Source: US Navy training text
// 14008 for holding where a gasket gives; the order and the last pass, common practice.
// The maker's sequence and stages come before these.
func Passes(n int, stages ...quantity.Torque) ([]Pass, error) {
	order, err := CrissCross(n)
	if err != nil {
		return nil, err
	}
	if len(stages) == 0 {
		return nil, problem("stages", "No stage is given. Give at least the final torque.")
	}
	var passes []Pass
	for i, t := range stages {
		stage := "stage " + strconv.Itoa(i+1)
		if err := aboveTorque(stage, t); err != nil {
			return nil, err
		}
		if i > 0 && t <= stages[i-1] {
			return nil, problem(stage, "Stage ", strconv.Itoa(i+1), " is ", shown(t), " and the one before ", shown(stages[i-1]), ". Each must be more than the one before.")
		}
		passes = append(passes, Pass{Torque: t, Order: order})
	}
	round := make([]int, n)
	for i := range round {
		round[i] = i + 1
	}
	return append(passes, Pass{Torque: stages[len(stages)-1], Order: round, Round: true}), nil
}

// Stages is a final torque in stages of so many per cent, such as 50, 75 and 100. They
// must rise and end with 100. Common practice, no source; a sheet that names its own
// stages is followed.
func Stages(final quantity.Torque, percents ...int) ([]quantity.Torque, error) {
	if err := aboveTorque("final torque", final); err != nil {
		return nil, err
	}
	var stages []quantity.Torque
	last := 0
	for _, p := range percents {
		if p <= last || p > 100 {
			break
		}
		stages, last = append(stages, final*quantity.Torque(p)/100), p
	}
	if len(stages) != len(percents) || last != 100 {
		return nil, problem("stages", "The stages must rise from above 0 and end with 100 per cent, such as 50, 75, 100.")
	}
	return stages, nil
}
