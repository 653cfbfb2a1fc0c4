package main

import (
	"strings"

	"github.com/spf13/cobra"
)

// newRoot is the command with all that it can do, one file each.
func newRoot(c clock) *cobra.Command {
	root := &cobra.Command{
		Use:   "sheetsprite",
		Short: "Pixel sprites as coloured card: cut sheet by sheet, stacked in relief",
		Long: `Sheetsprite turns pixel sprites into cutting files for coloured card. It stacks
the card so that few pieces have to be cut and glued, and checks before you cut
that every piece can be held, seen and fitted on its sheet.`,
		Example: `  sheetsprite cut gull.png crab.png -o harbour.zip
  sheetsprite inspect harbour.json`,
		Args:          cobra.NoArgs,
		SilenceUsage:  true, // one sentence says what is wrong
		SilenceErrors: true, // run prints it
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.CompletionOptions.HiddenDefaultCmd = true
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		return badUsage("%s; see %s --help", strings.TrimSuffix(err.Error(), "."), cmd.CommandPath())
	})
	root.AddCommand(newCut(c), newTestPiece(c), newRegrid(), newInspect(c), newShelf())
	addServe(root)
	return root
}
