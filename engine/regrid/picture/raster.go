// Package picture takes in pictures of any common format for regrid: it
// refuses what is too large before decoding it, turns what a camera held
// sideways, takes wide gamuts to sRGB, and hands out plain pixels. A large
// picture is shrunk while it is read (canvas.go), some rows at a time where its
// decoder would hold all of it (pngbands.go and the files like it).
package picture

import "sheetsprite/engine/regrid/pixels"

// Raster is a picture as plain pixels.
type Raster = pixels.Raster

// NewRaster is a transparent picture of w×h pixels.
func NewRaster(w, h int) *Raster { return pixels.NewRaster(w, h) }
