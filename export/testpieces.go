package export

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"sheetsprite/engine"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/export/readback"
)

// TestPieces is a zip of test pieces: a folder for each stock with the gauge,
// the ladder and the worst places as DXF and SVG and, where they may be, as
// machine files, each with one that runs round its bounds; and a README that says how to read them. It is read back before it
// is handed over, as a bundle is.
func TestPieces(p *project.Project, pieces []engine.TestPiece) ([]byte, error) {
	var out bytes.Buffer
	a, err := newArchive(&out)
	if err != nil {
		return nil, err
	}
	m, stocks := p.Machine(), newNames("stock")
	folder := map[string]string{} // by ID; only asked
	for i := range pieces {
		t := &pieces[i]
		id := t.Sheet.Stock.ID
		if folder[id] == "" {
			folder[id] = stocks.name(id)
		}
		if err := addTestPiece(a, m, t, folder[id]); err != nil {
			return nil, err
		}
	}
	if err := a.add("README.txt", testReadme(m, pieces, folder), packed); err != nil {
		return nil, err
	}
	if err := a.close(); err != nil {
		return nil, err
	}
	stockIn := map[string]string{}
	for id, name := range folder {
		stockIn[name] = id
	}
	if err := readback.CheckPieces(out.Bytes(), p, stockIn); err != nil {
		return nil, fmt.Errorf("the machine would not cut what the test pieces show, so none were written: %w", err)
	}
	return out.Bytes(), nil
}

func addTestPiece(a *archive, m project.Machine, t *engine.TestPiece, stock string) error {
	name, sh := stock+"/"+string(t.Kind), &t.Sheet
	layers, kinds, work, set := layersOf(stock), works, workOn(sh), settingsOf(sh)
	may := (&engine.Sheets{Machine: m}).MachineFile(sh)
	if t.Kind == engine.Ladder {
		layers, work, set = ladderLayers(t), ladderWork(t), ladderSettings(t)
		kinds = nil
		for i := range t.Uses {
			kinds = append(kinds, ladderWork(t)(route.Stroke{Source: i}))
		}
		may = m.Kind == project.LaserCutter && m.Takes(sh.Size.Width, sh.Size.Height) && inspect.LaserSafe(sh.Stock) // it is there to find the power
	}
	files := []struct {
		ending string
		write  func(io.Writer) error
	}{
		{".dxf", func(w io.Writer) error { return writeSheetDXF(w, sh, layers) }},
		{".svg", func(w io.Writer) error { return writeSheetSVG(w, sh, kinds, work) }},
		{".nc", func(w io.Writer) error { return writeGCode(w, m, sh, set) }},
		{"-bounds.nc", func(w io.Writer) error { return writeBounds(w, m, sh) }},
	}
	for _, f := range files {
		if strings.HasSuffix(f.ending, ".nc") && !may {
			continue
		}
		if err := a.stream(name+f.ending, packed, f.write); err != nil {
			return err
		}
	}
	return nil
}

// ladderLayers gives every square of a ladder a layer that says its settings.
func ladderLayers(t *engine.TestPiece) func(route.Stroke) string {
	return func(st route.Stroke) string {
		if st.Kind == route.Marking {
			return "MARK-labels"
		}
		u := t.Uses[st.Source]
		return fmt.Sprintf("CUT-p%d-s%d", u.Power, u.Speed)
	}
}

// ladderWork gives every square a colour of its own, for programs that tell
// settings by colours.
func ladderWork(t *engine.TestPiece) func(route.Stroke) work {
	return func(st route.Stroke) work {
		if st.Kind == route.Marking {
			return workNumber
		}
		u, i := t.Uses[st.Source], st.Source
		says := fmt.Sprintf(english.rung, u.Power, u.Speed)
		return work{fmt.Sprintf("#%02x%02x%02x", 40+i*53%200, 40+i*97%200, 40+i*29%200), &says}
	}
}

// ladderSettings: labels are marked with what was entered for marks, else with
// the least power and the highest speed of the ladder.
func ladderSettings(t *engine.TestPiece) func(route.Stroke) setting {
	first, last := t.Uses[0], t.Uses[len(t.Uses)-1]
	label := setting{first.Power, last.Speed}
	if first.MarkPower > 0 && first.MarkSpeed > 0 {
		label = setting{first.MarkPower, first.MarkSpeed}
	}
	return func(st route.Stroke) setting {
		if st.Kind == route.Marking {
			return label
		}
		return setting{t.Uses[st.Source].Power, t.Uses[st.Source].Speed}
	}
}

func testReadme(m project.Machine, pieces []engine.TestPiece, folder map[string]string) []byte {
	var b strings.Builder
	fmt.Fprintf(&b, english.testTitle+"\n\n%s", shown(m.Name), english.tests)
	for i := range pieces {
		t := &pieces[i]
		if t.Kind != engine.Worst {
			continue
		}
		fmt.Fprintf(&b, "\n"+english.worst+"\n", folder[t.Sheet.Stock.ID], shown(t.Sheet.Stock.Name), mmText(t.Sheet.Stock.Thickness))
		for _, s := range t.Samples {
			fmt.Fprintf(&b, "  * %s\n", s)
		}
	}
	b.WriteString(english.safety)
	return []byte(b.String())
}
