package book_test

import (
	"fmt"
	"os"

	"linkrod/radial/book"
)

// The DEMO engine that stood for three weeks, invented.
func ExampleOpen() {
	data, err := os.ReadFile("../../testdata/demo/e1.json")
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
	// 22 days standing
	// 1.5 qt has left the tank. Can't judge: No limit on file. Add the page it stands on.
}
