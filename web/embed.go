// Package web holds the page: HTML, styles and plain ES modules, embedded as
// they are. The WebAssembly is built from the sources when it is needed
// (package server) and never embedded.
package web

import "embed"

// Files is the page as it is served, index.html at the root.
//
//go:embed index.html css/*.css js/*.js worker/*.js icons/*.svg
var Files embed.FS
