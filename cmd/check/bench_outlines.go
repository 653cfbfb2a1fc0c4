package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"time"

	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
	"sheetsprite/engine/stack/stacktest"
)

// How many times as fast as other programs the outlines must be.
const (
	leastToGDAL   = 20.0 // polygonize, joined by sides
	leastToOpenCV = 4.0  // findContours, the sum over six masks
)

// benchOutlines times the outlines of a raster of 2048×2048 cells beside those
// of GDAL and OpenCV, taking turns, each on one thread.
func benchOutlines(log func(string, ...any)) outcome {
	t := &tally{log: log}
	const n = 2048
	raster := tiledLabels(n)
	others, err := startOthers(raster, n)
	if err != nil {
		return single(err, "")
	}
	defer others.stop()

	before := runtime.GOMAXPROCS(1) // the collector too
	defer runtime.GOMAXPROCS(before)
	var ours, gdal, opencv, references []time.Duration
	patches, polygons, contours := 0, 0, 0
	for range runs {
		references = append(references, timed(reference))
		runtime.GC()
		ours = append(ours, timed(func() { patches = countOuter(shape.TraceLabels(raster, n, n, shape.BySides)) }))
		seconds, count, err := others.run("gdal")
		if err != nil {
			return single(err, "")
		}
		gdal, polygons = append(gdal, seconds), count
		seconds, count, err = others.run("opencv")
		if err != nil {
			return single(err, "")
		}
		opencv, contours = append(opencv, seconds), count
	}
	log("      2048×2048, six colours: %d patches (GDAL %d polygons, OpenCV %d contours)", patches, polygons, contours)
	log("      ours %.1f ms, GDAL %.1f ms, OpenCV %.1f ms  (reference %.1f ms)", milliseconds(median(ours)),
		milliseconds(median(gdal)), milliseconds(median(opencv)), milliseconds(median(references)))
	t.judge(patches == polygons, "%-46s %9d     (GDAL %d)", "outer rings, one for each polygon", patches, polygons)
	t.ratio("GDAL polygonize", median(gdal), median(ours), leastToGDAL)
	t.ratio("OpenCV findContours", median(opencv), median(ours), leastToOpenCV)
	return t.outcome
}

func (t *tally) ratio(name string, theirs, ours time.Duration, least float64) {
	times := float64(theirs) / float64(ours)
	t.judge(times >= least, "%-46s %9.1f ×  (at least %g)", "outlines: times as fast as "+name, times, least)
}

func countOuter(t *shape.Tracing) int {
	n := 0
	for _, r := range t.Rings {
		if r.Kind == shape.OuterRing {
			n++
		}
	}
	return n
}

// tiledLabels is a raster of n×n cells in six colours, tiled from sprites of
// 32×32 in five, the ground being the sixth. Its sprites are those with few
// patches, so that 2048×2048 cells have some 235,000 patches joined by sides.
func tiledLabels(n int) []uint8 {
	const ground = 6
	calm := calmSprites(64)
	across := n / stacktest.Side
	labels := make([]uint8, n*n)
	for y := range n {
		for x := range n {
			row, column := y/stacktest.Side, x/stacktest.Side
			sprite := calm[(row*across+column+row*7)%len(calm)]
			c := uint8(sprite.At(x%stacktest.Side, y%stacktest.Side))
			if c == 0 {
				c = ground
			}
			labels[y*n+x] = c
		}
	}
	return labels
}

// calmSprites are the first n sprites in five colours with 34 to 62 patches.
func calmSprites(n int) []stack.Drawing {
	var calm []stack.Drawing
	for seed := 0; len(calm) < n; seed++ {
		d := stacktest.Sprite32(seed, 5)
		if p := stacktest.Patches(d, stacktest.BySides); p >= 34 && p <= 62 {
			calm = append(calm, d)
		}
	}
	return calm
}

// others is the Python process that runs GDAL and OpenCV.
type others struct {
	cmd    *exec.Cmd
	in     io.WriteCloser
	out    *bufio.Reader
	folder string
}

func startOthers(raster []uint8, n int) (*others, error) {
	folder, err := os.MkdirTemp("", "sheetsprite-outlines-")
	if err != nil {
		return nil, err
	}
	o := &others{folder: folder}
	path := filepath.Join(folder, "labels")
	if err := os.WriteFile(path, raster, 0o600); err != nil {
		return nil, err
	}
	o.cmd = exec.Command(python, "testdata/outside/outlines_time.py", path, strconv.Itoa(n), strconv.Itoa(n))
	o.cmd.Stderr = os.Stderr
	if o.in, err = o.cmd.StdinPipe(); err != nil {
		return nil, err
	}
	out, err := o.cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	o.out = bufio.NewReader(out)
	return o, o.cmd.Start()
}

// run has one of the programs do its work once.
func (o *others) run(name string) (time.Duration, int, error) {
	if _, err := fmt.Fprintln(o.in, name); err != nil {
		return 0, 0, fmt.Errorf("%s: %w", name, err)
	}
	var seconds float64
	var count int
	if _, err := fmt.Fscanln(o.out, &seconds, &count); err != nil {
		return 0, 0, fmt.Errorf("%s: no time came back: %w", name, err)
	}
	return time.Duration(seconds * float64(time.Second)), count, nil
}

func (o *others) stop() {
	o.in.Close()
	o.cmd.Wait()
	os.RemoveAll(o.folder)
}
