// Package guide writes guide.pdf: what a job needs, and sprite by sprite the key
// of its numbered parts, the stack pulled apart, the steps in their order and
// the parts' outlines to lay them on, then the sheets as they come off the
// machine and what to mind.
//
// All outlines are vectors; on the pages that say so they are at true scale. All
// words stand in words.go. The bytes depend on the job only.
package guide

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"

	"sheetsprite/engine"
	"sheetsprite/engine/assemble"
	"sheetsprite/engine/cut"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// Job is what a guide is made from.
type Job struct {
	Project  *project.Project
	Plan     *engine.Planned // with sheets and assembly
	Pictures [][]byte        // a PNG of each of the plan's sprites
	Sheets   []string        // the name of each of the plan's sheets
	Paper    Paper
}

// Write makes the guide.
//
// Errors: a job without assembly or pictures, and what the PDF library has to
// complain about.
func Write(j Job) ([]byte, error) {
	var b bytes.Buffer
	err := WriteTo(&b, j)
	return b.Bytes(), err
}

// WriteTo is Write where the guide goes on elsewhere.
func WriteTo(w io.Writer, j Job) error { return write(w, j, nil) }

func write(w io.Writer, j Job, watch func(page int, v view, o shape.Outline)) error {
	if len(j.Plan.Assembly) != len(j.Plan.Sprites) || len(j.Pictures) != len(j.Plan.Sprites) || j.Plan.Sheets == nil {
		return errors.New("guide: the plan has no sheets, no assembly or no pictures")
	}
	p, err := newPen(j.Paper, j.Project.Name)
	if err != nil {
		return err
	}
	if j.Pictures, err = widened(j.Pictures); err != nil {
		return err
	}
	p.watch = watch
	g := &guide{pen: p, job: j}
	g.gather()
	g.leaveOut()
	g.cover()
	for i := range g.sprites {
		g.keyOf(&g.sprites[i])
		g.stepsOf(&g.sprites[i])
	}
	for i := range g.sprites {
		g.matOf(&g.sprites[i])
	}
	g.sheetMaps()
	g.cautions()
	p.endPage()
	p.forms, g.sprites = nil, nil // the library holds what it still needs
	if err := p.pdf.Output(&identifier{w}); err != nil {
		return fmt.Errorf("guide.pdf: %w", err)
	}
	return nil
}

// guide is a guide in the making.
type guide struct {
	*pen
	job     Job
	sprites []sprite
	y       shape.Um // where the next thing on the page begins
	about   string   // what the page is about, for its foot
}

// sprite is what the guide tells of one drawing.
type sprite struct {
	index  int // into the plan's sprites
	source *project.Sprite
	plan   *engine.Sprite
	built  *assemble.Plan
	png    []byte
	parts  []part                // by Index, then the spacers
	made   int                   // copies of it, or of some of its parts
	found  map[*cut.Piece][]stub // only asked: looking whether a stub shows takes long
}

// part is a part with all that the guide says of it.
type part struct {
	number string
	shape  *outline.Part
	layer  *outline.Layer
	stock  project.Stock
	piece  *cut.Piece
	wanted bool         // it is cut now
	lifts  int          // of a spacer: Index of the part on it; -1
	region shape.Region // a little less where edges are round
	seen   shape.Region // what nothing on it covers
}

// gather puts together what the guide tells.
func (g *guide) gather() {
	g.sprites = make([]sprite, len(g.job.Plan.Sprites))
	for i := range g.sprites {
		s := &g.job.Plan.Sprites[i]
		g.sprites[i] = sprite{
			index: i, source: &g.job.Project.Sprites[s.Index], plan: s, built: &g.job.Plan.Assembly[i],
			png: g.job.Pictures[i], parts: make([]part, len(s.Numbers)), found: map[*cut.Piece][]stub{},
		}
	}
	for i := range g.sprites {
		s := &g.sprites[i]
		for k := range g.job.Plan.Sheets.Pieces[i] {
			c := &g.job.Plan.Sheets.Pieces[i][k]
			s.parts[k] = part{
				number: c.Number, shape: c.Part, layer: c.Layer, piece: c,
				stock: s.plan.Stocks[c.Layer.Stock], region: assemble.Inscribed(c.Part.Outline), lifts: -1,
			}
			if n := s.plan.Parts(); k >= n {
				s.parts[k].lifts = s.plan.Lifted[k-n]
			}
		}
		above := make([][]shape.Rect, len(s.parts))
		for k := range s.parts {
			if on := s.parts[k].shape.On; on >= 0 && s.parts[k].lifts < 0 {
				above[on] = append(above[on], s.parts[k].region.Rects()...)
			}
		}
		for k := range s.parts {
			if s.parts[k].lifts < 0 {
				s.parts[k].seen = s.parts[k].region.Subtract(shape.FromRects(above[k]))
			}
		}
	}
}

// leaveOut drops the sprites of which nothing is cut now.
func (g *guide) leaveOut() {
	for _, c := range g.job.Plan.Sheets.Parts {
		s := &g.sprites[c.Sprite]
		s.made = max(s.made, c.Copy)
		s.parts[c.Piece.Part.Index].wanted = true
	}
	g.sprites = slices.DeleteFunc(g.sprites, func(s sprite) bool { return s.made == 0 })
}

// copies is how often a sprite is made.
func (s *sprite) copies() int { return s.made }

// size is the sprite's extent.
func (s *sprite) size() shape.Point { return s.plan.Layout.Size }
