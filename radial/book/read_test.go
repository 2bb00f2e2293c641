package book

import (
	"os"
	"testing"

	"linkrod/sync/plain"
)

// FuzzRead: entries as they lie in storage, and a demo engine's file. What is read makes a
// book; what is not is refused with a sentence.
func FuzzRead(f *testing.F) {
	demo, err := os.ReadFile("../../testdata/demo/e1.json")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(demo)
	f.Add([]byte(`{"entry":{"device":"aa","n":1,"kind":"fact","refs":[{"device":"bb","n":2}],"body":"e30=","seen":0,"clock":{"wall":1,"zone":60}},"seq":1,"author":"x"}`))
	f.Add([]byte(`{"entry":{"device":"aa","n":0,"body":"e30="}}`))
	f.Add([]byte(`{"entry":[],"seq":-1}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		if fixture, err := ReadFixture(data); err == nil {
			Open(fixture.Records())
		} else if _, ok := err.(Wrong); !ok {
			t.Errorf("the error %T is no sentence: %v", err, err)
		}
		v, err := plain.Parse(data)
		if err != nil {
			return
		}
		r, err := ReadRecord(v)
		if err != nil {
			if _, ok := err.(Wrong); !ok {
				t.Errorf("the error %T is no sentence: %v", err, err)
			}
			return
		}
		if r.Entry.N < 1 || r.Entry.Device == "" {
			t.Errorf("%s is read as %+v", data, r)
		}
		Open([]Record{r}).View("00", Now{})
	})
}
