package read_test

import (
	"strings"
	"testing"

	"sparetone/theory"
)

// notes writes notes as they are printed.
func notes(ns []theory.Note) string {
	words := make([]string, len(ns))
	for i, n := range ns {
		words[i] = n.String()
	}
	return strings.Join(words, " ")
}

// typed reads a row of notes as tables write them.
func typed(t testing.TB, row string) []theory.Note {
	t.Helper()
	var out []theory.Note
	for _, s := range strings.Fields(row) {
		n, err := theory.ParseNote(s)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, n)
	}
	return out
}
