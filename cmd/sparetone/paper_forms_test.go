package main

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"sparetone/cmd/sparetone/command"
	"sparetone/synth"
)

// paperIn writes a paper with some options and returns its folder.
func paperIn(t *testing.T, args ...string) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "paper")
	if err := run(append([]string{"paper", "--out", dir}, args...)...); err != nil {
		t.Fatalf("%v: %v", args, err)
	}
	return dir
}

func paperFile(t *testing.T, dir, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, name))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func namesIn(t *testing.T, dir string) (names []string) {
	t.Helper()
	files, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		names = append(names, f.Name())
	}
	return names
}

// Each form is written where it is asked for, beside what a paper always has, which stays as it is.
func TestPaperForms(t *testing.T) {
	always := []string{"001.wav", "002.wav", answerKey, questionRows, questionSheet}
	args := []string{"--drill", "chord-ear", "--count", "2", "--seed", "3"}
	plain := paperIn(t, args...)
	if got := namesIn(t, plain); !slices.Equal(got, always) {
		t.Errorf("a paper is %v", got)
	}
	for option, more := range map[string][]string{
		"--html": {answerPage, questionPage}, "--print": {answerPrint, questionPrint}, "--words": {answerWords, questionWords}, "--recording": {recording},
	} {
		dir := paperIn(t, append(args, option)...)
		want := append(slices.Clone(always), more...)
		slices.Sort(want)
		if got := namesIn(t, dir); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", option, got, want)
		}
		if paperFile(t, dir, "001.wav") != paperFile(t, plain, "001.wav") {
			t.Errorf("%s: another sound", option)
		}
		again := paperIn(t, append(args, option)...)
		for _, name := range more {
			if a, b := paperFile(t, dir, name), paperFile(t, again, name); a == "" || a != b {
				t.Errorf("%s: %s is not the same from one run to the next", option, name)
			}
		}
	}
}

// What the students get tells neither the seed nor an answer: on the page a shape is said by its strings and frets alone.
func TestQuestionsTellNoAnswer(t *testing.T) {
	for _, drill := range []string{"shape-name", "chord-ear", "swap"} {
		dir := paperIn(t, "--drill", drill, "--count", "4", "--seed", "90210", "--html", "--words")
		for _, name := range []string{questionSheet, questionPage, questionWords} {
			text := sounds.ReplaceAllString(paperFile(t, dir, name), "")
			if strings.Contains(text, "90210") {
				t.Errorf("%s: %s has the seed", drill, name)
			}
			if drill != "swap" && (strings.Contains(text, "the root") || strings.Contains(text, "checked") || strings.Contains(text, "doubled")) {
				t.Errorf("%s: %s tells an answer: %s", drill, name, text)
			}
		}
		for _, name := range []string{answerKey, answerPage, answerWords} {
			if !strings.Contains(paperFile(t, dir, name), "90210") {
				t.Errorf("%s: %s does not say how to make the paper again", drill, name)
			}
		}
	}
}

// sounds are the sounds in a page.
var sounds = regexp.MustCompile(`data:audio/wav;base64,([A-Za-z0-9+/=]+)`)

// The page is whole: each question's sound is in it, as its file has it, and it is well-formed.
func TestPageHasTheSounds(t *testing.T) {
	dir := paperIn(t, "--drill", "interval-ear", "--count", "3", "--seed", "3", "--html")
	page := paperFile(t, dir, questionPage)
	all := sounds.FindAllStringSubmatch(page, -1)
	if len(all) != 3 {
		t.Fatalf("%d sounds", len(all))
	}
	for n, m := range all {
		data, err := base64.StdEncoding.DecodeString(m[1])
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(t.TempDir(), "one.wav")
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
		is, was := samplesOf(t, name), samplesOf(t, filepath.Join(dir, []string{"001.wav", "002.wav", "003.wav"}[n]))
		if !slices.Equal(is, was) {
			t.Errorf("sound %d is another than its file", n+1)
		}
	}
	for _, name := range []string{questionPage, answerPage} {
		d := xml.NewDecoder(strings.NewReader(strings.TrimPrefix(paperFile(t, dir, name), "<!DOCTYPE html>")))
		d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
		for {
			if _, err := d.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
	}
}

// Left-handed necks are mirrored wherever they are drawn; in words nothing is drawn; large print is larger.
func TestLookOfPapers(t *testing.T) {
	args := []string{"--drill", "shape-name", "--count", "2", "--seed", "5", "--html", "--print"}
	right, left, words, large := paperIn(t, args...), paperIn(t, append(args, "--left")...), paperIn(t, append(args, "--words")...), paperIn(t, append(args, "--large", "--paper", "letter")...)
	if !strings.Contains(paperFile(t, right, questionSheet), "g     C     E     A") || !strings.Contains(paperFile(t, left, questionSheet), "A     E     C     g") {
		t.Error("the necks of the sheet are not mirrored")
	}
	strings4 := regexp.MustCompile(`>([gCEA])</text>`)
	inOrder := func(dir string) (out string) {
		for _, m := range strings4.FindAllStringSubmatch(paperFile(t, dir, questionPage), 4) {
			out += m[1]
		}
		return out
	}
	// In the order of the tuning; where they stand is told by x.
	x := func(dir string) string {
		return regexp.MustCompile(`<text x="([0-9.]+)"[^>]*>g</text>`).FindStringSubmatch(paperFile(t, dir, questionPage))[1]
	}
	if inOrder(right) != "gCEA" || x(right) == x(left) {
		t.Errorf("string g stands at %s and %s", x(right), x(left))
	}
	if page := paperFile(t, words, questionPage); strings.Contains(page, "<svg") || !strings.Contains(page, " string, fret ") {
		t.Error("in words something is drawn, or not said")
	}
	if strings.Contains(paperFile(t, words, questionSheet), "═") {
		t.Error("in words the sheet has a drawing")
	}
	if a, b := paperFile(t, right, questionPage), paperFile(t, large, questionPage); !strings.Contains(a, "font: 16px") || !strings.Contains(b, "font: 27.2px") || !strings.Contains(b, "font-size: 18.7pt") {
		t.Error("large print is not larger")
	}
	box := func(dir string) string {
		return regexp.MustCompile(`/MediaBox \[[^\]]*\]`).FindString(paperFile(t, dir, questionPrint))
	}
	if box(right) != "/MediaBox [0 0 595.28 841.89]" || box(large) != "/MediaBox [0 0 612.00 792.00]" {
		t.Errorf("pages are %s and %s", box(right), box(large))
	}
	if !bytes.HasPrefix([]byte(paperFile(t, right, answerPrint)), []byte("%PDF-")) {
		t.Error("the printed answers are no PDF")
	}
}

// The rows and the key say when a sound begins in the recording, and it does.
func TestRecordingBeginsAsTheRowsSay(t *testing.T) {
	dir := paperIn(t, "--drill", "chord-ear", "--count", "3", "--seed", "6", "--recording", "--pause", "2")
	all := samplesOf(t, filepath.Join(dir, recording))
	for n, r := range rowsOf(t, dir) {
		one := samplesOf(t, filepath.Join(dir, *r.WAV))
		at := int(r.Begins*float64(synth.SampleRate) + 0.5)
		found := false
		for near := at - 50; near <= at+50 && !found; near++ {
			found = near >= 0 && near+len(one) <= len(all) && slices.Equal(all[near:near+len(one)], one)
		}
		if !found {
			t.Errorf("sound %d does not begin at %v s", n+1, r.Begins)
		}
	}
	key := paperFile(t, dir, answerKey)
	if strings.Count(key, "\nIn sounds.wav at 0:") != 3 {
		t.Errorf("the key says: %s", key)
	}
}

// Versions lie beside each other, say which they are, and have other questions.
func TestVersionsOfAPaper(t *testing.T) {
	args := []string{"--drill", "shape-name", "--count", "3", "--seed", "6"}
	dir, alone := paperIn(t, append(args, "--versions", "2")...), paperIn(t, args...)
	if got := namesIn(t, dir); !slices.Equal(got, []string{"A", "B"}) {
		t.Fatalf("the folder has %v", got)
	}
	a, b := rowsOf(t, filepath.Join(dir, "A")), rowsOf(t, filepath.Join(dir, "B"))
	for n, r := range rowsOf(t, alone) {
		if r.Version != "" || a[n].Version != "A" || b[n].Version != "B" || a[n].Answer != r.Answer || a[n].Item != b[n].Item {
			t.Errorf("question %d is %+v, %+v and alone %+v", n+1, a[n], b[n], r)
		}
	}
	for _, name := range []string{questionSheet, answerKey} {
		if text := paperFile(t, filepath.Join(dir, "B"), name); !strings.Contains(text, "Version B, for ukulele") {
			t.Errorf("%s: %.100s", name, text)
		}
	}
}

// With --force the files of a paper are replaced or taken away, whatever its forms were, and all else stays.
func TestForcedPaperLeavesNoForm(t *testing.T) {
	dir := paperIn(t, "--drill", "chord-ear", "--count", "2", "--seed", "1", "--html", "--print", "--words", "--recording")
	if err := os.WriteFile(filepath.Join(dir, "mine.html"), []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := run("paper", "--drill", "chord-ear", "--count", "1", "--seed", "2", "--force", "--out", dir); err != nil {
		t.Fatal(err)
	}
	if got, want := namesIn(t, dir), []string{"001.wav", answerKey, "mine.html", questionRows, questionSheet}; !slices.Equal(got, want) {
		t.Errorf("the folder has %v, want %v", got, want)
	}
}

func TestPaperFormsRefuse(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "paper")
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--drill", "doubled", "--recording"}, "nothing is heard in this paper"},
		{[]string{"--drill", "chord-ear", "--recording", "--pause", "0"}, "--pause: 0; it is 1 to 120 seconds"},
		{[]string{"--drill", "chord-ear", "--versions", "10"}, "--versions: 10; a paper has 1 to 9 versions"},
		{[]string{"--drill", "chord-ear", "--versions", "0"}, "1 to 9 versions"},
		{[]string{"--drill", "chord-ear", "--versions", "2", "--force"}, "leave --force out"},
		{[]string{"--drill", "chord-ear", "--paper", "a3"}, "it is a4 or letter"},
	} {
		err := run(append([]string{"paper", "--out", dir}, c.args...)...)
		if err == nil || !strings.Contains(err.Error(), c.want) || command.StatusOf(err) != command.WrongCall {
			t.Errorf("%v: %v, want %q", c.args, err, c.want)
		}
		if _, err := os.Stat(dir); err == nil {
			t.Fatalf("%v: something was written", c.args)
		}
	}
}
