package inspect

import (
	"slices"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
)

// mergeCells offers to give the cells that small parts show the colour of their
// neighbours. ok is false where no cell of them has one. It isn't sure to clear
// the finding: the stack comes out anew, and what runs on beneath today may
// show by itself then.
func mergeCells(m Measured, parts []*outline.Part) (Remedy, bool) {
	s := m.Source
	cells := slices.Clone(s.Frames[0].Cells)
	var todo [][]int // patches to be repainted, as indices into cells
	inTodo := map[int]bool{}
	for _, part := range parts {
		if part.Tree < 0 {
			continue
		}
		var shown []int
		for _, r := range m.Forest.Parts[part.Tree].Shows {
			for x := r.X0; x < r.X1; x++ {
				i := int(r.Y)*s.W + int(x)
				shown = append(shown, i)
				inTodo[i] = true
			}
		}
		todo = append(todo, connected(shown, s.W)...)
	}
	var painted []any
	for again := true; again; { // a patch whose neighbours are all small waits for one of them
		again = false
		todo = slices.DeleteFunc(todo, func(patch []int) bool {
			key, ok := neighbour(cells, inTodo, patch, s.W, s.H)
			if !ok {
				return false
			}
			for _, i := range patch {
				cells[i] = key
				inTodo[i] = false
				painted = append(painted, []any{i % s.W, i / s.W, string(key)})
			}
			again = true
			return true
		})
	}
	if len(painted) == 0 {
		return Remedy{}, false
	}
	return Remedy{
		Command: PaintCells,
		Args:    map[string]any{"sprite": s.Name, "cells": painted},
		Text:    bent(len(painted), english.neighbours),
	}, true
}

// neighbour is the colour that shares most sides with a patch and isn't itself
// to be repainted; of equals the one first in ASCII.
func neighbour(cells []byte, inTodo map[int]bool, patch []int, w, h int) (key byte, ok bool) {
	var sides [256]int
	for _, i := range patch {
		x, y := i%w, i/w
		for _, d := range [4][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			nx, ny := x+d[0], y+d[1]
			if nx < 0 || ny < 0 || nx >= w || ny >= h {
				continue
			}
			j := ny*w + nx
			if cells[j] != project.Empty && !inTodo[j] {
				sides[cells[j]]++
			}
		}
	}
	most := 0
	for k, n := range sides {
		if n > most {
			most, key = n, byte(k)
		}
	}
	return key, most > 0
}

// connected splits cells into those that hang together by sides.
func connected(cells []int, w int) [][]int {
	left := make(map[int]bool, len(cells))
	for _, i := range cells {
		left[i] = true
	}
	var sets [][]int
	for _, i := range cells {
		if !left[i] {
			continue
		}
		set := []int{i}
		delete(left, i)
		for n := 0; n < len(set); n++ {
			c := set[n]
			for _, j := range [4]int{c - w, c - 1, c + 1, c + w} {
				if left[j] && (j == c-w || j == c+w || j/w == c/w) {
					delete(left, j)
					set = append(set, j)
				}
			}
		}
		sets = append(sets, set)
	}
	return sets
}
