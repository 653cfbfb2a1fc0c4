package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"github.com/spf13/cobra"

	"sheetsprite/web"
	"sheetsprite/web/server"
)

// addServe makes the bare command serve the editor and adds site.
func addServe(root *cobra.Command) {
	var port int
	var wait bool
	root.Flags().IntVar(&port, "port", 0, "port on 127.0.0.1; 0: a free one")
	root.Flags().BoolVar(&wait, "wait", false, "print the address only when the page is built and compressed")
	root.Args = cobra.NoArgs
	root.RunE = func(cmd *cobra.Command, _ []string) error {
		o, err := pageOptions(cmd)
		if err != nil {
			return err
		}
		o.Port = port
		if wait {
			o.When = server.WhenReady
		}
		ctx, stop := untilInterrupted()
		defer stop()
		return server.Run(ctx, o)
	}
	root.AddCommand(&cobra.Command{
		Use:   "site DIR",
		Short: "write the editor as a static site",
		Long: "Builds the page with the Go at hand and writes it into DIR, ready for any web server.\n" +
			"Beside each file lie its .gz and .br, for servers that send those.",
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			o, err := pageOptions(cmd)
			if err != nil {
				return err
			}
			ctx, stop := untilInterrupted()
			defer stop()
			return server.Site(ctx, o, args[0])
		},
	})
}

// pageOptions finds the source tree that the page is built from.
func pageOptions(cmd *cobra.Command) (server.Options, error) {
	here, err := os.Getwd()
	if err != nil {
		return server.Options{}, err
	}
	tree, err := server.FindTree(here)
	if err != nil {
		return server.Options{}, err
	}
	cache, err := server.CacheDir()
	if err != nil {
		return server.Options{}, err
	}
	return server.Options{Tree: tree, Cache: cache, Files: web.Files, Out: cmd.OutOrStdout(), Log: cmd.ErrOrStderr()}, nil
}

func untilInterrupted() (context.Context, context.CancelFunc) {
	return signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
}
