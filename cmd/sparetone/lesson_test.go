package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A teacher's Sunday night: a chart becomes a lesson, which is taken, practised, and handed in; and a sheet and a paper of it. Nothing is
// written over.
func TestALessonFromChartToHandingIn(t *testing.T) {
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	if err := os.WriteFile(in("loop.txt"), []byte("| C | Am | F | G7 |\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args  string
		says  string
		ended status
	}{
		{"lesson make loop.txt --out loop.toml", "a lesson", done},
		{"lesson make loop.txt --out loop.toml", "is there already", wrongCall},
		{"lesson check loop.toml --tuning ukulele-low-g", "The lowest note of 0010, Fadd9, is G, ninth", done},
		{"lesson take loop.toml --progress p.db", "0 of ", done},
		{"lesson take loop.toml --progress p.db", "this lesson was taken already", inputWrong},
		{"lesson list --progress p.db", "It runs.", done},
		{"lesson hand-in ann.jsonl --progress p.db", "No name is in it.", done},
		{"lesson hand-in ann.jsonl --progress p.db", "is there already", wrongCall},
		{"lesson sheet loop.toml --out week.svg --tuning ukulele --tuning guitar", "week-guitar.svg", done},
		{"lesson sheet loop.toml --out week.svg --tuning ukulele --tuning guitar", "is there already", wrongCall},
		{"paper --lesson loop.toml --drill shape-name --count 2 --seed 1 --out monday", "2 questions", done},
		{"paper --lesson loop.toml --count 1 --seed 1 --out tuesday", "Left out: step", done},
		{"lesson leave nothing --progress p.db", "no lesson of that name was taken", inputWrong},
		{"lesson leave loop --progress p.db", "It was left.", done},
	} {
		args := strings.Fields(c.args)
		for i, a := range args {
			if strings.Contains(a, ".") || a == "monday" || a == "tuesday" {
				args[i] = in(a)
			}
		}
		out, errs, ended := called(t, "", args...)
		if ended != c.ended || !strings.Contains(out+errs, c.says) {
			t.Errorf("%s: ended %d with %q, %q", c.args, ended, out, errs)
		}
	}
}
