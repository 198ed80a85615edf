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

// Where no string sounds throughout, all that ever sound are picked, and whatever does not sound is passed over.
func TestPickingWhereNoStringSoundsThroughout(t *testing.T) {
	a := arrangeChart(t, "| C5 | G5 |", Wishes{Tuning: tuning(t, "guitar"), Fixed: []Fixed{{Chord: chord(t, "C5"), Shape: shape(t, "x35xxx")}, {Chord: chord(t, "G5"), Shape: shape(t, "xxx033")}}})
	if got := a.Picking(); len(got.Steps) != 5 {
		t.Errorf("%s", got)
	}
	if got := arrangeChart(t, "| C5 | G5 |", Wishes{Tuning: tuning(t, "guitar"), Fixed: []Fixed{{Chord: chord(t, "C5"), Shape: shape(t, "x35xxx")}}}).Picking(); len(got.Steps) == 0 {
		t.Error("no string is picked")
	}
}

// Where two strings alone sound throughout, those that sound mostly are picked as well: of two no chord is heard.
func TestPickingTakesThreeStringsOrMore(t *testing.T) {
	chart := "strum: D\nmeter: 7/8\n|: Em | C | G | D/F# :|\n|1. Am | B7 :|2. Am B7 | Em |"
	for on, want := range map[string]int{"guitar": 5, "ukulele": 4} {
		a := arrangeChart(t, chart, Wishes{Tuning: tuning(t, on), Rich: 5})
		if got := a.Picking(); len(got.Steps) != want {
			t.Errorf("%s on %s, want %d strings", got, on, want)
		}
	}
	if got := arrangeChart(t, "| C | G |", Wishes{Tuning: tuning(t, "gC")}).Picking(); len(got.Steps) != 2 {
		t.Errorf("%s of two strings", got)
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
