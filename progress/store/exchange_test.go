package store

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/exchange"
	"sparetone/progress/pages"

	"github.com/google/go-cmp/cmp"
)

// Later is when all that the tests here have practised lies behind.
var later = evening.AddDate(0, 0, 10)

func inMemory(t *testing.T, when time.Time) *File {
	t.Helper()
	f, err := InMemory(clockAt(when))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

// practised fills a file with sessions of random answers, one a day from a day after that evening on.
func practised(t *testing.T, f *File, from, sessions, each int, seed uint64) {
	t.Helper()
	rng := rand.New(rand.NewPCG(seed, 0))
	item := func() string { return fmt.Sprintf("d%d/t%d/u", rng.IntN(2), rng.IntN(6)) }
	for s := range sessions {
		at := evening.AddDate(0, 0, from+s).Add(time.Duration(rng.IntN(3600)) * time.Second)
		id := progress.NewID()
		if err := f.Begin(progress.Session{ID: id, Began: at, Minutes: 10 * time.Minute}); err != nil {
			t.Fatal(err)
		}
		for range each {
			took := time.Duration(1000+rng.IntN(9000)) * time.Millisecond
			at = at.Add(took + 3*time.Second)
			a := progress.Answer{Session: id, Item: item(), Seed: rng.Uint64(), At: at, Question: `which, “this” or 'that'?`, Given: "=A,\"B\"", Expected: "C♯m7♭5",
				Result: progress.Result(1 + rng.IntN(3)), Took: took, Choices: []int{0, 2, 5}[rng.IntN(3)], Rung: rng.IntN(6), Replays: rng.IntN(3) / 2, Hints: rng.IntN(4) / 3, Voice: "soft"}
			if s%3 == 2 {
				a.Lesson, a.Step, a.Played = "9f86d081884c7d65", "their-sounds", true
				if a.Choices > 0 {
					a.Offered, a.Chosen = "m3"+strings.Repeat("|P4", a.Choices-1), a.Choices
				}
			}
			a.Drill, _, _ = strings.Cut(a.Item, "/")
			if a.Result != progress.Right {
				a.TakenFor = fmt.Sprintf("%s/t%d/u", a.Drill, rng.IntN(6))
			}
			if err := f.Record(a); err != nil {
				t.Fatal(err)
			}
		}
		if err := f.End(id, at); err != nil {
			t.Fatal(err)
		}
	}
}

// anything takes in an export to which whatever an answer is to means something.
var anything = exchange.Taking{From: "export", Means: func(string) bool { return true }, Other: true}

func bothExports(t *testing.T, f *File) (asJSON, asCSV string) {
	t.Helper()
	var j, c bytes.Buffer
	if err := f.ExportJSON(&j); err != nil {
		t.Fatal(err)
	}
	if err := f.ExportCSV(&c); err != nil {
		t.Fatal(err)
	}
	return j.String(), c.String()
}

func TestImportBringsBackAllThatWasExported(t *testing.T) {
	f := inMemory(t, later)
	practised(t, f, 0, 5, 20, 1)
	asJSON, asCSV := bothExports(t, f)
	for kind, export := range map[string]string{"JSON lines": asJSON, "CSV": asCSV} {
		g := inMemory(t, later)
		for i, want := range []exchange.Imported{{Added: 100}, {Known: 100}} {
			got, err := g.Import(strings.NewReader(export), anything)
			if err != nil || got.Added != want.Added || got.Known != want.Known {
				t.Errorf("%s, import %d: %+v, %v, want %+v", kind, i+1, got, err, want)
			}
		}
		again, csvAgain := bothExports(t, g)
		if kind == "JSON lines" && again != asJSON {
			t.Error(cmp.Diff(asJSON, again))
		}
		if csvAgain != asCSV {
			t.Errorf("%s: %s", kind, cmp.Diff(asCSV, csvAgain))
		}
		sound(t, g, 100)
	}
}

// sound checks a file and counts its answers.
func sound(t *testing.T, f *File, answers int) {
	t.Helper()
	h, err := f.Check()
	if err != nil || len(h.Damaged) > 0 || h.Stale || h.Answers != answers {
		t.Errorf("check: %+v, %v, want %d answers", h, err, answers)
	}
}

func TestTwoMachinesThatTakeInEachOthersHoldTheSame(t *testing.T) {
	desk, lap := inMemory(t, later), inMemory(t, later)
	practised(t, desk, 0, 4, 15, 2)
	deskJSON, _ := bothExports(t, desk)
	if _, err := lap.Import(strings.NewReader(deskJSON), anything); err != nil {
		t.Fatal(err)
	}
	practised(t, desk, 4, 6, 15, 3) // both go on by themselves
	practised(t, lap, 4, 6, 15, 4)
	deskJSON, _ = bothExports(t, desk)
	lapJSON, _ := bothExports(t, lap)
	for f, other := range map[*File]string{desk: lapJSON, lap: deskJSON} {
		got, err := f.Import(strings.NewReader(other), anything)
		if want := (exchange.Imported{Added: 90, Known: 60}); err != nil || got.Added != want.Added || got.Known != want.Known {
			t.Errorf("%+v, %v, want %+v", got, err, want)
		}
		sound(t, f, 240)
	}
	deskJSON, _ = bothExports(t, desk)
	lapJSON, _ = bothExports(t, lap)
	if deskJSON != lapJSON {
		t.Error("they differ:", cmp.Diff(deskJSON, lapJSON))
	}
}

func TestABadImportChangesNothing(t *testing.T) {
	f := inMemory(t, evening)
	practised(t, f, 0, 1, 3, 5)
	good, asCSV := bothExports(t, f)
	lines := strings.SplitAfter(good, "\n")
	answer := lines[len(lines)-2]
	fresh := func(old, new string) string {
		id := `"id":"` + strings.Repeat("0", 31) + `1"`
		changed := strings.Replace(answer, answer[strings.Index(answer, `"id"`):strings.Index(answer, `,"session"`)], id, 1)
		if !strings.Contains(changed, old) {
			t.Fatalf("%s has no %s", changed, old)
		}
		return strings.Replace(changed, old, new, 1)
	}
	before, _ := bothExports(t, f)
	for what, export := range map[string]string{
		"not text at all":               "\x7fELF\x02\x01\x01\x00\x00",
		"an SQLite file":                "SQLite format 3\x00\x10\x00\x02\x02",
		"another program's JSON":        `{"version": 3, "notes": []}`,
		"another program's CSV":         "question,answer\nC E G,C\n",
		"JSON cut short":                fresh("u", "u") + answer[:len(answer)/2],
		"a line without end":            fresh("u", "u") + strings.Repeat("x", exchange.LongestLine+1),
		"a cursor moved":                fresh(`"soft"`, `"\u001b[2J"`),
		"half a character":              fresh(`"soft"`, "\"\xff\""),
		"a text without end":            fresh(`"soft"`, `"`+strings.Repeat("x", progress.LongestText+1)+`"`),
		"no such result":                fresh(`"result":"`, `"result":"x`),
		"less than no time":             fresh(`"took_ms":`, `"took_ms":-`),
		"a day that is elsewhere":       fresh(`"day":"2026-`, `"day":"2027-`),
		"time before all clocks":        fresh(`"at":"2026-`, `"at":"1026-`),
		"a number of a thousand digits": fresh(`"replays":`, `"replays":`+strings.Repeat("9", 1000)),
		"another drill":                 fresh(`"drill":"`, `"drill":"x`),
		"one id, two answers":           strings.Replace(answer, `"given":"`, `"given":"x`, 1),
		"deep nesting":                  strings.Repeat(`{"kind":`, 7000),
		"CSV without a column":          strings.Replace(asCSV, "voice", "choir", 1),
		"CSV with a short row":          asCSV + "1,2,3\n",
		"CSV, then JSON":                asCSV + answer,
	} {
		got, err := f.Import(strings.NewReader(good+export), anything)
		if strings.HasPrefix(what, "CSV") || strings.Contains(what, "another program") || strings.Contains(what, "not text") || strings.Contains(what, "SQLite") {
			got, err = f.Import(strings.NewReader(export), anything)
		}
		if err == nil {
			t.Errorf("%s: imported, %+v", what, got)
			continue
		}
		if strings.ContainsFunc(err.Error(), progress.Control) || len(err.Error()) > 300 {
			t.Errorf("%s: not one clear line: %q", what, err)
		}
		if after, _ := bothExports(t, f); after != before {
			t.Errorf("%s: the file has changed", what)
		}
	}
	sound(t, f, 3)
}

// What is wrong is named by its line and field, with what would be right, and in no words of the language this is
// written in.
func TestWhyAnImportIsRefused(t *testing.T) {
	f := inMemory(t, evening)
	practised(t, f, 0, 1, 1, 5)
	good, asCSV := bothExports(t, f)
	for _, c := range []struct{ export, says string }{
		{"", "there is nothing in it"},
		{"\ufeff \n\n", "there is nothing in it"},
		{string(pages.Magic) + "\x10\x00\x02\x02\n", "this is a progress file itself, or another database: "},
		{"# Answers\n\nFor ukulele\n", "line 1: this is no export of answers: "},
		{"RIFF\x24\x08\x00\x00WAVEfmt ", "line 1: this is no export of answers: "},
		{strings.Repeat("\x00", 2*exchange.LongestLine), "this is no export of answers: "},
		{strings.Replace(asCSV, "voice", "choir", 1), "line 1: voice is missing; every export has it"},
		{strings.Split(good, "\n")[0] + "\nvoice,day\n", "line 2: this is not a JSON object"},
		{`{"kind":5}`, `line 1: kind is "session", "song" or "answer"`},
		{`{"kind":"answer","took_ms":"5"}`, "line 1: took_ms is a whole number that fits, without quotes"},
		{`{"kind":"answer","took_ms":5.5}`, `line 1: took_ms is a whole number that fits, not "5.5"`},
		{`{"kind":"answer","given":[1]}`, "line 1: given is a text in double quotes"},
		{`{"kind":"answer","seed":17}`, `line 1: seed is a whole number in double quotes, such as "17"`},
		{`{"kind":"answer","seed":"many"}`, `line 1: seed is a whole number that fits, not "many"`},
		{`{"kind":"answer","doubted":1}`, "line 1: doubted is true or false, without quotes"},
	} {
		_, err := f.Import(strings.NewReader(c.export), anything)
		if err == nil || !strings.HasPrefix(err.Error(), c.says) || strings.Contains(err.Error(), "json") {
			t.Errorf("%.60q: %v, want %s", c.export, err, c.says)
		}
	}
	sound(t, f, 1)
}

// Exports from before choices, rungs, lessons, playing and what was offered were kept, as JSON lines and as CSV, are taken in; nothing is known of them.
func TestExportsWithoutChoices(t *testing.T) {
	f := inMemory(t, evening)
	practised(t, f, 0, 1, 20, 5)
	asJSON, asCSV := bothExports(t, f)
	field := regexp.MustCompile(`,"choices":[0-9]+,"rung":[0-9]+`)
	column := regexp.MustCompile(`,(choices,rung,lesson,step,played,offered,chosen,file,whose,doubted|[025],[0-5],,,0,,0,[A-Z0-9]*,,false)\n`)
	if field.FindString(asJSON) == "" || column.FindString(asCSV) == "" {
		t.Fatal("choices are not exported")
	}
	for _, old := range []string{field.ReplaceAllString(asJSON, ""), column.ReplaceAllString(asCSV, "\n")} {
		g := inMemory(t, evening)
		if got, err := g.Import(strings.NewReader(old), anything); err != nil || got.Added != 20 {
			t.Error(got, err)
		}
		sound(t, g, 20)
		if again, _ := bothExports(t, g); field.ReplaceAllString(again, `,"choices":0,"rung":0`) != again {
			t.Error("choices or rungs came from nowhere")
		}
	}
	for choices, says := range map[string]string{"1": "2 to 100 choices", "101": "2 to 100 choices", "-2": "2 to 100 choices", `"2"`: "whole number"} {
		_, err := inMemory(t, evening).Import(strings.NewReader(field.ReplaceAllString(asJSON, `,"choices":`+choices+`,"rung":0`)), anything)
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s choices: %v", choices, err)
		}
	}
}

// A clock that is wrong by some hours, or another time zone, is no reason to lose anything.
func TestAnswersOfTomorrowCanBeImported(t *testing.T) {
	f, g := inMemory(t, evening), inMemory(t, evening.Add(-23*time.Hour))
	practised(t, f, 0, 1, 3, 5)
	export, _ := bothExports(t, f)
	if got, err := g.Import(strings.NewReader(export), anything); err != nil || got.Added != 3 {
		t.Error(got, err)
	}
}

// Answers to what only another version knows are kept, and counted.
func TestWhatMeansNothingIsKept(t *testing.T) {
	f, g := inMemory(t, later), inMemory(t, later)
	practised(t, f, 0, 5, 20, 1)
	export, _ := bothExports(t, f)
	foreign := strings.Count(export, `"item":"d1/`)
	for range 2 {
		got, err := g.Import(strings.NewReader(export), exchange.Taking{Means: func(item string) bool { return !strings.HasPrefix(item, "d1/") }})
		if err != nil || got.Added+got.Known != 100 || got.Foreign != foreign || !strings.HasPrefix(got.Such, "d1/") {
			t.Errorf("%+v, %v, want %d foreign", got, err, foreign)
		}
	}
	if again, _ := bothExports(t, g); again != export {
		t.Error(cmp.Diff(export, again))
	}
}
