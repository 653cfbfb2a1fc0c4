package server

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Options say how the editor is served.
type Options struct {
	Tree  string // root of the source tree
	Cache string // folder for builds
	Files fs.FS  // the page
	Port  int    // 0: a free one
	When  When   // the address is printed
	Out   io.Writer
	Log   io.Writer // what goes wrong behind
}

// When is the moment at which the address is printed.
type When int

// The moments: at once, or when the programs are built and compressed.
const (
	AtOnce When = iota
	WhenReady
)

// Run serves the editor on the loopback interface until ctx ends, and prints
// its address. The programs are built and compressed behind; a build that
// fails is shown by the page and on Log, and is Run's error with WhenReady.
func Run(ctx context.Context, o Options) error {
	page, err := NewPage(o.Files)
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(o.Port)))
	if err != nil {
		return fmt.Errorf("port %d on this computer can't be used: %w; choose another with --port, or leave it out for a free one", o.Port, err)
	}
	s := New(page)
	web := &http.Server{Handler: s, ReadHeaderTimeout: 10 * time.Second}
	served := make(chan error, 1)
	go func() { served <- web.Serve(listener) }()
	defer web.Close()

	address := fmt.Sprintf("http://%s/\n", listener.Addr())
	if o.When == AtOnce {
		io.WriteString(o.Out, address)
	}
	prepared := make(chan error, 1)
	go func() { prepared <- s.prepare(ctx, o.Tree, o.Cache) }()
	for {
		select {
		case <-ctx.Done():
			return nil
		case err := <-served:
			return err
		case err := <-prepared:
			prepared = nil
			switch {
			case ctx.Err() != nil:
				return nil
			case err != nil && o.When == WhenReady:
				return err
			case err != nil:
				fmt.Fprintln(o.Log, "the page could not be built:", err)
			case o.When == WhenReady:
				io.WriteString(o.Out, address)
			}
		}
	}
}

// prepare builds the programs, takes them into service, and compresses them.
func (s *Server) prepare(ctx context.Context, tree, cache string) error {
	b, err := BuildPrograms(ctx, tree, cache)
	if err == nil {
		err = s.Add(b)
	}
	if err != nil {
		s.Fail(err)
		return err
	}
	prune(cache, b.Key)
	var late error
	err = b.Brotli(ctx, func(name string) { late = errors.Join(late, s.AddBrotli(b, name)) })
	return errors.Join(err, late)
}

// Site builds the page and writes it into dir.
func Site(ctx context.Context, o Options, dir string) error {
	page, err := NewPage(o.Files)
	if err != nil {
		return err
	}
	b, err := BuildPrograms(ctx, o.Tree, o.Cache)
	if err != nil {
		return err
	}
	if err := b.Brotli(ctx, func(string) {}); err != nil {
		return err
	}
	return WriteSite(dir, page, b)
}

// keptBuilds is how many builds the cache holds: some 25 MB each, and going
// back and forth between a few states of the sources needs no new build.
const keptBuilds = 6

// prune removes the oldest builds, and what an interrupted build left. The
// cache is only a cache: what can't be removed stays.
func prune(cache, key string) {
	entries, err := os.ReadDir(cache)
	if err != nil {
		return
	}
	var builds []os.FileInfo
	for _, e := range entries {
		info, err := e.Info()
		if err != nil || !e.IsDir() || e.Name() == key {
			continue
		}
		if !strings.HasPrefix(e.Name(), "building-") || time.Since(info.ModTime()) > time.Hour {
			builds = append(builds, info)
		}
	}
	slices.SortFunc(builds, func(a, b os.FileInfo) int { return b.ModTime().Compare(a.ModTime()) })
	for i, info := range builds {
		if i >= keptBuilds-1 || strings.HasPrefix(info.Name(), "building-") {
			os.RemoveAll(filepath.Join(cache, info.Name()))
		}
	}
}
