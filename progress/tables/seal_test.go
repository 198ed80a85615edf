package tables

import (
	"fmt"
	"testing"
)

// Two rows whose fields are the same when they are put in one line have two seals.
func TestSealsTellFieldsApart(t *testing.T) {
	seals := map[int64]string{}
	for _, fields := range [][]any{{"ab", "c"}, {"a", "bc"}, {"abc"}, {"", "abc"}, {int64(1), "x"}, {int64(0), int64(1), "x"}, {"x", int64(1)}, {float64(1), "x"}} {
		name := fmt.Sprintf("%#v", fields)
		if other, met := seals[SealOf(fields...)]; met {
			t.Errorf("%s has the seal of %s", name, other)
		}
		seals[SealOf(fields...)] = name
	}
	if SealOf("a", "") != SealOf("a") || SealOf("a", int64(0)) != SealOf("a") {
		t.Error("a field that is added later breaks the seals of rows without it")
	}
}
