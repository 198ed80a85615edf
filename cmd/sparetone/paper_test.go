package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/gopxl/beep/v2/wav"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/inturn"
	"sparetone/drills/neck"
	"sparetone/drills/paper"
	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory/fret"
)

// written runs the paper command and returns its folder.
func written(t *testing.T, drill string, count, seed int) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "paper")
	args := []string{"paper", "--drill", drill, "--count", fmt.Sprint(count), "--seed", fmt.Sprint(seed), "--out", dir}
	if err := run(args...); err != nil {
		t.Fatalf("%v: %v", args, err)
	}
	return dir
}

// run runs the program as if it were called.
func run(args ...string) error {
	root := newRoot()
	root.SetArgs(args)
	root.SetOut(&bytes.Buffer{})
	root.SetErr(&bytes.Buffer{})
	return root.Execute()
}

func rowsOf(t *testing.T, dir string) []paperRow {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, questionRows))
	if err != nil {
		t.Fatal(err)
	}
	var out []paperRow
	for line := range strings.Lines(string(text)) {
		var r paperRow
		d := json.NewDecoder(strings.NewReader(line))
		d.DisallowUnknownFields()
		if err := d.Decode(&r); err != nil {
			t.Fatalf("%s: %v", line, err)
		}
		out = append(out, r)
	}
	return out
}

func TestSameSeedSamePaper(t *testing.T) {
	for _, drill := range []string{"added-ear", "shape-name"} {
		one, again, other := written(t, drill, 3, 7), written(t, drill, 3, 7), written(t, drill, 3, 8)
		files, err := os.ReadDir(one)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			a, _ := os.ReadFile(filepath.Join(one, f.Name()))
			b, _ := os.ReadFile(filepath.Join(again, f.Name()))
			c, _ := os.ReadFile(filepath.Join(other, f.Name()))
			if len(a) == 0 || !bytes.Equal(a, b) {
				t.Errorf("%s: %s differs from one run to the next", drill, f.Name())
			}
			if bytes.Equal(a, c) {
				t.Errorf("%s: %s is the same from another seed", drill, f.Name())
			}
		}
	}
}

// Whoever reads the rows finds what the drills themselves would say.
func TestPaperRowsSayWhatTheDrillsSay(t *testing.T) {
	const count, seed = 6, 4
	on := &neck.Instrument{Tuning: fret.Tunings()[0], Voices: synth.Voices(), Hand: fret.DefaultHand}
	for _, d := range catalogue.All() {
		id := d.About().ID
		dir := written(t, id, count, seed)
		rows := rowsOf(t, dir)
		versions, err := paper.OfDrill(d, on, count, seed, 1)
		if err != nil || len(rows) != count {
			t.Fatalf("%s: %d rows, %v", id, len(rows), err)
		}
		for n, r := range rows {
			q := versions[0][n]
			if r.N != n+1 || r.Drill != id || r.Tuning != "ukulele" || r.Item != drills.ItemID(id, q.Target, "ukulele") || r.Prompt != q.Prompt.Screen() {
				t.Errorf("%s: row %d is %+v", id, n+1, r)
			}
			for _, text := range append([]string{r.Answer}, r.Accepts...) {
				if v, err := q.Mark(text); err != nil || v.Result != progress.Right {
					t.Errorf("%s: %q is said to be right and marked %v, %v", id, text, v.Result, err)
				}
			}
			for _, text := range r.Choices {
				if v, err := q.Mark(text); err != nil || (v.Result == progress.Right) != (text == r.Answer) {
					t.Errorf("%s: choice %q is marked %v, %v", id, text, v.Result, err)
				}
			}
			if (r.WAV == nil) != (len(r.Pitches) == 0) || (r.Frets == nil) != (q.Shown == nil) {
				t.Errorf("%s: row %d has wav %v, pitches %v, frets %v", id, n+1, r.WAV, r.Pitches, r.Frets)
			}
			if r.WAV != nil {
				if _, err := os.Stat(filepath.Join(dir, *r.WAV)); err != nil {
					t.Error(err)
				}
			}
		}
		for _, name := range []string{questionSheet, answerKey} {
			text, err := os.ReadFile(filepath.Join(dir, name))
			if err != nil || strings.Count(string(text), "\n## ") != count {
				t.Errorf("%s: %s has %d questions, %v", id, name, strings.Count(string(text), "\n## "), err)
			}
		}
	}
}

// The pitches that are found in the WAV files are those that the rows claim, sound by sound.
// SPARETONE_STUDY=1 listens to 200 papers.
func TestPaperSoundsWhatItClaims(t *testing.T) {
	papers := 14
	if os.Getenv("SPARETONE_STUDY") != "" {
		papers = 200
	}
	on := &neck.Instrument{Tuning: fret.Tunings()[0], Voices: synth.Voices(), Hand: fret.DefaultHand}
	ears := slices.DeleteFunc(catalogue.IDs(), func(id string) bool { d, _ := catalogue.ByID(id); return !d.About().Ears })
	sounds := 0
	for seed := 1; seed <= papers; seed++ {
		id := ears[seed%len(ears)]
		d, _ := catalogue.ByID(id)
		dir := written(t, id, 1, seed)
		versions, err := paper.OfDrill(d, on, 1, uint64(seed), 1)
		if err != nil {
			t.Fatal(err)
		}
		for n, r := range rowsOf(t, dir) {
			samples := samplesOf(t, filepath.Join(dir, *r.WAV))
			for i, want := range r.Pitches {
				sounds++
				length := synth.SampleRate.N(versions[0][n].Sounds[i].Score.Length)
				found := newSpectrum(samples[:min(length, len(samples))]).sounding()
				samples = samples[min(length+synth.SampleRate.N(inturn.Gap), len(samples)):]
				for _, midi := range want {
					if !found[midi] {
						t.Errorf("%s seed %d sound %d: note %d of %v is claimed and not there", id, seed, i+1, midi, want)
					}
				}
				for midi, there := range found {
					if there && !slices.Contains(want, midi) && !partial(midi, want) {
						t.Errorf("%s seed %d sound %d: note %d is there and not claimed: %v", id, seed, i+1, midi, want)
					}
				}
			}
		}
	}
	t.Logf("%d sounds of %d papers", sounds, papers)
}

func samplesOf(t *testing.T, path string) []float64 {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	s, format, err := wav.Decode(f)
	if err != nil || int(format.SampleRate) != recordedRate {
		t.Fatalf("%s: %v, %v", path, format, err)
	}
	frames := make([][2]float64, s.Len())
	s.Stream(frames)
	out := make([]float64, len(frames))
	for i, x := range frames {
		out[i] = x[0]
	}
	return out
}

// lessonFile writes a lesson.
func lessonFile(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "monday.toml")
	text := ""
	for n, step := range []string{`"chord-ear"` + "\nasks = [\"major\", \"minor\", \"dominant\"]", `"build"` + "\nasks = [\"major\"]", `"swap"` + "\nasks = [\"dominant\", \"major-seventh\"]"} {
		text += fmt.Sprintf("[[step]]\nid = \"%d\"\ndrill = %s\n", n, step)
	}
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// A lesson's name is printed on a paper as it is, whatever its signs mean in Markdown.
func TestPaperNamesTheLesson(t *testing.T) {
	lesson := filepath.Join(t.TempDir(), "week_2_[b].toml")
	if err := os.Rename(lessonFile(t), lesson); err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(t.TempDir(), "paper")
	if err := run("paper", "--lesson", lesson, "--count", "1", "--seed", "1", "--out", dir); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		questionSheet: "# week\\_2\\_\\[b\\]\n\nFor ukulele",
		answerKey:     "# Answers: week\\_2\\_\\[b\\]\n\nFor ukulele, g C E A; lesson week\\_2\\_\\[b\\].toml, seed 1",
	} {
		if text, err := os.ReadFile(filepath.Join(dir, name)); err != nil || !strings.HasPrefix(string(text), want) {
			t.Errorf("%s: %.200s, %v, want %s", name, text, err, want)
		}
	}
}

// A paper of a lesson asks its steps in their order, and round again; what it does not ask is no choice either.
func TestPaperOfALesson(t *testing.T) {
	lesson := lessonFile(t)
	papers := map[string][]paperRow{}
	for _, seed := range []string{"1", "2", "2 again"} {
		dir := filepath.Join(t.TempDir(), "paper")
		if err := run("paper", "--lesson", lesson, "--count", "9", "--seed", seed[:1], "--out", dir); err != nil {
			t.Fatal(err)
		}
		rows := rowsOf(t, dir)
		papers[seed] = rows
		for n, want := range [][]string{{"major", "minor", "dominant"}, {"major"}, {"dominant", "major-seventh"}, {"major", "minor", "dominant"}} {
			first := []int{0, 3, 4, 6}[n]
			var got []string
			for _, r := range rows[first : first+len(want)] {
				drill, target, _ := drills.SplitItem(r.Item)
				got = append(got, target)
				if drill != []string{"chord-ear", "build", "swap", "chord-ear"}[n] {
					t.Errorf("question %d is of %s", r.N, drill)
				}
				if drill == "chord-ear" && len(r.Choices) != 3 {
					t.Errorf("question %d has the choices %v", r.N, r.Choices)
				}
			}
			slices.Sort(got)
			slices.Sort(want)
			if !slices.Equal(got, want) {
				t.Errorf("from question %d on %v is asked, want %v", first+1, got, want)
			}
		}
		key, err := os.ReadFile(filepath.Join(dir, answerKey))
		if want := "# Answers: monday\n\nFor ukulele, g C E A; lesson monday.toml, seed "; err != nil || !strings.HasPrefix(string(key), want) {
			t.Errorf("%.200s, %v, want %s", key, err, want)
		}
	}
	if !cmp.Equal(papers["2"], papers["2 again"]) || cmp.Equal(papers["1"], papers["2"]) {
		t.Error("the seed does not make the paper")
	}
}

// A paper of a lesson that has a name is called by it, and says from which file it is.
func TestPaperIsCalledByItsLesson(t *testing.T) {
	lesson, dir := filepath.Join(t.TempDir(), "h.toml"), filepath.Join(t.TempDir(), "paper")
	if err := os.WriteFile(lesson, []byte("name = \"Harbour\"\nchords = [\"C\", \"Am\"]\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, errs, ended := called(t, "", "paper", "--lesson", lesson, "--count", "2", "--seed", "1", "--out", dir); ended != command.Done {
		t.Fatal(ended, errs)
	}
	key, err := os.ReadFile(filepath.Join(dir, answerKey))
	if want := "# Answers: Harbour\n\nFor ukulele, g C E A; lesson h.toml, seed 1"; err != nil || !strings.HasPrefix(string(key), want) {
		t.Errorf("%.200s, %v, want %s", key, err, want)
	}
}

// Where a chord has more shapes than a paper lists, it says so, and the drill marks them right.
func TestPaperSaysWhereMoreIsRight(t *testing.T) {
	on := &neck.Instrument{Tuning: fret.Tunings()[0], Voices: synth.Voices(), Hand: fret.DefaultHand}
	for _, id := range catalogue.IDs() {
		dir := written(t, id, 17, 3)
		key, err := os.ReadFile(filepath.Join(dir, answerKey))
		if err != nil {
			t.Fatal(err)
		}
		more := map[string]string{"build": "\nAny other shape of just these notes is right too.\n", "swap": " by moving one string is right too.\n"}[id]
		if said := strings.Count(string(key), "is right too."); more != "" && strings.Count(string(key), more) != 17 || more == "" && said != 0 {
			t.Errorf("%s: what else is right is said %d times of 17", id, said)
		}
		for _, r := range rowsOf(t, dir) {
			if open := more != "" || id == "spell" && len(r.Choices) == 0; r.Complete == open {
				t.Errorf("%s: %d says complete: %v", id, r.N, r.Complete)
			}
		}
	}
	build, _ := catalogue.ByID("build")
	versions, err := paper.OfDrill(build, on, 17, 3, 1)
	if err != nil {
		t.Fatal(err)
	}
	notes := func(s fret.Shape) (set int) {
		for i, f := range s {
			set |= 1 << (on.Tuning.MIDI(i, f) % 12)
		}
		return set
	}
	for _, q := range versions[0] {
		answer, err := on.ReadShape(q.Expected().Typed)
		if err != nil {
			t.Fatal(err)
		}
		shapes := 0
		for n := range 10000 {
			s := fret.Shape{n / 1000, n / 100 % 10, n / 10 % 10, n % 10}
			if notes(s) != notes(answer) {
				continue
			}
			shapes++
			if v, err := q.Mark(s.String()); err != nil || v.Result != progress.Right {
				t.Errorf("%s: %s is marked %v, %v", q.Prompt, s, v.Result, err)
			}
		}
		if shapes < 3 {
			t.Errorf("%s: %d shapes were tried", q.Prompt, shapes)
		}
	}
}

func TestPaperRefuses(t *testing.T) {
	dir, lesson := written(t, "key-add", 1, 1), lessonFile(t)
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--drill", "nose", "--out", dir + "2"}, "no drill; the drills are interval-ear"},
		{[]string{"--drill", "key-add"}, "name the folder"},
		{[]string{"--out", dir + "2"}, "--drill: name the drill to ask, or a lesson with --lesson; the drills are interval-ear"},
		{[]string{"--drill", "key-add", "--out", filepath.Join(dir, answerKey)}, "is a file; name a folder"},
		{[]string{"--lesson", lesson, "--drill", "key-add", "--out", dir + "2"}, "has no step for key-add; it has steps for chord-ear, build, swap"},
		{[]string{"--lesson", lesson, "--tuning", "E4 A4", "--out", dir + "2"}, "the lesson has nothing to ask"},
		{[]string{"--drill", "key-add", "--count", "0", "--out", dir + "2"}, "1 to 999"},
		{[]string{"--drill", "key-add", "--out", dir}, "holds a paper already"},
		{[]string{"--drill", "doubled", "--tuning", "E4 A4 D5", "--out", dir + "2"}, "nothing to ask"},
	} {
		if err := run(append([]string{"paper"}, c.args...)...); err == nil || !strings.Contains(err.Error(), c.want) || command.StatusOf(err) != command.WrongCall {
			t.Errorf("%v: %v, want %q", c.args, err, c.want)
		}
	}
}

// An answer key can be read by itself: what was asked, what is right, and what else is, once each.
func TestAnswerKeyReadsByItself(t *testing.T) {
	for _, d := range catalogue.All() {
		id := d.About().ID
		dir := written(t, id, 8, 78)
		text, err := os.ReadFile(filepath.Join(dir, answerKey))
		if err != nil {
			t.Fatal(err)
		}
		parts := strings.Split(string(text), "\n## ")[1:]
		for n, r := range rowsOf(t, dir) {
			if !strings.HasPrefix(parts[n], fmt.Sprintf("%d\n\n%s\n\n**", n+1, r.Prompt)) {
				t.Errorf("%s: %d does not say what was asked: %q", id, n+1, parts[n])
			}
			_, rest, _ := strings.Cut(parts[n], "**")
			answer, rest, _ := strings.Cut(rest, "**")
			_, also, _ := strings.Cut(rest, "Also right: ")
			also, _, _ = strings.Cut(also, "\n")
			said := append(strings.Split(also, "; "), answer)
			slices.Sort(said)
			if len(slices.Compact(slices.Clone(said))) != len(said) || strings.ContainsAny(also, "#") {
				t.Errorf("%s: %d says twice, or as it is typed, what is right: %q", id, n+1, said)
			}
		}
	}
}
