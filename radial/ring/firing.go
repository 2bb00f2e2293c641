package ring

import "linkrod/radial/quantity"

// Interval is the crank angle from one firing to the next: 720°/N, since each of the
// N cylinders fires once in two turns.
func (r Ring) Interval() quantity.Angle { return quantity.Angle(720 / float64(r.n)) }

// FiringOrder is the cylinders in the order they fire, beginning with first: every
// second one in the direction of rotation.
//
//	numbered with rotation   1-3-5-7-9-2-4-6-8
//	numbered against it      1-8-6-4-2-9-7-5-3
//
// The sockets of a distributor block are numbered in this order, first spark, second
// spark and so on, and not by cylinder: on a nine, socket 2 serves cylinder 3. Entry
// i is what socket i+1 serves, if socket 1 serves first.
//
// Source: FAA-H-8083-32, firing order, for 5, 7 and 9; the rule behind it follows
// from one firing every two spacings. The numbering of the sockets is common
// practice, no source.
func (r Ring) FiringOrder(firstFired int) ([]int, error) {
	if err := r.has("first cylinder", firstFired); err != nil {
		return nil, err
	}
	order := make([]int, r.n)
	for i := range order {
		order[i] = r.wrap(firstFired + 2*i*int(r.number*r.turns))
	}
	return order, nil
}

// Socket is the socket of a distributor block that serves cylinder k, if socket 1
// serves first.
func (r Ring) Socket(k, servedFirst int) (int, error) {
	order, err := r.FiringOrder(servedFirst)
	if err := first(err, r.has("cylinder", k)); err != nil {
		return 0, err
	}
	socket := 1
	for order[socket-1] != k {
		socket++
	}
	return socket, nil
}
