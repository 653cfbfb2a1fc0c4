//go:build js

package main

import (
	"encoding/json"
	"errors"
	"syscall/js"

	"sheetsprite/engine/regrid"
	"sheetsprite/engine/regrid/pixels"
)

// finder answers questions about the picture that was sent last.
type finder struct {
	picture *pixels.Raster // nil: none, or none that could be taken
	found   *regrid.Result // what was answered last; nil: nothing, or several
}

// regridOptions are what the maker knows, in the picture's pixels.
type regridOptions struct {
	Colours int            `json:"colours"`
	Corners []regrid.Point `json:"corners"`
	Count   [2]int         `json:"count"`
	Grid    *regrid.Grid   `json:"grid"`
	Several bool           `json:"several"`
}

// mostRegridPixels bounds a picture that the page sends; it shrinks larger ones.
const mostRegridPixels = 4 << 20

// take keeps a picture: width × height pixels of red, green, blue, alpha, not
// premultiplied, as a canvas gives them.
func (f *finder) take(message js.Value) {
	f.picture, f.found = nil, nil
	width, height := message.Get("width").Int(), message.Get("height").Int()
	if width < 1 || height < 1 || width*height > mostRegridPixels {
		return
	}
	sent := message.Get("pixels")
	if sent.Get("length").Int() != 4*width*height {
		return
	}
	data := make([]byte, 4*width*height)
	js.CopyBytesToGo(data, sent)
	for i := 0; i < len(data); i += 4 {
		if a := int(data[i+3]); a < 255 {
			for c := range 3 {
				data[i+c] = uint8((int(data[i+c])*a + 127) / 255)
			}
		}
	}
	f.picture = &pixels.Raster{W: width, H: height, Pix: data, Shrunk: 1}
}

// answer is the result of one question, as JSON of a list of regridAnswer: of a single
// one, unless several sprites are asked for.
func (f *finder) answer(text string) (string, error) {
	if f.picture == nil {
		return "", errors.New("the picture is too large, or was lost: choose it again")
	}
	var asked regridOptions
	if err := json.Unmarshal([]byte(text), &asked); err != nil {
		return "", err
	}
	o := regrid.Options{Colours: asked.Colours, Grid: asked.Grid}
	if len(asked.Corners) == 4 {
		c := regrid.Corners(asked.Corners)
		o.Corners, o.Count = &c, asked.Count
	}
	f.found = nil
	if asked.Several {
		list, err := regrid.FindSeveral(f.picture, o)
		if err == nil && len(list) == 0 {
			err = errors.New("all cells are of the background's colour, so there is no sprite in it")
		}
		if err != nil {
			return "", err
		}
		return answersOf(list...)
	}
	res, err := regrid.Find(f.picture, o)
	if err != nil {
		return "", err
	}
	f.found = res
	return answersOf(res)
}

// straightened is the photograph of the last answer made straight, opaque; nil where it
// was straight before.
func (f *finder) straightened() *pixels.Raster {
	if f.found == nil {
		return nil
	}
	return f.found.Straightened()
}

// regridAnswer is a result as the page reads it.
type regridAnswer struct {
	W       int             `json:"w"`
	H       int             `json:"h"`
	Cells   []int           `json:"cells"` // 0 is empty, else 1 + the index in palette
	Second  []int           `json:"second"`
	Sure    []int           `json:"sure"`
	Palette []string        `json:"palette"`
	Errors  []float64       `json:"errors"`
	Grid    regrid.Grid     `json:"grid"`
	Other   *regrid.Grid    `json:"other"`
	Corners *regrid.Corners `json:"corners"`
	Strays  [][4]int        `json:"strays"` // column, row, what it is, what its neighbours agree on
}

func answersOf(list ...*regrid.Result) (string, error) {
	var all []regridAnswer
	for _, r := range list {
		a := regridAnswer{W: r.W, H: r.H, Cells: r.Cells, Second: r.Second, Sure: r.Sure, Errors: r.Errors,
			Grid: r.Grid, Other: r.OtherGrid, Corners: r.Corners, Palette: []string{}, Strays: [][4]int{}}
		for _, c := range r.Palette {
			a.Palette = append(a.Palette, c.String())
		}
		for _, s := range r.Strays() {
			a.Strays = append(a.Strays, [4]int{s.X, s.Y, s.Colour, s.Agreed})
		}
		all = append(all, a)
	}
	data, err := json.Marshal(all)
	return string(data), err
}
