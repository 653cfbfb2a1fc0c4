package readback

import (
	"fmt"
	"math"
	"slices"

	"sheetsprite/engine/project"
)

// manifestJig is a jig's plate or rim.
type manifestJig struct {
	Sprite   string
	Height   int
	Piece    string
	Stock    string
	DXF, SVG string
	GCode    string
	Bounds   string    `json:"bounds_gcode"`
	Size     [2]length `json:"size_mm"`
	Move     [2]length `json:"move_mm"`
	Clear    length    `json:"clearance_mm"`
	Windows  [][]string
	Cut      length `json:"cut_mm"`
	Lead     length `json:"lead_mm"`
	Mark     length `json:"mark_mm"`
	Travel   length `json:"travel_mm"`
}

// jigs reads the files of all jigs: what the project wants, drawn and driven alike,
// and no part of the height that a plate is for comes nearer to its stock than the
// clearance.
func (c contents) jigs(m manifest, p *project.Project, sprites []*sprite) error {
	for _, j := range m.Jigs {
		if err := c.jig(j, p, sprites); err != nil {
			return fmt.Errorf("%s: %w", j.DXF, err)
		}
	}
	return nil
}

func (c contents) jig(j manifestJig, p *project.Project, sprites []*sprite) error {
	at := slices.IndexFunc(sprites, func(s *sprite) bool { return s.name == j.Sprite })
	of := slices.IndexFunc(p.Sprites, func(s project.Sprite) bool { return s.Name == j.Sprite })
	stock := slices.IndexFunc(p.Stocks, func(s project.Stock) bool { return s.ID == j.Stock })
	if at < 0 || of < 0 || stock < 0 || p.Sprites[of].Stack.JigFrom(j.Height) != j.Stock || j.Piece != "plate" && j.Piece != "rim" {
		return fmt.Errorf("the project wants no such jig")
	}
	if int64(j.Clear) != int64(p.Settings.JigClear) {
		return fmt.Errorf("its clearance is %s mm and should be %s mm", mm(int64(j.Clear)), mm(int64(p.Settings.JigClear)))
	}
	s := &manifestSheet{
		Stock: j.Stock, DXF: j.DXF, SVG: j.SVG, GCode: j.GCode, Bounds: j.Bounds, Size: j.Size,
		Cut: j.Cut, Lead: j.Lead, Mark: j.Mark, Travel: j.Travel,
	}
	lines, err := c.lines(s, nil)
	if err != nil {
		return err
	}
	kerf := int64(p.Settings.KerfOf(p.Stocks[stock]))
	half := (kerf + 1) / 2
	if j.Piece == "plate" {
		if err := sprites[at].throughWindows(j, lines, half); err != nil {
			return err
		}
	}
	return c.machineFiles(s, p, p.Stocks[stock], lines, func(leads []lead) error {
		return besideLines(leads, lines, kerf)
	})
}

// throughWindows says whether every part of a plate's height fits a window: it lies
// within all that is cut, no cut crosses it, and none comes nearer than the clearance
// less half the kerf.
func (s *sprite) throughWindows(j manifestJig, lines []drawn, half int64) error {
	parts := 0
	for _, l := range s.layers {
		if l.height != j.Height {
			continue
		}
		for _, q := range l.parts {
			parts++
			if !slices.ContainsFunc(j.Windows, func(w []string) bool { return slices.Contains(w, q.id) }) {
				return fmt.Errorf("it has no window for %s", q.id)
			}
			outer := boxed(q.contours[0].onSheet(false, 0, int64(j.Move[0]), int64(j.Move[1])), false)
			// A cut's middle runs half a kerf within its window: where that is more than
			// the clearance it lies that much within the part, at a corner √2 times as far.
			near, deep := int64(j.Clear)-half, float64(half-int64(j.Clear))*math.Sqrt2+2
			for _, d := range lines {
				if d.mark {
					continue
				}
				for i, v := range d.contour {
					if d.open && i == len(d.contour)-1 {
						break
					}
					e := lead{from: v, to: d.contour[(i+1)%len(d.contour)]}
					if outer.holds(v) && (lead{from: v, to: v}).away(outer) > max(0, deep) ||
						near > 0 && e.near(outer.box, near) && e.away(outer) < float64(near)-1 {
						return fmt.Errorf("%s doesn't go through its window at (%s, %s) mm", q.id, mm(v.x), mm(v.y))
					}
				}
			}
		}
	}
	listed := 0
	for _, w := range j.Windows {
		listed += len(w)
	}
	if parts == 0 || listed != parts {
		return fmt.Errorf("it has windows for %d parts of %d", listed, parts)
	}
	return nil
}
