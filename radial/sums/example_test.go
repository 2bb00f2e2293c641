package sums_test

import (
	"fmt"

	"linkrod/radial/sums"
	"linkrod/sync/plain"
)

func ExampleWork() {
	for _, wanted := range []string{"435 in-lb", "435"} {
		p, _ := sums.Work("torque-wrench", sums.Typed{Text: map[string]string{"wanted": wanted, "lever": "11", "adapter": "3 1/4"}})
		var w plain.Writer
		p.Write(&w)
		page, _ := plain.Parse(w.Bytes())
		fmt.Println(page.Get("share").Text() + page.Get("fields").Items()[0].Get("problem").Text())
	}
	// Output:
	// Torque with this wrench: torque wanted 435 in-lb, lever 11 in, adapter 3.25 in. Set the wrench to 335.8 in-lb.
	// 435 of what? Inch pounds or foot pounds. Twelve times apart.
}
