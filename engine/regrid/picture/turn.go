package picture

// turn is how a camera was held: the EXIF field Orientation, 1 to 8 (CIPA
// DC-008, "Exchangeable image file format", table of tag 274).
type turn int

const upright turn = 1

func turnOf(name string, f file) turn {
	exif, _ := extras(name, f)
	v := tiffFieldOf(exif, 274).value
	order, ok := tiffOrder(exif)
	if !ok || len(v) < 2 {
		return upright
	}
	if t := turn(order.Uint16(v)); t >= 1 && t <= 8 {
		return t
	}
	return upright
}

// turned is the raster as it is meant to be seen.
func turned(r *Raster, t turn) *Raster {
	if t <= upright || t > 8 {
		return r
	}
	out := &Raster{W: r.W, H: r.H, Shrunk: r.Shrunk, Pix: make([]uint8, len(r.Pix))}
	if t >= 5 {
		out.W, out.H = r.H, r.W
	}
	for y := range r.H {
		for x := range r.W {
			u, v := x, y
			switch t {
			case 2: // mirrored
				u = r.W - 1 - x
			case 3: // upside down
				u, v = r.W-1-x, r.H-1-y
			case 4:
				v = r.H - 1 - y
			case 5:
				u, v = y, x
			case 6: // a quarter turn clockwise to be upright
				u, v = r.H-1-y, x
			case 7:
				u, v = r.H-1-y, r.W-1-x
			case 8:
				u, v = y, r.W-1-x
			}
			copy(out.Pix[4*(v*out.W+u):][:4], r.Pix[4*(y*r.W+x):])
		}
	}
	return out
}
