package practice

import (
	"strings"
	"testing"
	"time"

	"sparetone/progress/memory"
)

// weeksOf are weeks of answers of two choices each: for each week how many were asked and right.
func weeksOf(end time.Time, tallies ...[2]int) []memory.Week {
	var out []memory.Week
	for i, t := range tallies {
		begins := end.AddDate(0, 0, -7*(len(tallies)-i))
		if t[0] > 0 {
			out = append(out, memory.Week{Begins: begins, Tally: memory.Tally{Asked: t[0], Right: t[1], Guessed: float64(t[0]) / 2}})
		}
	}
	return out
}

// The curve counts each thing by how surely it is told apart without luck, leaves out what was asked too seldom, and keeps what was not
// asked since.
func TestCurveOfWhatIsToldApart(t *testing.T) {
	end := time.Date(2026, 5, 11, 0, 0, 0, 0, time.UTC)
	c := curveOf(map[string][]memory.Week{
		"a": weeksOf(end, [2]int{8, 4}, [2]int{8, 6}, [2]int{8, 8}), // half told, then half of the rest, then all
		"b": weeksOf(end, [2]int{0, 0}, [2]int{8, 8}, [2]int{0, 0}), // not asked in the last week
		"c": weeksOf(end, [2]int{0, 0}, [2]int{0, 0}, [2]int{3, 3}), // too seldom
	}, end)
	want := []Point{{2, 0, 8}, {1, 1.5, 16}, {0, 2, 16}}
	if len(c.Points) != len(want) {
		t.Fatalf("%+v", c.Points)
	}
	for i, p := range c.Points {
		if p != want[i] {
			t.Errorf("point %d is %+v, want %+v", i, p, want[i])
		}
	}
	if c.Of != 2 || c.Seldom != 1 {
		t.Errorf("%d things count and %d do not", c.Of, c.Seldom)
	}
}

func TestCurveInWords(t *testing.T) {
	for _, c := range []struct {
		curve Curve
		want  string
	}{
		{Curve{}, "Nothing was asked by ear yet. When it is, this shows week by week how much you can tell apart."},
		{Curve{Seldom: 2}, "2 things were asked by ear, too seldom yet to say how surely you tell them apart."},
		{Curve{Of: 1, Points: []Point{{0, 0.4, 5}}}, "By ear you now tell apart about 0 of 1 thing. That rests on 5 answers only: it may be off. Lucky answers are taken out."},
		{Curve{Of: 20, Seldom: 1, Points: []Point{{6, 3.6, 40}, {1, 9, 90}, {0, 11.5, 100}}},
			"By ear you now tell apart about 12 of 20 things. 6 weeks ago it was about 4. Lucky answers are taken out. 1 thing was asked too seldom to count."},
	} {
		var lines []string
		for _, l := range c.curve.Words() {
			lines = append(lines, l.Aloud())
		}
		if got := strings.Join(lines, " "); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	three := Curve{Points: []Point{{2, 1.2, 9}, {1, 2.5, 9}, {0, 4, 9}}}
	if got := three.ByWeek().Aloud(); got != "Week by week, up to now: 1, 3, 4." {
		t.Errorf("%q", got)
	}
}
