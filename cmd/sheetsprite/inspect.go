package main

import (
	"encoding/json"
	"io"

	"github.com/spf13/cobra"
)

func newInspect(c clock) *cobra.Command {
	var s settings
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "inspect INPUT...",
		Short: "Say what to know before cutting; nothing is written",
		Long: `Plans the sprites as cut would and says what to know before cutting: where a
piece is too narrow, too small or too large, which corners can't be joined, which
cards look alike, and what would help. Nothing is written.

It takes the same inputs and the same options as cut.`,
		Example: `  sheetsprite inspect gull.png
  sheetsprite inspect gull.png --cell 1.5       what smaller cells would cost
  sheetsprite inspect harbour.json --json       all of it, for a program`,
		Args: needInput,
		RunE: func(cmd *cobra.Command, args []string) error {
			j := job{settings: &s, clock: c, out: cmd.OutOrStdout(), err: cmd.ErrOrStderr(), told: cmd.OutOrStdout(), times: newTimings(c)}
			if asJSON {
				j.told = io.Discard
			}
			p, plan, err := j.plan(args)
			if err != nil {
				return err
			}
			r := newReport(p, plan)
			if !asJSON {
				printSummary(j.out, r, atLength)
				return nil
			}
			e := json.NewEncoder(j.out)
			e.SetIndent("", "  ")
			return e.Encode(r)
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.BoolVar(&asJSON, "json", false, "print findings and totals as JSON")
	s.add(f)
	return cmd
}
