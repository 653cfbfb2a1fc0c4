package readback

import (
	"archive/zip"
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"slices"

	"sheetsprite/engine/project"
)

// CheckPieces reads a zip of test pieces and says the first thing that is wrong:
// DXF and SVG of a piece that differ, or a machine file that doesn't draw, in
// order, what they hold, or one round its bounds that doesn't. folders are the stocks' IDs by the names of their folders.
func CheckPieces(data []byte, p *project.Project, folders map[string]string) error {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return fmt.Errorf("the zip can't be read: %w", err)
	}
	files, err := index(z)
	if err != nil {
		return err
	}
	names := make([]string, 0, len(folders))
	for f := range folders {
		names = append(names, f)
	}
	slices.Sort(names)
	for _, folder := range names {
		n := slices.IndexFunc(p.Stocks, func(st project.Stock) bool { return st.ID == folders[folder] })
		if n < 0 {
			return fmt.Errorf("the project has no stock %s", quote(folders[folder]))
		}
		for _, kind := range []string{"gauge", "ladder", "worst"} {
			name := folder + "/" + kind
			if kind == "ladder" && files[name+".dxf"] == nil {
				continue // only a laser has one
			}
			if err := files.piece(name, p, p.Stocks[n], kind == "ladder"); err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
		}
	}
	if _, err := files.take("README.txt"); err != nil {
		return err
	}
	if len(files) > 0 {
		return fmt.Errorf("the zip holds %d files that belong to no test piece", len(files))
	}
	return nil
}

// piece reads the files of one test piece.
func (c contents) piece(name string, p *project.Project, stock project.Stock, ladder bool) error {
	s := &manifestSheet{DXF: name + ".dxf", SVG: name + ".svg"}
	lines, err := c.lines(s, nil)
	if err != nil || c[name+".nc"] == nil {
		return err
	}
	m, use := p.Machine(), project.Use{}
	if p.Bench != nil {
		use, _ = p.Bench.UseOf(m.Name, stock.ID)
	}
	setting := func(l drawn) (percent, speed int) {
		if l.mark {
			return use.MarkPower, use.MarkSpeed
		}
		return use.Power, use.Speed
	}
	if ladder {
		if setting, err = rungs(lines, use); err != nil {
			return err
		}
		use.Power, use.Speed, use.Passes = 1, 1, 1 // it is there to find them
	}
	if err := may(m, stock, use); err != nil {
		return err
	}
	use.Order = project.ContourByContour
	t := toolOf(m, use, int64(s.Size[0]), int64(s.Size[1]))
	t.setAll(lines, setting)
	data, err := c.read(name + ".nc")
	if err != nil {
		return err
	}
	_, leads, err := t.machineFile(data, lines)
	if err = cmp.Or(err, besideLines(leads, lines, int64(p.Settings.KerfOf(stock)))); err != nil {
		return err
	}
	if data, err = c.read(name + "-bounds.nc"); err == nil {
		err = t.boundsFile(data, lines, leads)
	}
	if err != nil {
		return fmt.Errorf("its file that runs round its bounds: %w", err)
	}
	return nil
}

// rungs reads a ladder's settings from its DXF layers, CUT-p10-s5 for 10 % of the
// power and speed 5. Its labels are marked as the maker entered, else with the
// least power and the highest speed.
func rungs(lines []drawn, use project.Use) (func(drawn) (percent, speed int), error) {
	type rung struct{ power, speed int }
	by := map[string]rung{} // only asked
	label := rung{101, 0}
	for _, l := range lines {
		var r rung
		if l.mark {
			continue
		}
		if n, err := fmt.Sscanf(l.layer, "CUT-p%d-s%d", &r.power, &r.speed); err != nil || n != 2 {
			return nil, fmt.Errorf("the layer %s says no power and speed", quote(l.layer))
		}
		by[l.layer] = r
		label = rung{min(label.power, r.power), max(label.speed, r.speed)}
	}
	if len(by) == 0 {
		return nil, errors.New("it has no rung")
	}
	if use.MarkPower > 0 && use.MarkSpeed > 0 {
		label = rung{use.MarkPower, use.MarkSpeed}
	}
	return func(l drawn) (percent, speed int) {
		if l.mark {
			return label.power, label.speed
		}
		return by[l.layer].power, by[l.layer].speed
	}, nil
}
