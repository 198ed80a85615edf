package arrange

import (
	"strings"
	"testing"

	"sparetone/theory/song"
)

func arrangeChart(t testing.TB, chart string, w Wishes) Arrangement {
	t.Helper()
	s, err := song.Read(chart)
	if err != nil {
		t.Fatal(err)
	}
	a, err := Arrange(s, w)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// Where no string sounds throughout, all are picked, and whatever does not sound is passed over.
func TestPickingWhereNoStringSoundsThroughout(t *testing.T) {
	a := arrangeChart(t, "| C5 | G5 |", Wishes{Tuning: tuning(t, "guitar"), Fixed: []Fixed{{Chord: chord(t, "C5"), Shape: shape(t, "x35xxx")}, {Chord: chord(t, "G5"), Shape: shape(t, "xxx033")}}})
	if got := a.Picking(); len(got.Steps) != 6 {
		t.Errorf("%s", got)
	}
	if got := arrangeChart(t, "| C5 | G5 |", Wishes{Tuning: tuning(t, "guitar"), Fixed: []Fixed{{Chord: chord(t, "C5"), Shape: shape(t, "x35xxx")}}}).Picking(); len(got.Steps) == 0 {
		t.Error("no string is picked")
	}
}

func TestPickingLetsTheDoubledNoteBeHeardTwice(t *testing.T) {
	plain := arrangeChart(t, "| C | F |", Wishes{})
	if got := plain.Picking().String(); got != "4 2 3 1" {
		t.Errorf("%s, want the even order", got)
	}
	a := arrangeChart(t, "key: C\n| F | F |", Wishes{Rich: 10}) // 0010: string 4 moves from the third, which string 1 has
	order := a.Picking().String()
	if !strings.HasPrefix(order, "4 1") && !strings.HasSuffix(order, "1") {
		t.Errorf("%s, want 4 and 1 side by side", order)
	}
}
