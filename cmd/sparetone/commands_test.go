package main

import (
	"cmp"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/lookup"
	"sparetone/cmd/sparetone/teaching"

	"github.com/spf13/cobra"
)

// called runs the command line in this process and returns what it wrote and how it ended.
func called(t testing.TB, stdin string, args ...string) (out, errs string, ended command.Status) {
	t.Helper()
	return calledWith(stdin, args...)
}

// objects reads JSON lines.
func objects[T any](t testing.TB, out string) []T {
	t.Helper()
	var rows []T
	dec := json.NewDecoder(strings.NewReader(out))
	dec.DisallowUnknownFields()
	for dec.More() {
		var row T
		if err := dec.Decode(&row); err != nil {
			t.Fatalf("%v in %s", err, out)
		}
		rows = append(rows, row)
	}
	return rows
}

func TestChordCommand(t *testing.T) {
	out, _, ended := called(t, "", "chord", "--json", "F#m7b5", "C7(no5)/Bb")
	rows := objects[lookup.ChordRow](t, out)
	if ended != command.Done || len(rows) != 2 {
		t.Fatalf("ended %d with %s", ended, out)
	}
	if got, want := fmt.Sprint(rows[0]), "{F#m7b5 F# half-diminished F# [{F# P1 R} {A m3 b3} {C d5 b5} {E m7 b7}] [] F# minor seventh flat five }"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got, want := fmt.Sprint(rows[1]), "{C7(no5)/Bb C dominant Bb [{C P1 R} {E M3 3} {Bb m7 b7}] [P5] C seventh }"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	out, _, _ = called(t, "", "chord", "B♭maj7")
	if want := "B♭maj7: B♭ major seventh\n  B♭   D    F    A\n  R    3    5    7\n"; out != want {
		t.Errorf("%q, want %q", out, want)
	}
}

// A chord is headed by what was asked: the tones left out, and that alt is one chord of several, are said.
func TestChordIsHeadedByWhatWasAsked(t *testing.T) {
	for symbol, want := range map[string]string{
		"E7(no3)":      "E7(no3): E seventh without the major third\n  E    B    D\n  R    5    ♭7\n",
		"B flat minor": "B♭m: B♭ minor\n  B♭   D♭   F\n  R    ♭3   5\n",
		"C7alt": "C7♯5♯9: C seventh sharp five sharp nine\n  C    E    G♯   B♭   D♯\n  R    3    ♯5   ♭7   ♯9\n" +
			"  alt means that the fifth and the ninth are both altered, in whichever way the player chooses; this is the one with ♯5 and ♯9.\n",
	} {
		if out, _, ended := called(t, "", "chord", symbol); ended != command.Done || out != want {
			t.Errorf("%s ended %d with %q, want %q", symbol, ended, out, want)
		}
	}
	out, _, _ := called(t, "", "chord", "--json", "C7alt", "C7#5#9")
	if rows := objects[lookup.ChordRow](t, out); len(rows) != 2 || rows[0].Remark == "" || rows[1].Remark != "" {
		t.Errorf("%s: alt is not said to be one chord of several", out)
	}
}

// What is read in one place is read in all: the commands, the bench and the drills have one reader.
func TestOneReader(t *testing.T) {
	for _, args := range [][]string{
		{"chord", "B flat minor"}, {"shapes", "B flat minor", "--limit", "1"}, {"swaps", "B flat minor"},
		{"play", "B flat minor", "--out", filepath.Join(t.TempDir(), "b.wav")}, {"shape", "0003", "--key", "B flat minor"},
		{"swaps", "0003", "--key", "si bémol mineur"},
	} {
		if out, wrong, ended := called(t, "", args...); ended != command.Done {
			t.Errorf("%v ended %d with %q, %q", args, ended, out, wrong)
		}
	}
}

func TestShapeCommand(t *testing.T) {
	out, _, ended := called(t, "", "shape", "--json", "0003")
	rows := objects[lookup.ShapeRow](t, out)
	if ended != command.Done || len(rows) != 1 {
		t.Fatalf("ended %d with %s", ended, out)
	}
	var strs []string
	for _, s := range rows[0].Strings {
		strs = append(strs, fmt.Sprintf("%d %d %s %d %d %s %v", s.String, *s.Fret, *s.Note, *s.Octave, *s.MIDI, *s.Interval, s.Doubled))
	}
	want := "4 0 G 4 67 P5 false, 3 0 C 4 60 P1 true, 2 0 E 4 64 M3 false, 1 3 C 5 72 P1 true"
	if got := strings.Join(strs, ", "); got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if n := rows[0].Names[0]; n.Symbol != "C" || n.Root != "C" || n.Kind != "major" || n.Bass != "C" || len(n.Missing) != 0 {
		t.Errorf("the first name is %v, want C", n)
	}

	out, _, _ = called(t, "", "shape", "--json", "--tuning", "guitar", "x32010", "xx0xxx", "000xxx")
	rows = objects[lookup.ShapeRow](t, out)
	if s := rows[0].Strings[0]; s.String != 6 || s.Fret != nil || s.Note != nil || s.MIDI != nil || s.Interval != nil || rows[0].Frets[0] != nil {
		t.Errorf("a muted string is %v", s)
	}
	if s := rows[1].Strings[2]; len(rows[1].Names) != 0 || s.Interval != nil || *s.Note != "D" {
		t.Errorf("a single note has the names %v", rows[1].Names)
	}

	out, _, _ = called(t, "", "shape", "0230", "--key", "G")
	if !strings.HasPrefix(out, "0230 on ukulele: Gsus2, or Dsus4\n") || !strings.Contains(out, "doubled") {
		t.Errorf("%s", out)
	}
}

func TestShapesCommand(t *testing.T) {
	out, _, ended := called(t, "", "shapes", "--json", "--limit", "2", "--max-fret", "5", "C9")
	rows := objects[lookup.FoundRow](t, out)
	if ended != command.Done || len(rows) != 2 {
		t.Fatalf("ended %d with %s", ended, out)
	}
	if r := rows[0]; r.Symbol != "C9" || r.Shape != "0201" || fmt.Sprint(r.Fingers) != "[0 2 0 1]" || r.Barre != 0 || fmt.Sprint(r.Missing) != "[P1]" {
		t.Errorf("the easiest C9 is %v", r)
	}
	all, _, _ := called(t, "", "shapes", "--json", "C9")
	if n := len(objects[lookup.FoundRow](t, all)); n < 10 {
		t.Errorf("%d shapes of C9 without a limit", n)
	}
	for _, capo := range []string{"3", "8"} { // which leaves fewer frets than are looked at elsewhere
		out, errs, ended := called(t, "", "shapes", "C", "F", "--json", "--limit", "2", "--capo", capo)
		if n := len(objects[lookup.FoundRow](t, out)); ended != command.Done || n != 4 {
			t.Errorf("capo at fret %s: ended %d with %d shapes: %s", capo, ended, n, errs)
		}
		if _, errs, ended := called(t, "", "shapes", "C", "--capo", capo, "--max-fret", "13"); ended != command.WrongCall || !strings.HasPrefix(errs, "sparetone: --max-fret: 13; this neck ends at fret ") {
			t.Errorf("capo at fret %s: ended %d: %s", capo, ended, errs)
		}
	}
	out, _, _ = called(t, "", "shapes", "Bb", "--limit", "1")
	if !strings.HasPrefix(out, "B♭: 3211\nfinger 1 across the E and A strings at fret 1, 2 on the C string, 3 on the g string; effort ") {
		t.Errorf("%s", out)
	}
}

func TestSwapsCommand(t *testing.T) {
	out, _, ended := called(t, "", "swaps", "--json", "C", "2220")
	rows := objects[lookup.SwapRow](t, out)
	if ended != command.Done {
		t.Fatalf("ended %d with %s", ended, out)
	}
	found := map[string]lookup.SwapRow{}
	for _, r := range rows {
		found[r.To] = r
	}
	if r := found["0002"]; r.From != "0003" || r.String != 1 || r.Frets != [2]int{3, 2} || r.Symbol != "Cmaj7" || r.Adds != "M7" || r.GivesUp != "P1" || r.InKey != nil {
		t.Errorf("0002 is %v", r)
	}
	if found["0002"].Rubs != "" || found["0002"].Stands != "" || found["0002"].Lowest || !found["0203"].Lowest {
		t.Errorf("0002 is %v, 0203 %v", found["0002"], found["0203"])
	}
	if r := found["0220"]; r.From != "2220" || r.Symbol != "Dadd4" || r.Adds != "P4" || r.GivesUp != "P5" || r.Rubs != "M3" || !r.Spare {
		t.Errorf("0220 is %v", r)
	}
	out, _, _ = called(t, "", "swaps", "--json", "0003", "--key", "C")
	for _, r := range objects[lookup.SwapRow](t, out) {
		if r.InKey == nil || *r.InKey != (r.Adds != "m7" && r.Adds != "A11") {
			t.Errorf("%v in C major", r)
		}
	}
	out, _, _ = called(t, "", "swaps", "0003", "--key", "C")
	if !strings.Contains(out, "\n0002   Cmaj7   A string to fret 2   7 for the doubled root\n") || !strings.Contains(out, "not in C major\n") {
		t.Errorf("%s", out)
	}
}

func TestTuningsCommand(t *testing.T) {
	out, _, _ := called(t, "", "tunings", "--json")
	rows := objects[lookup.TuningRow](t, out)
	if len(rows) < 20 || rows[0].Name != "ukulele" || fmt.Sprint(rows[0].Strings) != "[G4 C4 E4 A4]" {
		t.Errorf("%v", rows)
	}
}

// What is wrong in a batch takes the place of its line, and the rest goes on.
func TestBatches(t *testing.T) {
	type line struct {
		Symbol string
		Names  []lookup.NameRow
		Input  string
		Error  string
	}
	read := func(out string) []line {
		var rows []line
		dec := json.NewDecoder(strings.NewReader(out))
		for {
			var row line
			if err := dec.Decode(&row); err == io.EOF {
				return rows
			} else if err != nil {
				t.Fatal(err)
			}
			rows = append(rows, row)
		}
	}
	out, _, ended := called(t, "C\nCq\n\x01\nC\xff\n"+strings.Repeat("C", 70000)+"\nDm\n", "chord", "--json", "-")
	rows := read(out)
	if ended != command.InputWrong || len(rows) != 6 || rows[0].Symbol != "C" || rows[5].Symbol != "Dm" {
		t.Fatalf("ended %d with %d lines", ended, len(rows))
	}
	for _, r := range rows[1:5] {
		if r.Error == "" || strings.ContainsAny(r.Error, "\n\x01") {
			t.Errorf("%+v", r)
		}
	}
	out, _, ended = called(t, "0003\n000\nxxxx\n0 0 17 0\n10,12,12,10\n", "shape", "--json", "-")
	rows = read(out)
	if ended != command.InputWrong || len(rows) != 5 || rows[4].Names == nil {
		t.Fatalf("ended %d with %s", ended, out)
	}
	for i, want := range []string{"000 is for 3 strings: ukulele has 4", "xxxx: every string is muted", "fret 17 on the E string: this neck has 15 frets"} {
		if rows[i+1].Error != want {
			t.Errorf("%s, want %s", rows[i+1].Error, want)
		}
	}
}

func TestWrongCalls(t *testing.T) {
	for _, args := range [][]string{
		{"chord"}, {"shape", "0003", "--tuning", "lute?"}, {"shape", "0003", "--key", "X"}, {"shapes", "C", "--max-fret", "40"},
		{"play", "C", "--bits", "12", "--out", filepath.Join(t.TempDir(), "c.wav")}, {"help", "foo"}, {"help", "progress", "foo"},
		{"completion"}, {"completion", "zzz"}, {"completion", "bash", "zsh"}, {"practice", "--plain", "--drill", ""},
		{"shapes", "C", "--limit", "-1"}, {"swaps", "C", "--capo", "15"}, {"shape", "0003", "--none"},
	} {
		if out, _, ended := called(t, "", args...); ended != command.WrongCall || out != "" {
			t.Errorf("%v ended %d with %q, want %d", args, ended, out, command.WrongCall)
		}
	}
}

// Each command and each of their commands has help of its own, which says what it is for and how it is called, however it
// is asked for.
func TestHelpOfEachCommand(t *testing.T) {
	seen := map[string]string{}
	var walk func(cmd *cobra.Command)
	walk = func(cmd *cobra.Command) {
		names := slices.Clip(strings.Fields(cmd.CommandPath())[1:])
		help, _, ended := called(t, "", append([]string{"help"}, names...)...)
		if about := cmp.Or(cmd.Long, cmd.Short); ended != command.Done || !strings.HasPrefix(help, about) || !strings.Contains(help, cmd.CommandPath()) {
			t.Errorf("help %v ended %d with %q, want what it is for: %q", names, ended, help, about)
		}
		if other, twice := seen[help]; twice {
			t.Errorf("%v and %s have the same help", names, other)
		}
		seen[help] = cmd.CommandPath()
		for _, call := range [][]string{
			append(names, "--help"), append(names, "-h"), append(names, "--progress", "x", "--help"), append(names, "--help", "--none"),
			append([]string{"--progress", "x"}, append(names, "--help")...), append([]string{"-h"}, names...),
		} {
			if same, _, ended := called(t, "", call...); ended != command.Done || same != help {
				t.Errorf("%v ended %d with %q, want %q", call, ended, same, help)
			}
		}
		for _, sub := range cmd.Commands() {
			if sub.Name() != "help" {
				walk(sub)
			}
		}
	}
	walk(newRoot())
	if len(seen) < 20 {
		t.Errorf("%d commands", len(seen))
	}
}

// What is no command has no help, and is not passed over; what a command works on does not hide its help.
func TestHelpOfWhatIsNoCommand(t *testing.T) {
	for _, call := range []string{"help foo", "foo --help", "lessons -h", "progress foo --help", "help progress foo", "progress foo -h --json"} {
		if out, errs, ended := called(t, "", strings.Fields(call)...); ended != command.WrongCall || out != "" || !strings.Contains(errs, "is no command of sparetone") {
			t.Errorf("%s ended %d with %q and %q", call, ended, out, errs)
		}
	}
	help, _, _ := called(t, "", "chord", "--help")
	for _, call := range []string{"chord Am --help", "help chord Am", "chord --json Am - -h"} {
		if out, _, ended := called(t, "", strings.Fields(call)...); ended != command.Done || out != help {
			t.Errorf("%s ended %d with %q", call, ended, out)
		}
	}
	if out, _, ended := called(t, "", "chord", "--", "--help"); ended != command.InputWrong {
		t.Errorf("a chord called --help ended %d with %q", ended, out)
	}
}

func TestOptionsThatAreNoNumbers(t *testing.T) {
	for _, c := range []struct{ args, says string }{
		{"shapes C --limit abc", `invalid argument "abc" for "--limit" flag: it takes a whole number`},
		{"practice --seed -1", `it takes a whole number from 0 up`},
		{"practice --minutes ten", `invalid argument "ten" for "--minutes" flag: it takes a number`},
		{"practice --plain=perhaps", `it takes true or false`},
	} {
		root := newRoot()
		root.SetArgs(strings.Fields(c.args))
		if err := root.Execute(); command.StatusOf(err) != command.WrongCall || !strings.HasSuffix(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q", c.args, err, c.says)
		}
	}
}

// A lesson that is wrong is an input, one that cannot be read a fault; the built-in course runs afterwards as before.
func TestWrongLessons(t *testing.T) {
	dir := t.TempDir()
	wrong := filepath.Join(dir, "lesson.toml")
	if err := os.WriteFile(wrong, []byte("[[step]]\nid = \"a\"\ndrill = \"nose\"\nasks = [\"M3\"]\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(dir, "p.db")
	for _, c := range []struct {
		lesson, says string
		ended        command.Status
	}{{wrong, wrong + `:3:9: step "a": "nose" is no drill`, command.InputWrong}, {dir, dir + " is a folder; name a file", command.Faulty}, {wrong + "x", "no such file", command.Faulty}} {
		if _, err := teaching.ReadLesson(t.Context(), c.lesson); err == nil || command.StatusOf(err) != c.ended || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s ended %d with %v, want %d and %q", c.lesson, command.StatusOf(err), err, c.ended, c.says)
		} else if strings.Count(err.Error(), c.lesson) != 1 {
			t.Errorf("%v does not name the file once", err)
		}
		if out, _, ended := called(t, "", "practice", "--plain", "--silent", "--progress", file, "--lesson", c.lesson); ended != c.ended || out != "" {
			t.Errorf("%s ended %d with %q", c.lesson, ended, out)
		}
	}
	if out, errs, ended := called(t, "\n\n\n\n\n", "practice", "--plain", "--silent", "--progress", file); ended != command.Done || !strings.Contains(out, "An empty line begins") {
		t.Errorf("the built-in course ended %d with %q, %q", ended, out, errs)
	}
}

func TestALessonWithoutTheDrill(t *testing.T) {
	lesson := filepath.Join(t.TempDir(), "l.toml")
	if err := os.WriteFile(lesson, []byte("[[step]]\nid = \"a\"\ndrill = \"spell\"\nasks = [\"major\"]\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	err := run("practice", "--plain", "--progress", lesson+".db", "--lesson", lesson, "--drill", "spell", "--drill", "build")
	if want := "--drill: " + lesson + " has no step for build; it has steps for spell"; err == nil || err.Error() != want || command.StatusOf(err) != command.WrongCall {
		t.Errorf("%v, want %s", err, want)
	}
	if _, err := os.Stat(lesson + ".db"); err == nil {
		t.Error("a progress file was made all the same")
	}
}

// How fast a batch of shapes is read, named and written.
func BenchmarkShapeBatch(b *testing.B) {
	var in strings.Builder
	for n := range 10000 {
		fmt.Fprintf(&in, "%04d\n", n)
	}
	for b.Loop() {
		called(b, in.String(), "shape", "--json", "-")
	}
	b.ReportMetric(float64(10000*b.N)/b.Elapsed().Seconds(), "shapes/s")
}
