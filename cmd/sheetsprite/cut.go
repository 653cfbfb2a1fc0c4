package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"sheetsprite/export"
)

func newCut(c clock) *cobra.Command {
	var s settings
	var output option
	var showTimings bool
	cmd := &cobra.Command{
		Use:   "cut INPUT... -o OUT.zip",
		Short: "Make the cutting files of sprites",
		Long: `Makes the cutting files of sprites: a zip with every layer of every sprite as
DXF and SVG, a picture of what it will look like, job.json with all figures and
what to look at before cutting, and the project to open again.

INPUT is PNG pictures, one pixel a cell, transparent where nothing is cut (alpha
below 128), each of which becomes a sprite named after its file; or one project
file. An option that is set changes the project; the project.json in the zip
holds the result, and cutting that again gives the same files.

Before the zip is handed over it is read back and held against the drawing. It
appears whole or not at all.`,
		Example: `  sheetsprite cut gull.png -o gull.zip                     one sprite, 3 mm cells
  sheetsprite cut *.png -o harbour.zip --cell 4 --colours 8
  sheetsprite cut harbour.json -o harbour.zip --border 3   a project, its border changed
  sheetsprite cut gull.png -o gull.zip --stack side-by-side --corners apart`,
		Args: needInput,
		RunE: func(cmd *cobra.Command, args []string) error {
			j := job{settings: &s, clock: c, out: cmd.OutOrStdout(), err: cmd.ErrOrStderr(), told: cmd.OutOrStdout(), times: newTimings(c)}
			if err := j.cut(args, output); err != nil {
				return err
			}
			if showTimings {
				j.times.print(j.err)
			}
			return nil
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	output.addShort(f, "output", "o", "OUT.zip", "the zip to write; an existing one is replaced when the new one is complete")
	s.add(f)
	f.BoolVar(&showTimings, "timings", false, "print to standard error how long each stage took")
	return cmd
}

// needInput refuses a call without input.
func needInput(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return badUsage("no input: name PNG pictures or a project file, as in %s gull.png; see %s --help", cmd.CommandPath(), cmd.CommandPath())
	}
	return nil
}

// cut makes and writes the bundle and prints the summary.
func (j *job) cut(inputs []string, output option) error {
	if err := checkOutput(inputs, output); err != nil {
		return err
	}
	j.thrift.begin()
	defer j.thrift.end()
	p, plan, err := j.plan(inputs)
	if err != nil {
		return err
	}
	steps := progress{out: j.err, clock: j.clock}
	steps.begin("writing and checking the cutting files", 1)
	defer steps.end()
	j.thrift.look()
	leave := j.times.enter("export")
	bytes, err := export.BundleFile(output.text, export.Job{Project: p, Plan: plan})
	leave()
	if err != nil {
		return err
	}
	steps.end()
	fmt.Fprintf(j.out, "%s: %s\n\n", oneLine(output.text), size(int(bytes)))
	printSummary(j.out, newReport(p, plan), briefly)
	return nil
}

// checkOutput refuses an output that can't be meant, before anything is read.
func checkOutput(inputs []string, output option) error {
	if output.text == "" {
		return badUsage("no output: say where to write the cutting files, as in -o harbour.zip")
	}
	if out, err := os.Stat(output.text); err == nil {
		for _, path := range inputs {
			if in, err := os.Stat(path); err == nil && os.SameFile(in, out) {
				return badUsage("-o %s is also an input and would be replaced: name another file", quote(output.text))
			}
		}
	}
	folder := filepath.Dir(output.text)
	if info, err := os.Stat(folder); err == nil && !info.IsDir() {
		return fmt.Errorf("can't write %s: %s isn't a folder; name another place", output.text, folder)
	} else if os.IsNotExist(err) {
		return fmt.Errorf("can't write %s: the folder %s doesn't exist; make it first or name another", output.text, folder)
	}
	return nil
}

// size is a file's size for people.
func size(bytes int) string {
	if bytes < 1000*1000 {
		return fmt.Sprintf("%d kB", (bytes+999)/1000)
	}
	return fmt.Sprintf("%.1f MB", float64(bytes)/1e6)
}
