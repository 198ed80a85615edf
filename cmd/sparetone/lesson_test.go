package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/cmd/sparetone/command"
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
		ended command.Status
	}{
		{"lesson make loop.txt --out loop.toml", "a lesson", command.Done},
		{"lesson make loop.txt --out loop.toml", "is there already", command.WrongCall},
		{"lesson check loop.toml --tuning ukulele-low-g", "The lowest note of 0010, Fadd9, is G, ninth", command.Done},
		{"lesson take loop.toml --progress p.db", "0 of ", command.Done},
		{"lesson take loop.toml --progress p.db", "this lesson was taken already", command.InputWrong},
		{"lesson list --progress p.db", "It runs.", command.Done},
		{"lesson hand-in ann.jsonl --progress p.db", "No name is in it.", command.Done},
		{"lesson hand-in ann.jsonl --progress p.db", "is there already", command.WrongCall},
		{"lesson sheet loop.toml --out week.svg --tuning ukulele --tuning guitar", "week-guitar.svg", command.Done},
		{"lesson sheet loop.toml --out week.svg --tuning ukulele --tuning guitar", "is there already", command.WrongCall},
		{"paper --lesson loop.toml --drill shape-name --count 2 --seed 1 --out monday", "2 questions", command.Done},
		{"paper --lesson loop.toml --count 1 --seed 1 --out tuesday", "Left out: step", command.Done},
		{"lesson leave nothing --progress p.db", "no lesson of that name was taken", command.InputWrong},
		{"lesson leave loop --progress p.db", "It was left.", command.Done},
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
