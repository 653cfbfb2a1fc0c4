package main

import (
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// option is an option's text as typed, read later so that a refusal is one
// sentence of ours. shape is what --help shows for the value.
type option struct {
	name, shape, text string
	set               bool
}

func (o *option) String() string     { return "" } // defaults stand in the help's words
func (o *option) Type() string       { return o.shape }
func (o *option) Set(s string) error { o.text, o.set = s, true; return nil }

// add declares the option.
func (o *option) add(f *pflag.FlagSet, name, shape, usage string) {
	o.addShort(f, name, "", shape, usage)
}

// addShort declares the option with a letter for short.
func (o *option) addShort(f *pflag.FlagSet, name, letter, shape, usage string) {
	o.name, o.shape = name, shape
	f.VarP(o, name, letter, usage)
}

// length reads millimetres from low to high.
func (o *option) length(low, high shape.Um) (shape.Um, error) {
	v, err := project.ParseMm(o.text)
	if err != nil || v < low || v > high {
		return 0, badUsage("--%s %s: give %s to %s mm, in plain digits with at most 3 decimals",
			o.name, quote(o.text), project.FormatMm(low), project.FormatMm(high))
	}
	return v, nil
}

// count reads a whole number from low to high.
func (o *option) count(low, high int) (int, error) {
	n, err := strconv.Atoi(o.text)
	if err != nil || n < low || n > high || strings.HasPrefix(o.text, "+") {
		return 0, badUsage("--%s %s: give a whole number from %d to %d", o.name, quote(o.text), low, high)
	}
	return n, nil
}

// choice reads one of a few words.
func (o *option) choice(words ...string) (string, error) {
	for _, w := range words {
		if o.text == w {
			return w, nil
		}
	}
	return "", badUsage("--%s %s: choose %s", o.name, quote(o.text), strings.Join(words, " or "))
}

// size reads a width and a height, as in 210x297.
func (o *option) size(low, high shape.Um) (w, h shape.Um, err error) {
	one, two, ok := strings.Cut(strings.NewReplacer("×", "x", "X", "x").Replace(o.text), "x")
	if ok {
		var errW, errH error
		w, errW = project.ParseMm(one)
		h, errH = project.ParseMm(two)
		ok = errW == nil && errH == nil && min(w, h) >= low && max(w, h) <= high
	}
	if !ok {
		return 0, 0, badUsage("--%s %s: give width x height in mm, such as 210x297, each %s to %s",
			o.name, quote(o.text), project.FormatMm(low), project.FormatMm(high))
	}
	return w, h, nil
}
