package strictjson

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func check(data string) error {
	c := New([]byte(data))
	if err := c.Skip(); err != nil {
		return err
	}
	return c.End()
}

func TestRefused(t *testing.T) {
	for _, c := range []struct{ data, message string }{
		{"", "line 1, column 1: the data ends too early"},
		{"  \n ", "line 2, column 2: the data ends too early"},
		{"{", "line 1, column 2: the data ends too early"},
		{`{"a":1`, "line 1, column 7: the data ends too early"},
		{`{"a":1,}`, "line 1, column 8: a comma with nothing after it"},
		{`[1,]`, "line 1, column 4: a comma with nothing after it"},
		{`[,]`, "line 1, column 2: ',' isn't expected here"},
		{`[1 2]`, "line 1, column 4: '2' isn't expected here"},
		{`{a:1}`, "line 1, column 2: 'a' isn't expected here"},
		{`{"a" 1}`, "line 1, column 6: '1' isn't expected here"},
		{`{"a":1,"b":2,"a":3}`, `line 1, column 14: the field "a" stands twice in one object; take one of them out`},
		{`[{"x":{"é":1,"\u00e9":2}}]`, `line 1, column 14: the field "é" stands twice in one object; take one of them out`},
		{"[1]\n[2]", "line 2, column 1: there is something after the end"},
		{"nul", "line 1, column 1: 'n' isn't expected here"},
		{"tru", "line 1, column 1: 't' isn't expected here"},
		{"NaN", "line 1, column 1: 'N' isn't expected here"},
		{"-", "line 1, column 2: the data ends too early"},
		{"1.", "line 1, column 3: the data ends too early"},
		{"1e", "line 1, column 3: the data ends too early"},
		{"01", "line 1, column 1: a number can't start with 0 and go on"},
		{`"ab`, "line 1, column 4: the data ends within a text"},
		{`"ab\`, "line 1, column 4: the data ends within a text"},
		{`"é\x"`, "line 1, column 3: this escape doesn't exist in JSON"},
		{`"\u12g4"`, "line 1, column 2: \\u needs four hexadecimal digits"},
		{`"\ud83d"`, "line 1, column 2: this is half a character"},
		{`"\ude00\ud83d"`, "line 1, column 2: this is half a character"},
		{`"\ud83dx12345"`, "line 1, column 2: this is half a character"},
		{"\"a\nb\"", "line 1, column 3: a control character in a text must be written as \\u00…"},
		{"\"\xff\"", "line 1, column 2: this isn't UTF-8 text"},
		{"[\xff]", "line 1, column 2: this isn't UTF-8 text"},
		{strings.Repeat("[", 100000), "line 1, column 65: objects and lists are nested more than 64 deep"},
		{strings.Repeat(`{"a":`, 100000), "line 1, column 321: objects and lists are nested more than 64 deep"},
	} {
		assert.EqualError(t, check(c.data), c.message, "%.40q", c.data)
	}
	var many strings.Builder
	for i := range MaxFields + 1 {
		many.WriteString(`,"` + strings.Repeat("x", i%100) + string(rune('a'+i/100)) + `":0`)
	}
	assert.ErrorContains(t, check("{"+many.String()[1:]+"}"), "more than 10000 fields")
}

func TestWrongKind(t *testing.T) {
	_, err := New([]byte(" 3")).Text()
	assert.EqualError(t, err, "must be a text, but it is a number")
	_, err = New([]byte("{}")).Number()
	assert.EqualError(t, err, "must be a number, but it is an object {…}")
	_, err = New([]byte(`"x"`)).Bool()
	assert.EqualError(t, err, "must be true or false, but it is a text")
	assert.EqualError(t, New([]byte("null")).Array(nil), "must be a list […], but it is null")
}

func TestText(t *testing.T) {
	for data, want := range map[string]string{
		`""`: "", `"gull"`: "gull", `"\u0067ull"`: "gull", `"\ud83d\ude00"`: "😀", `"😀"`: "😀",
		`"\"\\\/\b\f\n\r\t"`: "\"\\/\b\f\n\r\t", `"\u0000"`: "\x00",
	} {
		got, err := New([]byte(data)).Text()
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
}

func TestByteOrderMark(t *testing.T) { assert.NoError(t, check("\ufeff{}")) }

// What is taken, encoding/json takes too and understands alike.
func FuzzCursor(f *testing.F) {
	for _, seed := range []string{`{"a":[1,-2.5e+3,true,null,"x\u00e9\ud83d\ude00"]}`, `[]`, `"\\"`, `{"a":{"b":{}}}`, "[[[", "\ufeff1"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		c := New(data)
		raw, err := c.Raw()
		if err != nil || c.End() != nil {
			return
		}
		plain := bytes.TrimPrefix(data, []byte("\ufeff"))
		require.True(t, json.Valid(plain))
		var want, got any
		require.NoError(t, decode(plain, &want))
		require.NoError(t, decode(raw, &got))
		require.True(t, reflect.DeepEqual(want, got))
		if text, is := want.(string); is {
			read, err := New(data).Text()
			require.NoError(t, err)
			require.Equal(t, text, read)
		}
	})
}

func decode(data []byte, v *any) error {
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber() // 1e999 is a number too
	return d.Decode(v)
}
