package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/export"
)

func newTestPiece(c clock) *cobra.Command {
	var s settings
	var output, power, speed, reading option
	cmd := &cobra.Command{
		Use:   "testpiece INPUT... -o OUT.zip",
		Short: "Make small pieces to cut before a job",
		Long: `Makes test pieces for every stock that a job uses, as DXF and SVG: a gauge that
tells how wide a cut is, a ladder of power and speed, and the job's most delicate
places on 60 x 40 mm. INPUT is as for cut. Machine files come for stocks that may
go on a laser; README.txt in the zip tells how to read the pieces.

With --reading nothing is made: it says which kerf the gauge's reading means.`,
		Example: `  sheetsprite testpiece harbour.json -o test.zip
  sheetsprite testpiece gull.png -o test.zip --bench bench.json --machine Laser --power 10-60
  sheetsprite testpiece --reading 2.3`,
		RunE: func(cmd *cobra.Command, args []string) error {
			if reading.set {
				r, err := reading.length(0, 16*shape.Mm)
				if err != nil {
					return err
				}
				fmt.Fprintf(cmd.OutOrStdout(), "kerf %s mm\n", project.FormatMm(engine.KerfOfReading(r)))
				return nil
			}
			if err := needInput(cmd, args); err != nil {
				return err
			}
			j := job{settings: &s, clock: c, out: cmd.OutOrStdout(), err: cmd.ErrOrStderr(), told: cmd.OutOrStdout(), times: newTimings(c)}
			return j.testPieces(args, output, power, speed)
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	output.addShort(f, "output", "o", "OUT.zip", "the zip to write; an existing one is replaced when the new one is complete")
	power.add(f, "power", "A-B", "powers of the ladder in percent (default 10-60)")
	speed.add(f, "speed", "A-B", "speeds of the ladder in the machine's unit (default 5-30 mm/s)")
	reading.add(f, "reading", "MM", "what the gauge reads: says the kerf")
	s.add(f)
	return cmd
}

// testPieces makes and writes them.
func (j *job) testPieces(inputs []string, output, power, speed option) error {
	if err := checkOutput(inputs, output); err != nil {
		return err
	}
	p, plan, err := j.plan(inputs)
	if err != nil {
		return err
	}
	usual := engine.Range{Low: 5, High: 30, Steps: 6}
	if p.Machine().Unit == project.PerMinute {
		usual.Low, usual.High = usual.Low*60, usual.High*60
	}
	powers, err := power.steps("--power", engine.Range{Low: 10, High: 60, Steps: 6}, 100)
	if err != nil {
		return err
	}
	speeds, err := speed.steps("--speed", usual, 1000000)
	if err != nil {
		return err
	}
	pieces, err := engine.TestPieces(p, plan, powers, speeds)
	if err != nil {
		return err
	}
	data, err := export.TestPieces(p, pieces)
	if err != nil {
		return err
	}
	err = export.WriteFile(output.text, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
	if err != nil {
		return err
	}
	fmt.Fprintf(j.out, "%s: %d test pieces\n\nNever leave a running laser alone, and know what you cut.\n", oneLine(output.text), len(pieces))
	return nil
}

// steps reads a range of whole numbers as A-B, cut into usual's steps.
func (o option) steps(name string, usual engine.Range, most int) (engine.Range, error) {
	if !o.set {
		return usual, nil
	}
	r := engine.Range{Steps: usual.Steps}
	low, high, ok := strings.Cut(o.text, "-")
	_, lowErr := fmt.Sscanf(low+"\n", "%d\n", &r.Low)
	_, highErr := fmt.Sscanf(high+"\n", "%d\n", &r.High)
	if !ok || lowErr != nil || highErr != nil || r.Low < 1 || r.High <= r.Low || r.High > most {
		return r, badUsage("%s %s: give the least and the largest, 1 to %d, as in %s %d-%d", name, quote(o.text), most, name, usual.Low, usual.High)
	}
	return r, nil
}
