package guide

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/png"
)

// widened gives pictures of one width different widths: each gets a few more
// columns like its last one on the right, until it is alone with its width. The PDF library
// writes pictures in order of width and leaves equals to a map's order. Equal
// pictures stay equal: they are one object.
func widened(pictures [][]byte) ([][]byte, error) {
	out := make([][]byte, len(pictures))
	taken := map[int]bool{} // widths; only asked
	for i, data := range pictures {
		if k := equalTo(pictures[:i], data); k >= 0 {
			out[i] = out[k]
			continue
		}
		w, _ := pngSize(data)
		more := 0
		for taken[w+more] {
			more++
		}
		taken[w+more] = true
		out[i] = data
		if more == 0 {
			continue
		}
		img, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			return nil, fmt.Errorf("guide: picture %d: %w", i+1, err)
		}
		b := img.Bounds()
		wide := image.NewRGBA(image.Rect(0, 0, b.Dx()+more, b.Dy()))
		draw.Draw(wide, wide.Bounds(), img, b.Min, draw.Src)
		for x := b.Dx(); x < b.Dx()+more; x++ {
			draw.Draw(wide, image.Rect(x, 0, x+1, b.Dy()), img, image.Pt(b.Max.X-1, b.Min.Y), draw.Src)
		}
		var packed bytes.Buffer
		e := png.Encoder{CompressionLevel: png.BestSpeed}
		if err := e.Encode(&packed, wide); err != nil {
			return nil, err
		}
		out[i] = packed.Bytes()
	}
	return out, nil
}

// equalTo is the first of pictures that equals data, -1 for none.
func equalTo(pictures [][]byte, data []byte) int {
	for i, p := range pictures {
		if bytes.Equal(p, data) {
			return i
		}
	}
	return -1
}
