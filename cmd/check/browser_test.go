package main

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTapOutcome(t *testing.T) {
	assert.Equal(t, outcome{passed: 12}, tapOutcome("TAP version 13\n# pass 12\n# fail 0\n", nil))
	some := tapOutcome("not ok 1\n# pass 3\n# fail 2\n", errors.New("exit status 1"))
	assert.Equal(t, 3, some.passed)
	assert.Equal(t, 2, some.failed)
	assert.NotEmpty(t, some.details)
	assert.Equal(t, 1, tapOutcome("", nil).failed, "no test ran")
	assert.Equal(t, 1, tapOutcome("# pass 1\n# fail 0\n", errors.New("it fell")).failed)

	slow := tapOutcome("ok 1 - draws\n", errBrowserLimit)
	assert.Equal(t, 1, slow.failed)
	assert.Contains(t, slow.details, "ok 1 - draws")
	assert.Contains(t, slow.details, fmt.Sprintf("took more than %v and were ended", browserLimit))
}
