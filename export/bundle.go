// Package export writes what a maker takes to the machine: the bundle, a zip
// with each layer of each sprite and each sheet as DXF and SVG, machine files, a picture, the manifest
// job.json, the project and a README.
//
// A bundle's bytes depend on its job only: no clock, no order of a map, no
// temporary name. Before it is handed over it is read back by package readback,
// which shares no geometry with the writer; a bundle that doesn't show the
// drawing is never written.
package export

import (
	"bytes"
	"fmt"
	"io"
	"path"

	"sheetsprite/engine"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/export/readback"
)

// Bundle writes the zip of j to w. Nothing is written unless all of it was
// read back and shows the drawing; the error says where it doesn't.
func Bundle(w io.Writer, j Job) error {
	data, err := Build(j)
	if err != nil {
		return err
	}
	_, err = w.Write(data)
	return err
}

// Build returns the zip of j, read back and found to show the drawing.
func Build(j Job) ([]byte, error) {
	data, err := assemble(j, encodePicture)
	if err != nil {
		return nil, err
	}
	if err := readback.Check(data, j.Project); err != nil {
		return nil, notShown(err)
	}
	return data, nil
}

// notShown is the error of a bundle that readback refuses.
func notShown(err error) error {
	return fmt.Errorf("the cutting files would not show the drawing, so none were written: %w", err)
}

// spriteFiles are the paths in the bundle of one sprite's files.
type spriteFiles struct {
	picture, all string
	layers       []string // without the ending
	names        []string // of the layers in a DXF file, without what is done there
	spacers      []string // as layers, of the layers of spacers
}

// painter draws a sprite's picture as a PNG.
type painter func(*outline.Layout, project.Stack, []project.Stock) ([]byte, error)

// assemble makes the zip, unchecked.
func assemble(j Job, paint painter) ([]byte, error) {
	var out bytes.Buffer
	if err := assembleTo(&out, j, paint, keep); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// strokes says what becomes of a plan's strokes that are written.
type strokes bool

const (
	keep  strokes = false
	letGo strokes = true
)

// assembleTo writes the zip, unchecked, file by file.
func assembleTo(w io.Writer, j Job, paint painter, written strokes) error {
	if err := j.validate(); err != nil {
		return err
	}
	files, sheets := nameFiles(j)
	jigs := nameJigs(j, files)
	a, err := newArchive(w)
	if err != nil {
		return err
	}
	manifest, err := newManifest(j, files, sheets, jigs).encode()
	if err != nil {
		return err
	}
	if err := a.add("job.json", manifest, packed); err != nil {
		return err
	}
	pictures := make([][]byte, len(files))
	for i, s := range j.Plan.Sprites {
		how := &j.Project.Sprites[s.Index]
		if pictures[i], err = paint(s.Layout, s.Built, s.Stocks); err != nil {
			return err
		}
		if err := addSprite(a, how, s, files[i], pictures[i]); err != nil {
			return err
		}
	}
	if err := addSheets(a, j.Plan.Sheets, sheets, written); err != nil {
		return err
	}
	if err := addJigs(a, j.Plan.Sheets, jigs); err != nil {
		return err
	}
	if err := addGuide(a, j, sheets, pictures); err != nil {
		return err
	}
	if err := a.stream("project.json", packed, j.Plan.Remembered(j.Project).Write); err != nil {
		return err
	}
	if err := a.add("README.txt", readme(j, files, sheets, jigs), packed); err != nil {
		return err
	}
	return a.close()
}

// addSprite adds the layers of one sprite and its picture.
func addSprite(a *archive, of *project.Sprite, s engine.Sprite, f spriteFiles, picture []byte) error {
	all := make([]dxfLayer, len(s.Layout.Layers))
	dxf := func(name string, layers []dxfLayer) error {
		return a.stream(name, packed, func(w io.Writer) error { return writeDXF(w, s.Layout.Size, layers) })
	}
	add := func(name string, layer dxfLayer, l outline.Layer, title string) error {
		if err := dxf(name+".dxf", []dxfLayer{layer}); err != nil {
			return err
		}
		return a.stream(name+".svg", packed, func(w io.Writer) error {
			return writeSVG(w, s.Layout.Size, l.Parts, s.Numbers, s.Stocks[l.Stock].Colour, title)
		})
	}
	for i, l := range s.Layout.Layers {
		all[i] = dxfLayer{name: "CUT-" + f.names[i], parts: l.Parts}
		if err := add(f.layers[i], all[i], l, fmt.Sprintf(english.layerTitle, shown(of.Name), l.Number)); err != nil {
			return err
		}
	}
	for i, l := range s.Spacers {
		layer := dxfLayer{name: "CUT-" + path.Base(f.spacers[i]), parts: l.Parts}
		if err := add(f.spacers[i], layer, l, fmt.Sprintf(english.spacersTitle, shown(of.Name), l.Height)); err != nil {
			return err
		}
	}
	if err := dxf(f.all, all); err != nil {
		return err
	}
	return a.add(f.picture, picture, stored)
}

// nameFiles gives every sprite, layer and sheet its path. Names are handed out in the
// project's order, sprites that aren't cut included, so that one that gets its
// first cell doesn't rename the others.
func nameFiles(j Job) ([]spriteFiles, []sheetFile) {
	sprites, stocks := newNames("sprite"), newNames("stock")
	folders := make([]string, len(j.Project.Sprites))
	for i, s := range j.Project.Sprites {
		folders[i] = sprites.name(s.Name)
	}
	stock := map[string]string{} // by ID; only asked
	for _, s := range j.Project.Stocks {
		stock[s.ID] = stocks.name(s.ID)
	}
	nameOf := func(id string) string {
		if _, ok := stock[id]; !ok {
			stock[id] = stocks.name(id)
		}
		return stock[id]
	}
	out := make([]spriteFiles, len(j.Plan.Sprites))
	for i, s := range j.Plan.Sprites {
		folder := "sprites/" + folders[s.Index] + "/"
		f := spriteFiles{picture: folder + "picture.png", all: folder + "all.dxf"}
		for _, l := range s.Layout.Layers {
			name := fmt.Sprintf("%02d-%s", l.Number, nameOf(s.Stocks[l.Stock].ID))
			f.names = append(f.names, name)
			f.layers = append(f.layers, folder+name)
		}
		for _, l := range s.Spacers {
			f.spacers = append(f.spacers, folder+fmt.Sprintf("%02d-spacers-%s", l.Number, nameOf(s.Stocks[l.Stock].ID)))
		}
		out[i] = f
	}
	return out, nameSheets(j.Plan.Sheets, stock)
}
