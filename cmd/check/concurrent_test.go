package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestConcurrentFindsWhatRunsAtTheSameTime(t *testing.T) {
	at, err := concurrent("../..")
	require.NoError(t, err)
	for _, folder := range []string{"engine", "engine/nest", "cmd/sheetsprite", "web/server"} {
		assert.Contains(t, at, "./../../"+folder)
	}
	assert.NotContains(t, at, "./../../engine/shape")
	assert.NotContains(t, at, "./../../engine/stack")
}
