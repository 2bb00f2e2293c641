package cardtext

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	_ "embed"
	"encoding/hex"
	"slices"
	"strconv"
	"strings"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/santhosh-tekuri/jsonschema/v6/kind"

	"linkrod/radial/card"
)

// Schema is the published shape of a card, JSON Schema draft 2020-12.
//
//go:embed card.schema.json
var Schema []byte

const schemaURL = "https://linkrod.invalid/card.schema.json" // its $id; nothing is fetched

var compiled = compile()

func compile() *jsonschema.Schema {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema))
	if err != nil {
		panic(err)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	if err := c.AddResource(schemaURL, doc); err != nil {
		panic(err)
	}
	return c.MustCompile(schemaURL)
}

// Hash is the SHA-256 of a card's text as written, in hex: what a check and a reading pin.
func Hash(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}

// shape is what the schema has against the card.
func (t Text) shape() []card.Fault {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(t.JSON))
	if err != nil {
		return []card.Fault{{Words: "This text cannot be kept as a card: " + err.Error() + "."}}
	}
	var v *jsonschema.ValidationError
	switch err := compiled.Validate(doc).(type) {
	case nil:
		return nil
	case *jsonschema.ValidationError:
		v = err
	default:
		return []card.Fault{{Words: err.Error()}}
	}
	var faults []card.Fault
	collect(v, &faults)
	return faults
}

// collect goes to the leaves, where the words are. Of several alternatives none of which
// fits, the one is told that fits best: it fails deepest.
func collect(v *jsonschema.ValidationError, faults *[]card.Fault) {
	if len(v.Causes) == 0 {
		words(v, faults)
		return
	}
	causes := v.Causes
	if _, any := v.ErrorKind.(*kind.AnyOf); any {
		best := slices.MaxFunc(causes, func(a, b *jsonschema.ValidationError) int { return cmp.Compare(depth(a), depth(b)) })
		if depth(best) <= len(v.InstanceLocation) {
			say(v, "This is not one of the things that can stand here: a text, or one of the forms in card.schema.json.", faults)
			return
		}
		causes = []*jsonschema.ValidationError{best}
	}
	for _, c := range causes {
		collect(c, faults)
	}
}

// depth is how deep in the card the deepest fault lies.
func depth(v *jsonschema.ValidationError) int {
	d := len(v.InstanceLocation)
	if extra, ok := v.ErrorKind.(*kind.AdditionalProperties); ok {
		return d - len(extra.Properties) + 1
	}
	for _, c := range v.Causes {
		d = max(d, depth(c))
	}
	return d
}

func say(v *jsonschema.ValidationError, sentence string, faults *[]card.Fault, inside ...string) {
	at := ""
	for _, p := range append(slices.Clone(v.InstanceLocation), inside...) {
		at += "/" + escape(p)
	}
	*faults = append(*faults, card.Fault{At: at, Words: sentence})
}

// words is a fault of the schema in a sentence.
func words(v *jsonschema.ValidationError, faults *[]card.Fault) {
	switch k := v.ErrorKind.(type) {
	case *kind.Required:
		for _, m := range k.Missing {
			say(v, "“"+m+"” is missing here.", faults)
		}
	case *kind.AdditionalProperties:
		for _, p := range k.Properties {
			sentence := "“" + p + "” is not a field that can stand here."
			if known := properties(v.SchemaURL); len(known) > 0 {
				if n := nearest(p, known); n != "" {
					sentence += " Is “" + n + "” meant?"
				} else {
					sentence += " Known here: " + strings.Join(known, ", ") + "."
				}
			}
			say(v, sentence, faults, p)
		}
	case *kind.Enum:
		var list []string
		for _, w := range k.Want {
			s, _ := w.(string)
			list = append(list, s)
		}
		got, _ := k.Got.(string)
		say(v, "“"+got+"” is not known here. It is one of: "+strings.Join(list, ", ")+".", faults)
	case *kind.Type:
		say(v, "Here stands "+called(k.Got)+", where "+calledAll(k.Want)+" belongs.", faults)
	case *kind.MinLength:
		say(v, "Nothing stands here. Write what belongs here, or take the line out.", faults)
	case *kind.MinItems:
		say(v, "At least "+strconv.Itoa(k.Want)+" belongs in this list.", faults)
	case *kind.MinProperties:
		say(v, "Nothing is given here. Write what belongs here, or take the line out.", faults)
	case *kind.Minimum:
		say(v, "This is too small: it starts at "+k.Want.RatString()+".", faults)
	case *kind.Pattern:
		say(v, "“"+k.Got+"” cannot be a name here. It is lower-case letters, digits, hyphens and underscores.", faults)
	case *kind.PropertyNames:
		say(v, "“"+k.Property+"” cannot be a key. It is lower-case letters, digits, hyphens and underscores.", faults, k.Property)
	default:
		say(v, "This does not have the shape of a card (see card.schema.json).", faults)
	}
}

func called(kind string) string {
	switch kind {
	case "object":
		return "a group of fields"
	case "array":
		return "a list"
	case "boolean":
		return "true or false"
	case "number", "integer":
		return "a number"
	case "null":
		return "nothing"
	}
	return "a text"
}

func calledAll(kinds []string) string {
	if slices.Contains(kinds, "string") {
		return "a text"
	}
	return called(kinds[0])
}

// properties is the fields of the schema at a place, by its URL: …#/$defs/torque/properties/joints/items.
func properties(url string) []string {
	_, pointer, _ := strings.Cut(url, "#")
	var at any
	at, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema))
	if err != nil {
		return nil
	}
	for _, name := range strings.Split(strings.TrimPrefix(pointer, "/"), "/") {
		name = strings.ReplaceAll(strings.ReplaceAll(name, "~1", "/"), "~0", "~")
		switch v := at.(type) {
		case map[string]any:
			if name != "" {
				at = v[name]
			}
		case []any:
			i, err := strconv.Atoi(name)
			if err != nil || i >= len(v) {
				return nil
			}
			at = v[i]
		}
	}
	o, _ := at.(map[string]any)
	p, _ := o["properties"].(map[string]any)
	var names []string
	for n := range p {
		names = append(names, n)
	}
	slices.Sort(names)
	return names
}

// nearest is the known name that is a slip of the finger away, "" for none.
func nearest(typed string, known []string) string {
	best, least := "", 3
	for _, k := range known {
		if d := slips(typed, k); d < least && d < len(k) {
			best, least = k, d
		}
	}
	return best
}

// slips is how many letters must be put in, left out or changed (Levenshtein's distance).
func slips(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		corner := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := corner
			if a[i] != b[j] {
				cost++
			}
			corner = row[j+1]
			row[j+1] = min(cost, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}

// inOrder sorts faults as the text is read.
func inOrder(faults []Fault) {
	slices.SortStableFunc(faults, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
}
