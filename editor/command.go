package editor

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"
	"sync"
)

// Command is one thing that the maker can do.
type Command struct {
	Name  string
	Title string // in a maker's words
	Group string // the heading that it stands under in the list of keys
	Args  []Arg
	Keys  []Key

	inStroke bool // goes on with a stroke under way instead of ending it
	run      func(*Editor, json.RawMessage) (any, error)
	zero     func() any // its arguments' type, for tests
}

// Arg is an argument of a command.
type Arg struct {
	Name  string   `json:"name"`
	Kind  string   `json:"kind"` // "text", "number", "whole number", "numbers", "texts", "pictures", "bytes", "project"
	About string   `json:"about"`
	OneOf []string `json:"oneOf,omitempty"`
	Need  string   `json:"need"` // "always" or "if wanted"
}

// Key is a key press and what it runs a command with.
type Key struct {
	Press string // such as "Ctrl+Z" (Ctrl is the command key where there is one), "P", "Shift+ArrowLeft"
	Title string // where it differs from the command's
	Args  string // JSON; "" for none
}

// Commands lists all commands, group by group, as the list of keys shows them.
func Commands() []Command { return slices.Clone(all()) }

var list struct {
	once   sync.Once
	all    []Command
	byName map[string]*Command
}

// all makes the list when it is first asked for: some commands look at it
// themselves, so that it can't be made before them.
func all() []Command {
	list.once.Do(func() {
		for _, g := range []struct {
			name     string
			commands []Command
		}{
			{"Project", fileCommands()},
			{"Looking", viewCommands()},
			{"Tools", toolCommands()},
			{"Drawing", drawCommands()},
			{"Moving and copying", selectionCommands()},
			{"Size", sizeCommands()},
			{"Sprites", spriteCommands()},
			{"Frames", frameCommands()},
			{"Colours", paletteCommands()},
			{"Card", stockCommands()},
			{"Stack", stackCommands()},
			{"Cutting", settingsCommands()},
			{"Sheets", sheetCommands()},
			{"Assemble", assembleCommands()},
			{"My bench", slices.Concat(benchCommands(), ownBenchCommands(), heldCommands())},
			{"My shelf", shelfCommands()},
			{"Picture under the grid", pictureCommands()},
			{"Preview", reliefCommands()},
		} {
			for _, c := range g.commands {
				c.Group = g.name
				list.all = append(list.all, c)
			}
		}
		list.byName = make(map[string]*Command, len(list.all))
		for i := range list.all {
			list.byName[list.all[i].Name] = &list.all[i]
		}
	})
	return list.all
}

// named is the command with this name; nil for none.
func named(name string) *Command {
	all()
	return list.byName[name]
}

// command makes a Command of a function with typed arguments. A is a struct;
// its fields' tags say the argument's name (json), what it is (about), what it
// may be (oneOf, with | between). An argument whose field is a pointer or has
// omitempty may be left out.
func command[A any](name, title string, run func(*Editor, A) (any, error), keys ...Key) Command {
	return Command{
		Name: name, Title: title, Keys: keys,
		Args: arguments(reflect.TypeFor[A]()),
		run: func(e *Editor, data json.RawMessage) (any, error) {
			var a A
			if err := decode(name, data, &a); err != nil {
				return nil, err
			}
			return run(e, a)
		},
		zero: func() any { return new(A) },
	}
}

// inStroke marks a command that goes on with a stroke under way.
func inStroke(c Command) Command {
	c.inStroke = true
	return c
}

// none is the arguments of a command that has none.
type none struct{}

func arguments(t reflect.Type) []Arg {
	var args []Arg
	for i := range t.NumField() {
		f := t.Field(i)
		name, rest, _ := strings.Cut(f.Tag.Get("json"), ",")
		a := Arg{Name: name, About: f.Tag.Get("about"), Need: "always"}
		typ := f.Type
		if typ.Kind() == reflect.Pointer {
			typ = typ.Elem()
		}
		if f.Type.Kind() == reflect.Pointer || rest == "omitempty" {
			a.Need = "if wanted"
		}
		if s := f.Tag.Get("oneOf"); s != "" {
			a.OneOf = strings.Split(s, "|")
		}
		switch {
		case typ == reflect.TypeFor[json.RawMessage]():
			a.Kind = "project"
		case typ == reflect.TypeFor[[]byte]():
			a.Kind = "bytes"
		case typ.Kind() == reflect.String:
			a.Kind = "text"
		case typ.Kind() == reflect.Int:
			a.Kind = "whole number"
		case typ == reflect.TypeFor[[][]byte]():
			a.Kind = "pictures"
		case typ == reflect.TypeFor[[]string]():
			a.Kind = "texts"
		case typ.Kind() == reflect.Float64:
			a.Kind = "number"
		default:
			a.Kind = "numbers"
		}
		args = append(args, a)
	}
	return args
}

// decode reads a command's arguments strictly: unknown, missing and wrong ones
// are refused with a sentence.
func decode(name string, data json.RawMessage, into any) error {
	data = bytes.TrimSpace(data)
	if len(data) == 0 || string(data) == "null" {
		data = json.RawMessage("{}")
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		return argumentError(name, err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return fmt.Errorf("%s: its arguments are followed by something else", name)
	}
	v := reflect.ValueOf(into).Elem()
	var given map[string]json.RawMessage
	if err := json.Unmarshal(data, &given); err != nil {
		return argumentError(name, err)
	}
	for i, a := range arguments(v.Type()) {
		raw, ok := given[a.Name]
		if !ok || string(raw) == "null" {
			if a.Need == "always" {
				return fmt.Errorf("%s: %s is missing (%s)", name, a.Name, a.About)
			}
			continue
		}
		if f := reflect.Indirect(v.Field(i)); len(a.OneOf) > 0 && !slices.Contains(a.OneOf, f.String()) {
			return fmt.Errorf("%s: %s is %s, but must be one of %s", name, a.Name, quoted(f.String()), strings.Join(a.OneOf, ", "))
		}
	}
	return nil
}

func argumentError(name string, err error) error {
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &kind) && kind.Field != "":
		want := "a " + kind.Type.Kind().String()
		switch kind.Type.Kind() {
		case reflect.String:
			want = "a text"
		case reflect.Int, reflect.Int64:
			want = "a whole number"
		case reflect.Float64:
			want = "a number"
		case reflect.Slice:
			want = "a list"
		}
		return fmt.Errorf("%s: %s must be %s, but it is %s", name, kind.Field, want, kind.Value)
	case strings.HasPrefix(err.Error(), "json: unknown field "):
		return fmt.Errorf("%s: it has nothing called %.60s", name, strings.TrimPrefix(err.Error(), "json: unknown field "))
	}
	return fmt.Errorf("%s: its arguments aren't what they should be (%.120s)", name, strings.TrimPrefix(err.Error(), "json: "))
}
