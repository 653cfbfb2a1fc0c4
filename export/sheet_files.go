package export

import (
	"fmt"
	"io"
	"slices"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/engine/shape"
)

// sheetFile are the paths in the bundle of one sheet's files.
type sheetFile struct {
	stock         string // the stock's name in paths
	dxf, svg      string
	gcode, bounds string // "" where no machine file may be written
}

// nameSheets gives every sheet its paths; stock holds the stocks' names by ID.
func nameSheets(s *engine.Sheets, stock map[string]string) []sheetFile {
	if s == nil {
		return nil
	}
	out := make([]sheetFile, len(s.List))
	for i := range s.List {
		sh := &s.List[i]
		name := fmt.Sprintf("sheets/%s-%d", stock[sh.Stock.ID], sh.Number)
		out[i] = sheetFile{stock: stock[sh.Stock.ID], dxf: name + ".dxf", svg: name + ".svg"}
		if s.MachineFile(sh) {
			out[i].gcode, out[i].bounds = name+".nc", name+"-bounds.nc"
		}
	}
	return out
}

// addSheets adds the files of all sheets.
func addSheets(a *archive, s *engine.Sheets, files []sheetFile, written strokes) error {
	for i, f := range files {
		if err := addSheet(a, s, &s.List[i], f); err != nil {
			return err
		}
		if written == letGo {
			s.List[i].Route.Strokes = nil
		}
	}
	return nil
}

// addSheet adds the files of one.
func addSheet(a *archive, s *engine.Sheets, sh *engine.Sheet, f sheetFile) error {
	for _, file := range []struct {
		path  string
		write func(io.Writer) error
	}{
		{f.dxf, func(w io.Writer) error { return writeSheetDXF(w, sh, layersOf(f.stock)) }},
		{f.svg, func(w io.Writer) error { return writeSheetSVG(w, sh, works, workOn(sh), knifeNotes(s.Machine)...) }},
		{f.gcode, func(w io.Writer) error { return writeGCode(w, s.Machine, sh, settingsOf(sh)) }},
		{f.bounds, func(w io.Writer) error { return writeBounds(w, s.Machine, sh) }},
	} {
		if file.path == "" {
			continue
		}
		if err := a.stream(file.path, packed, file.write); err != nil {
			return err
		}
	}
	return nil
}

// layersOf names a stroke's DXF layer: what is done, and the stock.
func layersOf(stock string) func(route.Stroke) string {
	return func(st route.Stroke) string {
		if st.Kind == route.Marking {
			return "MARK-" + stock
		}
		return "CUT-" + stock
	}
}

// writeSheetDXF writes a sheet's lines, each uninterrupted one a polyline, in
// the order in which they are drawn and cut. A cut that takes several passes
// stands there once.
func writeSheetDXF(w io.Writer, sh *engine.Sheet, layerOf func(route.Stroke) string) error {
	size := shape.Point{X: sh.Size.Width, Y: sh.Size.Height}
	var strokes []route.Stroke
	var layers []dxfLayer
	for _, st := range sh.Route.Strokes {
		if st.Pass > 0 {
			continue
		}
		if n := layerOf(st); !slices.ContainsFunc(layers, func(l dxfLayer) bool { return l.name == n }) {
			layers = append(layers, dxfLayer{name: n})
		}
		strokes = append(strokes, st)
	}
	d := &dxf{w: w, handle: hFirstLayer + len(layers)}
	d.header(size, d.handle+len(strokes))
	d.tables(size, layers)
	d.blocks()
	d.section("ENTITIES")
	for _, st := range strokes {
		d.polyline(layerOf(st), st.Path, ends(st.Closed))
	}
	d.end()
	d.objects(size)
	d.text(0, "EOF")
	d.flush()
	return d.err
}

// work is what a line of a sheet does; a line's colour in the SVG says which.
type work struct {
	colour string
	says   *string // in the table of words
}

// The scheme of the SVG files' strokes, ours alone: from light work to through
// cuts, in the order in which it is done.
var (
	workPlace  = work{"#1f9e89", &english.markPlace}
	workNumber = work{"#6a51a3", &english.markNumber}
	workInner  = work{"#d9730d", &english.cutInside}
	workOuter  = work{"#b3123f", &english.cutAbout}
	works      = []work{workPlace, workNumber, workInner, workOuter}
)

// workOn says what a stroke of the sheet does.
func workOn(sh *engine.Sheet) func(route.Stroke) work {
	return func(st route.Stroke) work {
		switch {
		case st.Kind == route.Marking && sh.Marks[st.Source] == engine.NumberMark:
			return workNumber
		case st.Kind == route.Marking:
			return workPlace
		case bool(sh.Loops[st.Source].Inner):
			return workInner
		}
		return workOuter
	}
}

// writeSheetSVG writes the same lines as the DXF in the same order, coloured by
// what they do; the legend and notes stand in the file's description, where no
// machine takes them for a line.
func writeSheetSVG(w io.Writer, sh *engine.Sheet, works []work, workOf func(route.Stroke) work, notes ...string) error {
	width, height := mmText(sh.Size.Width), mmText(sh.Size.Height)
	b := fmt.Appendf(nil, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"+
		"<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\">\n<title>",
		width, height, width, height)
	b = appendXML(b, fmt.Sprintf(english.sheetTitle, sh.Number, shown(sh.Stock.Name), faceWords(sh.Face)))
	b = append(b, "</title>\n<desc>"...)
	for _, k := range works {
		b = append(b, "\n"+k.colour+"  "+*k.says...)
	}
	for _, n := range notes {
		b = appendXML(append(b, '\n'), n)
	}
	b = append(b, "\n</desc>\n<g fill=\"none\" stroke-width=\"0.1\">\n"...)
	for _, st := range sh.Route.Strokes {
		if st.Pass > 0 {
			continue
		}
		b = append(b, `<path stroke="`+workOf(st).colour+`" d="`...)
		b = appendPath(b, st.Path, sh.Size.Height, ends(st.Closed))
		b = append(b, "\"/>\n"...)
		if len(b) > 1<<15 {
			if _, err := w.Write(b); err != nil {
				return err
			}
			b = b[:0]
		}
	}
	_, err := w.Write(append(b, "</g>\n</svg>\n"...))
	return err
}

// faceWords says which face is up.
func faceWords(f project.Face) string {
	if f == project.FaceDown {
		return english.faceDown
	}
	return english.faceUp
}
