// Package harbour is the demo project: what a first visit to the page opens.
package harbour

import _ "embed"

// Project is the demo as a project file.
//
//go:embed harbour.json
var Project []byte
