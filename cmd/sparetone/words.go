package main

import (
	"fmt"
	"slices"
	"strings"
	"text/tabwriter"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// inWords joins words as a sentence does: C, E and G.
func inWords(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// lacking says which tones a chord goes without: " without the root and the fifth". It is "" if it has all.
func lacking(missing []theory.Interval) string {
	if len(missing) == 0 {
		return ""
	}
	var roles []string
	for _, i := range missing {
		roles = append(roles, i.Role())
	}
	return " without " + inWords(roles)
}

// hold says which finger stands on which string, finger 1 the index and 4 the little finger: "finger 1 on the B string,
// 2 on the D string", or "across the g, C, E and A strings at fret 2".
func hold(t *fret.Tuning, f fret.Found) string {
	var held []string
	for finger := 1; finger <= slices.Max(f.Fingers); finger++ {
		var on []string
		at := 0
		for i, holds := range f.Fingers {
			if holds == finger {
				on, at = append(on, t.StringCalled(t.StringNumber(i))), f.Shape[i]
			}
		}
		switch len(on) {
		case 0:
		case 1:
			held = append(held, fmt.Sprintf("%d on the %s string", finger, on[0]))
		default:
			held = append(held, fmt.Sprintf("%d across the %s strings at fret %d", finger, inWords(on), at))
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
