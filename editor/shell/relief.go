//go:build js

package shell

import (
	"fmt"
	"math"
	"syscall/js"

	"sheetsprite/editor"
	"sheetsprite/editor/canvas"
	"sheetsprite/editor/gesture"
	"sheetsprite/editor/plan"
	"sheetsprite/editor/relief"
)

const (
	// cssPxPerMm holds until the glass is measured: CSS's own 96 pixels an inch.
	cssPxPerMm = 96 / 25.4
	// reliefMargin is what is left free about the sprite, CSS pixels.
	reliefMargin = 14.0
	// pullMost is how far the layers come apart, µm between two heights.
	pullMost = 12000.0
	// degreesPerPx is how far a finger turns the relief.
	degreesPerPx = 0.6
	// tapSlop is how far a tap may wander, CSS pixels.
	tapSlop = 6.0
)

// cameraKey is what a camera follows from.
type cameraKey struct {
	relief editor.Relief
	area   box
	ratio  float64
	perMm  float64
	pan    [2]float64
}

// showRelief gives the canvas the newest plan and the camera.
func (s *Shell) showRelief(r editor.Relief) {
	g := &s.glass.Relief
	g.Area = s.layout.Relief.area()
	summary, _ := s.editor.Plan()
	if s.shown.plan != summary {
		s.shown.plan = summary
		if s.showPlan(summary) {
			s.shown.camera = cameraKey{}
		}
	}
	key := cameraKey{r, s.layout.Relief, s.glass.Ratio, s.editor.Session().PxPerMm, s.pan}
	if s.shown.camera == key {
		return
	}
	s.shown.camera = key
	g.Only = relief.Shown{}
	switch r.Show {
	case editor.OneLayer:
		g.Only.Only = int32(r.Layer)
	case editor.UpTo:
		g.Only.UpTo = int32(r.Layer)
	}
	grain := canvas.Smooth
	if r.Card == "textured" {
		grain = canvas.Rough
	}
	g.SetGrain(grain)
	g.Camera = s.camera(key, g.Scene(), g.Only)
	g.Touch()
	s.tellPreview()
}

// showPlan unpacks a plan's shapes. A plan without any (the quick one, or one
// that failed) keeps the sprite's last good one in view; another sprite's goes.
// It says whether what is seen changed.
func (s *Shell) showPlan(p *plan.Summary) bool {
	if s.keepsScene(p) {
		return false
	}
	s.pointed, s.shown.scene = -1, 0
	if p == nil || len(p.Scene) == 0 {
		s.glass.Relief.Set(relief.Scene{}, relief.Shade{})
		return true
	}
	scene, shade, err := relief.Decode(p.Scene)
	if err != nil {
		panic("shell: " + err.Error())
	}
	s.shown.scene = p.Sprite
	s.glass.Relief.Set(scene, shade)
	return true
}

func (s *Shell) keepsScene(p *plan.Summary) bool {
	return p != nil && len(p.Scene) == 0 && s.shown.scene == p.Sprite && p.Problem == ""
}

// camera looks at the scene so that it is wholly in view, or at its real size.
func (s *Shell) camera(k cameraKey, scene relief.Scene, only relief.Shown) relief.Camera {
	radians := math.Pi / 180
	c := relief.Camera{
		Turn: k.relief.Turn * radians, Tilt: k.relief.Tilt * radians,
		PerMm: 1, Pull: k.relief.Apart * pullMost, Rim: math.Max(1, k.ratio),
	}
	w, h := k.area.W*k.ratio, k.area.H*k.ratio
	if len(scene.Parts) == 0 || w <= 0 || h <= 0 {
		return c
	}
	x0, y0, x1, y1 := c.Bounds(scene, relief.Shown{})
	fit := func(room, need float64) float64 {
		return math.Max(room-2*reliefMargin*k.ratio, 20) / math.Max(need, 0.01)
	}
	c.PerMm = math.Min(fit(w, x1-x0), fit(h, y1-y0))
	if k.relief.Size == editor.RealSize {
		c.PerMm = cssPxPerMm * k.ratio
		if k.perMm > 0 {
			c.PerMm = k.perMm * k.ratio
		}
	}
	// What is seen lies in the middle.
	x0, y0, x1, y1 = c.Bounds(scene, relief.Shown{})
	c.CX, c.CY = w/2-(x0+x1)/2, h/2-(y0+y1)/2
	if k.relief.Size == editor.RealSize { // it may be larger than its panel
		roomX, roomY := math.Max(0, (x1-x0-w)/2+reliefMargin*k.ratio), math.Max(0, (y1-y0-h)/2+reliefMargin*k.ratio)
		c.CX += math.Max(-roomX, math.Min(k.pan[0]*k.ratio, roomX))
		c.CY += math.Max(-roomY, math.Min(k.pan[1]*k.ratio, roomY))
	}
	return c
}

// overflows says whether the preview is larger than its panel, so that
// dragging moves it instead of turning it.
func (s *Shell) overflows() bool {
	a, scene := s.glass.Relief.Area, s.glass.Relief.Scene()
	if s.editor.Session().Relief.Size != editor.RealSize || len(scene.Parts) == 0 {
		return false
	}
	x0, y0, x1, y1 := s.glass.Relief.Camera.Bounds(scene, relief.Shown{})
	return x1-x0 > a.W*s.glass.Ratio || y1-y0 > a.H*s.glass.Ratio
}

// tellPreview tells the model where the sprite's bounds lie on the page.
func (s *Shell) tellPreview() {
	g, ratio := &s.glass.Relief, s.glass.Ratio
	if len(g.Scene().Parts) == 0 || g.Area.W <= 0 {
		s.editor.SetPreview(editor.Preview{})
		return
	}
	x0, y0, x1, y1 := g.Camera.Bounds(g.Scene(), relief.Shown{})
	s.editor.SetPreview(editor.Preview{
		X: g.Area.X + x0/ratio, Y: g.Area.Y + y0/ratio,
		Width: (x1 - x0) / ratio, Height: (y1 - y0) / ratio, PxPerMm: g.Camera.PerMm / ratio,
	})
}

// turner is a pointer that turns the relief.
type turner struct {
	id             int32
	startX, startY float64
	x, y           float64
	moved          bool
}

// turn takes samples of pointers that went down on the relief: dragging turns
// and tilts it, a tap points at a part. It says whether the sample was its own.
func (s *Shell) turn(p gesture.Sample) bool {
	i := -1
	for j, t := range s.turners {
		if t.id == p.ID {
			i = j
		}
	}
	switch {
	case p.Kind == gesture.Down && s.layout.Relief.holds(p.X, p.Y):
		if i < 0 {
			s.turners = append(s.turners, turner{id: p.ID, startX: p.X, startY: p.Y, x: p.X, y: p.Y})
		}
		return true
	case i < 0:
		return p.Kind == gesture.Hover && s.layout.Relief.holds(p.X, p.Y)
	}
	t := &s.turners[i]
	switch p.Kind {
	case gesture.Move:
		if !t.moved && math.Abs(p.X-t.startX) < tapSlop && math.Abs(p.Y-t.startY) < tapSlop {
			return true
		}
		switch {
		case i > 0: // one hand turns
		case s.overflows():
			limit := func(v, most float64) float64 { return math.Max(-most, math.Min(v, most)) }
			s.pan[0], s.pan[1] = limit(s.pan[0]+p.X-t.x, 4000), limit(s.pan[1]+p.Y-t.y, 4000)
		default:
			r := s.editor.Session().Relief
			turn := math.Mod(r.Turn+(p.X-t.x)*degreesPerPx+540, 360) - 180
			tilt := math.Max(0, math.Min(r.Tilt-(p.Y-t.y)*degreesPerPx, editor.MaxTilt))
			_, err := s.editor.Run("turnRelief", []byte(fmt.Sprintf(`{"turn":%g,"tilt":%g}`, turn, tilt)))
			s.refused(err)
		}
		t.moved, t.x, t.y = true, p.X, p.Y
	case gesture.Up, gesture.Cancel:
		if p.Kind == gesture.Up && !t.moved {
			s.point(p.X, p.Y)
		}
		s.turners = append(s.turners[:i], s.turners[i+1:]...)
	}
	return true
}

// point brings out the part at a place of the page, or none.
func (s *Shell) point(x, y float64) {
	g := &s.glass.Relief
	px := func(v, from float64) float64 { return (v - from) * s.glass.Ratio }
	part := relief.Pick(g.Scene(), g.Camera, g.Only, px(x, g.Area.X), px(y, g.Area.Y))
	if part == s.pointed {
		part = -1
	}
	s.pointed = part
	g.Pointed = int32(part)
	g.Touch()
}

// pointPart brings out a part of the relief, by its place layer by layer from
// below; none where the relief has no such part.
func (s *Shell) pointPart(args []js.Value) any {
	g := &s.glass.Relief
	s.pointed = args[0].Int()
	if s.pointed < 0 || s.pointed >= len(g.Scene().Parts) {
		s.pointed = -1
	}
	g.Pointed = int32(s.pointed)
	g.Touch()
	s.changed()
	return s.pointed >= 0
}

// Pointed is the part that is pointed at, as the page tells of it; mm.
type Pointed struct {
	Stock  string  `json:"stock"`
	Layer  int     `json:"layer"`
	Height int     `json:"height"`
	Width  float64 `json:"width"`
	Depth  float64 `json:"depth"`
	On     string  `json:"on"`
}

func (s *Shell) pointedAt() *Pointed {
	scene := s.glass.Relief.Scene()
	if s.pointed < 0 || s.pointed >= len(scene.Parts) {
		return nil
	}
	p := scene.Parts[s.pointed]
	t := &Pointed{
		Stock: s.stockName(scene, p), Layer: int(p.Layer), Height: int(p.Height),
		Width: float64(p.X1-p.X0) / 1000, Depth: float64(p.Y1-p.Y0) / 1000, On: "the board",
	}
	if p.On >= 0 {
		below := scene.Parts[p.On]
		t.On = fmt.Sprintf("%s, layer %d", s.stockName(scene, below), below.Layer)
	}
	return t
}

func (s *Shell) stockName(scene relief.Scene, p relief.Part) string {
	if st, ok := s.editor.Project().StockByID(scene.Stocks[p.Stock]); ok && st.Name != "" {
		return st.Name
	}
	return scene.Stocks[p.Stock]
}

// Side is a layer seen from the side; mm, heights over the board.
type Side struct {
	Layer  int     `json:"layer"`
	Height int     `json:"height"`
	Stock  string  `json:"stock"`
	Name   string  `json:"name"`
	Colour string  `json:"colour"`
	Bottom float64 `json:"bottom"`
	Top    float64 `json:"top"`
	Left   float64 `json:"left"`
	Right  float64 `json:"right"`
	Parts  int     `json:"parts"`
}

// side is the layers of the newest plan, lowest first.
func (s *Shell) side() []Side {
	scene := s.glass.Relief.Scene()
	sides := []Side{}
	for _, p := range scene.Parts {
		for len(sides) < int(p.Layer) {
			sides = append(sides, Side{Layer: len(sides) + 1})
		}
		d := &sides[p.Layer-1]
		one := Side{
			Layer: int(p.Layer), Height: int(p.Height), Stock: scene.Stocks[p.Stock], Name: s.stockName(scene, p),
			Colour: fmt.Sprintf("#%02x%02x%02x", p.R, p.G, p.B),
			Bottom: float64(p.Z0) / 1000, Top: float64(p.Z1) / 1000,
			Left: float64(p.X0) / 1000, Right: float64(p.X1) / 1000, Parts: 1,
		}
		if d.Parts > 0 {
			one.Bottom, one.Top = math.Min(d.Bottom, one.Bottom), math.Max(d.Top, one.Top)
			one.Left, one.Right = math.Min(d.Left, one.Left), math.Max(d.Right, one.Right)
			one.Parts += d.Parts
		}
		*d = one
	}
	return sides
}

// LayerPlace is a layer and where its right end is seen on the page, CSS pixels.
type LayerPlace struct {
	Name  string  `json:"name"`
	Parts int     `json:"parts"`
	X     float64 `json:"x"`
	Y     float64 `json:"y"`
}

// layers are the planned layers, lowest first.
func (s *Shell) layers() []LayerPlace {
	g, ratio := &s.glass.Relief, s.glass.Ratio
	places := []LayerPlace{}
	for _, d := range s.side() {
		x, y := g.Camera.RightEnd(g.Scene(), int32(d.Layer))
		places = append(places, LayerPlace{d.Name, d.Parts, g.Area.X + x/ratio, g.Area.Y + y/ratio})
	}
	return places
}

// planRequest is what the worker has to hear of, a Uint8Array, or null.
func (s *Shell) planRequest([]js.Value) any {
	r := s.editor.PlanRequest()
	if r == nil {
		return nil
	}
	return requestBytes(r)
}

func requestBytes(r *plan.Request) js.Value {
	data, err := r.Encode()
	if err != nil {
		panic("shell: the message to the worker: " + err.Error())
	}
	return bytesToJS(data)
}

// planArrived takes the worker's answer, a Uint8Array.
func (s *Shell) planArrived(args []js.Value) any {
	summary, err := plan.DecodeSummary(bytesFromJS(args[0]))
	if err != nil {
		s.say(err.Error())
		return nil
	}
	if s.editor.PlanArrived(summary) && summary.Sprite == s.editor.SpriteID() {
		if s.keepsScene(summary) {
			s.host.Call("changed") // numbers only: the canvas stays as it is
		} else {
			s.changed()
		}
	}
	return nil
}
