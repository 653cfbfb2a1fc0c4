package export

import (
	"io"

	"sheetsprite/export/guide"
)

// guidePath is the guide's place in the bundle.
const guidePath = "guide.pdf"

// hasGuide says whether a job has what a guide tells of: sheets and steps.
func (j Job) hasGuide() bool {
	return j.Plan.Sheets != nil && len(j.Plan.Assembly) == len(j.Plan.Sprites)
}

// addGuide adds the assembly guide. A PDF is packed already.
func addGuide(a *archive, j Job, sheets []sheetFile, pictures [][]byte) error {
	if !j.hasGuide() {
		return nil
	}
	names := make([]string, len(sheets))
	for i, f := range sheets {
		names[i] = f.svg
	}
	return a.stream(guidePath, stored, func(w io.Writer) error {
		return guide.WriteTo(w, guide.Job{
			Project: j.Project, Plan: j.Plan, Pictures: pictures, Sheets: names, Paper: guide.PaperFor(j.Project),
		})
	})
}
