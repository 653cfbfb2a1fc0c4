//go:build ignore

// Generate draws the PNGs of the demo sprites from harbour.json, one pixel a
// cell, and puts the project file in the form in which projects are saved:
//
//	go run testdata/harbour/generate.go
//
// The rows in harbour.json are the source: change the drawing there.
package main

import (
	"bytes"
	"image/png"
	"log"
	"os"
	"path/filepath"
	"strings"

	"sheetsprite/engine/project"
)

// folder is where everything lies, seen from the module's root.
const folder = "testdata/harbour"

func main() {
	log.SetFlags(0)
	if err := generate(); err != nil {
		log.Fatal(err)
	}
}

func generate() error {
	source := filepath.Join(folder, "harbour.json")
	text, err := os.ReadFile(source)
	if err != nil {
		return err
	}
	p, err := project.Read(bytes.NewReader(text))
	if err != nil {
		return err
	}
	var saved bytes.Buffer
	if err := p.Write(&saved); err != nil {
		return err
	}
	if err := os.WriteFile(source, saved.Bytes(), 0o644); err != nil {
		return err
	}
	for _, s := range p.Sprites {
		var picture bytes.Buffer
		if err := png.Encode(&picture, s.Image(p.Palette)); err != nil {
			return err
		}
		name := strings.ToLower(s.Name) + ".png"
		if err := os.WriteFile(filepath.Join(folder, name), picture.Bytes(), 0o644); err != nil {
			return err
		}
	}
	return nil
}
