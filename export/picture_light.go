package export

// Light falls on the sprite from the upper left. What stands higher throws a
// soft shadow, as long as it is high; a cut edge towards the light catches it,
// one away from it lies a little darker; card has a faint grain.

// beam is one of the directions that the light comes from: by dx pixels from
// the left and dy from the top, a shadow reaching hundredths of what throws it.
type beam struct {
	dx, dy  int
	length  int32 // length of the way, in 1/256 pixel
	reach   int32 // of a shadow, in hundredths of the height that throws it
	weight  int32 // of all beams together 256
	drop    int32 // µm by which the shadow's edge sinks on the way
	ceiling [3][]int32
}

// beams are a patch of sky about the light: short shadows are dark, longer ones
// fade, in steps too small to see. All weights together are 256.
func beams() []*beam {
	var all []*beam
	fan := func(dx, dy int, length int32, weights ...int32) {
		for i, w := range weights {
			reach := int32(50 + 45*i + 6*i*i)
			all = append(all, &beam{dx: dx, dy: dy, length: length, reach: reach, weight: w})
		}
	}
	// The lengths are 1, √2 and √5 in 1/256.
	fan(1, 1, 362, 24, 22, 20, 16, 12, 9, 6, 4)
	fan(1, 2, 572, 18, 16, 13, 9, 6)
	fan(2, 1, 572, 18, 16, 13, 9, 6)
	fan(0, 1, 256, 12, 7)
	return all
}

// light shades the whole picture.
func (c *canvas) light() {
	all := beams()
	pixel := int32(c.cell) / int32(c.perCell) // µm a pixel
	for _, b := range all {
		b.drop = max(1, int32(int64(pixel)*int64(b.length)*100/(256*int64(b.reach))))
		for i := range b.ceiling {
			b.ceiling[i] = make([]int32, c.w)
		}
	}
	shadow := make([]int32, c.w)
	rim := max(1, c.perCell/14)
	for y := range c.h {
		clear(shadow)
		for _, b := range all {
			b.row(c, y, shadow)
		}
		for x := range c.w {
			c.tint(x, y, shadow[x], c.rim(x, y, rim))
		}
	}
}

// row goes along a row of pixels: the ceiling of a shadow is the height below
// which it is dark. What a pixel's own height leaves of it is its share in shadow.
func (b *beam) row(c *canvas, y int, shadow []int32) {
	now := b.ceiling[y%3]
	before := b.ceiling[(y+3-b.dy)%3]
	heights := c.height[y*c.w : (y+1)*c.w]
	for x := range now {
		above := int32(0)
		if x >= b.dx && y >= b.dy {
			above = max(before[x-b.dx], c.height[(y-b.dy)*c.w+x-b.dx])
		}
		now[x] = max(0, above-b.drop)
		if over := above - heights[x]; over > 0 {
			shadow[x] += b.weight * min(over, b.drop) / b.drop
		}
	}
}

// rim is how much a cut edge near the pixel catches the light, up to 256, or
// lies away from it, down to −256.
func (c *canvas) rim(x, y, width int) int32 {
	i := y*c.w + x
	h := c.height[i]
	if h == 0 {
		return 0
	}
	sum := int32(0)
	for k := 1; k <= width; k++ {
		fade := int32(256 * (width + 1 - k) / (width + 1))
		if width == 1 {
			fade = 200
		}
		if x >= k && c.height[i-k] < h || y >= k && c.height[i-k*c.w] < h {
			sum = max(sum, fade)
		}
		if sum == 0 && (x+k < c.w && c.height[i+k] < h || y+k < c.h && c.height[i+k*c.w] < h) {
			sum = min(sum, -fade)
		}
	}
	if sum == 0 && x+1 < c.w && y+1 < c.h && c.seam(i, i+1) {
		return -200
	}
	if sum == 0 && y+1 < c.h && c.seam(i, i+c.w) {
		return -200
	}
	return sum
}

// seam says whether two cards of one height meet between the pixels.
func (c *canvas) seam(i, k int) bool {
	return c.height[i] == c.height[k] && c.layer[i] != c.layer[k]
}

// tint gives the pixel its light. Shadows are warm: blue loses most.
func (c *canvas) tint(x, y int, shadow, rim int32) {
	pix := c.img.Pix[4*(y*c.w+x):]
	grain := int32(0)
	if c.layer[y*c.w+x] != 0 {
		grain = fibre(x, y)
	}
	for k, depth := range [3]int32{118, 124, 130} {
		v := int32(pix[k])
		v -= v * shadow * depth / (256 * 256)
		switch {
		case rim > 0:
			v += (255 - v) * rim * (256 - shadow) / 256 * 84 / (256 * 256)
		case rim < 0:
			v += v * rim * 56 / (256 * 256)
		}
		pix[k] = uint8(min(255, max(0, v+grain)))
	}
}

// fibre is the grain of card at a pixel, −2 to 2: short strands along the sheet
// that fall where a scrambled place says so.
func fibre(x, y int) int32 {
	h := uint32(x/3+y*5/7)*0x9e3779b1 ^ uint32(y)*0x85ebca77
	h ^= h >> 15
	h *= 0x2c1b3c6d
	h ^= h >> 12
	switch h % 16 {
	case 0:
		return -2
	case 1, 2:
		return -1
	case 3, 4:
		return 1
	case 5:
		return 2
	}
	return 0
}
