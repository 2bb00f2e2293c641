package sums

import "linkrod/radial/due"

var meterChange = sum{
	id: "meter-change", title: "Hours across a meter change", drawing: "meters",
	what: "Hours run, and the total, when the hour meter was changed on the way.",
	fields: []field{
		{name: "start", label: "Meter at the start", units: times},
		{name: "total", is: "total hours", label: "Total hours at the start", units: times, without: "Total at the start not known: hours since then only. Unknown is not nought."},
		{name: "out", is: "change 1", label: "Old meter came off at", units: times, without: "No meter change given."},
		{name: "in", label: "New meter went on at", units: times, with: "out"},
		{name: "out2", is: "change 2", label: "Second meter came off at", units: times, with: "out", without: "No second change given."},
		{name: "in2", label: "Third meter went on at", units: times, with: "out2"},
		{name: "now", is: "present hours", label: "Meter now", units: times},
	},
	source:   "(out − start) + (now − in): each meter counted while it was fitted. Common practice, no source.",
	cautions: []string{"A part's hours are at least those on record; what is not known is not nought."},
	work: func(p *Page) error {
		m := due.Meters{Start: p.of("start"), Total: p.of("total")}
		formula := "{now} − {start}"
		if p.has("out") {
			m.Changes = append(m.Changes, due.Change{Out: p.of("out"), In: p.of("in")})
			formula = "({out} − {start}) + ({now} − {in})"
		}
		if p.has("out2") {
			m.Changes = append(m.Changes, due.Change{Out: p.of("out2"), In: p.of("in2")})
			formula = "({out} − {start}) + ({out2} − {in}) + ({now} − {in2})"
		}
		run, err := m.Since(p.of("now"))
		if err != nil {
			return err
		}
		p.exact("Run since the start", run)
		p.line(formula + " = {=}")
		total, err := m.TotalAt(p.of("now"))
		if err != nil {
			return err
		}
		if total.Given() {
			p.exact("Total", total)
			p.line("{total} + that = {=}")
		}
		p.drawHours("run", run)
		return nil
	},
}
