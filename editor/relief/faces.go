package relief

import (
	"math"
	"slices"
)

// Kind is what a face shows.
type Kind uint8

// The kinds of faces.
const (
	Top    Kind = iota // the upper face of a part
	Wall               // its cut edge
	Shadow             // what the shade map darkens; U, V are places in the map, texels
	Rim                // the edge of an upper face, where the cut catches the light or lies in the dark
)

// Face is four corners on the glass, in order around. Faces are painted in the
// order in which they come, so that the nearer one covers the farther one.
type Face struct {
	X, Y    [4]float32 // pixels
	U, V    [4]float32
	R, G, B float32 // 0 to 1; of all but Shadow
	A       float32 // of Rim: how much it covers
	Part    int32   // -1: the board
	Kind    Kind
}

// Faces is the scene as it is seen. Slab by slab of height from below: within a
// slab first the walls, far ones first, then the tops that end it. A line of
// sight comes down from above, so it meets a slab's top before the walls below
// it: nothing nearer is painted over.
func Faces(s Scene, c Camera, only Shown) []Face {
	v := c.view(s)
	faces := make([]Face, 0, len(s.Quads)*2)
	if only.All() && c.Pull == 0 {
		faces = append(faces, Face{Kind: Shadow, Part: -1})
	}
	levels := levels(s, c, only)
	walls := walls(s, v, only)
	for i, z := range levels {
		if i > 0 {
			faces = appendWalls(faces, s, c, v, walls, levels[i-1], z)
		}
		for j, p := range s.Parts {
			if _, upper := c.heights(p); upper != z || !only.part(s, j) {
				continue
			}
			faces = appendTops(faces, s, v, int32(j), z)
			if only.All() && c.Pull == 0 {
				faces = appendRuns(faces, s, v, int32(j), z)
			}
			if c.Rim > 0 {
				faces = appendRims(faces, s, c, v, int32(j), z)
			}
		}
	}
	return faces
}

// levels are all heights at which a shown part begins or ends, lowest first.
func levels(s Scene, c Camera, only Shown) []float64 {
	var zs []float64
	for i, p := range s.Parts {
		if only.part(s, i) {
			lower, upper := c.heights(p)
			zs = append(zs, lower, upper)
		}
	}
	slices.Sort(zs)
	return slices.Compact(zs)
}

// wall is an edge whose cut faces the viewer.
type wall struct {
	edge, part int32
	depth      float64
}

func walls(s Scene, v view, only Shown) []wall {
	if v.sinTilt < 0.02 {
		return nil // seen from above a cut has no height
	}
	var ws []wall
	for i, p := range s.Parts {
		if !only.part(s, i) {
			continue
		}
		for e := p.Edge0; e < p.Edge1; e++ {
			g := s.Edges[e]
			nx, ny := float64(g.Y1-g.Y0), float64(g.X0-g.X1) // outward
			if v.depth(nx, ny) < 0 {
				ws = append(ws, wall{e, int32(i), v.depth(float64(g.X0)+float64(g.X1), float64(g.Y0)+float64(g.Y1))})
			}
		}
	}
	slices.SortStableFunc(ws, func(a, b wall) int {
		switch {
		case a.depth > b.depth:
			return -1
		case a.depth < b.depth:
			return 1
		}
		return 0
	})
	return ws
}

func appendWalls(faces []Face, s Scene, c Camera, v view, ws []wall, from, to float64) []Face {
	for _, w := range ws {
		p := s.Parts[w.part]
		if lower, upper := c.heights(p); lower > from || upper < to {
			continue
		}
		g := s.Edges[w.edge]
		f := Face{Kind: Wall, Part: w.part}
		f.X[0], f.Y[0] = v.at(float64(g.X0), float64(g.Y0), from)
		f.X[1], f.Y[1] = v.at(float64(g.X1), float64(g.Y1), from)
		f.X[2], f.Y[2] = v.at(float64(g.X1), float64(g.Y1), to)
		f.X[3], f.Y[3] = v.at(float64(g.X0), float64(g.Y0), to)
		light := Light(float64(g.Y1-g.Y0), float64(g.X0-g.X1))
		f.R, f.G, f.B = cut(p.R, light), cut(p.G, light), cut(p.B, light)
		faces = append(faces, f)
	}
	return faces
}

// Light is how squarely a cut that faces (nx, ny) catches the light, −1 to 1:
// it comes from the upper left.
func Light(nx, ny float64) float64 {
	n := math.Sqrt(nx*nx + ny*ny)
	if n == 0 {
		return 0
	}
	return (ny - nx) / (n * math.Sqrt2)
}

// cut is a channel of a cut edge: paler than the face where it catches the
// light, for card is pale inside; darker where it is turned away.
func cut(channel int32, light float64) float32 {
	base := float64(channel) / 255
	if light > 0 {
		return float32(base + (0.92-base)*0.38*light)
	}
	return float32(base * (0.82 + 0.3*light))
}

func appendTops(faces []Face, s Scene, v view, part int32, z float64) []Face {
	p := s.Parts[part]
	for _, q := range s.Quads[p.Quad0:p.Quad1] {
		f := Face{Kind: Top, Part: part, R: float32(p.R) / 255, G: float32(p.G) / 255, B: float32(p.B) / 255}
		f.X[0], f.Y[0] = v.at(float64(q.XL0), float64(q.Y0), z)
		f.X[1], f.Y[1] = v.at(float64(q.XR0), float64(q.Y0), z)
		f.X[2], f.Y[2] = v.at(float64(q.XR1), float64(q.Y1), z)
		f.X[3], f.Y[3] = v.at(float64(q.XL1), float64(q.Y1), z)
		faces = append(faces, f)
	}
	return faces
}

// appendRims draws a part's outline, just inside it.
func appendRims(faces []Face, s Scene, c Camera, v view, part int32, z float64) []Face {
	p := s.Parts[part]
	width := c.Rim / c.PerMm * 1000
	for _, g := range s.Edges[p.Edge0:p.Edge1] {
		x0, y0, x1, y1 := float64(g.X0), float64(g.Y0), float64(g.X1), float64(g.Y1)
		nx, ny := y1-y0, x0-x1 // outward
		n := math.Sqrt(nx*nx + ny*ny)
		dx, dy := nx/n*width, ny/n*width
		f := Face{Kind: Rim, Part: part}
		f.X[0], f.Y[0] = v.at(x0, y0, z)
		f.X[1], f.Y[1] = v.at(x1, y1, z)
		f.X[2], f.Y[2] = v.at(x1-dx, y1-dy, z)
		f.X[3], f.Y[3] = v.at(x0-dx, y0-dy, z)
		switch light := Light(nx, ny); {
		case c.Pull > 0: // in the air, a pale part over a pale board
			f.A = 0.4
		case light > 0:
			f.R, f.G, f.B, f.A = 1, 1, 1, float32(0.5*light)
		default:
			f.A = float32(-0.28 * light)
		}
		faces = append(faces, f)
	}
	return faces
}

// appendRuns lays the shade over the cells of a part that nothing covers.
func appendRuns(faces []Face, s Scene, v view, part int32, z float64) []Face {
	p := s.Parts[part]
	for _, r := range s.Runs[p.Run0:p.Run1] {
		x0, x1 := s.Grid[0]+r.X0*s.Cell, s.Grid[0]+r.X1*s.Cell
		y1 := s.Grid[1] + (s.Rows-r.Y)*s.Cell
		faces = append(faces, shadowFace(v, part, x0, y1-s.Cell, x1, y1, z))
	}
	return faces
}

// shadowFace keeps places in µm in U and V; Map turns them into texels.
func shadowFace(v view, part, x0, y0, x1, y1 int32, z float64) Face {
	f := Face{Kind: Shadow, Part: part}
	for i, at := range [4][2]int32{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}} {
		f.U[i], f.V[i] = float32(at[0]), float32(at[1])
		f.X[i], f.Y[i] = v.at(float64(at[0]), float64(at[1]), z)
	}
	return f
}

// Map turns the shadows' places into texels of the map and gives the board's
// shadow its four corners.
func (m Shade) Map(faces []Face, s Scene, c Camera) {
	if m.W == 0 || m.H == 0 {
		return
	}
	v := c.view(s)
	for i := range faces {
		f := &faces[i]
		if f.Kind != Shadow {
			continue
		}
		if f.Part < 0 {
			x1, y0 := m.X0+int32(float64(m.W)*m.Texel), m.Y1-int32(float64(m.H)*m.Texel)
			*f = shadowFace(v, -1, m.X0, y0, x1, m.Y1, 0)
		}
		for k := range 4 {
			f.U[k] = float32((float64(f.U[k]) - float64(m.X0)) / m.Texel)
			f.V[k] = float32((float64(m.Y1) - float64(f.V[k])) / m.Texel)
		}
	}
}
