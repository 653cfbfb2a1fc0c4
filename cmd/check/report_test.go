package main

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestLastLineAndExitCode(t *testing.T) {
	good := func(func(string, ...any)) outcome { return outcome{passed: 3} }
	bad := func(func(string, ...any)) outcome { return single(errors.New("it broke"), "") }
	nothing := func(func(string, ...any)) outcome { return outcome{} }
	for _, c := range []struct {
		name  string
		steps []step
		last  string
		code  int
	}{
		{"all well", []step{{"a", good}, {"b", good}}, "6 passed, 0 failed", 0},
		{"one broken", []step{{"a", good}, {"b", bad}, {"c", good}}, "6 passed, 1 failed", 1},
		{"nothing ran", []step{{"a", nothing}}, "0 passed, 1 failed", 1},
		{"no steps", nil, "0 passed, 1 failed", 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out strings.Builder
			r := newReport(&out)
			for _, s := range c.steps {
				r.run(s)
			}
			assert.Equal(t, c.code, r.finish())
			lines := strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
			assert.Equal(t, c.last, lines[len(lines)-1])
			if c.name == "one broken" {
				assert.Contains(t, out.String(), "it broke")
				assert.Contains(t, out.String(), "failed: b\n")
			}
		})
	}
}

func TestMissingToolsAreNamedWithTheirPackages(t *testing.T) {
	ts := []tool{{command: "gcc", debian: "gcc libc6-dev", use: "x"}, {module: "cv2", debian: "python3-opencv", use: "y"}, {command: "cc", debian: "gcc", use: "z"}}
	assert.Equal(t, []string{"gcc", "libc6-dev", "python3-opencv"}, packagesOf(ts))
	assert.EqualError(t, errMissing(ts), "missing: gcc (x), python module cv2 (y), cc (z); as root on Debian: apt-get install gcc libc6-dev python3-opencv")
	assert.False(t, tool{command: "no-such-program-anywhere"}.present())
	assert.False(t, tool{module: "no_such_module_anywhere"}.present())
}

func TestBundlesAreCompared(t *testing.T) {
	quiet := func(string, ...any) {}
	same := compareSums(quiet, []string{"a", "b"}, []string{"a", "b"}, []string{"a", "b"})
	assert.Equal(t, outcome{passed: 2}, same)
	for _, runs := range [][3][]string{
		{{"a", "b"}, {"a", "b"}, {"a", "c"}},
		{{"a", "b"}, {"a", "c"}, {"a", "b"}},
		{{"a", "b"}, {"a"}, {"a", "b"}},
	} {
		o := compareSums(quiet, runs[0], runs[1], runs[2])
		assert.Equal(t, 1, o.failed)
		assert.NotEmpty(t, o.details)
	}
}
