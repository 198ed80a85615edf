package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/lookup"
	"sparetone/drills/catalogue"
)

// readme is the text that a stranger reads first.
func readme(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// fenced is a block of code in Markdown.
var fenced = regexp.MustCompile("(?s)```[a-z]*\n(.*?)```")

// inShell parts a line as a shell does: at spaces, but for what stands between single quotation marks.
func inShell(line string) []string {
	var words []string
	for n, part := range strings.Split(line, "'") {
		if n%2 == 1 {
			words = append(words, part)
		} else {
			words = append(words, strings.Fields(part)...)
		}
	}
	return words
}

// What the README shows after a command is what the command prints: an example is run, and compared line by line up to
// an ellipsis.
func TestReadmeShowsWhatIsPrinted(t *testing.T) {
	shown, text := 0, readme(t)
	t.Chdir("../..") // where the files lie that it names
	for _, block := range fenced.FindAllStringSubmatch(text, -1) {
		line, wanted, _ := strings.Cut(block[1], "\n")
		call, ok := strings.CutPrefix(line, "$ sparetone ")
		if !ok {
			continue
		}
		shown++
		wanted, cut := strings.CutSuffix(wanted, "…\n")
		out, errs, ended := called(t, "", inShell(call)...)
		if ended != command.Done || errs != "" || !strings.HasPrefix(out, wanted) || !cut && strings.TrimSpace(out) != strings.TrimSpace(wanted) {
			t.Errorf("%s ended %d with\n%s%s\nwant\n%s", call, ended, out, errs, wanted)
		}
	}
	if shown == 0 {
		t.Error("no example with what it prints")
	}
}

// Every command that the README names can be called as it stands there: it is one, its options are, and so many arguments
// may follow. What looks something up is run.
func TestReadmeCommandsAreCommands(t *testing.T) {
	quick := []string{"chord", "shape", "shapes", "swaps", "tunings", "drills"}
	calls, run := 0, 0
	for _, block := range fenced.FindAllStringSubmatch(readme(t), -1) {
		for line := range strings.Lines(block[1]) {
			line = strings.TrimPrefix(strings.TrimSpace(line), "$ ")
			call, ok := strings.CutPrefix(line, "sparetone ")
			if !ok {
				continue
			}
			calls++
			call, _, _ = strings.Cut(call, "   ") // what follows says what it does
			args := inShell(call)
			root := newRoot()
			cmd, rest, err := root.Find(args)
			if err != nil || cmd == root {
				t.Errorf("%q is no command: %v", call, err)
				continue
			}
			if err := cmd.ParseFlags(rest); err != nil {
				t.Errorf("%q: %v", call, err)
			}
			if cmd.Args != nil {
				if err := cmd.Args(cmd, cmd.Flags().Args()); err != nil {
					t.Errorf("%q: %v", call, err)
				}
			}
			if slices.Contains(quick, args[0]) {
				run++
				if out, errs, ended := called(t, "", args...); ended != command.Done || out == "" || errs != "" {
					t.Errorf("%q ended %d with %q, %q", call, ended, out, errs)
				}
			}
		}
	}
	if calls < 20 || run < 7 {
		t.Errorf("%d commands found in the README, %d run", calls, run)
	}
}

// A paper of the README's class is written as it says, and so is the WAV file of play.
func TestReadmeFiles(t *testing.T) {
	t.Chdir(t.TempDir())
	if _, errs, ended := called(t, "", inShell("paper --drill chord-ear --count 3 --seed 7 --out monday")...); ended != command.Done {
		t.Fatalf("ended %d: %s", ended, errs)
	}
	for _, name := range []string{"001.wav", "questions.md", "answers.md", "questions.jsonl"} {
		if _, err := os.Stat(filepath.Join("monday", name)); err != nil {
			t.Error(err)
		}
	}
	if _, errs, ended := called(t, "", inShell("play 0003 0203 --how pick --out both.wav")...); ended != command.Done {
		t.Errorf("ended %d: %s", ended, errs)
	}
}

// The README lists every drill, in the program's order.
func TestReadmeListsTheDrills(t *testing.T) {
	var listed []string
	for _, row := range regexp.MustCompile("(?m)^\\| `([a-z-]+)` \\|").FindAllStringSubmatch(readme(t), -1) {
		if slices.Contains(catalogue.IDs(), row[1]) {
			listed = append(listed, row[1])
		}
	}
	if !slices.Equal(listed, catalogue.IDs()) {
		t.Errorf("the README lists %v, the drills are %v", listed, catalogue.IDs())
	}
}

// What the README reads in many forms is one chord, and what it says is refused is.
func TestReadmeSymbols(t *testing.T) {
	out, _, ended := called(t, "", "chord", "--json", "Cm7b5", "Cø", "C-7(♭5)", "CMI7(b5)", "C half diminished")
	rows := objects[lookup.ChordRow](t, out)
	if ended != command.Done || len(rows) != 5 {
		t.Fatalf("ended %d with %s", ended, out)
	}
	for _, r := range rows {
		if r.Symbol != "Cm7b5" {
			t.Errorf("%s is not Cm7b5", r.Symbol)
		}
	}
	if _, errs, ended := called(t, "", "chord", "Do7", "C+7b5"); ended != command.InputWrong || !strings.Contains(errs, "C7 or Ddim7") || strings.Count(errs, "\n") != 2 {
		t.Errorf("ended %d with %s", ended, errs)
	}
}
