package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The events are as `go test -json` prints them, cut to the fields that count.
func TestTestsAreCounted(t *testing.T) {
	for _, c := range []struct {
		name           string
		events         string
		passed, failed int
		details        string
	}{
		{"none", ``, 0, 0, ""},
		{"one passes, one fails", `
			{"Action":"pass","Package":"a","Test":"TestOne"}
			{"Action":"output","Package":"a","Test":"TestTwo","Output":"two is wrong\n"}
			{"Action":"fail","Package":"a","Test":"TestTwo"}
			{"Action":"fail","Package":"a"}`, 1, 1, "two is wrong"},
		{"rows of a table count, the table doesn't", `
			{"Action":"pass","Package":"a","Test":"TestTable/x"}
			{"Action":"pass","Package":"a","Test":"TestTable/y"}
			{"Action":"pass","Package":"a","Test":"TestTable"}
			{"Action":"pass","Package":"a"}`, 2, 0, ""},
		{"a failed row fails once, its table's words are shown", `
			{"Action":"pass","Package":"a","Test":"TestTable/x"}
			{"Action":"fail","Package":"a","Test":"TestTable/y"}
			{"Action":"output","Package":"a","Test":"TestTable","Output":"after the rows\n"}
			{"Action":"fail","Package":"a","Test":"TestTable"}
			{"Action":"fail","Package":"a"}`, 1, 1, "after the rows"},
		{"a table may fail by itself", `
			{"Action":"pass","Package":"a","Test":"TestTable/x"}
			{"Action":"fail","Package":"a","Test":"TestTable"}
			{"Action":"fail","Package":"a"}`, 1, 1, ""},
		{"skipping is failing", `
			{"Action":"skip","Package":"a","Test":"TestOne"}
			{"Action":"pass","Package":"a"}`, 0, 1, ""},
		{"a package without tests is neither", `
			{"Action":"skip","Package":"a"}`, 0, 0, ""},
		{"a package that doesn't build", `
			{"ImportPath":"a [a.test]","Action":"build-output","Output":"a.go:1: syntax error\n"}
			{"ImportPath":"a [a.test]","Action":"build-fail"}
			{"Action":"fail","Package":"a","FailedBuild":"a [a.test]"}`, 0, 1, "syntax error"},
		{"a crash outside any test", `
			{"Action":"pass","Package":"a","Test":"TestOne"}
			{"Action":"output","Package":"a","Output":"exit status 2\n"}
			{"Action":"fail","Package":"a"}`, 1, 1, "exit status 2"},
		{"tests of one name in two packages are two", `
			{"Action":"pass","Package":"a","Test":"TestOne"}
			{"Action":"pass","Package":"b","Test":"TestOne"}`, 2, 0, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			run := newTestRun(func(string, ...any) {})
			require.NoError(t, run.read(strings.NewReader(strings.ReplaceAll(c.events, "\t", ""))))
			o := run.sum()
			assert.Equal(t, c.passed, o.passed, "passed")
			assert.Equal(t, c.failed, o.failed, "failed")
			assert.Contains(t, o.details, c.details)
		})
	}
}

func TestFuzzTargetsAreFound(t *testing.T) {
	got := readTargets("FuzzOne\nFuzzTwo\nok  \tm/a\t0.1s\n?   \tm/b\t[no test files]\nok  \tm/c\t0.2s\nFuzzOne\nok  \tm/d\t0.1s\n")
	assert.Equal(t, []fuzzTarget{{"m/a", "FuzzOne"}, {"m/a", "FuzzTwo"}, {"m/d", "FuzzOne"}}, got)
	assert.Empty(t, readTargets(""))
}

func TestOnlyTheFuzzerItselfRunsOutOfTime(t *testing.T) {
	assert.True(t, ranOutOfTime("--- FAIL: FuzzOne\n    context deadline exceeded\nFAIL\n"))
	assert.False(t, ranOutOfTime("--- FAIL: FuzzOne\n    context deadline exceeded\n    Failing input written to testdata/fuzz/FuzzOne/1\n"))
	assert.False(t, ranOutOfTime("panic: index out of range"))
}
