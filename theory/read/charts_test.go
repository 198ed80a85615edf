package read_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/read"
)

// chartRow is a suffix as charts print it, and what it means.
type chartRow struct{ suffix, means string }

func chartRows(t testing.TB) []chartRow {
	t.Helper()
	text, err := os.ReadFile("../../testdata/theory/chart-suffixes.tsv")
	if err != nil {
		t.Fatal(err)
	}
	var out []chartRow
	for line := range strings.Lines(string(text)) {
		if !strings.HasPrefix(line, "# ") {
			column := strings.Split(strings.TrimRight(line, "\n"), "\t")
			if len(column) != 3 || column[2] == "" {
				t.Fatalf("%q has no source", line)
			}
			out = append(out, chartRow{column[0], column[1]})
		}
	}
	return out
}

// within writes tones in the order of their degrees, all within an octave, so that an added fourth is an eleventh.
func within(tones []theory.Interval) string {
	simple := make([]theory.Interval, len(tones))
	for n, i := range tones {
		simple[n] = i.Simple()
	}
	slices.SortFunc(simple, func(a, b theory.Interval) int { return 20*(a.Number-b.Number) + a.Semitones - b.Semitones })
	words := make([]string, len(simple))
	for n, i := range simple {
		words[n] = i.DegreeASCII()
	}
	return strings.Join(words, " ")
}

// Every suffix of the table means what the table says, on plain roots and on those with signs, or is refused with the
// reason that the table gives.
func TestSuffixesOfPrintedCharts(t *testing.T) {
	rows := chartRows(t)
	if len(rows) < 600 {
		t.Fatalf("%d suffixes, want 600 or more", len(rows))
	}
	refused := 0
	for _, row := range rows {
		reason, refuse := strings.CutPrefix(row.means, "refused: ")
		means, alt := strings.CutSuffix(row.means, " alt")
		for _, root := range []string{"C", "F#", "B♭"} {
			c, isAlt, err := read.ChordOrAlt(root + row.suffix)
			switch {
			case refuse && err == nil:
				t.Errorf("%s is read as %s, and should be refused: %s", root+row.suffix, c.FullSymbol(), reason)
			case refuse && !strings.Contains(err.Error(), reason):
				t.Errorf("%s is refused with %v, want %s", root+row.suffix, err, reason)
			case refuse:
			case err != nil:
				t.Errorf("%v, want %s", err, means)
			default:
				var want []theory.Interval
				for _, w := range strings.Fields(means) {
					i, err := read.Degree(w)
					if err != nil {
						t.Fatal(err)
					}
					want = append(want, i)
				}
				var got []theory.Interval
				for _, n := range c.Tones() {
					got = append(got, c.Root.To(n))
				}
				if within(got) != within(want) {
					t.Errorf("%s is read as %s, want %s", root+row.suffix, within(got), means)
				}
				if isAlt != alt {
					t.Errorf("%s: one of several: %v", root+row.suffix, isAlt)
				}
			}
		}
		if refuse {
			refused++
		}
	}
	t.Logf("%d suffixes, of which %d are refused with the reason", len(rows), refused)
}
