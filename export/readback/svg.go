package readback

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
)

const svgSpace = "http://www.w3.org/2000/svg"

// readSVG reads the paths of a drawing as parts, in µm with y up from the foot
// of the view box, and the size of that box. It refuses every element but
// title, desc and path, so nothing that would be cut or run goes unseen.
func readSVG(r io.Reader) (parts []part, w, h int64, err error) {
	d := xml.NewDecoder(r)
	depth := 0
	ids := map[string]bool{}
	for {
		t, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, 0, 0, err
		}
		switch t := t.(type) {
		case xml.Directive:
			return nil, 0, 0, errors.New("the file declares a document type")
		case xml.EndElement:
			depth--
		case xml.StartElement:
			depth++
			if t.Name.Space != svgSpace {
				return nil, 0, 0, fmt.Errorf("the element %.20q isn't SVG's", t.Name.Local)
			}
			switch {
			case depth == 1 && t.Name.Local == "svg":
				if w, h, err = viewBox(t); err != nil {
					return nil, 0, 0, err
				}
			case depth == 2 && (t.Name.Local == "title" || t.Name.Local == "desc"):
			case depth == 2 && t.Name.Local == "path":
				p, err := readPath(t, h)
				if err == nil && ids[p.id] {
					err = errors.New("its id stands twice in the file")
				}
				if err != nil {
					return nil, 0, 0, fmt.Errorf("path %d: %w", len(parts)+1, err)
				}
				ids[p.id] = true
				parts = append(parts, p)
			default:
				return nil, 0, 0, fmt.Errorf("an element %.20q stands where a path is expected", t.Name.Local)
			}
		}
	}
	if w == 0 {
		return nil, 0, 0, errors.New("the file holds no drawing")
	}
	return parts, w, h, nil
}

// attributes are an element's, by name; each name but once.
func attributes(t xml.StartElement, allowed string) (map[string]string, error) {
	out := map[string]string{}
	for _, a := range t.Attr {
		name := a.Name.Local
		if a.Name.Space != "" || !strings.Contains(allowed, " "+name+" ") {
			return nil, fmt.Errorf("the attribute %.20q isn't expected", name)
		}
		if _, twice := out[name]; twice {
			return nil, fmt.Errorf("the attribute %.20q stands twice", name)
		}
		out[name] = a.Value
	}
	return out, nil
}

// viewBox reads the size of the drawing, which must be in mm and the view box's.
func viewBox(t xml.StartElement) (w, h int64, err error) {
	a, err := attributes(t, " xmlns version width height viewBox ")
	if err != nil {
		return 0, 0, err
	}
	box := strings.Fields(a["viewBox"])
	if len(box) != 4 || box[0] != "0" || box[1] != "0" {
		return 0, 0, errors.New("the view box doesn't begin at 0 0")
	}
	if a["width"] != box[2]+"mm" || a["height"] != box[3]+"mm" {
		return 0, 0, errors.New("the drawing's size in mm isn't that of its view box")
	}
	if w, err = parseMm(box[2]); err != nil {
		return 0, 0, err
	}
	if h, err = parseMm(box[3]); err != nil {
		return 0, 0, err
	}
	if w <= 0 || h <= 0 {
		return 0, 0, errors.New("the drawing's size is nothing")
	}
	return w, h, nil
}

// readPath reads a part.
func readPath(t xml.StartElement, height int64) (part, error) {
	a, err := attributes(t, " id fill fill-rule d ")
	if err != nil {
		return part{}, err
	}
	if a["id"] == "" {
		return part{}, errors.New("it has no id")
	}
	if a["fill-rule"] != "evenodd" {
		return part{}, errors.New("its fill-rule isn't evenodd")
	}
	contours, err := readPathData(a["d"], height)
	if err != nil {
		return part{}, err
	}
	got, err := split(contours)
	if err != nil {
		return part{}, err
	}
	if len(got) != 1 {
		return part{}, fmt.Errorf("it holds %d parts", len(got))
	}
	got[0].id = a["id"]
	return got[0], nil
}

// readSheetSVG reads the lines of a sheet's drawing, in their order.
func readSheetSVG(r io.Reader, take func(line) error) (w, h int64, err error) {
	d := xml.NewDecoder(r)
	depth, n := 0, 0
	for {
		t, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return 0, 0, err
		}
		switch t := t.(type) {
		case xml.Directive:
			return 0, 0, errors.New("the file declares a document type")
		case xml.EndElement:
			depth--
		case xml.StartElement:
			depth++
			name := t.Name.Local
			if t.Name.Space != svgSpace {
				return 0, 0, fmt.Errorf("the element %.20q isn't SVG's", name)
			}
			switch {
			case depth == 1 && name == "svg":
				if w, h, err = viewBox(t); err != nil {
					return 0, 0, err
				}
			case depth == 2 && (name == "title" || name == "desc"):
			case depth == 2 && name == "g":
				if _, err := attributes(t, " fill stroke-width "); err != nil {
					return 0, 0, err
				}
			case depth == 3 && name == "path":
				n++
				a, err := attributes(t, " stroke d ")
				if err != nil {
					return 0, 0, err
				}
				l, err := readLineData(a["d"], h)
				if err == nil {
					err = take(l)
				}
				if err != nil {
					return 0, 0, fmt.Errorf("path %d: %w", n, err)
				}
			default:
				return 0, 0, fmt.Errorf("an element %.20q stands where a path is expected", name)
			}
		}
	}
	if w == 0 {
		return 0, 0, errors.New("the file holds no drawing")
	}
	return w, h, nil
}
