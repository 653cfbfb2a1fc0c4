// Package shape is the geometry vocabulary of the engine and its exact
// operations: rings with holes and parents, areas, containment, growing and
// shrinking of axis-parallel shapes.
//
// Lengths are whole micrometres, x runs right and y runs up. Nothing here
// rounds, except where a doc comment says so (arcs).
package shape

// Um is a length or a coordinate in whole micrometres. The largest drawing,
// 256 cells of 50 mm, is 12,800,000 µm wide, so that twice an area still fits
// Um2 many thousand times over.
type Um int64

// Um2 is an area in square micrometres.
type Um2 int64

// Mm is one millimetre.
const Mm Um = 1000
