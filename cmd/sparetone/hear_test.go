package main

import (
	"encoding/binary"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/lookup"
)

// A file that play wrote is heard: what it is, whether it is what was expected, and which string is amiss.
func TestHearCommand(t *testing.T) {
	dir := t.TempDir()
	wav := filepath.Join(dir, "take.wav")
	if _, errs, ended := called(t, "", "play", "0003", "0232", "--how", "pick", "--tempo", "240", "--out", wav); ended != command.Done {
		t.Fatal(errs)
	}
	out, errs, ended := called(t, "", "hear", wav, "--expect", "0003", "--order", "4231", "--json")
	rows := objects[lookup.HeardRow](t, out)
	if ended != command.Done || errs != "" || len(rows) != 2 {
		t.Fatalf("ended %d with %s%s", ended, out, errs)
	}
	if r := rows[0]; r.Verdict != "right" || r.Names[0] != "C" || *r.Strings[3].Heard != "C5" || *r.Strings[3].Expected != "C5" || r.Strings[3].String != 1 || *r.Shape[3] != 3 {
		t.Errorf("0003: %s", out)
	}
	if r := rows[1]; r.Verdict != "other" || r.Names[0] != "G" || *r.Strings[1].Heard != "D4" || *r.Shape[1] != 2 {
		t.Errorf("0232: %s", out)
	}
	out, _, ended = called(t, "", "hear", wav, "--expect", "0003", "--order", "4 2 3 1")
	if lines := strings.Split(strings.TrimSpace(out), "\n"); ended != command.Done || len(lines) != 2 || !strings.Contains(lines[0], "0003, C: that is it (") ||
		!strings.Contains(lines[1], "0232, G: string 3 sounds D, not C; string 2 sounds G, not E; string 1 sounds B, not C (") {
		t.Errorf("ended %d with %s", ended, out)
	}
	out, _, _ = called(t, "", "hear", wav, "--order", "4231", "--json")
	if rows := objects[lookup.HeardRow](t, out); len(rows) != 2 || rows[0].Names[0] != "C" || rows[1].Names[0] != "G" || rows[0].Strings[0].Expected != nil {
		t.Errorf("without --expect: %s", out)
	}
}

// Raw samples from standard input are heard as the file is.
func TestHearRaw(t *testing.T) {
	wav := filepath.Join(t.TempDir(), "take.wav")
	if _, errs, ended := called(t, "", "play", "2010", "--out", wav); ended != command.Done {
		t.Fatal(errs)
	}
	file, err := os.ReadFile(wav)
	if err != nil {
		t.Fatal(err)
	}
	var raw []byte
	for b := file[44:]; len(b) >= 4; b = b[4:] {
		raw = append(raw, b[:2]...) // one of its two channels, which are alike
	}
	want, _, _ := called(t, "", "hear", wav, "--expect", "2010", "--json")
	out, errs, ended := called(t, string(raw), "hear", "-", "--rate", "48000", "--expect", "2010", "--json")
	if ended != command.Done || out != want || !strings.Contains(out, `"verdict":"right"`) {
		t.Errorf("ended %d with %s%s, want %s", ended, out, errs, want)
	}
}

// What is wrong with a call or a recording is said in one line.
func TestHearRefuses(t *testing.T) {
	dir := t.TempDir()
	file := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	le := binary.LittleEndian
	format := func(kind, channels uint16, rate uint32, bits uint16) string {
		b := append([]byte("RIFF\x00\x00\x00\x00WAVEfmt "), 16, 0, 0, 0)
		b = le.AppendUint16(le.AppendUint16(b, kind), channels)
		b = le.AppendUint32(le.AppendUint32(b, rate), 0)
		return string(le.AppendUint16(le.AppendUint16(b, 4), bits)) + "data\x04\x00\x00\x00\x00\x00\x00\x00"
	}
	for _, c := range []struct {
		args  []string
		ended command.Status
		want  string
	}{
		{[]string{"hear", "a.wav", "b.wav"}, command.WrongCall, "one recording at a time"},
		{[]string{"hear", file("text.wav", "no sound at all")}, command.InputWrong, "no WAV file"},
		{[]string{"hear", file("cut.wav", "RIFF\x00\x00\x00\x00WAVEfmt \x10\x00\x00\x00")}, command.InputWrong, "cut off in its format"},
		{[]string{"hear", file("none.wav", format(1, 0, 48000, 16))}, command.InputWrong, "0 channels"},
		{[]string{"hear", file("slow.wav", format(1, 1, 100, 16))}, command.InputWrong, "100 samples a second"},
		{[]string{"hear", file("law.wav", format(7, 1, 48000, 8))}, command.InputWrong, "format 7 with 8 bits"},
		{[]string{"hear", filepath.Join(dir, "gone.wav")}, command.Faulty, "gone.wav"},
		{[]string{"hear", "-", "--rate", "3"}, command.WrongCall, "--rate: a rate of 3"},
		{[]string{"hear", "-", "--expect", "00031"}, command.WrongCall, "--expect: 00031 is for 5 strings"},
		{[]string{"hear", "-", "--expect", "0003", "--order", "4322"}, command.WrongCall, `--order: "2"`},
		{[]string{"hear", "-", "--order", "432"}, command.WrongCall, "--order: \"432\" has 3 strings"},
		{[]string{"hear", "-", "--a4", "4400"}, command.WrongCall, "--a4"},
	} {
		out, errs, ended := called(t, "", c.args...)
		if ended != c.ended || out != "" || strings.Count(errs, "\n") != 1 || !strings.Contains(errs, c.want) {
			t.Errorf("%v ended %d with %q%q, want %d with %q", c.args, ended, out, errs, c.ended, c.want)
		}
	}
}
