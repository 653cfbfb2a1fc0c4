package main

import (
	"fmt"
	"time"

	"sheetsprite/engine/stack"
	"sheetsprite/engine/stack/stacktest"
)

// benchStack times the search for few parts.
func benchStack(log func(string, ...any)) outcome {
	t := &tally{log: log}
	rules := stack.Rules{ExtraHeights: 3, SmallCells: 1}
	for c := stack.Colour(1); c <= stack.MaxColours; c++ {
		rules.Joins |= stack.Of(c)
	}
	first := func(d stack.Drawing) measurement { return measure(func() { stack.First(d, rules) }) }

	sprites := sprites(20, 8)
	average := func(job func(stack.Drawing)) measurement {
		m := measure(func() {
			for _, d := range sprites {
				job(d)
			}
		})
		m.time /= time.Duration(len(sprites))
		return m
	}
	t.within("32×32, 8 colours, first step", average(func(d stack.Drawing) { stack.First(d, rules) }), 3*time.Millisecond)
	t.within("32×32, 8 colours, both steps", average(func(d stack.Drawing) { stack.Fewest(d, rules) }), 60*time.Millisecond)
	slowest := measurement{}
	for _, d := range sprites {
		if m := measure(func() { stack.Fewest(d, rules) }); m.time > slowest.time {
			slowest = m
		}
	}
	t.within("32×32, 8 colours, both steps, slowest of 20", slowest, 60*time.Millisecond)
	t.within("256×256, 16 colours, tiled, first step", first(stacktest.Tile(256, 16)), 150*time.Millisecond)
	t.within("64×64, 24 colours, noise, both steps",
		measure(func() { stack.Fewest(stacktest.Noise(64, 64, 24, 1), rules) }), time.Second)

	// Sixteen times the cells may cost at most twice as much a cell.
	perCell := map[int]float64{}
	for _, n := range []int{64, 128, 256} {
		m := first(stacktest.Repeat(stacktest.Tile(64, 16), n/64)) // the same drawings at each size
		perCell[n] = float64(m.time) / float64(n*n)
		log("      %-46s %9.2f ms, %.0f ns a cell  (reference %.1f ms)",
			fmt.Sprintf("%d×%d, 16 colours, tiled, first step", n, n), milliseconds(m.time), perCell[n], milliseconds(m.reference))
	}
	growth := perCell[256] / perCell[64]
	t.judge(growth < 2, "%-46s %9.2f ×  (under 2)", "cost a cell, 256×256 to 64×64", growth)
	return t.outcome
}

// sprites are the first n drawings of 32×32 cells in so many colours.
func sprites(n, colours int) []stack.Drawing {
	var ds []stack.Drawing
	for seed := range n {
		ds = append(ds, stacktest.Sprite32(seed, colours))
	}
	return ds
}
