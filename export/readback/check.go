// Package readback reads a finished bundle from its bytes, as a machine's
// program would, lays the layers over one another and holds what shows against
// the drawing. It shares no geometry with what wrote the bundle: it has readers
// of its own for DXF and SVG and counts in plain whole µm.
//
// What it holds to be true of each sprite, of its DXF and its SVG files alike:
// they are the same to the µm; each layer has the parts that the manifest
// counts; looked at from above, each cell shows its colour, except about joins
// and opened corners, whose area is the manifest's; each part lies wholly on
// one other; and each part's outline, hidden edges included, is the one that
// the cells it covers ask for; holes for pins are two, where the manifest says, hidden and as far from every edge as the stocks want. And of the sheets: every copy of every part is
// cut once, within the margins, the gap from all others; what is cut are its
// finished contours, half a kerf outside them, less the tabs, and nothing else. The
// machine files, read by what their words mean to a machine, draw the sheet's lines
// in their order, as often and with what power and feed the bench says; a knife's
// are followed by the tip of its blade; lead-ins lie in scrap, the beam is never on in a rapid nor at the end, nothing leaves the sheet.
package readback

import (
	"archive/zip"
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"strings"

	"sheetsprite/engine/project"
)

// Check reads the bundle and says the first thing in which it isn't the
// project's drawing: sprite, layer, row and column, or sheet. Nil if it is.
func Check(bundle []byte, p *project.Project) error {
	return CheckFile(bytes.NewReader(bundle), int64(len(bundle)), p)
}

// CheckFile is Check for a bundle that isn't held in memory.
func CheckFile(bundle io.ReaderAt, size int64, p *project.Project) error {
	z, err := zip.NewReader(bundle, size)
	if err != nil {
		return fmt.Errorf("the zip can't be read: %w", err)
	}
	files, err := index(z)
	if err != nil {
		return err
	}
	data, err := files.read("job.json")
	if err != nil {
		return err
	}
	m, err := readManifest(data)
	if err != nil {
		return fmt.Errorf("job.json: %w", err)
	}
	sprites, err := expect(m, p)
	if err != nil {
		return err
	}
	for i, s := range sprites {
		if err := files.load(s, m.Sprites[i].All); err != nil {
			return err
		}
		if _, err := files.take(m.Sprites[i].Picture); err != nil {
			return err
		}
		s.place()
		w, err := s.look()
		if err != nil {
			return err
		}
		if err := w.judge(); err != nil {
			return err
		}
		if err := s.judgePins(); err != nil {
			return err
		}
		if err := s.judgeSpacers(); err != nil {
			return err
		}
		s.parts = nil // only the layers' contours are still needed
	}
	if err := called(m, sprites); err != nil {
		return err
	}
	if err := files.sheets(m, p, sprites); err != nil {
		return err
	}
	if err := files.jigs(m, p, sprites); err != nil {
		return err
	}
	if m.Guide != "" {
		if err := files.pdf(m.Guide); err != nil {
			return err
		}
	}
	for _, name := range []string{"project.json", "README.txt"} {
		if _, err := files.take(name); err != nil {
			return err
		}
	}
	if len(files) > 0 {
		return fmt.Errorf("the bundle holds %d files that its manifest doesn't name", len(files))
	}
	return nil
}

// pdf looks whether a file is a whole PDF: ISO 32000-1, 7.5.2 and 7.5.5, want
// %PDF at its beginning and %%EOF at its end.
func (c contents) pdf(name string) error {
	data, err := c.read(name)
	if err != nil {
		return err
	}
	if !bytes.HasPrefix(data, []byte("%PDF-")) || !bytes.HasSuffix(bytes.TrimSpace(data), []byte("%%EOF")) {
		return fmt.Errorf("%s isn't a whole PDF", quote(name))
	}
	return nil
}

// contents are the files of a bundle that were not read yet, by name.
type contents map[string]*zip.File

func index(z *zip.Reader) (contents, error) {
	c := contents{}
	for _, f := range z.File {
		if c[f.Name] != nil {
			return nil, fmt.Errorf("%s stands twice in the bundle", quote(f.Name))
		}
		if !plainPath(f.Name) {
			return nil, fmt.Errorf("%s is no name for a file of a bundle", quote(f.Name))
		}
		c[f.Name] = f
	}
	return c, nil
}

// plainPath says whether every file system takes the path.
func plainPath(path string) bool {
	if path == "README.txt" {
		return true
	}
	for name := range strings.SplitSeq(path, "/") {
		if name == "" || name[0] == '.' || len(name) > 60 {
			return false
		}
		for _, c := range name {
			if !(c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-' || c == '.') {
				return false
			}
		}
	}
	return true
}

// take opens a file, once.
func (c contents) take(name string) (io.ReadCloser, error) {
	f := c[name]
	if f == nil {
		return nil, fmt.Errorf("the bundle has no file %s, or names it twice", quote(name))
	}
	delete(c, name)
	r, err := f.Open()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return r, nil
}

func (c contents) read(name string) ([]byte, error) {
	r, err := c.take(name)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	data, err := io.ReadAll(r)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return data, nil
}

// load reads the layers of a sprite from all of its files.
func (c contents) load(s *sprite, all string) error {
	names := make([]string, len(s.layers)) // of the layers in the DXF files
	for i := range s.layers {
		if err := c.loadLayer(s, &s.layers[i], &names[i]); err != nil {
			return err
		}
	}
	for i := range s.spacers {
		name := ""
		if err := c.loadLayer(s, &s.spacers[i], &name); err != nil {
			return err
		}
	}
	return c.compareAll(s, all, names)
}

// loadLayer reads a layer from its DXF and its SVG file, which must agree.
func (c contents) loadLayer(s *sprite, l *layer, name *string) error {
	fail := func(file string, err error) error {
		return s.fault("layer %d: %s: %v", l.number, file, err)
	}
	var contours []contour
	err := c.with(l.dxf, func(r io.Reader) error {
		w, h, err := readDXF(r, func(layer string, c contour) error {
			if *name == "" {
				*name = layer
			}
			if layer != *name || !strings.HasPrefix(layer, "CUT-") {
				return fmt.Errorf("a contour lies on the DXF layer %s", quote(layer))
			}
			contours = append(contours, c)
			return nil
		})
		return cmp.Or(err, s.sized(w, h))
	})
	if err == nil {
		l.parts, err = split(contours)
	}
	if err != nil {
		return fail(l.dxf, err)
	}
	var drawn []part
	err = c.with(l.svg, func(r io.Reader) error {
		parts, w, h, err := readSVG(r)
		drawn = parts
		return cmp.Or(err, s.sized(w, h))
	})
	if err != nil {
		return fail(l.svg, err)
	}
	if where := sameParts(l.parts, drawn); where != "" {
		return s.fault("layer %d: its DXF and SVG files differ %s", l.number, where)
	}
	for i := range l.parts {
		l.parts[i].id = drawn[i].id
	}
	return nil
}

// sized says whether a file's size is the one that the manifest gives.
func (s *sprite) sized(w, h int64) error {
	if w != s.w || h != s.h {
		return errors.New("its size isn't the manifest's")
	}
	return nil
}

// compareAll reads the file with all layers, which must hold what theirs do.
func (c contents) compareAll(s *sprite, all string, names []string) error {
	at, contours := -1, []contour(nil)
	err := c.with(all, func(r io.Reader) error {
		w, h, err := readDXF(r, func(layer string, got contour) error {
			for len(contours) == 0 && at+1 < len(s.layers) {
				at++
				for _, p := range s.layers[at].parts {
					contours = append(contours, p.contours...)
				}
			}
			if len(contours) == 0 {
				return errors.New("it has more contours than the layers")
			}
			if layer != names[at] {
				return fmt.Errorf("a contour lies on the DXF layer %s instead of %s", quote(layer), quote(names[at]))
			}
			if where := sameContour(contours[0], got); where != "" {
				return fmt.Errorf("it differs from layer %d %s", at+1, where)
			}
			contours = contours[1:]
			return nil
		})
		if err == nil && (len(contours) > 0 || at+1 < len(s.layers)) {
			err = errors.New("it has fewer contours than the layers")
		}
		return cmp.Or(err, s.sized(w, h))
	})
	if err != nil {
		return s.fault("%s: %v", all, err)
	}
	return nil
}

// with reads a file to its end, so that its check sum is seen, too.
func (c contents) with(name string, read func(io.Reader) error) error {
	r, err := c.take(name)
	if err != nil {
		return err
	}
	defer r.Close()
	if err := read(r); err != nil {
		return err
	}
	_, err = io.Copy(io.Discard, r)
	return err
}
