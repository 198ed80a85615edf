package main

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/songs"
)

// songOf reads the JSON of a song: a line a chord, and the last for the whole.
func songOf(t *testing.T, out string) (places []songs.PlaceRow, whole songs.SongRow) {
	t.Helper()
	lines := strings.Split(strings.TrimSpace(out), "\n")
	for _, line := range lines[:len(lines)-1] {
		places = append(places, objects[songs.PlaceRow](t, line)...)
	}
	return places, objects[songs.SongRow](t, lines[len(lines)-1])[0]
}

func TestSongCommand(t *testing.T) {
	out, errs, ended := called(t, "| C | Am | F G7 |\n", "song", "-", "--json", "--rich", "10")
	if ended != command.Done || errs != "" {
		t.Fatalf("ended %d: %s", ended, errs)
	}
	places, whole := songOf(t, out)
	var got []string
	for _, p := range places {
		got = append(got, strings.Join([]string{p.Symbol, p.Numeral, p.Plain, p.Path, p.PathSymbol}, " "))
	}
	want := []string{"C I 0003 0002 Cmaj7", "Am vi 2000 0000 Am7", "F IV 2010 0010 Fadd9", "G7 V7 0212 0212 G7"}
	if !slices.Equal(got, want) || places[3].Bar != 3 || places[3].At != 3 || places[3].Beats != 2 {
		t.Errorf("%q, want %q", got, want)
	}
	if whole.Key != "C major" || whole.KeyReason == "" || whole.RunnerUp == "" || whole.Form != "bars" || whole.Bars != 3 {
		t.Errorf("%+v", whole)
	}
	if whole.Movement >= whole.MovementPlain || len(whole.Threads) == 0 || whole.Threads[0].Note != "G" {
		t.Errorf("%+v", whole)
	}
	f := places[2].Colours[0]
	if f.Frets != "0010" || f.Symbol != "Fadd9" || f.Adds != "M9" || f.GivesUp != "M3" || f.String != 4 || !f.InKey || f.Rubs != nil {
		t.Errorf("%+v", f)
	}
}

// At 0 no chord is coloured, and both paths are one.
func TestSongIsPlainAtZero(t *testing.T) {
	out, _, _ := called(t, "[C]one [Am]two [F]three [G]four", "song", "-", "--json", "--rich", "0")
	places, whole := songOf(t, out)
	for _, p := range places {
		if p.Plain != p.Path || p.PathSymbol != p.Symbol {
			t.Errorf("%+v", p)
		}
	}
	if whole.Movement != whole.MovementPlain || whole.Form != "brackets" {
		t.Errorf("%+v", whole)
	}
}

// A shape that is settled stays, plain and coloured, wherever its chord comes.
func TestSongShapesMayBeSettled(t *testing.T) {
	out, _, ended := called(t, "| C | F | C | G |", "song", "-", "--json", "--fix", "C=5433", "--rich", "9")
	if ended != command.Done {
		t.Fatal(out)
	}
	places, _ := songOf(t, out)
	if places[0].Path != "5433" || places[2].Path != "5433" || places[0].Plain != "5433" {
		t.Errorf("%+v", places)
	}
	for fix, says := range map[string]string{
		"C=2010": "is F and not C", "Q=0003": "Q", "C=00": "", "C": "write a chord and its shape", "D=2220": "D does not come in the song", "C=0009,": "",
	} {
		if out, errs, ended := called(t, "| C |", "song", "-", "--fix", fix); ended == command.Done || out != "" || !strings.Contains(errs, says) {
			t.Errorf("%s ended %d: %s%s", fix, ended, out, errs)
		}
	}
}

func TestSongTakesTuningAndKey(t *testing.T) {
	out, _, _ := called(t, "tuning: baritone\nkey: Eb\n| Cm | Bb7 |", "song", "-", "--json")
	places, whole := songOf(t, out)
	if whole.Tuning != "baritone" || whole.Key != "Eb major" || whole.KeyReason != "" || places[0].Numeral != "vi" {
		t.Errorf("%+v", whole)
	}
	out, _, _ = called(t, "tuning: baritone\nkey: Eb\n| Cm | D |", "song", "-", "--json", "--tuning", "guitar", "--key", "Cm")
	places, whole = songOf(t, out)
	if whole.Tuning != "guitar" || whole.Key != "C minor" || places[0].Numeral != "i" || places[1].InKey || !places[0].InKey {
		t.Errorf("%+v", whole)
	}
}

// A chord that is far easier without its bass says how to have it so, and is then held so.
func TestSongWithoutItsBass(t *testing.T) {
	const says = "F is far easier: 2010 (--fix F/A=2010)"
	if out, _, _ := called(t, "| C | F/A |", "song", "-"); strings.Count(out, says) != 1 {
		t.Error(out)
	}
	out, _, ended := called(t, "key: C\n| C | F/A |", "song", "-", "--fix", "F/A=2010")
	if ended != command.Done || strings.Contains(out, "easier") || !strings.Contains(out, "F/A     IV           2010    2010") {
		t.Errorf("%d, %s", ended, out)
	}
}

// Where the key changes numerals go by the new one, and a row says so.
func TestSongThatChangesItsKey(t *testing.T) {
	chart := "key: E\n| E | B7 |\nkey: F\n| F |\n"
	out, _, _ := called(t, chart, "song", "-", "--json")
	places, whole := songOf(t, out)
	if whole.Key != "E major" || places[1].Numeral != "V7" || places[2].Numeral != "I" || places[2].Key != "F major" || places[0].Key != "E major" || !places[2].InKey {
		t.Errorf("%+v", places)
	}
	out, _, _ = called(t, chart, "song", "-")
	if !strings.HasPrefix(out, "E major, then F major, on ukulele\n") || !strings.Contains(out, "F       I in F major   2010") {
		t.Error(out)
	}
}

// A chart that is wrong is refused in a line with its place, as JSON too; a file that is not there is a fault.
func TestSongThatIsWrong(t *testing.T) {
	const says = `line 2, column 3: "Gqq"`
	if out, errs, ended := called(t, "| C |\n| Gqq |", "song", "-"); ended != command.InputWrong || out != "" || !strings.Contains(errs, says) {
		t.Errorf("ended %d: %s%s", ended, out, errs)
	}
	out, _, ended := called(t, "| C |\n| Gqq |", "song", "-", "--json")
	var row command.Refused
	if err := json.Unmarshal([]byte(out), &row); err != nil || ended != command.InputWrong || row.Input != "-" || !strings.Contains(row.Error, says) {
		t.Errorf("ended %d: %s", ended, out)
	}
	if _, errs, ended := called(t, "", "song", filepath.Join(t.TempDir(), "none.txt")); ended != command.Faulty || errs == "" {
		t.Errorf("ended %d: %s", ended, errs)
	}
	for _, args := range [][]string{{"song"}, {"song", "a", "b"}, {"song", "-", "--rich", "11"}, {"song", "-", "--rich", "-1"}, {"song", "-", "--key", "Q"}, {"song", "-", "--tuning", "q"}} {
		if _, errs, ended := called(t, "| C |", args...); ended != command.WrongCall || errs == "" {
			t.Errorf("%v ended %d: %s", args, ended, errs)
		}
	}
	if _, _, ended := called(t, strings.Repeat("| C |\n", 1<<18), "song", "-"); ended != command.WrongCall {
		t.Errorf("a chart of 1.5 MB ended %d", ended)
	}
}

// What stands in a chart moves no cursor.
func TestSongTextIsClean(t *testing.T) {
	path := filepath.Join(t.TempDir(), "song.txt")
	if err := os.WriteFile(path, []byte("title: a\x1b[2Jb\n| C | G |"), 0o600); err != nil {
		t.Fatal(err)
	}
	out, _, ended := called(t, "", "song", path)
	if ended != command.Done || strings.ContainsRune(out, '\x1b') || !strings.HasPrefix(out, "a[2Jb\n") {
		t.Errorf("ended %d: %q", ended, out)
	}
}

// A song is written as sound, as MIDI and as MusicXML; what is there already stays, and nothing is written if something is wrong.
func TestSongFiles(t *testing.T) {
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	all := []string{"song", "-", "--wav", in("s.wav"), "--midi", in("s.mid"), "--musicxml", in("s.xml"), "--sounds", "by-turns", "--click", "--count-in", "--tempo", "300"}
	if _, errs, ended := called(t, "| C | Gqq |", all...); ended != command.InputWrong || errs == "" {
		t.Errorf("ended %d: %s", ended, errs)
	}
	if _, errs, ended := called(t, "tempo: 30\n"+strings.Repeat("|: C | G | F | C :| x16\n", 10), append(all, "--tempo", "30")...); ended != command.InputWrong || !strings.Contains(errs, "the longest") {
		t.Errorf("ended %d: %s", ended, errs)
	}
	if left, _ := os.ReadDir(dir); len(left) > 0 {
		t.Fatalf("%v is written", left)
	}
	if _, errs, ended := called(t, "| C | G |", all...); ended != command.Done || errs != "" {
		t.Fatalf("ended %d: %s", ended, errs)
	}
	for name, begins := range map[string]string{"s.wav": "RIFF", "s.mid": "MThd", "s.xml": "<?xml"} {
		if text, err := os.ReadFile(in(name)); err != nil || !strings.HasPrefix(string(text), begins) {
			t.Errorf("%s: %.8q, %v", name, text, err)
		}
	}
	if err := os.Remove(in("s.wav")); err != nil {
		t.Fatal(err)
	}
	if _, errs, ended := called(t, "| C |", all...); ended != command.WrongCall || !strings.Contains(errs, "is there already") {
		t.Errorf("ended %d: %s", ended, errs)
	}
	if _, err := os.Stat(in("s.wav")); err == nil {
		t.Error("one file is written where another was in the way")
	}
	if _, errs, ended := called(t, "| C |", append(all, "--force")...); ended != command.Done {
		t.Errorf("ended %d: %s", ended, errs)
	}
	for _, wrong := range [][]string{{"--tempo", "20"}, {"--sounds", "all"}, {"--voice", "q"}, {"--a4", "300"}} {
		if _, errs, ended := called(t, "| C |", append([]string{"song", "-"}, wrong...)...); ended != command.WrongCall || !strings.Contains(errs, wrong[0]) {
			t.Errorf("%v ended %d: %s", wrong, ended, errs)
		}
	}
}

// play says which shape it plays, and keeps time: strokes a beat apart, an order of strings a pluck a beat.
func TestPlayInTime(t *testing.T) {
	path := filepath.Join(t.TempDir(), "p.wav")
	length := func(args ...string) int {
		t.Helper()
		out, errs, ended := called(t, "", append([]string{"play", "C", "2000", "--force", "--out", path}, args...)...)
		if ended != command.Done || out != "C: 0003\nAm: 2000\n" {
			t.Fatalf("%v ended %d: %s%s", args, ended, out, errs)
		}
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		return int(info.Size()-44) / 4 / 48 // ms
	}
	for _, row := range []struct {
		args []string
		ms   int
	}{
		{[]string{"--tempo", "60"}, 2000 + 3000},
		{[]string{"--tempo", "120", "--how", "block"}, 1000 + 3000},
		{[]string{"--order", "4 2 3 1", "--tempo", "240"}, 2000 + 3000},
		{[]string{"--order", "(41) . -", "--tempo", "60"}, 6000 + 3000},
	} {
		if got := length(row.args...); got < row.ms-2 || got > row.ms+2 {
			t.Errorf("%v: %d ms, want %d", row.args, got, row.ms)
		}
	}
	for _, wrong := range []string{"5", "4h", "x", "4 2 2b"} {
		if _, errs, ended := called(t, "", "play", "C", "--order", wrong, "--out", path+".none"); ended != command.WrongCall || !strings.Contains(errs, "--order") {
			t.Errorf("%s ended %d: %s", wrong, ended, errs)
		}
	}
	if _, errs, ended := called(t, "", "play", "C", "--order", "4", "--how", "strum", "--out", path+".none"); ended != command.WrongCall || errs == "" {
		t.Errorf("ended %d: %s", ended, errs)
	}
}

// Sheets are written by the end of their names; another end, another paper, and what a PDF cannot print are refused, and then nothing
// is written.
func TestSongSheets(t *testing.T) {
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	args := []string{"song", "-", "--sheet", in("s.svg"), "--sheet", in("s.HTML"), "--sheet", in("s.pdf"), "--paper", "letter", "--left", "--large"}
	if _, errs, ended := called(t, "[C]雨が降る", args...); ended != command.InputWrong || !strings.Contains(errs, "雨") {
		t.Errorf("ended %d: %s", ended, errs)
	}
	for _, wrong := range [][]string{{"--sheet", in("s.png")}, {"--paper", "a5"}} {
		if _, errs, ended := called(t, "| C |", append(args, wrong...)...); ended != command.WrongCall || !strings.Contains(errs, wrong[0]) {
			t.Errorf("%v ended %d: %s", wrong, ended, errs)
		}
	}
	if left, _ := os.ReadDir(dir); len(left) > 0 {
		t.Fatalf("%v is written", left)
	}
	if _, errs, ended := called(t, "| C |", args...); ended != command.Done {
		t.Fatalf("ended %d: %s", ended, errs)
	}
	for name, begins := range map[string]string{"s.svg": "<svg", "s.HTML": "<!DOCTYPE html>", "s.pdf": "%PDF-"} {
		if text, err := os.ReadFile(in(name)); err != nil || !strings.HasPrefix(string(text), begins) {
			t.Errorf("%s: %.20q, %v", name, text, err)
		}
	}
}

// What is written as MusicXML is read again, packed as well; the path of the one is what the other plays.
func TestSongFromMusicXML(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "s.xml")
	if _, errs, ended := called(t, "title: T\n| C | F G |", "song", "-", "--rich", "0", "--musicxml", file); ended != command.Done {
		t.Fatal(errs)
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	pack := func(files map[string]string) string {
		var b bytes.Buffer
		z := zip.NewWriter(&b)
		for _, name := range slices.Sorted(maps.Keys(files)) {
			w, err := z.Create(name)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := w.Write([]byte(files[name])); err != nil {
				t.Fatal(err)
			}
		}
		if err := z.Close(); err != nil {
			t.Fatal(err)
		}
		return b.String()
	}
	const container = `<?xml version="1.0"?><container><rootfiles><rootfile full-path="z/s.musicxml"/></rootfiles></container>`
	for name, in := range map[string]string{
		"plain": string(text), "packed": pack(map[string]string{"META-INF/container.xml": container, "a.xml": "<no/>", "z/s.musicxml": string(text)}),
		"packed without a list": pack(map[string]string{"s.xml": string(text)}),
	} {
		out, errs, ended := called(t, in, "song", "-", "--json")
		if ended != command.Done {
			t.Errorf("%s: ended %d: %s", name, ended, errs)
			continue
		}
		places, whole := songOf(t, out)
		if len(places) != 3 || places[2].Symbol != "G" || places[2].At != 3 || whole.Title != "T" || whole.Key != "C major" {
			t.Errorf("%s: %+v, %+v", name, places, whole)
		}
	}
	for name, in := range map[string]string{"no MusicXML": pack(map[string]string{"s.txt": "| C |"}), "cut": pack(map[string]string{"s.xml": string(text)})[:300], "other XML": "<?xml version='1.0'?><a/>"} {
		if out, errs, ended := called(t, in, "song", "-"); ended != command.InputWrong || out != "" || strings.Count(errs, "\n") != 1 {
			t.Errorf("%s: ended %d: %s%s", name, ended, out, errs)
		}
	}
}

// What is played without a word about its voice sounds like the instrument.
func TestPlayedInTheInstrumentsOwnVoice(t *testing.T) {
	folder := t.TempDir()
	written := func(name string, args ...string) string {
		t.Helper()
		path := filepath.Join(folder, name)
		if _, errs, ended := called(t, "| G |", append(args, path)...); ended != command.Done {
			t.Fatalf("%v ended %d: %s", args, ended, errs)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	for n, call := range [][]string{{"play", "0023", "--tuning", "mandolin", "--out"}, {"song", "-", "--tuning", "mandolin", "--tempo", "200", "--wav"}} {
		at := len(call) - 1
		spoken := func(voice string) []string {
			return append(append(append([]string{}, call[:at]...), "--voice", voice), call[at])
		}
		own := written(fmt.Sprint(n, "own.wav"), call...)
		if own != written(fmt.Sprint(n, "mandolin.wav"), spoken("mandolin")...) || own == written(fmt.Sprint(n, "ukulele.wav"), spoken("ukulele")...) {
			t.Errorf("%v does not sound like a mandolin", call)
		}
	}
}
