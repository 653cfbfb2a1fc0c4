package projecttest

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
)

// verb is a place in a format that something is put into, or a per cent.
var verb = regexp.MustCompile(`%(?:%|[-0-9.+#\[\]]*[a-z])`)

// Foreign writes all texts of a table in letters that English hasn't, so that
// what doesn't come from the table shows: a to z become Cyrillic ones one for
// one. table points to a struct of strings, slices and arrays of them, and
// structs of such; funcs are left alone, and so are the fields named.
func Foreign(table any, but ...string) {
	v := reflect.ValueOf(table).Elem()
	for i := range v.NumField() {
		if !slices.Contains(but, v.Type().Field(i).Name) {
			translate(v.Field(i))
		}
	}
}

// Unused are the texts of such a table of which the longest stretch between what
// is put into them doesn't stand in text, wherever either has its spaces.
func Unused(table any, text string, but ...string) []string {
	text = spaceless(text)
	var out []string
	v := reflect.ValueOf(table).Elem()
	var all []string
	for i := range v.NumField() {
		if !slices.Contains(but, v.Type().Field(i).Name) {
			all = collected(all, v.Field(i))
		}
	}
	for _, s := range all {
		longest := ""
		for _, part := range verb.Split(s, -1) {
			if part = spaceless(part); len(part) > len(longest) {
				longest = part
			}
		}
		if !strings.Contains(text, longest) {
			out = append(out, s)
		}
	}
	return out
}

func spaceless(s string) string { return strings.Join(strings.Fields(s), "") }

// collected appends all texts of a field of a table.
func collected(all []string, v reflect.Value) []string {
	switch v.Kind() {
	case reflect.String:
		all = append(all, v.String())
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			all = collected(all, v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			all = collected(all, v.Field(i))
		}
	}
	return all
}

func translate(v reflect.Value) {
	v = reflect.NewAt(v.Type(), v.Addr().UnsafePointer()).Elem() // fields of a table may be private
	switch v.Kind() {
	case reflect.Func:
	case reflect.String:
		v.SetString(foreign(v.String()))
	case reflect.Slice: // of its own, as others may share it
		own := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(own, v)
		v.Set(own)
		for i := range v.Len() {
			translate(v.Index(i))
		}
	case reflect.Array:
		for i := range v.Len() {
			translate(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			translate(v.Field(i))
		}
	default:
		panic(fmt.Sprintf("a table of texts holds a %v", v.Kind()))
	}
}

// foreign is a text in Cyrillic letters, what is put into it apart.
func foreign(s string) string {
	var b strings.Builder
	from := 0
	put := func(s string) {
		for _, r := range s {
			switch {
			case r >= 'a' && r <= 'z':
				r += 'а' - 'a'
			case r >= 'A' && r <= 'Z':
				r += 'А' - 'A'
			}
			b.WriteRune(r)
		}
	}
	for _, m := range verb.FindAllStringIndex(s, -1) {
		put(s[from:m[0]])
		b.WriteString(s[m[0]:m[1]])
		from = m[1]
	}
	put(s[from:])
	return b.String()
}
