package cardtext

import (
	"io/fs"
	"maps"
	"path"
	"slices"
	"strconv"
	"strings"

	"linkrod/radial/card"
	"linkrod/sync/plain"
)

// ShelfFile is the file of a folder that says which shelf it is.
const ShelfFile = "shelf.yaml"

// Folder is a shelf as a folder of files: one card each, and shelf.yaml.
type Folder struct {
	Name, Title string
	Rules       card.Rules
	Head        []byte // shelf.yaml as written, nil for none
	Files       []File // in the order of their names
	Faults      []Fault
}

// File is one card's file.
type File struct {
	Name string
	Text []byte
	Read Text
}

// ReadFolder reads a shelf's folder. Its faults are all there are, of all files.
func ReadFolder(from fs.FS, shown string) (Folder, error) {
	names, err := fs.Glob(from, "*.yaml")
	if err != nil {
		return Folder{}, err
	}
	texts := map[string]string{}
	for _, name := range names {
		text, err := fs.ReadFile(from, name)
		if err != nil {
			return Folder{}, err
		}
		texts[name] = string(text)
	}
	return ReadTexts(texts, shown), nil
}

// ReadTexts reads a shelf's folder whose files are here already, by their names.
func ReadTexts(texts map[string]string, shown string) Folder {
	d := Folder{Name: path.Base(strings.TrimRight(shown, "/"))}
	if text, ok := texts[ShelfFile]; ok {
		d.head(path.Join(shown, ShelfFile), []byte(text))
	}
	for _, name := range slices.Sorted(maps.Keys(texts)) {
		if name != ShelfFile {
			text := []byte(texts[name])
			d.Files = append(d.Files, File{name, text, Read(path.Join(shown, name), text, d.Rules)})
		}
	}
	d.together(shown)
	return d
}

// Texts is the folder's files as they were written, by their names.
func (d Folder) Texts() map[string]string {
	texts := map[string]string{}
	if d.Head != nil {
		texts[ShelfFile] = string(d.Head)
	}
	for _, f := range d.Files {
		texts[f.Name] = string(f.Text)
	}
	return texts
}

// head reads shelf.yaml: {shelf, title, general, demo}.
func (d *Folder) head(file string, text []byte) {
	d.Head = text
	t := read(file, text)
	d.Faults = append(d.Faults, t.Faults...)
	v, _ := plain.Parse(t.JSON)
	for _, n := range v.Names() {
		switch n {
		case "shelf", "title", "general", "demo":
		default:
			d.Faults = append(d.Faults, t.places.fault(file, card.Fault{At: "/" + n, Words: "“" + n + "” is not known here. A shelf has shelf, title, general and demo."}))
		}
	}
	if n := v.Get("shelf").Text(); n != "" {
		d.Name = n
	}
	d.Title = v.Get("title").Text()
	d.Rules = card.Rules{General: v.Get("general").Bool(), Demo: v.Get("demo").Bool()}
}

// together is what is wrong between the cards: a name twice, a card to see that isn't
// there.
func (d *Folder) together(shown string) {
	by := map[string]string{}
	for _, f := range d.Files {
		d.Faults = append(d.Faults, f.Read.Faults...)
		if id := f.Read.Card.ID; id != "" {
			if other, twice := by[id]; twice {
				d.Faults = append(d.Faults, f.Read.places.fault(path.Join(shown, f.Name), card.Fault{At: "/card", Words: "The card “" + id + "” stands in " + other + " too. Each card has a name of its own."}))
			}
			if by[id] = f.Name; f.Name != id+".yaml" {
				d.Faults = append(d.Faults, f.Read.places.fault(path.Join(shown, f.Name), card.Fault{At: "/card", Words: "The file of the card “" + id + "” is called " + id + ".yaml, so that it comes back from a shelf under its own name."}))
			}
		}
	}
	for _, f := range d.Files {
		for i, see := range f.Read.Card.JSON.Get("see").Items() {
			if _, ok := by[see.Text()]; !ok && !d.hasFile(see.Text()+".yaml") {
				d.Faults = append(d.Faults, f.Read.places.fault(path.Join(shown, f.Name), card.Fault{At: "/see/" + strconv.Itoa(i), Words: "There is no card “" + see.Text() + "” on this shelf to see."}))
			}
		}
	}
}

// hasFile reports that there is such a file, sound or not.
func (d *Folder) hasFile(name string) bool {
	return slices.ContainsFunc(d.Files, func(f File) bool { return f.Name == name })
}

// Bundle is the shelf as one JSON file, as the phone keeps it.
func (d Folder) Bundle() []byte {
	var w plain.Writer
	w.Begin('{')
	w.Text("shelf", d.Name)
	w.Text("title", d.Title)
	w.Bool("general", d.Rules.General)
	w.Bool("demo", d.Rules.Demo)
	w.Open("cards", '[')
	for _, f := range d.Files {
		w.Begin('{')
		w.Text("hash", f.Read.Card.Hash)
		w.Raw("json", card.Prepare(f.Read.Card.JSON))
		w.End('}')
	}
	w.End(']')
	w.End('}')
	return w.Bytes()
}
