package main

import (
	"bytes"
	"image"
	"image/color"
	stddraw "image/draw"
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
