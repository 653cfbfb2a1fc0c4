package main

import (
	"bytes"
	"image"
	"image/color"
	stddraw "image/draw"
	"image/gif"
	"image/jpeg"
	"image/png"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
	xdraw "golang.org/x/image/draw"
)

// enlarge FACTOR HOW IN.png OUT makes a picture larger with golang.org/x/image's
// scalers: nearest, linear or cubic, or tilted, as a photograph of a screen on
// a grey desk. OUT is a JPEG if it is called so, on white.
func enlarge(ts *testscript.TestScript, _ bool, args []string) {
	factor, err := strconv.ParseFloat(args[0], 64)
	ts.Check(err)
	img, err := png.Decode(strings.NewReader(ts.ReadFile(args[2])))
	ts.Check(err)
	if strings.HasSuffix(args[3], ".jpg") || args[1] == "tilted" {
		white := image.NewRGBA(img.Bounds())
		stddraw.Draw(white, white.Rect, image.White, image.Point{}, stddraw.Src)
		stddraw.Draw(white, white.Rect, img, image.Point{}, stddraw.Over)
		img = white
	}
	w, h := float64(img.Bounds().Dx())*factor, float64(img.Bounds().Dy())*factor
	out := image.NewRGBA(image.Rect(0, 0, int(w+0.5), int(h+0.5)))
	switch args[1] {
	case "tilted": // corners at (60,40), and along (f, f/10) and (-f/10, f)
		out = image.NewRGBA(image.Rect(0, 0, int(w*1.1)+100, int(h*1.1)+100))
		stddraw.Draw(out, out.Rect, image.NewUniform(color.RGBA{70, 74, 80, 255}), image.Point{}, stddraw.Src)
		xdraw.NearestNeighbor.Transform(out, [6]float64{factor, -factor / 10, 60, factor / 10, factor, 40}, img, img.Bounds(), stddraw.Src, nil)
	default:
		scaler := map[string]xdraw.Scaler{"nearest": xdraw.NearestNeighbor, "linear": xdraw.BiLinear, "cubic": xdraw.CatmullRom}[args[1]]
		scaler.Scale(out, out.Rect, img, img.Bounds(), stddraw.Src, nil)
	}
	if !strings.HasSuffix(args[3], ".jpg") {
		write(ts, args[3], encoded(ts, out))
		return
	}
	var b bytes.Buffer
	ts.Check(jpeg.Encode(&b, out, &jpeg.Options{Quality: 75}))
	write(ts, args[3], b.Bytes())
}

// animate FACTOR GIF PNG... makes a moving picture of drawings enlarged by a
// whole factor.
func animate(ts *testscript.TestScript, _ bool, args []string) {
	by := number(ts, args[0])
	var g gif.GIF
	for _, path := range args[2:] {
		img, err := png.Decode(strings.NewReader(ts.ReadFile(path)))
		ts.Check(err)
		b := img.Bounds()
		inkList := color.Palette{color.NRGBA{}}
		for _, ink := range []rune("kwrby") {
			inkList = append(inkList, inks[ink])
		}
		frame := image.NewPaletted(image.Rect(0, 0, b.Dx()*by, b.Dy()*by), inkList)
		xdraw.NearestNeighbor.Scale(frame, frame.Rect, img, b, stddraw.Src, nil)
		g.Image, g.Delay, g.Disposal = append(g.Image, frame), append(g.Delay, 10), append(g.Disposal, gif.DisposalBackground)
	}
	var out bytes.Buffer
	ts.Check(gif.EncodeAll(&out, &g))
	write(ts, args[1], out.Bytes())
}
