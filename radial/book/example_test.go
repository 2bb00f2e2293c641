package book_test

import (
	"fmt"
	"os"

	"linkrod/radial/book"
)

// The DEMO engine that stood for five weeks, invented.
func ExampleOpen() {
	data, err := os.ReadFile("../../testdata/demo/e2.json")
	if err != nil {
		fmt.Println(err)
		return
	}
	demo, err := book.ReadFixture(data)
	if err != nil {
		fmt.Println(err)
		return
	}
	v := book.Open(demo.Records()).View(demo.Book, book.Now{})
	fmt.Println(v.Headline)
	fmt.Println(v.Missing.Words + ". " + v.Missing.Verdict.Word + ": " + v.Missing.Verdict.Reason)
	// Output:
	// 34 days standing
	// 1 qt has left the tank. At edge: Look from 0.5 qt, stop above 1.5 qt.
}
