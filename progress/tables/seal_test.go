package tables

import (
	"database/sql"
	"fmt"
	"testing"

	"sparetone/progress"
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

// The seals of rows lie in progress files: were a field left out, or did two change places, every file there is would be damaged.
func TestSealsStay(t *testing.T) {
	for what, c := range map[string]struct{ want, got int64 }{
		"an answer":           {2476034030, answer(1).seal()},
		"an answer long ago":  {1755877944, AnswerRow{ID: [16]byte{2}, Day: -3, Answer: progress.Answer{Item: "tell/sus4", Drill: "tell", Result: progress.Right, At: evening}}.seal()},
		"a session":           {2840105745, SessionRow{Id: "monday", Began: 5, Ended: sql.NullInt64{Int64: 6, Valid: true}, Minutes: 10.5, By: "import/1"}.Sum()},
		"a session that goes": {635213366, SessionRow{Id: "monday", Began: 5, Minutes: 10.5}.Sum()},
		"a song": {1375760559, SongRow{Song: progress.Song{ID: "id", Song: "song", Chart: "| C |", Tuning: "ukulele", Rich: 3, Shapes: "0003", Sounds: "plain"},
			At: 7, By: "import/1"}.Sum()},
		"a setting": {850936875, SealOf("tuning", "ukulele")},
	} {
		if c.got != c.want {
			t.Errorf("%s: %d, want %d", what, c.got, c.want)
		}
	}
}
