package editor

import (
	"bytes"
	"fmt"
	"slices"

	"sheetsprite/engine/project"
)

// The maker's own shelf is what there is to cut from, whatever is drawn: not
// part of a project and not undone. The page keeps it on the device. A project
// that is cut from it has copies of the stocks that it uses (Project.Bench), and
// what is said of such a stock on the shelf is said of the copy too.

// OwnStock is a stock on the maker's own shelf. Lengths are in mm.
type OwnStock struct {
	ID         string       `json:"id"`
	Name       string       `json:"name"`
	Kind       string       `json:"kind"`
	Colour     string       `json:"colour"`
	Weight     int          `json:"weight"` // g/m²; 0: not known
	Thickness  float64      `json:"thickness"`
	Kerf       float64      `json:"kerf"`
	LeastStrip float64      `json:"leastStrip"`
	Core       string       `json:"core"`  // colour of the cut edge; "": as the colour
	Sides      string       `json:"sides"` // "one", "both"; "": not known
	Grain      string       `json:"grain"` // "long", "short", "none"; "": not known
	Laser      string       `json:"laser"`
	Typical    bool         `json:"typical"`
	Sheets     []ShelfSheet `json:"sheets"`
	Offcuts    []ShelfSheet `json:"offcuts"`
	Used       bool         `json:"used"` // a colour of the project is cut from it
}

// OwnShelf lists the maker's own stocks.
func (e *Editor) OwnShelf() []OwnStock {
	list := []OwnStock{}
	for _, s := range e.shelf {
		st := s.Stock
		o := OwnStock{
			ID: st.ID, Name: st.Name, Kind: string(st.Kind), Colour: st.Colour.String(), Weight: st.Weight, Thickness: mm(st.Thickness),
			Kerf: mm(st.Kerf), LeastStrip: mm(st.LeastStrip), Sides: string(st.Sides), Grain: string(st.Grain), Laser: string(st.Laser),
			Typical: st.Typical, Used: e.doc.stock(st.ID) >= 0,
		}
		if st.Core != nil {
			o.Core = st.Core.String()
		}
		o.Sheets, o.Offcuts = shelfSheets(s)
		list = append(list, o)
	}
	return list
}

// shelfSheets are the sheets and offcuts of a stock as the page shows them.
func shelfSheets(s project.Shelf) (sheets, offcuts []ShelfSheet) {
	sheets, offcuts = []ShelfSheet{}, []ShelfSheet{}
	for _, sh := range s.Sheets {
		sheets = append(sheets, ShelfSheet{mm(sh.W), mm(sh.H), sh.Count})
	}
	for _, o := range s.Offcuts {
		offcuts = append(offcuts, ShelfSheet{mm(o.W), mm(o.H), 1})
	}
	return sheets, offcuts
}

// onShelf is the index of a stock on the maker's shelf; below 0 for none.
func (e *Editor) onShelf(id string) int {
	return slices.IndexFunc(e.shelf, func(s project.Shelf) bool { return s.Stock.ID == id })
}

// setShelf puts another shelf in the old one's place.
func (e *Editor) setShelf(list []project.Shelf) {
	e.shelf = list
	e.shelfEdition++
}

// changeOwn changes what is said of a stock on the shelf; where the project is
// cut from it, of the project's copy too, in a step that can be undone.
func (e *Editor) changeOwn(id string, f func(*project.Shelf) error) error {
	i := e.onShelf(id)
	if i < 0 {
		return fmt.Errorf("there is no stock %s on your shelf", quoted(id))
	}
	list := slices.Clone(e.shelf)
	s := list[i]
	s.Sheets, s.Offcuts = slices.Clone(s.Sheets), slices.Clone(s.Offcuts)
	if err := f(&s); err != nil {
		return err
	}
	list[i] = s
	if err := (&project.Bench{Shelf: list[i : i+1]}).Validate(); err != nil {
		return err
	}
	if e.doc.stock(id) >= 0 {
		b := e.benchNow()
		b.Shelf = withStock(b.Shelf, s)
		if err := e.planOn("Change a stock on the shelf", b, b.Machines[0].Name); err != nil {
			return err
		}
	}
	e.setShelf(list)
	return nil
}

// withStock is the shelf with s in the place of the stock of its ID, or at the
// end. The list given may be written to.
func withStock(list []project.Shelf, s project.Shelf) []project.Shelf {
	if i := slices.IndexFunc(list, func(o project.Shelf) bool { return o.Stock.ID == s.Stock.ID }); i >= 0 {
		list[i] = s
		return list
	}
	return append(list, s)
}

// takeShelf puts stocks on the maker's shelf.
func (e *Editor) takeShelf(list []project.Shelf) error {
	b := project.Bench{Shelf: e.shelf}
	if err := b.AddToShelf(list); err != nil {
		return err
	}
	e.setShelf(b.Shelf)
	return nil
}

// ShelfText is the maker's shelf as a bench file without machines, to be kept
// on the device.
func (e *Editor) ShelfText() ([]byte, error) {
	var text bytes.Buffer
	err := (&project.Bench{Shelf: e.shelf}).Write(&text)
	return text.Bytes(), err
}

// RestoreShelf takes up what ShelfText gave; what can't be read is left.
func (e *Editor) RestoreShelf(text []byte) {
	if b, err := project.ReadBench(bytes.NewReader(text)); err == nil {
		e.setShelf(b.Shelf)
	}
}
