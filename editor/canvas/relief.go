//go:build js

package canvas

import (
	"image"
	"math"

	"github.com/hajimehoshi/ebiten/v2"

	"sheetsprite/editor/relief"
	"sheetsprite/editor/viewport"
)

// Relief is the stack as it will be. It has an image of its own, which is
// drawn again only after Touch, and where there is much to paint in several
// frames: until then the one before is shown.
type Relief struct {
	Area    viewport.Area // where it is shown; empty: nowhere
	Camera  relief.Camera // its middle within the area, device pixels; PerMm in device pixels
	Only    relief.Shown
	Grain   Grain
	Pointed int32 // part to bring out, -1 for none

	scene   relief.Scene
	shade   relief.Shade
	faces   []relief.Face // of the painting in hand
	painted int           // of them
	dark    *ebiten.Image // the shade map
	image   *ebiten.Image // what is shown
	next    *ebiten.Image // what is being painted; nil: nothing is
	spare   *ebiten.Image // of the same size
	fresh   bool          // all that was changed is painted or being painted
	// Tops, walls and rims are plain; shadows take from the shade map. They
	// are painted in one order, so one mesh is drawn before the other begins.
	plain, shadow mesh
}

// Grain says whether card shows a texture.
type Grain int

// The looks of card.
const (
	Smooth Grain = iota
	Rough
)

// Set shows another plan.
func (r *Relief) Set(s relief.Scene, m relief.Shade) {
	r.scene, r.shade, r.fresh = s, m, false
	r.Pointed = -1
	r.shadeAgain()
}

// SetGrain shows card with another look.
func (r *Relief) SetGrain(g Grain) {
	if r.Grain != g {
		r.Grain, r.fresh = g, false
		r.shadeAgain()
	}
}

// shadeAgain makes the shade map anew; a painting in hand would mix the two.
func (r *Relief) shadeAgain() {
	r.next = nil
	m := r.shade
	if r.dark != nil {
		r.dark.Deallocate()
		r.dark = nil
	}
	if m.W == 0 || m.H == 0 {
		return
	}
	r.dark = ebiten.NewImage(int(m.W), int(m.H))
	r.dark.WritePixels(shadePixels(m, r.scene, r.Grain))
}

// shadowMost is how opaque a full shadow is, of 255.
const shadowMost = 112

// shadePixels is a shade map as black, the more opaque the darker, multiplied
// by alpha. Rough card has faint light and dark specks besides, from a fixed
// sequence so that they stay the same; the board has none.
func shadePixels(m relief.Shade, s relief.Scene, g Grain) []byte {
	w, h := int(m.W), int(m.H)
	pixels := make([]byte, 4*w*h)
	covered := s.Covered()
	// The cell of each column and row of texels.
	cols, rows := make([]int, w), make([]int, h)
	for x := range cols {
		cols[x] = int(math.Floor((float64(m.X0-s.Grid[0]) + (float64(x)+0.5)*m.Texel) / float64(s.Cell)))
	}
	for y := range rows {
		rows[y] = int(s.Rows) - 1 - int(math.Floor((float64(m.Y1-s.Grid[1])-(float64(y)+0.5)*m.Texel)/float64(s.Cell)))
	}
	n := uint32(2463534242)
	var rough bool
	for y, row := range rows {
		last := math.MinInt
		for x, col := range cols {
			if col != last {
				last, rough = col, g == Rough && covered(col, row)
			}
			i := y*w + x
			alpha, white := int(m.Dark[i])*shadowMost/255, 0
			if rough {
				n = n*1664525 + 1013904223 // Numerical Recipes' constants
				if speck := int(n>>24)%13 - 6; speck < 0 {
					alpha -= speck
				} else {
					white = speck
					alpha += speck / 2
				}
				alpha = max(alpha, white)
			}
			if alpha == 0 {
				continue
			}
			p := pixels[4*i : 4*i+4 : 4*i+4]
			p[0], p[1], p[2], p[3] = byte(white), byte(white), byte(white), byte(alpha)
		}
	}
	return pixels
}

// Scene is the plan that is shown.
func (r *Relief) Scene() relief.Scene { return r.scene }

// Touch has the relief drawn again with the next frame.
func (r *Relief) Touch() { r.fresh = false }

// facesAFrame is how many faces are painted in a frame: some ten milliseconds'
// work for a slow tablet.
const facesAFrame = 5000

// waits says whether a frame would bring the relief on.
func (r *Relief) waits() bool { return r.Area.W > 0 && r.Area.H > 0 && (!r.fresh || r.next != nil) }

func (g *Glass) drawRelief(screen *ebiten.Image) {
	r := &g.Relief
	w, h := int(g.px(r.Area.W)), int(g.px(r.Area.H))
	if w <= 0 || h <= 0 {
		return
	}
	r.fit(w, h, g.Theme)
	if r.next == nil && !r.fresh {
		r.begin(g.Theme)
	}
	if r.next != nil {
		r.paint(g.Theme)
	}
	o := &ebiten.DrawImageOptions{Blend: ebiten.BlendCopy}
	o.GeoM.Translate(float64(g.px(r.Area.X)), float64(g.px(r.Area.Y)))
	screen.DrawImage(r.image, o)
}

// fit gives the relief images of a size, device pixels.
func (r *Relief) fit(w, h int, t Theme) {
	if r.image != nil && r.image.Bounds().Dx() == w && r.image.Bounds().Dy() == h {
		return
	}
	for _, img := range []*ebiten.Image{r.image, r.spare} {
		if img != nil {
			img.Deallocate()
		}
	}
	empty := func() *ebiten.Image {
		return ebiten.NewImageWithOptions(image.Rect(0, 0, w, h), &ebiten.NewImageOptions{Unmanaged: true})
	}
	r.image, r.spare, r.next = empty(), empty(), nil
	r.image.Fill(t.Sheet.color())
	r.fresh = false
}

// begin starts a painting of the scene as it is seen now.
func (r *Relief) begin(t Theme) {
	r.fresh, r.painted, r.faces = true, 0, nil
	r.next = r.spare
	r.next.Fill(t.Sheet.color())
	if len(r.scene.Parts) == 0 {
		return
	}
	r.faces = relief.Faces(r.scene, r.Camera, r.Only)
	r.shade.Map(r.faces, r.scene, r.Camera)
}

// paint goes on with the painting, and shows it once it is done.
func (r *Relief) paint(t Theme) {
	end := min(r.painted+facesAFrame, len(r.faces))
	r.paintFaces(r.faces[r.painted:end], t)
	if r.painted = end; end < len(r.faces) {
		return
	}
	r.image, r.spare, r.next = r.next, r.image, nil
}

func (r *Relief) paintFaces(faces []relief.Face, t Theme) {
	smooth := &ebiten.DrawTrianglesOptions{Filter: ebiten.FilterLinear}
	for i := range faces {
		f := &faces[i]
		if f.Kind == relief.Shadow {
			if r.dark == nil {
				continue
			}
			r.plain.flush(r.next, blank, nil)
			if len(r.shadow.vertices) > full {
				r.shadow.flush(r.next, r.dark, smooth)
			}
			r.shadow.quad(&f.X, &f.Y, &f.U, &f.V, Paint{1, 1, 1, 1})
			continue
		}
		if r.dark != nil {
			r.shadow.flush(r.next, r.dark, smooth)
		}
		if len(r.plain.vertices) > full {
			r.plain.flush(r.next, blank, nil)
		}
		p := Paint{f.R, f.G, f.B, 1}
		switch {
		case f.Kind == relief.Rim:
			p.a = f.A
			if f.Part == r.Pointed {
				p = t.Chosen
			}
		case r.Pointed >= 0 && f.Part != r.Pointed:
			p = p.toward(t.Sheet, 0.45)
		}
		r.plain.quad(&f.X, &f.Y, &plain, &plain, p)
	}
	r.plain.flush(r.next, blank, nil)
	if r.dark != nil {
		r.shadow.flush(r.next, r.dark, smooth)
	}
}

// toward mixes p with a share of q.
func (p Paint) toward(q Paint, share float32) Paint {
	return Paint{p.r + (q.r-p.r)*share, p.g + (q.g-p.g)*share, p.b + (q.b-p.b)*share, p.a}
}
