package tui

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"flag"
	"fmt"
	"iter"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/practice"
	"sparetone/drills/practice/session"
	"sparetone/progress"
	"sparetone/progress/store"
	"sparetone/synth"
	"sparetone/synth/playback"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// What is written down of an answer is proven here, field by field, for both faces by the same table:
//
//	testdata/deeds.tsv   a row for each drill and outcome: what is asked, what is typed, and what is kept of it
//	deeds, below         what somebody does with a question before that, and what that adds: times, replays, hints
//
// Every row is combined with every deed, done on the full screen and in lines, and what the file then has is compared
// whole with what row and deed say. Where a question is meant to be another one -write-deeds writes the rows again;
// each of them is then to be read.

var writeDeeds = flag.Bool("write-deeds", false, "write testdata/deeds.tsv again")

// askings are the questions of the table: of every drill one, and one more where it asks in another form.
var askings = []struct{ name, drill, asks string }{
	{"interval-ear", "interval-ear", "m3 M3 P4 P5"},
	{"chord-ear", "chord-ear", "major minor dominant suspended-fourth"},
	{"added-ear", "added-ear", "added-ninth major-sixth dominant"},
	{"added-ear alone", "added-ear", "added-ninth-alone major-sixth-alone dominant-alone"},
	{"same-or-not", "same-or-not", "major-or-minor"},
	{"same-or-not which", "same-or-not", "which-has-added-ninth which-has-dominant"},
	{"shape-name", "shape-name", "major minor dominant"},
	{"shape-tones", "shape-tones", "dominant"},
	{"doubled", "doubled", "root third fifth"},
	{"doubled where", "doubled", "where"},
	{"doubled spare", "doubled", "spare"},
	{"build", "build", "minor"},
	{"swap", "swap", "added-ninth major-sixth dominant"},
	{"spell", "spell", "dominant"},
	{"spell by ear", "spell", "root-of-triad third-of-triad fifth-of-triad"},
	{"resolve", "resolve", "suspended-fourth dominant suspended-second"},
	{"progression-ear", "progression-ear", "1-4-5 1-5-4 1-5-1"},
	{"progression-ear colour", "progression-ear", "with-a-ninth with-a-sixth"},
	{"key-add", "key-add", "add-to-minor-5 add-to-minor-4"},
	{"key-add clash", "key-add", "clash-with-major-1"},
}

// TestEveryDrillHasDeeds: a new drill is asked for a row of askings.
func TestEveryDrillHasDeeds(t *testing.T) {
	for _, id := range catalogue.IDs() {
		if !slices.ContainsFunc(askings, func(q struct{ name, drill, asks string }) bool { return q.drill == id }) {
			t.Errorf("%s has no row in askings", id)
		}
	}
}

// outcomes are what may come of an answer. Not known is kept as wrong.
var outcomes = []string{"right", "partly", "wrong", "not known"}

// never stands for what is typed where no answer has that outcome.
const never = "never"

// deedRow is a row of the table.
type deedRow struct {
	name, outcome string
	typed         string // in lines; never where there is no such answer
	result        string
	given         string
	expected      string
	takenFor      string
	choices       int
	rung          int
	voice         string // "" where nothing sounds
	item          string
	seed          uint64
	question      string
	offered       string // ids of the choices
	chosen        int    // of these, counted from 1; 0 if none
}

var deedColumns = []string{"name", "outcome", "typed", "result", "given", "expected", "taken_for", "choices", "rung", "voice", "item", "seed", "question", "offered", "chosen"}

func (r deedRow) cells() []string {
	return []string{r.name, r.outcome, r.typed, r.result, r.given, r.expected, r.takenFor, strconv.Itoa(r.choices), strconv.Itoa(r.rung), r.voice, r.item, strconv.FormatUint(r.seed, 10), r.question, r.offered, strconv.Itoa(r.chosen)}
}

func readDeedRow(c []string) (r deedRow, err error) {
	r = deedRow{name: c[0], outcome: c[1], typed: c[2], result: c[3], given: c[4], expected: c[5], takenFor: c[6], voice: c[9], item: c[10], question: c[12], offered: c[13]}
	if r.chosen, err = strconv.Atoi(c[14]); err != nil {
		return r, err
	}
	if r.choices, err = strconv.Atoi(c[7]); err != nil {
		return r, err
	}
	if r.rung, err = strconv.Atoi(c[8]); err != nil {
		return r, err
	}
	r.seed, err = strconv.ParseUint(c[11], 10, 64)
	return r, err
}

// deed is what somebody does with a question until it is answered, and what is kept of that.
type deed struct {
	name   string
	silent bool   // there is no device when the question comes
	does   []step // before the answer
	aside  bool   // it is not answered: the program is left
	more   bool   // it is several deeds in turn, and done with right answers only
	// What is kept where the question is heard:
	took           time.Duration
	replays, hints int
	sounds         int           // sounds that were heard before the answer, the question itself among them
	gone           time.Duration // by the clock on the wall, until the answer
}

// step is a time that passes, and then something done.
type step struct {
	after time.Duration
	sound string // again, slower, open, open root
	turn  playback.State
	turns bool // the device comes or goes
}

const (
	toStep   = 1500 * time.Millisecond // to the first step
	between  = 750 * time.Millisecond  // from one step to the next
	toAnswer = 1250 * time.Millisecond // from the last step to the answer
	away     = time.Hour               // that the device is
	toEnd    = 4 * time.Second         // from the answer to the end
)

func plays(after time.Duration, how string) step { return step{after: after, sound: how} }
func goes(after time.Duration) step              { return step{after: after, turn: playback.NoDevice, turns: true} }
func comes(after time.Duration) step             { return step{after: after, turn: playback.Ready, turns: true} }

var deeds = []deed{
	{name: "as it is", took: toAnswer, sounds: 1, gone: toAnswer},
	{name: "heard again", does: []step{plays(toStep, "again")}, took: toStep + toAnswer, replays: 1, sounds: 2, gone: toStep + toAnswer},
	{name: "heard again twice", more: true, does: []step{plays(toStep, "again"), plays(between, "again")}, took: toStep + between + toAnswer, replays: 2, sounds: 3, gone: toStep + between + toAnswer},
	{name: "slower", does: []step{plays(toStep, "slower")}, took: toStep + toAnswer, replays: 1, sounds: 2, gone: toStep + toAnswer},
	{name: "opened up", does: []step{plays(toStep, "open")}, took: toStep + toAnswer, hints: 1, sounds: 2, gone: toStep + toAnswer},
	{name: "opened up, slower, opened up, again", more: true, does: []step{plays(toStep, "open"), plays(between, "slower"), plays(between, "open"), plays(between, "again")},
		took: toStep + 3*between + toAnswer, replays: 2, hints: 2, sounds: 5, gone: toStep + 3*between + toAnswer},
	{name: "put aside", does: []step{plays(toStep, "again")}, aside: true, sounds: 2},
	{name: "the device goes and comes", does: []step{goes(toStep), plays(away, "again"), comes(away)}, took: toStep + toAnswer, sounds: 2, gone: toStep + 2*away + toAnswer},
	{name: "heard again, the device goes and comes, opened up", more: true, does: []step{plays(toStep, "again"), goes(between), comes(away), plays(between, "open")},
		took: toStep + 2*between + toAnswer, replays: 1, hints: 1, sounds: 4, gone: toStep + 2*between + away + toAnswer},
	{name: "no device at first", more: true, silent: true, does: []step{comes(away)}, took: toAnswer, sounds: 1, gone: away + toAnswer},
}

// thinks is the longest that somebody who does nothing is taken to think.
const thinks = 2 * time.Minute

// seen is what is kept where nothing has to be heard: no sound is played or counted, and no device waited for.
func (d deed) seen() deed {
	d.took, d.replays, d.hints, d.sounds = min(d.gone, thinks), 0, 0, 0
	return d
}

// answerKept is an answer as it is exported, with every field there is.
type answerKept struct {
	Kind     string `json:"kind"`
	ID       string `json:"id"`
	File     string `json:"file"`
	Whose    string `json:"whose"`
	Session  string `json:"session"`
	Item     string `json:"item"`
	Drill    string `json:"drill"`
	Seed     uint64 `json:"seed,string"`
	At       string `json:"at"`
	Day      string `json:"day"`
	Question string `json:"question"`
	Given    string `json:"given"`
	Expected string `json:"expected"`
	TakenFor string `json:"taken_for"`
	Result   string `json:"result"`
	TookMS   int64  `json:"took_ms"`
	Replays  int    `json:"replays"`
	Hints    int    `json:"hints"`
	Voice    string `json:"voice"`
	Choices  int    `json:"choices"`
	Rung     int    `json:"rung"`
	Played   int    `json:"played"`
	Offered  string `json:"offered"`
	Chosen   int    `json:"chosen"`
	Doubted  bool   `json:"doubted"`
}

// sessionKept is a session as it is exported.
type sessionKept struct {
	Kind    string    `json:"kind"`
	ID      string    `json:"id"`
	File    string    `json:"file"`
	Whose   string    `json:"whose"`
	Began   time.Time `json:"began"`
	Ended   time.Time `json:"ended"`
	Minutes float64   `json:"minutes"`
}

// keptIn is all that a file has: sessions and answers. A field that is not known here is an error.
func keptIn(t *testing.T, file *store.File) (sessions []sessionKept, answers []answerKept) {
	t.Helper()
	var out bytes.Buffer
	if err := file.ExportJSON(&out); err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(out.String()) {
		var kind struct{ Kind string }
		if err := json.Unmarshal([]byte(line), &kind); err != nil {
			t.Fatal(err)
		}
		read := json.NewDecoder(strings.NewReader(line))
		read.DisallowUnknownFields()
		var s sessionKept
		var a answerKept
		var err error
		switch kind.Kind {
		case "session":
			err = read.Decode(&s)
			sessions = append(sessions, s)
		case "answer":
			err = read.Decode(&a)
			answers = append(answers, a)
		}
		if err != nil {
			t.Fatalf("%v in %s", err, line)
		}
	}
	return sessions, answers
}

// Every field of an answer has its place in the table: whoever adds one is to say here where it comes from.
func TestEveryFieldHasAColumn(t *testing.T) {
	want := map[string]string{
		"Session": "of the session that is kept with it", "Item": "deeds.tsv", "Drill": "askings", "Seed": "deeds.tsv", "At": "deeds", "Question": "deeds.tsv",
		"Given": "deeds.tsv", "Expected": "deeds.tsv", "TakenFor": "deeds.tsv", "Result": "deeds.tsv", "Choices": "deeds.tsv", "Rung": "deeds.tsv", "Offered": "deeds.tsv", "Chosen": "deeds.tsv", "Took": "deeds",
		"Lesson": "lessons_test of drills/practice", "Step": "lessons_test of drills/practice",
		"Played": "take_back_test and played_test of tui/page; of what is typed it is 0, as deeds have it", "Replays": "deeds", "Hints": "deeds", "Voice": "deeds.tsv",
	}
	for _, f := range reflect.VisibleFields(reflect.TypeFor[progress.Answer]()) {
		if want[f.Name] == "" {
			t.Errorf("nothing says what %s of an answer is to be", f.Name)
		}
		delete(want, f.Name)
	}
	for name := range want {
		t.Errorf("an answer has no %s any more", name)
	}
}

// evening is when the table is practised.
var evening = time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)

// deedPractice is a practice of one of the askings, and what it is kept in.
func deedPractice(t *testing.T, drill, asks string) (practice.App, *handClock) {
	t.Helper()
	c := &handClock{at: evening}
	file, err := store.InMemory(c.now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { file.Close() })
	p := practice.App{
		Setup: session.Setup{
			File: file, Course: course.Course{{ID: "asked", Drill: drill, Asks: strings.Fields(asks)}}, Length: 10 * time.Minute, Seed: 11, Now: c.now,
		},
		Speaker: &fakeSpeaker{}, Settings: atOnce(file), Named: true,
	}
	if err := p.Plan(false); err != nil {
		t.Fatal(err)
	}
	return p, c
}

// TestDeeds does every deed with every row of the table on both faces, and compares all that is kept.
func TestDeeds(t *testing.T) {
	if *writeDeeds {
		writeDeedRows(t)
	}
	rows := deedRows(t)
	for _, q := range askings {
		for _, outcome := range outcomes {
			i := slices.IndexFunc(rows, func(r deedRow) bool { return r.name == q.name && r.outcome == outcome })
			if i < 0 {
				t.Fatalf("%s, %s: no row", q.name, outcome)
			}
			row := rows[i]
			if row.typed == never {
				continue
			}
			t.Run(q.name+"/"+outcome, func(t *testing.T) {
				t.Parallel()
				for _, d := range deeds {
					if d.more && outcome != "right" {
						continue
					}
					heard := map[string][]int{}
					for name, make := range faces {
						p, c := deedPractice(t, q.drill, q.asks)
						do(t, make, p, c, d, row.typed)
						want := d
						if row.voice == "" {
							want = d.seen()
						}
						compareKept(t, fmt.Sprintf("%s on %s", d.name, name), p.File(), row, q.drill, want)
						speaker := p.Speaker.(*fakeSpeaker)
						sounds := want.sounds
						if !d.aside {
							sounds++ // what was asked, or what it was taken for beside it, after the answer: no replay and no hint
						}
						if row.voice != "" && len(speaker.heard) != sounds {
							t.Errorf("%s on %s: %d sounds were heard, not %d", d.name, name, len(speaker.heard), sounds)
						}
						for _, s := range speaker.heard {
							heard[name] = append(heard[name], s.(*synth.Sound).Len())
						}
					}
					if row.voice != "" && !slices.Equal(heard["lines"], heard["the full screen"]) {
						t.Errorf("%s: sounds of %v samples were heard", d.name, heard)
					}
				}
			})
		}
	}
}

// do does a deed on a face, with an answer that ends it, and leaves.
func do(t *testing.T, make func(t *testing.T, p practice.App) face, p practice.App, c *handClock, d deed, typed string) {
	t.Helper()
	if d.silent {
		p.Speaker.(*fakeSpeaker).turn(playback.NoDevice, "none opens")
	}
	f := make(t, p)
	if d.silent {
		f.turn(playback.NoDevice)
	}
	f.begin()
	for _, s := range d.does {
		c.pass(s.after)
		if s.turns {
			f.turn(s.turn)
		} else {
			f.sound(s.sound)
		}
	}
	c.pass(toAnswer)
	if d.aside {
		f.leaveUnanswered(typed)
		return
	}
	f.answer(typed)
	c.pass(toEnd)
	f.leave()
}

// compareKept compares all that a file has with what a row and a deed say.
func compareKept(t *testing.T, name string, file *store.File, row deedRow, drill string, d deed) {
	t.Helper()
	sessions, answers := keptIn(t, file)
	if d.aside {
		if len(sessions)+len(answers) > 0 {
			t.Errorf("%s: kept are %v and %v", name, sessions, answers)
		}
		return
	}
	if len(answers) != 1 || len(sessions) != 1 {
		t.Fatalf("%s: kept are %d answers of %d sessions, not one of one", name, len(answers), len(sessions))
	}
	at := evening.Add(d.gone)
	got, session := answers[0], sessions[0]
	if !regexp.MustCompile(`^[0-9a-f]{32}$`).MatchString(got.ID) || session.ID == "" || session.File == "" {
		t.Errorf("%s: ids %q and %q", name, got.ID, session.ID)
	}
	want := answerKept{
		Kind: "answer", ID: got.ID, File: session.File, Session: session.ID,
		Item: row.item, Drill: drill, Seed: row.seed, At: at.Format("2006-01-02T15:04:05.000Z"), Day: "2026-05-04",
		Question: row.question, Given: row.given, Expected: row.expected, TakenFor: row.takenFor, Result: row.result,
		TookMS: d.took.Milliseconds(), Replays: d.replays, Hints: d.hints, Voice: row.voice, Choices: row.choices, Rung: row.rung, Offered: row.offered, Chosen: row.chosen,
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("%s: kept is not what the table says:\n%s", name, diff)
	}
	if diff := cmp.Diff(sessionKept{Kind: "session", ID: session.ID, File: session.File, Began: evening, Ended: at.Add(toEnd), Minutes: 10}, session); diff != "" {
		t.Errorf("%s: the session is not what the table says:\n%s", name, diff)
	}
}

const deedsFile = "testdata/deeds.tsv"

// deedRows reads the table.
func deedRows(t *testing.T) []deedRow {
	t.Helper()
	f, err := os.Open(deedsFile)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma, r.Comment, r.LazyQuotes = '\t', '#', true
	cells, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(cells[0], deedColumns) {
		t.Fatalf("the columns are %v, not %v", cells[0], deedColumns)
	}
	var rows []deedRow
	for _, c := range cells[1:] {
		row, err := readDeedRow(c)
		if err != nil {
			t.Fatal(err)
		}
		rows = append(rows, row)
	}
	return rows
}

// writeDeedRows writes the table again: what is asked now, and of each outcome the first answer that has it.
func writeDeedRows(t *testing.T) {
	var b strings.Builder
	b.WriteString("# What is kept of an answer: a row for each question and outcome. typed is how somebody says so in lines.\n")
	b.WriteString("# deeds_test.go combines every row with every deed, on both faces. -write-deeds writes it again.\n")
	b.WriteString(strings.Join(deedColumns, "\t") + "\n")
	for _, q := range askings {
		for _, outcome := range outcomes {
			row := deedRow{name: q.name, outcome: outcome, typed: never}
			p, _ := deedPractice(t, q.drill, q.asks)
			asked, err := p.Session.Next()
			if err != nil {
				t.Fatal(err)
			}
			chosen := false
			for typed := range candidates(asked, outcome) {
				v, err := asked.Mark(typed)
				if err != nil || v.Result.String() != strings.Replace(outcome, "not known", "wrong", 1) || chosen && v.TakenFor == "" {
					continue
				}
				chosen = true
				row.typed = typed
				if v.TakenFor != "" || outcome != "wrong" {
					break
				}
			}
			if chosen {
				typed := row.typed
				if _, err := p.Answer(asked, typed); err != nil {
					t.Fatal(err)
				}
				_, answers := keptIn(t, p.File())
				k := answers[0]
				row = deedRow{q.name, outcome, typed, k.Result, k.Given, k.Expected, k.TakenFor, k.Choices, k.Rung, k.Voice, k.Item, k.Seed, k.Question, k.Offered, k.Chosen}
			}
			b.WriteString(strings.Join(row.cells(), "\t") + "\n")
		}
	}
	if err := os.WriteFile(deedsFile, []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}

// candidates are answers to a question that may have an outcome, the likeliest first.
func candidates(q *session.Asked, outcome string) iter.Seq[string] {
	return func(yield func(string) bool) {
		switch {
		case outcome == "not known":
			yield(drills.Unknown)
			return
		case q.Form == drills.Choose:
			for n, c := range q.Choices {
				if (c.ID == q.Expected().ID) == (outcome == "right") && !yield(strconv.Itoa(n+1)) {
					return
				}
			}
			for _, note := range strings.Fields("C C# Db D D# Eb E F F# Gb G G# Ab A A# Bb B") {
				if !yield(note) {
					return
				}
			}
			return
		case outcome == "right":
			yield(q.Expected().Typed)
			return
		}
		words := strings.Fields(q.Expected().Typed)
		if shape, err := fret.ParseShape(q.Expected().Typed); q.Form == drills.Frets && err == nil {
			words = strings.Fields(say.Of("{}", say.Shape(shape)).Aloud())
		}
		if q.Shown != nil && q.Form == drills.Frets {
			words = strings.Fields(say.Of("{}", say.Shape(q.Shown.Shape)).Aloud())
		}
		others := map[drills.Form]string{drills.Tones: "4 b7 5 3 R", drills.Frets: "0 1 2 3 4 5 6 7", drills.Notes: "F# A# D"}[q.Form]
		// One word is another, then two, then all are.
		for most := 1; most <= len(words); most++ {
			var change func(from, left int) bool
			typed := slices.Clone(words)
			change = func(from, left int) bool {
				if left == 0 {
					return yield(strings.Join(typed, " "))
				}
				for i := from; i < len(words); i++ {
					for _, w := range strings.Fields(others) {
						if typed[i] = w; w != words[i] && words[i] != "x" && !change(i+1, left-1) {
							return false
						}
					}
					typed[i] = words[i]
				}
				return true
			}
			if !change(0, most) {
				return
			}
		}
	}
}
