package main

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/lookup"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// How a shape is held, with the strings by their names.
func TestHoldInWords(t *testing.T) {
	for _, row := range []struct{ tuning, chord, shape, want string }{
		{"ukulele", "Am7", "0000", "only open strings"},
		{"ukulele", "C", "0003", "finger 3 on the A string"},
		{"ukulele", "Bm7", "2222", "finger 1 across the g, C, E and A strings at fret 2"},
		{"guitar", "C", "x32010", "finger 1 on the B string, 2 on the D string, 3 on the A string"},
		{"guitar", "F", "133211", "finger 1 across the low E, B and high E strings at fret 1, 2 on the G string, 3 on the A string, 4 on the D string"},
	} {
		on, err := fret.ParseTuning(row.tuning)
		if err != nil {
			t.Fatal(err)
		}
		c, err := read.Chord(row.chord)
		if err != nil {
			t.Fatal(err)
		}
		got := "not found"
		for _, f := range fret.Search(on, c, fret.DefaultHand) {
			if f.Shape.String() == row.shape {
				got = command.Hold(on, f)
			}
		}
		if got != row.want {
			t.Errorf("%s on %s: %s, want %s", row.shape, row.tuning, got, row.want)
		}
	}
}

// What a person reads calls strings by their names and never by a number, and tones in words and never by a sign.
func TestStringsAreNeverNumbered(t *testing.T) {
	numbered := regexp.MustCompile(`string \d|without [R♭♯0-9]`)
	for _, args := range [][]string{
		{"shapes", "C", "G", "F#m7b5", "C13b9", "Fmaj9"}, {"shapes", "--tuning", "guitar", "C", "F", "Bm"},
		{"shapes", "--tuning", "banjo", "G"}, {"shapes", "--tuning", "charango", "C"},
		{"swaps", "0003", "2220", "5432"}, {"swaps", "--tuning", "guitar", "G", "E7"},
		{"shape", "0000", "0 0 17 0", "0003"}, {"shape", "--tuning", "banjo", "3 0 0 0 0"},
	} {
		out, errs, _ := called(t, "", args...)
		if said := numbered.FindString(out + errs); said != "" || out+errs == "" {
			t.Errorf("%v says %q", args, said)
		}
	}
}

// A command without its arguments says what it needs.
func TestMissingArguments(t *testing.T) {
	err := run("shape")
	if want := "sparetone shape needs FRETS…, or - to read them from standard input, one a line"; err == nil || err.Error() != want || command.StatusOf(err) != command.WrongCall {
		t.Errorf("%v, want %s", err, want)
	}
}

// Rows of swaps stand in columns however wide a cell is, and none is broken.
func TestSwapsStandInColumns(t *testing.T) {
	out, _, _ := called(t, "", "swaps", "4212", "--key", "Am")
	lines := strings.Split(strings.TrimSpace(out[strings.Index(out, "\n1212"):]), "\n")
	if want := "1212   Bdim7        g string to fret 1   ♭♭7 for the doubled root   A♭, which sounds G♯, is the raised seventh of A minor"; lines[0] != want {
		t.Errorf("%q, want %q", lines[0], want)
	}
	if len(lines) != 5 {
		t.Errorf("%d lines: %q", len(lines), lines)
	}
	at := strings.Index(lines[0], "g string")
	for _, l := range lines {
		if cell := []rune(l)[len([]rune(lines[0][:at])):]; !strings.HasPrefix(string(cell), "g string") && !strings.HasPrefix(string(cell), "A string") {
			t.Errorf("%q is not in its column", l)
		}
	}
}

// A note that the chord spells otherwise than the key is of the key by its sound, in text and in JSON.
func TestSwapsJudgeTheKeyBySound(t *testing.T) {
	args := []string{"swaps", "020100", "--tuning", "guitar", "--key", "Am"}
	out, _, _ := called(t, "", args...)
	if want := "E7♯9      high E string to fret 3   ♯9 for the doubled root      Fx, which sounds G, is of A minor\n"; !strings.Contains(out, want) {
		t.Errorf("%s\nlacks %q", out, want)
	}
	out, _, _ = called(t, "", append(args, "--json")...)
	for _, r := range objects[lookup.SwapRow](t, out) {
		in, sounds, stands := true, "", "of the scale"
		switch r.Adds {
		case "A11", "M13":
			in, stands = false, "outside the key"
		case "A9":
			sounds = "G"
		case "M9":
			stands = "the raised sixth"
		}
		if r.InKey == nil || *r.InKey != in || r.Sounds != sounds || r.Stands != stands {
			t.Errorf("%s: in key %v, sounds %q, stands %q", r.Symbol, *r.InKey, r.Sounds, r.Stands)
		}
	}
}

// That alt is one chord of several is said wherever a symbol is looked up, also where nothing comes of it.
func TestRemarksAreSaidEverywhere(t *testing.T) {
	const remark = "alt means that "
	wav := filepath.Join(t.TempDir(), "alt.wav")
	for _, args := range [][]string{
		{"chord", "C7alt"}, {"shapes", "C7alt"}, {"play", "C7alt", "--out", wav},
		{"chord", "C7alt", "--json"}, {"shapes", "C7alt", "--json", "--limit", "1"},
	} {
		if out, errs, ended := called(t, "", args...); ended != command.Done || !strings.Contains(out, remark) || errs != "" {
			t.Errorf("%v ended %d with %q, %q", args, ended, out, errs)
		}
	}
	for _, args := range [][]string{{"swaps", "C7alt"}, {"shapes", "C7alt", "--max-fret", "0"}} {
		if _, errs, ended := called(t, "", args...); ended != command.InputWrong || !strings.Contains(errs, remark) {
			t.Errorf("%v ended %d with %q", args, ended, errs)
		}
	}
	for _, command := range []string{"chord", "shapes"} {
		if out, _, _ := called(t, "", command, "C", "--json"); strings.Contains(out, "remark") {
			t.Errorf("%s C has a remark: %s", command, out)
		}
	}
}
