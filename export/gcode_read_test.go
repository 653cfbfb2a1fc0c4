package export

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"github.com/stretchr/testify/require"
)

// cutter is a machine that reads RS-274 and follows where it stands and whether
// its beam is on, by the words' meaning in Kramer, Proctor, Messina: The NIST
// RS274NGC Interpreter, version 3 (2000); from memory.
type cutter struct {
	x, y         float64 // mm
	beam         bool
	power, feed  float64
	absolute, mm bool
	ended        bool
	motion       int
	burnt, moved float64 // mm with the beam on, and off
	least, most  [2]float64
	mostPower    float64
}

var word = regexp.MustCompile(`([A-Z])(-?[0-9.]+)`)

// run reads a whole file.
func (c *cutter) run(t require.TestingT, file string) {
	c.least, c.most = [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	comment := regexp.MustCompile(`\([^()]*\)`)
	for n, line := range strings.Split(strings.TrimSuffix(file, "\n"), "\n") {
		require.False(t, c.ended, "line %d comes after the end", n+1)
		code := comment.ReplaceAllString(line, "")
		rest := strings.TrimSpace(word.ReplaceAllString(code, ""))
		require.Empty(t, rest, "line %d: %s", n+1, line)
		c.block(t, fmt.Sprintf("line %d: %s", n+1, line), word.FindAllStringSubmatch(code, -1))
	}
	require.True(t, c.ended, "the file ends")
	require.False(t, c.beam, "the beam is off at the end")
}

func (c *cutter) block(t require.TestingT, where string, words [][]string) {
	to := map[string]float64{}
	for _, w := range words {
		v, err := strconv.ParseFloat(w[2], 64)
		require.NoError(t, err, where)
		switch w[1] + strconv.Itoa(int(v)) {
		case "G0", "G1", "G2", "G3":
			c.motion = int(v)
			continue
		case "G21":
			c.mm = true
			continue
		case "G90":
			c.absolute = true
			continue
		case "M3", "M4":
			c.beam = true
			continue
		case "M5":
			c.beam = false
			continue
		case "M0":
			require.False(t, c.beam, where)
			continue
		case "M2":
			c.ended = true
			continue
		}
		switch w[1] {
		case "S":
			c.power, c.mostPower = v, max(c.mostPower, v)
		case "F":
			c.feed = v
		case "X", "Y", "I", "J":
			to[w[1]] = v
		default:
			require.Fail(t, "unknown word", where)
		}
	}
	x, hasX := to["X"]
	y, hasY := to["Y"]
	if !hasX && !hasY {
		return
	}
	require.True(t, c.mm && c.absolute, where)
	if !hasX {
		x = c.x
	}
	if !hasY {
		y = c.y
	}
	length := math.Hypot(x-c.x, y-c.y)
	if c.motion >= 2 {
		cx, cy := c.x+to["I"], c.y+to["J"]
		r, r2 := math.Hypot(c.x-cx, c.y-cy), math.Hypot(x-cx, y-cy)
		require.InDelta(t, r, r2, 0.002, where)
		angle := math.Atan2(y-cy, x-cx) - math.Atan2(c.y-cy, c.x-cx)
		if c.motion == 2 {
			angle = -angle
		}
		angle = math.Mod(angle+4*math.Pi, 2*math.Pi)
		require.LessOrEqual(t, angle, math.Pi+0.01, "no arc is more than a half turn: %s", where)
		length = angle * r
		c.see(cx-r, cy-r)
		c.see(cx+r, cy+r)
	}
	if c.motion == 0 {
		require.False(t, c.beam, "a rapid with the beam on: %s", where)
	} else if c.beam {
		require.Positive(t, c.feed, where)
		require.Positive(t, c.power, where)
	}
	if c.beam {
		c.burnt += length
	} else {
		c.moved += length
	}
	c.see(c.x, c.y)
	c.see(x, y)
	c.x, c.y = x, y
}

func (c *cutter) see(x, y float64) {
	c.least = [2]float64{min(c.least[0], x), min(c.least[1], y)}
	c.most = [2]float64{max(c.most[0], x), max(c.most[1], y)}
}
