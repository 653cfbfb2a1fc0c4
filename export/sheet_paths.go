package export

// SheetPaths are the paths in the bundle of each sheet's files: DXF, SVG, then
// the machine files where there are any.
func SheetPaths(j Job) [][]string {
	_, sheets := nameFiles(j)
	out := make([][]string, len(sheets))
	for i, f := range sheets {
		for _, path := range []string{f.dxf, f.svg, f.gcode, f.bounds} {
			if path != "" {
				out[i] = append(out[i], path)
			}
		}
	}
	return out
}
