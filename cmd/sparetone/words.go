package main

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

// remark is a clause on how a chord symbol was read, as that alt is one chord of several. The zero remark says nothing.
type remark struct{ said say.Text }

// readChord reads a chord symbol, with what should be known of how it was read.
func readChord(typed string) (c theory.Chord, how remark, err error) {
	c, alt, err := read.ChordOrAlt(typed)
	if alt {
		how.said = bench.Altered
	}
	return c, how, err
}

// String is the remark as a sentence, "" if it says nothing.
func (r remark) String() string {
	if r.said.IsZero() {
		return ""
	}
	return say.Of("{}.", r.said).Screen()
}

// after is an error about a chord symbol with the remark behind it.
func (r remark) after(err error) error {
	if r.said.IsZero() {
		return err
	}
	return say.Wrong("{}; {}", say.Said(err), r.said)
}

// lacking says which tones a chord goes without: " without the root and the fifth". It is "" if it has all.
func lacking(missing []theory.Interval) string {
	if len(missing) == 0 {
		return ""
	}
	return say.Of(" without {}", say.And(say.Roles(missing)...)).Screen()
}

// hold says which finger stands on which string, finger 1 the index and 4 the little finger: "finger 1 on the B string,
// 2 on the D string", or "across the g, C, E and A strings at fret 2".
func hold(t *fret.Tuning, f fret.Found) string {
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

// columns writes rows of cells below one another, each column as wide as its widest cell and three spaces apart.
func columns(rows [][]string) string {
	var b strings.Builder
	w := tabwriter.NewWriter(&b, 0, 0, 3, ' ', 0)
	for _, row := range rows {
		fmt.Fprintln(w, strings.Join(row, "\t"))
	}
	w.Flush()
	return trimmed(strings.TrimSuffix(b.String(), "\n"))
}
