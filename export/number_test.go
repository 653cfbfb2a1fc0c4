package export

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

func TestMillimetres(t *testing.T) {
	for v, want := range map[shape.Um]string{
		0: "0", 1: "0.001", 300: "0.3", 1000: "1", 72000: "72", 1050: "1.05", -1005: "-1.005", -1: "-0.001", 12_800_000: "12800",
		math.MinInt64: "-9223372036854775.808",
	} {
		assert.Equal(t, want, mmText(v))
	}
	for v, want := range map[shape.Um2]string{0: "0", 1: "0.000001", 562500: "0.5625", 1e6: "1", 2722500: "2.7225"} {
		assert.Equal(t, want, string(appendMm2(nil, v)))
	}
	got, err := json.Marshal([]any{mmNumber(-50), mm2Number(10)})
	require.NoError(t, err)
	assert.Equal(t, "[-0.05,0.00001]", string(got))
}
