package readback

import (
	"fmt"
	"slices"

	"sheetsprite/engine/project"
)

// frame is a frame of a sheet with the indices of the parts in it.
type frame struct {
	manifestFrame
	members []int // into the manifest's parts
}

// frames are all of a sheet.
type frames []frame

// takeFrames takes over what the manifest says of a sheet's frames: each is about all
// parts of a layer that the project wants whole, and they lie in it as in the sprite:
// turned and moved alike.
func (s *manifestSheet) takeFrames(m manifest, p *project.Project, sprites []*sprite) (frames, error) {
	var out frames
	for _, mf := range s.Frames {
		f := frame{manifestFrame: mf}
		fail := func(format string, args ...any) (frames, error) {
			return nil, fmt.Errorf("the frame about layer %d of sprite %s %s", mf.Layer, quote(mf.Sprite), fmt.Sprintf(format, args...))
		}
		at := slices.IndexFunc(sprites, func(s *sprite) bool { return s.name == mf.Sprite })
		of := slices.IndexFunc(p.Sprites, func(s project.Sprite) bool { return s.Name == mf.Sprite })
		if at < 0 || of < 0 || mf.Layer < 1 || mf.Layer > len(sprites[at].layers) {
			return fail("has no such layer")
		}
		l := &sprites[at].layers[mf.Layer-1]
		if !p.Sprites[of].Stack.LeftWhole(l.height, s.Stock) || p.Settings.Layout == project.InRegister || len(p.Choice.Parts) > 0 {
			return fail("isn't wanted")
		}
		for i, part := range m.Parts {
			if part.Sprite != mf.Sprite || part.Copy != mf.Copy || part.Layer != mf.Layer {
				continue
			}
			first := part
			if len(f.members) > 0 {
				first = m.Parts[f.members[0]]
			}
			if part.Sheet != s.DXF || part.Turn != first.Turn || part.Move != first.Move {
				return fail("doesn't hold %s at its true place", part.Number)
			}
			if len(part.Pieces) > 0 {
				return fail("holds %s, which is cut in pieces", part.Number)
			}
			if part.Tabs == 0 {
				return fail("doesn't hold %s by a tab", part.Number)
			}
			if !slices.Contains(mf.Parts, part.Number) {
				return fail("leaves %s out", part.Number)
			}
			f.members = append(f.members, i)
		}
		if len(f.members) != len(l.parts) || len(f.members) != len(mf.Parts) {
			return fail("holds %d of its %d parts", len(f.members), len(l.parts))
		}
		out = append(out, f)
	}
	return out, nil
}

// contour is the frame's finished outline.
func (f frame) contour() contour {
	x0, y0 := int64(f.At[0]), int64(f.At[1])
	x1, y1 := x0+int64(f.Size[0]), y0+int64(f.Size[1])
	return contour{{x: x0, y: y0}, {x: x1, y: y0}, {x: x1, y: y1}, {x: x0, y: y1}}
}

// keepApart says whether parts keep their gap: to a part outside a frame is what the
// frame is, within it are its own. free is an index that no part has.
func (fs frames) keepApart(k *cuts, free int, gap int64) error {
	framed := map[int]bool{} // only asked
	var outside []cutEdge
	for n, f := range fs {
		for _, i := range f.members {
			framed[i] = true
		}
		edges, _ := f.contour().cutLines(k.half, free+n)
		outside = append(outside, edges...)
	}
	for _, e := range k.want {
		if !framed[e.part] {
			outside = append(outside, e)
		}
	}
	free += len(fs)
	odd := slices.DeleteFunc(slices.Clone(k.odd), func(o oddEdge) bool { return framed[o.part] })
	if err := keepApart(outside, odd, gap); err != nil {
		return err
	}
	for _, f := range fs {
		var within []cutEdge
		for _, e := range k.want {
			if slices.Contains(f.members, e.part) {
				within = append(within, e)
				if !f.holds(e, gap) {
					return fmt.Errorf("part of layer %d lies at its frame's edge", f.Layer)
				}
			}
		}
		odd := slices.DeleteFunc(slices.Clone(k.odd), func(o oddEdge) bool { return !slices.Contains(f.members, o.part) })
		if err := keepApart(within, odd, gap); err != nil {
			return err
		}
	}
	return nil
}

// holds says whether a cut lies in the frame, so far from its edge.
func (f frame) holds(e cutEdge, gap int64) bool {
	c := f.contour()
	x0, y0 := e.place(e.from)
	x1, y1 := e.place(e.to)
	return x0 >= c[0].x+gap && y0 >= c[0].y+gap && x1 <= c[2].x-gap && y1 <= c[2].y-gap
}
