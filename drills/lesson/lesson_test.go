package lesson

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/theory/fret"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
)

// week is a lesson that says all that a lesson may say, but for drills, which one with steps says in them.
const week = `# A week of ninths
name = "Ninths in a loop"
from = "Ida"
due = 2026-12-04
minutes = 12
tuning = "gCEA"
key = "C"
chords = ["C", "Am", "F", "G7"]
shapes = ["0003", "2010>0010"]
songs = ["loop.txt"]

[[step]]
id = "sounds"
drill = "chord-ear"
asks = ["major", "minor"]

[[step]]
id = "moved"
drill = "swap"
asks = ["added-ninth"]
rests-on = ["sounds"]
`

// charts are what lies beside a lesson in tests.
func charts(name string) (string, error) {
	chart, ok := map[string]string{"loop.txt": "| C | Am | F | G7 |\n", "bad.txt": "| C | Zm |\n", "rest.txt": "only words\n"}[name]
	if !ok {
		return "", errors.New("no such file")
	}
	return chart, nil
}

func TestALessonIsRead(t *testing.T) {
	for _, text := range []string{week, "\ufeff" + week, strings.ReplaceAll(week, "\n", "\r\n"), strings.ReplaceAll(week, "2026-12-04", `"2026-12-04"`)} {
		l, err := Read("week.toml", strings.NewReader(text), charts)
		if err != nil {
			t.Fatal(err)
		}
		var chords, shapes []string
		for _, h := range l.Chords {
			chords = append(chords, h.Chord.Symbol())
			for _, s := range h.Shapes {
				shapes = append(shapes, h.Chord.Symbol()+" "+s.String())
			}
		}
		if l.Name != "Ninths in a loop" || l.From != "Ida" || l.Due.Date().Format("2006-01-02") != "2026-12-04" || l.Minutes != 12 || l.Key.Symbol() != "C" || len(l.Songs) != 1 || len(l.Steps) != 2 || l.Made {
			t.Errorf("%+v", l)
		}
		if diff := cmp.Diff([]string{"C", "Am", "F", "G7", "Fadd9"}, chords); diff != "" {
			t.Error(diff)
		}
		if diff := cmp.Diff([]string{"C 0003", "F 2010", "Fadd9 0010"}, shapes); diff != "" {
			t.Error(diff)
		}
		if again, err := l.Again(); err != nil || again.ID != l.ID || len(again.Songs) != 1 {
			t.Error(again, err)
		}
	}
}

// Each mistake is told by the line and the column of what is wrong, with what would be right; and no two in the same words.
func TestLessonFaults(t *testing.T) {
	said := map[string]string{}
	for _, c := range []struct{ old, new, want string }{
		{`"Ninths in a loop"`, `12`, `2:8: name is written name = "Ninths in a loop"`},
		{`"Ninths in a loop"`, `" "`, `2:8: name is empty: say one, or leave it out`},
		{`"Ninths in a loop"`, `"` + strings.Repeat("n", 81) + `"`, `2:8: the name of this lesson has 81 characters; it has 80 at most`},
		{`"Ninths in a loop"`, `"a\u001b[2J"`, `2:8: the name of this lesson has the character U+001B, which cannot be shown: leave it out`},
		{`name =`, `title =`, `2:1: "title" is not known here: a lesson has name, from, due, minutes, tuning, key, chords, shapes, songs, drills, and steps`},
		{`minutes =`, `minute =`, `5:1: "minute" is not known here; is it minutes? A lesson has name`},
		{`from = "Ida"`, `name = "again"`, `3:1: name is there twice: once is enough`},
		{`"Ida"`, `["Ida"]`, `3:1: from is written from = "Ida"`},
		{`from = "Ida"`, `from.whom = "Ida"`, `3:1: from is written`},
		{`2026-12-04`, `"next Friday"`, `4:7: "next Friday" is no day there is; due is written due = 2026-12-04, a year`},
		{`2026-12-04`, `2026-02-30`, `4:7: `},
		{`2026-12-04`, `"2026-02-30"`, `4:7: "2026-02-30" is no day there is`},
		{`2026-12-04`, `1999-12-04`, `4:7: a lesson is due from 2001 to 2999, and not in 1999`},
		{`2026-12-04`, `7`, `4:7: due is written due = 2026-12-04, a year, a month and a day`},
		{`= 12`, `= "12"`, `5:11: minutes is written minutes = 10, a whole number from 1 to 120`},
		{`= 12`, `= 0`, `5:11: minutes is 0; a practice lasts 1 to 120 minutes`},
		{`= 12`, `= 121`, `5:11: minutes is 121; a practice`},
		{`"gCEA"`, `"gCEZ"`, `6:10: `},
		{`"gCEA"`, `4`, `6:10: tuning is written tuning = "gCEA"`},
		{`key = "C"`, `key = "H minor mode"`, `7:7: key: `},
		{`key = "C"`, `key = 1`, `7:7: key is written key = "C"`},
		{`["C", "Am", "F", "G7"]`, `"C Am F G7"`, `8:10: chords is written chords = ["C", "Am", "F", "G7"], texts in straight`},
		{`["C", "Am", "F", "G7"]`, `[]`, `8:1: chords is empty: say one, or leave it out`},
		{`"G7"]`, `7]`, `8:27: chords is written`},
		{`"G7"]`, `"Gmja7"]`, `8:27: `},
		{`"G7"]`, `"G7/B"]`, `8:27: G7/B: a lesson asks for chords whatever the bass; write G7`},
		{`"G7"]`, `"G13"]`, `8:27: G13: no drill asks for that kind of chord; the nearest is G9`},
		{`"G7"]`, `"C"]`, `8:27: C is named twice: once is enough`},
		{`"gCEA"`, `"GCE"`, `8:27: G7 has no shape on G3 C4 E4 that a hand can hold; the nearest is G`},
		{`"G7"]`, `"G7"` + strings.Repeat(`, "C"`, 61) + `]`, `8:333: a lesson has 64 chords at most`},
		{`["0003", "2010>0010"]`, `"0003"`, `9:10: shapes is written shapes = ["0003", "2010>0010"]`},
		{`"0003"`, `"00034"`, `9:12: 00034 is for 5 strings: ukulele has 4; a shape has a fret for each string, such as 0003`},
		{`"0003"`, `"000y"`, `9:12: `},
		{`"0003"`, `"0 0 0 99"`, `9:12: "0 0 0 99": "99" is not a fret`},
		{`"0003"`, `"0 0 0 30"`, `9:12: fret 30 on the A string: this neck has`},
		{`"0003"`, `"xxxx"`, `9:12: xxxx: every string is muted; a shape has`},
		{`"0003"`, `"1 6 11 2"`, `9:12: four fingers cannot hold`},
		{`"0003"`, `"2220"`, `9:11: 2220 on ukulele is D`},
		{`2010>0010`, `2010>`, `9:19: a move has a shape on either side of >, such as 2010>0010`},
		{`2010>0010`, `2010>2010`, `9:20: 2010 is 2010 again: one string moves`},
		{`2010>0010`, `2010>0000`, `9:25: from 2010 to 0000 move 2 strings; one does`},
		{`2010>0010`, `2010>2014`, `9:25: 2014 adds nothing to 2010 that is asked; one string can make of it`},
		{`2010>0010`, `0212>0012`, `9:25: 0212 is no major or minor chord that one string colours`},
		{`"0003", "2010>0010"`, `"0003", "0003"`, `9:19: 0003 is there twice: once is enough`},
		{`["loop.txt"]`, `"loop.txt"`, `10:9: songs is written songs = ["loop.txt"]`},
		{`"loop.txt"`, `"lop.txt"`, `10:10: the song lop.txt cannot be read: no such file; name a chart that lies beside the lesson, or write it between three quotes`},
		{`"loop.txt"`, `"bad.txt"`, `10:10: the song bad.txt, line 1, column 7: `},
		{`"loop.txt"`, `"| C | Am | Q |"`, `10:10: the song, line 1, column 12: `},
		{`"loop.txt"`, `"rest.txt"`, `10:10: the song rest.txt, line 1, column 1: no chords`},
		{`songs = ["loop.txt"]`, `drills = ["swap"]`, `10:1: a lesson with steps says its drills in them: leave drills out, or the steps`},
		{`songs = ["loop.txt"]`, `drills = ["nose"]`, `10:1: a lesson with steps`},
		{week[strings.Index(week, "songs"):], `drills = ["nose"]`, `10:11: "nose" is no drill; the drills are interval-ear`},
		{week[strings.Index(week, "songs"):], `drills = ["swap", "swap"]`, `10:19: swap is named twice: once is enough`},
		{week[strings.Index(week, "songs"):], `drills = ["swap", "interval-ear"]`, `10:19: interval-ear has nothing to ask of C, Am, F, G7, Fadd9: name other chords, or leave it out`},
		{week[strings.Index(week, "chords"):], `chords = ["C"]` + "\n" + `drills = ["shape-name"]`, ``},
		{`drill = "swap"`, "minutes = 5\ndrill = \"swap\"", `19:1: minutes is said of the whole lesson: write it above the first [[step]]`},
		{`["major", "minor"]`, `["major", "diminished"]`, ``},
		{`["added-ninth"]`, `["added-fourth"]`, `20:9: swap has no question for added-fourth of these chords; name other chords, or leave it out`},
		{`drill = "chord-ear"`, `drill = "nose"`, `14:9: step "sounds": "nose" is no drill`},
		{`["major", "minor"]`, `["major", "mauve"]`, `15:18: step "sounds": chord-ear cannot ask for "mauve"`},
		{`["sounds"]`, `["sights"]`, `21:13: step "moved" rests on "sights"`},
		{`id = "moved"`, `id = "sounds"`, `18:6: step "sounds" comes twice`},
		{week[strings.Index(week, "chords"):], "", `no [[step]]: a lesson has one or more, each with id, drill and asks, or else chords, such as chords = ["C", "F"]`},
		{`name = `, `name = “`, `2:8: “ is no straight quote`},
		{`key = "C"`, `key = C`, `7:7: `},
		{`= 12`, `=`, `5:`},
	} {
		if !strings.Contains(week, c.old) {
			t.Fatalf("%q is not in the lesson", c.old)
		}
		text := strings.Replace(week, c.old, c.new, 1)
		_, err := Read("x", strings.NewReader(text), charts)
		if c.want == "" {
			if err != nil {
				t.Errorf("%q: %v", c.new, err)
			}
			continue
		}
		where := "x:" + c.want
		if strings.HasPrefix(c.want, "no ") {
			where = "x: " + c.want
		}
		switch {
		case err == nil:
			t.Errorf("%q for %q: no fault is found", c.new, c.old)
		case !strings.HasPrefix(err.Error(), where) || strings.ContainsAny(err.Error(), "\n\x1b"):
			t.Errorf("%q for %q: %v, want %s", c.new, c.old, err, where)
		default:
			said[err.Error()] = c.new
		}
	}
	if len(said) < 40 {
		t.Errorf("%d different faults", len(said))
	}
	t.Logf("%d different faults", len(said))
}

// A lesson without steps is gone through in the order in which its chords are learned; one with drills in those alone.
func TestStepsAreMadeOfChords(t *testing.T) {
	head := week[:strings.Index(week, "[[step]]")]
	l, err := Read("week.toml", strings.NewReader(head), charts)
	if err != nil {
		t.Fatal(err)
	}
	var drill []string
	for _, s := range l.Steps {
		drill = append(drill, s.Drill)
	}
	if diff := cmp.Diff([]string{"shape-tones", "shape-name", "chord-ear", "added-ear", "swap", "same-or-not", "progression-ear", "key-add"}, drill); diff != "" || !l.Made {
		t.Error(diff)
	}
	if l, err = Read("x", strings.NewReader(head+`drills = ["swap", "build"]`), charts); err != nil || len(l.Steps) != 2 || l.Steps[0].Drill != "build" || !slices.Equal(l.Steps[1].Asks, []string{"added-ninth"}) {
		t.Errorf("%+v, %v", l.Steps, err)
	}
	if l, err = Read("x", strings.NewReader("songs = ['''\n| C | Am | F | G7 |\n''']"), charts); err != nil || l.Key.Symbol() != "C" || len(l.Moves) < 2 || len(l.Steps) < 5 {
		t.Errorf("%+v, %v", l, err)
	}
}

// Every drill has its place in a lesson that is made of chords, but for the one that asks about two notes.
func TestEveryDrillMayBeOfALesson(t *testing.T) {
	for _, id := range catalogue.IDs() {
		if in := slices.ContainsFunc(loop, func(row struct{ drill, id, title string }) bool { return row.drill == id }); in == (id == "interval-ear") {
			t.Errorf("%s stands in the loop of a lesson: %v", id, in)
		}
	}
}

// What is asked about keys is asked where a lesson names one, of its own mode: else most of a lesson of four chords would be about keys.
func TestKeysAreAskedWhereOneIsNamed(t *testing.T) {
	for head, want := range map[string]string{
		"":                     "shape-tones 3, shape-name 3, chord-ear 3, same-or-not 3",
		`key = "C"`:            "shape-tones 3, shape-name 3, chord-ear 3, same-or-not 3, progression-ear 2, key-add 5",
		`key = "Am"`:           "shape-tones 3, shape-name 3, chord-ear 3, same-or-not 3, progression-ear 2, key-add 5",
		`drills = ["key-add"]`: "key-add 21",
	} {
		l, err := Read("x", strings.NewReader(head+"\nchords = [\"C\", \"Am\", \"F\", \"G7\"]"), nil)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, s := range l.Steps {
			got = append(got, fmt.Sprintf("%s %d", s.Drill, len(s.Asks)))
			for _, ask := range s.Asks {
				if s.Drill == "key-add" && l.Key != nil && strings.Contains(ask, "-minor-") != l.Key.Minor {
					t.Errorf("%s: %s is asked", head, ask)
				}
			}
		}
		if all := strings.Join(got, ", "); all != want {
			t.Errorf("%q: %s, want %s", head, all, want)
		}
	}
}

// A chart lies beside its lesson or below it, is closed again, and is cut off where it is longer than any chart.
func TestChartsLieBeside(t *testing.T) {
	closed := 0
	charts := ChartsBeside("week/lesson.toml", func(path string) (io.ReadCloser, error) {
		if path != filepath.Join("week", "songs", "loop.txt") {
			return nil, fs.ErrNotExist
		}
		return closing{strings.NewReader(strings.Repeat("C", LongestChart+1)), &closed}, nil
	})
	if text, err := charts("songs/loop.txt"); err != nil || len(text) != LongestChart || closed != 1 {
		t.Errorf("%d bytes, %v, closed %d times", len(text), err, closed)
	}
	for name, want := range map[string]string{"other.txt": "no such file", "../loop.txt": "it does not lie beside the lesson", "/loop.txt": "it does not lie beside the lesson"} {
		if _, err := charts(name); err == nil || err.Error() != want {
			t.Errorf("%s: %v, want %s", name, err, want)
		}
	}
}

// closing counts how often it is closed.
type closing struct {
	io.Reader
	times *int
}

func (c closing) Close() error { *c.times++; return nil }

// A lesson that is made from a song is read again without a fault, and holds to the song's chords and to their best colours.
func TestALessonIsMadeFromASong(t *testing.T) {
	socks, err := os.ReadFile("../../docs/wet-socks.txt")
	if err != nil {
		t.Fatal(err)
	}
	for _, tuning := range []string{"ukulele", "guitar"} {
		for _, chart := range []string{string(socks), "key: Am\n| Am | Dm | E7 | Am |", "[C]la la [Cmaj7]la [F]la [G]la\n", "| Bb | Gm | Eb | F |\n'''\n"} {
			s, err := song.Read(chart)
			if err != nil {
				t.Fatal(err)
			}
			a, err := arrange.Arrange(s, arrange.Wishes{Rich: rich, Tuning: tuningOf(t, tuning)})
			if err != nil {
				t.Fatal(err)
			}
			text, err := OfSong(a, `Socks, "wet"`, chart)
			if err != nil {
				t.Fatal(err)
			}
			l, err := Read("x.toml", strings.NewReader(text), nil)
			if err != nil {
				t.Fatalf("%v in\n%s", err, text)
			}
			if l.Name != `Socks, "wet"` || len(l.Songs) != 1 || len(l.Steps) < 4 {
				t.Errorf("%+v", l)
			}
			for _, c := range s.Different() {
				if !l.hasKind(c.Kind.ID) {
					t.Errorf("%s is not in the lesson", c)
				}
			}
		}
	}
}

func tuningOf(t *testing.T, name string) *fret.Tuning {
	t.Helper()
	tuning, err := fret.ParseTuning(name)
	if err != nil {
		t.Fatal(err)
	}
	return tuning
}

// On other instruments a lesson's chords are the same: in the same shapes where the strings are, else in others; what differs is said.
func TestALessonOnOtherInstruments(t *testing.T) {
	l, err := Read("week.toml", strings.NewReader(week), charts)
	if err != nil {
		t.Fatal(err)
	}
	for tuning, want := range map[string]string{
		"ukulele":       "",
		"ukulele-low-g": "The lowest note of 0010, Fadd9, is G, ninth; it is C, fifth, on ukulele",
		"baritone":      "F and Fadd9, which are 2010 and 0010, are 3211 and 3213 here.",
		"guitar":        "F and Fadd9, which are 2010 and 0010, are xx3211 and xx3213 here.",
	} {
		on := l.On(instrument(tuningOf(t, tuning)))
		var says []string
		for _, d := range on.Differs {
			says = append(says, d.Screen())
		}
		if all := strings.Join(says, "\n"); !strings.Contains(all, want) || want == "" && all != "" {
			t.Errorf("%s: %q, want %q", tuning, all, want)
		}
		if on.Things() != 3 || len(on.Left) != 0 {
			t.Errorf("%s: %d things, %v is left out", tuning, on.Things(), on.Left)
		}
		d, _ := catalogue.ByID("swap")
		for seed := range uint64(20) {
			q, err := d.Ask(drills.Request{Target: "added-ninth", On: on.On, Reach: 1, Rand: drills.QuestionRand("swap", "added-ninth", seed)})
			if err != nil {
				t.Fatal(err)
			}
			if m := on.Hold.Moves[0]; !slices.Equal(q.Shown.Shape, m.From) || q.Expected().Typed != m.To.String() {
				t.Errorf("%s: %s, %s", tuning, q.Text(), q.Expected().Typed)
			}
		}
	}
	bass := l.On(instrument(tuningOf(t, "GCE")))
	if len(bass.Left) == 0 || !strings.Contains(bass.Left[0].Says.Screen(), "the nearest is G") {
		t.Errorf("%v", bass.Left)
	}
}

// What a plain lesson asks that an instrument has not is named.
func TestWhatAnInstrumentHasNotIsNamed(t *testing.T) {
	l, err := Read("x", strings.NewReader("[[step]]\nid = \"a\"\ndrill = \"chord-ear\"\nasks = [\"major\", \"dominant-ninth\"]\n"), nil)
	if err != nil {
		t.Fatal(err)
	}
	on := l.On(instrument(tuningOf(t, "GCE")))
	if len(on.Left) != 1 || on.Things() != 1 || on.Left[0].Says.Screen() != "strings G3 C4 E4 has no question for dominant-ninth of step a" {
		t.Errorf("%+v", on.Left)
	}
}
