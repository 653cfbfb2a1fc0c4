package readback

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"sheetsprite/engine/project"
)

// sheets holds the manifest's sheets and parts against one another and against
// the files: every part of every copy is named once, as in its layer's drawing, and the sheets' files are
// there and hold its cut lines, half a kerf beside the finished contours of the
// sprites' files.
func (c contents) sheets(m manifest, p *project.Project, sprites []*sprite) error {
	if len(m.Sheets) != m.Totals.Sheets {
		return fmt.Errorf("the manifest counts %d sheets and lists %d", m.Totals.Sheets, len(m.Sheets))
	}
	if len(m.Parts) == 0 {
		if len(m.Sheets) > 0 {
			return errors.New("the manifest has sheets but no parts")
		}
		return nil
	}
	if n := len(p.Choice.Parts); n > 0 {
		for _, part := range m.Parts {
			if !p.Choice.Wants(part.Number) || part.Copy != 1 {
				return fmt.Errorf("part %s of sprite %s wasn't chosen", part.Number, quote(part.Sprite))
			}
		}
		if len(m.Parts) != n {
			return fmt.Errorf("%d parts were chosen and %d are listed", n, len(m.Parts))
		}
	} else if all := m.Totals.Parts + m.Totals.Spacers; len(m.Parts) != all {
		return fmt.Errorf("the manifest counts %d parts and spacers and lists %d", all, len(m.Parts))
	}
	type one struct {
		sprite, number string
		copy           int
	}
	seen := map[one]bool{}
	on := map[string]int{} // parts by sheet; only asked
	var all []toCut
	extra := 0 // pieces beyond each part's first
	for i, p := range m.Parts {
		if k := (one{p.Sprite, p.Number, p.Copy}); seen[k] {
			return fmt.Errorf("part %s of sprite %s, copy %d, is listed twice", p.Number, quote(p.Sprite), p.Copy)
		} else {
			seen[k] = true
		}
		cut, err := cutOf(p, sprites)
		if err != nil {
			return err
		}
		for k, q := range cut {
			on[q.sheet]++
			cut[k].id = i
			if k > 0 {
				cut[k].id = len(m.Parts) + extra
				extra++
			}
		}
		all = append(all, cut...)
	}
	for i := range m.Sheets {
		s := &m.Sheets[i]
		if on[s.DXF] != s.Parts || s.Parts == 0 {
			return fmt.Errorf("%s: the manifest counts %d parts and lists %d", s.DXF, s.Parts, on[s.DXF])
		}
		delete(on, s.DXF)
		if err := c.sheet(m, all, s, p, sprites); err != nil {
			return fmt.Errorf("%s: %w", s.DXF, err)
		}
	}
	delete(on, "") // parts without a sheet: a finding says why
	for name := range on {
		if strings.TrimSpace(name) != "" {
			return errors.New("a part is on a sheet that the manifest doesn't list")
		}
	}
	return nil
}

// sheet holds one sheet's files against the finished parts that are cut on it.
func (c contents) sheet(m manifest, all []toCut, s *manifestSheet, p *project.Project, sprites []*sprite) error {
	n := slices.IndexFunc(p.Stocks, func(st project.Stock) bool { return st.ID == s.Stock })
	if n < 0 {
		return fmt.Errorf("the project has no stock %s", quote(s.Stock))
	}
	if kerf := int64(p.Settings.KerfOf(p.Stocks[n])); kerf != int64(s.Kerf) {
		return fmt.Errorf("its kerf is %s mm in the manifest and %s mm in the project", mm(int64(s.Kerf)), mm(kerf))
	}
	k := cuts{half: (int64(s.Kerf) + 1) / 2}
	var stand int64
	var parts [][]around // finished, where they are cut
	frames, err := s.takeFrames(m, p, sprites)
	if err != nil {
		return err
	}
	for _, part := range all {
		if part.sheet != s.DXF {
			continue
		}
		if part.stock != s.Stock {
			return fmt.Errorf("part %s is of another stock", part.number)
		}
		var whole []around
		for _, c := range part.contours {
			c = c.onSheet(s.Face == string(project.FaceDown), part.turn, int64(part.move[0]), int64(part.move[1]))
			edges, odd := c.cutLines(k.half, part.id)
			k.want, k.odd = append(k.want, edges...), append(k.odd, odd...)
			whole = append(whole, boxed(c, false))
		}
		parts = append(parts, whole)
		stand += int64(part.tabs) * (int64(p.Settings.Tab) + int64(s.Kerf))
	}
	if len(k.odd) > 0 {
		k.slack = k.half + oddSlack
	}
	gap := int64(p.Settings.Gap)
	if p.Settings.Layout == project.InRegister {
		gap = 0 // what lies in register can't give way
	}
	if err := frames.keepApart(&k, len(all), max(0, gap-k.slack)); err != nil {
		return err
	}
	for n, f := range frames {
		edges, _ := f.contour().cutLines(k.half, len(all)+n)
		k.want = append(k.want, edges...)
		stand += int64(f.Tabs) * (int64(p.Settings.Tab) + int64(s.Kerf))
	}
	if err := k.within(int64(s.Size[0]), int64(s.Size[1]), p); err != nil {
		return err
	}
	lines, err := c.lines(s, &k)
	if err != nil {
		return err
	}
	if err := k.judge(stand, sharing(gap == 0)); err != nil {
		return err
	}
	return c.machineFiles(s, p, p.Stocks[n], lines, func(leads []lead) error { return outsideParts(leads, parts, k.half) })
}

// finished are the contours of a part in its sprite's files.
func finished(p manifestPart, sprites []*sprite) ([]contour, error) {
	for _, s := range sprites {
		if s.name != p.Sprite {
			continue
		}
		for _, l := range slices.Concat(s.layers, s.spacers) {
			if l.number == p.Layer && p.InLayer >= 1 && p.InLayer <= len(l.parts) {
				if got := l.parts[p.InLayer-1]; got.id == p.Number {
					return got.contours, nil
				}
				return nil, fmt.Errorf("part %s of sprite %s has another name in its files", p.Number, quote(p.Sprite))
			}
		}
	}
	return nil, fmt.Errorf("part %s of sprite %s isn't in its files", p.Number, quote(p.Sprite))
}

// within says whether all cuts keep the margins.
func (k *cuts) within(w, h int64, p *project.Project) error {
	m, most := p.Machine(), p.Settings.Margin
	left, right := int64(max(most, m.Left)), w-int64(max(most, m.Right))
	low, high := int64(max(most, m.Bottom)), h-int64(max(most, m.Top))
	for _, e := range k.want {
		x0, y0 := e.place(e.from)
		x1, y1 := e.place(e.to)
		if x0 < left-k.slack || y0 < low-k.slack || x1 > right+k.slack || y1 > high+k.slack {
			return fmt.Errorf("the cut at (%s, %s) mm lies in the margin", mm(x0), mm(y0))
		}
	}
	return nil
}

// lines reads the sheet's DXF and its SVG file, which must hold the same lines;
// those to be cut are added to k unless it is nil. The sheet's size is held against
// the manifest's, or taken where there is none.
func (c contents) lines(s *manifestSheet, k *cuts) ([]drawn, error) {
	var read []drawn
	sized := func(w, h int64) error {
		if s.Size == [2]length{} {
			s.Size = [2]length{length(w), length(h)}
		}
		if w != int64(s.Size[0]) || h != int64(s.Size[1]) {
			return errors.New("its size isn't the manifest's")
		}
		return nil
	}
	err := c.with(s.DXF, func(r io.Reader) error {
		w, h, err := readLines(r, func(layer string, l line) error {
			d := drawn{line: l, layer: layer, mark: strings.HasPrefix(layer, "MARK-")}
			switch {
			case len(l.contour) == 0:
				return errors.New("it holds a line without a vertex")
			case d.mark && len(read) > 0 && !read[len(read)-1].mark:
				return fmt.Errorf("the mark at (%s, %s) mm comes after a cut", mm(l.contour[0].x), mm(l.contour[0].y))
			case !d.mark && !strings.HasPrefix(layer, "CUT-"):
				return fmt.Errorf("a line lies on the DXF layer %s", quote(layer))
			}
			read = append(read, d)
			if d.mark || k == nil {
				return nil
			}
			return k.add(l)
		})
		return cmp.Or(err, sized(w, h))
	})
	if err != nil {
		return nil, err
	}
	err = c.with(s.SVG, func(r io.Reader) error {
		n := 0
		w, h, err := readSheetSVG(r, func(l line) error {
			if n == len(read) {
				return errors.New("it has more lines than the DXF file")
			}
			if where := sameContour(read[n].contour, l.contour); where != "" || read[n].open != l.open {
				return fmt.Errorf("line %d isn't the DXF file's %s", n+1, where)
			}
			n++
			return nil
		})
		if err == nil && n < len(read) {
			err = errors.New("it has fewer lines than the DXF file")
		}
		return cmp.Or(err, sized(w, h))
	})
	if err != nil {
		return nil, fmt.Errorf("%s: %w", s.SVG, err)
	}
	return read, nil
}
