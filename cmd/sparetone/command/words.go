package command

import (
	"fmt"
	"slices"
	"strings"
	"text/tabwriter"

	"sparetone/drills/bench"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// Remark is a clause on how a chord symbol was read, as that alt is one chord of several. The zero remark says nothing.
type Remark struct{ said say.Text }

// ReadChord reads a chord symbol, with what should be known of how it was read.
func ReadChord(typed string) (c theory.Chord, how Remark, err error) {
	c, alt, err := read.ChordOrAlt(typed)
	if alt {
		how.said = bench.Altered
	}
	return c, how, err
}

// String is the remark as a sentence, "" if it says nothing.
func (r Remark) String() string {
	if r.said.IsZero() {
		return ""
	}
	return say.Of("{}.", r.said).Screen()
}

// After is an error about a chord symbol with the remark behind it.
func (r Remark) After(err error) error {
	if r.said.IsZero() {
		return err
	}
	return say.Wrong("{}; {}", say.Said(err), r.said)
}

// Lacking says which tones a chord goes without: " without the root and the fifth". It is "" if it has all.
func Lacking(missing []theory.Interval) string {
	if len(missing) == 0 {
		return ""
	}
	return say.Of(" without {}", say.And(say.Roles(missing)...)).Screen()
}

// Hold says which finger stands on which string, finger 1 the index and 4 the little finger: "finger 1 on the B string,
// 2 on the D string", or "across the g, C, E and A strings at fret 2".
func Hold(t *fret.Tuning, f fret.Found) string {
	var held []string
	for finger := 1; finger <= slices.Max(f.Fingers); finger++ {
		var on []int
		at := 0
		for i, holds := range f.Fingers {
			if holds == finger {
				on, at = append(on, t.StringNumber(i)), f.Shape[i]
			}
		}
		switch len(on) {
		case 0:
		case 1:
			held = append(held, say.Of("{} on {}", say.Number(finger), say.TheStrings(t, on...)).Screen())
		default:
			held = append(held, say.Of("{} across {} at fret {}", say.Number(finger), say.TheStrings(t, on...), say.Number(at)).Screen())
		}
	}
	if held == nil {
		return "only open strings"
	}
	return "finger " + strings.Join(held, ", ")
}

// Columns writes rows of cells below one another, each column as wide as its widest cell and three spaces apart.
func Columns(rows [][]string) string {
	var b strings.Builder
	w := tabwriter.NewWriter(&b, 0, 0, 3, ' ', 0)
	for _, row := range rows {
		fmt.Fprintln(w, strings.Join(row, "\t"))
	}
	w.Flush()
	return Trimmed(strings.TrimSuffix(b.String(), "\n"))
}

// Count writes how many there are of a thing: "1 answer", "3 answers".
func Count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// Trimmed takes the spaces off the ends of lines.
func Trimmed(s string) string {
	lines := strings.Split(s, "\n")
	for i, l := range lines {
		lines[i] = strings.TrimRight(l, " ")
	}
	return strings.Join(lines, "\n") + "\n"
}
