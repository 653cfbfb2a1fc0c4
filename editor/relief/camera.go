package relief

import "math"

// Camera is how the maker looks at a scene: from straight above, or turned
// about the upright and tilted. Parallel rays, so that millimetres stay
// millimetres. Places on the glass are in pixels, y down.
type Camera struct {
	Turn   float64 // radians about the upright
	Tilt   float64 // radians from straight above; below a right angle
	PerMm  float64 // pixels
	CX, CY float64 // where the middle of the scene's bounds lies
	Pull   float64 // µm of air added between heights
	Rim    float64 // width of the upper faces' edges, pixels
}

// Limits of what a finger can do.
const (
	MaxTilt = 1.25
	MaxTurn = math.Pi
)

// FaceOn says whether the scene is seen from straight above, unturned.
func (c Camera) FaceOn() bool { return c.Tilt == 0 && c.Turn == 0 }

// view is a camera's arithmetic for one scene.
type view struct {
	sinTurn, cosTurn, sinTilt, cosTilt float64
	scale, midX, midY, cx, cy          float64
}

func (c Camera) view(s Scene) view {
	v := view{scale: c.PerMm / 1000, midX: float64(s.Size[0]) / 2, midY: float64(s.Size[1]) / 2, cx: c.CX, cy: c.CY}
	v.sinTurn, v.cosTurn = math.Sincos(c.Turn)
	v.sinTilt, v.cosTilt = math.Sincos(c.Tilt)
	return v
}

// at is where a point of the scene is seen; lengths in µm.
func (v view) at(x, y, z float64) (float32, float32) {
	x, y = x-v.midX, y-v.midY
	right := x*v.cosTurn - y*v.sinTurn
	up := (x*v.sinTurn+y*v.cosTurn)*v.cosTilt + z*v.sinTilt
	return float32(v.cx + right*v.scale), float32(v.cy - up*v.scale)
}

// depth grows away from the viewer along the board.
func (v view) depth(x, y float64) float64 { return x*v.sinTurn + y*v.cosTurn }

// Bounds is where the scene's parts are seen: left, top, right, bottom.
func (c Camera) Bounds(s Scene, only Shown) (x0, y0, x1, y1 float64) {
	v := c.view(s)
	x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for i, p := range s.Parts {
		if !only.part(s, i) {
			continue
		}
		lower, upper := c.heights(p)
		for _, x := range []int32{p.X0, p.X1} {
			for _, y := range []int32{p.Y0, p.Y1} {
				for _, z := range []float64{lower, upper} {
					sx, sy := v.at(float64(x), float64(y), z)
					x0, x1 = math.Min(x0, float64(sx)), math.Max(x1, float64(sx))
					y0, y1 = math.Min(y0, float64(sy)), math.Max(y1, float64(sy))
				}
			}
		}
	}
	return x0, y0, x1, y1
}

// RightEnd is where the right end of a layer's bounds is seen: the corner that
// lies farthest right.
func (c Camera) RightEnd(s Scene, layer int32) (x, y float64) {
	v := c.view(s)
	x = math.Inf(-1)
	for _, p := range s.Parts {
		if p.Layer != layer {
			continue
		}
		_, upper := c.heights(p)
		for _, at := range [4][2]int32{{p.X0, p.Y0}, {p.X1, p.Y0}, {p.X1, p.Y1}, {p.X0, p.Y1}} {
			if sx, sy := v.at(float64(at[0]), float64(at[1]), upper); float64(sx) > x {
				x, y = float64(sx), float64(sy)
			}
		}
	}
	return x, y
}

// heights are a part's lower and upper face as they are shown, µm.
func (c Camera) heights(p Part) (lower, upper float64) {
	air := c.Pull * float64(p.Height-1)
	return float64(p.Z0) + air, float64(p.Z1) + air
}

// Shown says which layers are shown: the zero value shows all.
type Shown struct {
	Only int32 // this layer alone; 0: any
	UpTo int32 // no layer above this one; 0: all
}

func (o Shown) part(s Scene, i int) bool {
	l := s.Parts[i].Layer
	return (o.Only == 0 || l == o.Only) && (o.UpTo == 0 || l <= o.UpTo)
}

// All says whether nothing is left out.
func (o Shown) All() bool { return o == Shown{} }

// Pick is the part seen at a place of the glass, -1 for none.
func Pick(s Scene, c Camera, only Shown, x, y float64) int {
	faces := Faces(s, c, only)
	for i := len(faces) - 1; i >= 0; i-- {
		f := &faces[i]
		if (f.Kind == Top || f.Kind == Wall) && f.holds(float32(x), float32(y)) {
			return int(f.Part)
		}
	}
	return -1
}

// holds says whether a convex face holds a point.
func (f *Face) holds(x, y float32) bool {
	left, right := false, false
	for i := range 4 {
		j := (i + 1) % 4
		cross := (f.X[j]-f.X[i])*(y-f.Y[i]) - (f.Y[j]-f.Y[i])*(x-f.X[i])
		left = left || cross > 0
		right = right || cross < 0
	}
	return !(left && right)
}
