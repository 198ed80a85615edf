package tui

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/drills/catalogue"
	"sparetone/synth/playback"

	tea "charm.land/bubbletea/v2"
	"github.com/google/go-cmp/cmp"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/progress"
	"sparetone/progress/store"
	"sparetone/tui/page"
)

// The table of deeds agrees with itself: what is asked does not hang on how it is answered, and what an answer is taken
// for follows from its outcome.
func TestDeedRowsAgree(t *testing.T) {
	if *writeDeeds {
		t.Skip("the rows are written anew, after this")
	}
	rows := deedRows(t)
	if len(rows) != len(askings)*len(outcomes) {
		t.Fatalf("%d rows, not %d times %d", len(rows), len(askings), len(outcomes))
	}
	for i, q := range askings {
		p, _ := deedPractice(t, q.drill, q.asks)
		asked, err := p.Session.Next()
		if err != nil {
			t.Fatal(err)
		}
		right := rows[i*len(outcomes)]
		for n, r := range rows[i*len(outcomes):][:len(outcomes)] {
			wrong := func(format string, args ...any) {
				t.Errorf("%s, %s: %s", r.name, r.outcome, fmt.Sprintf(format, args...))
			}
			if r.name != q.name || r.outcome != outcomes[n] {
				t.Fatalf("row %s, %s stands where %s, %s belongs", r.name, r.outcome, q.name, outcomes[n])
			}
			if r.typed == never {
				if r.outcome != "partly" || len(asked.Choices) == 0 {
					wrong("every drill has such answers")
				}
				continue
			}
			if r.item != right.item || r.seed != right.seed || r.question != right.question || r.voice != right.voice || r.choices != right.choices {
				wrong("it is another question than the one that is answered right")
			}
			if r.seed == 0 || !strings.HasPrefix(r.item, q.drill+"/") || !strings.HasSuffix(r.item, "/ukulele") {
				wrong("item %s, seed %d", r.item, r.seed)
			}
			if !strings.HasPrefix(r.question, asked.Prompt.Screen()) || (r.voice == "") != (len(asked.Sounds) == 0) {
				wrong("%q asked with voice %q, and it is %q with %d sounds", r.question, r.voice, asked.Prompt, len(asked.Sounds))
			}
			switch r.outcome {
			case "right":
				if r.result != "right" || r.given != r.expected || r.takenFor != "" {
					wrong("%v", r)
				}
			case "partly":
				if r.result != "partly" || r.given == r.expected || r.takenFor != "" {
					wrong("%v", r)
				}
			case "wrong":
				taken := r.takenFor == "" || strings.HasPrefix(r.takenFor, q.drill+"/") && strings.HasSuffix(r.takenFor, "/ukulele") && r.takenFor != r.item
				if r.result != "wrong" || r.given == r.expected || !taken {
					wrong("%v", r)
				}
			case "not known":
				if r.result != "wrong" || r.given != "I don't know" || r.takenFor != "" {
					wrong("%v", r)
				}
			}
		}
	}
}

// What has no partly right answer among the rows has none at all among its choices.
func TestNeverPartly(t *testing.T) {
	for _, r := range deedRows(t) {
		if r.typed != never {
			continue
		}
		q := askings[slices.IndexFunc(askings, func(q struct{ name, drill, asks string }) bool { return q.name == r.name })]
		p, _ := deedPractice(t, q.drill, q.asks)
		asked, err := p.Session.Next()
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range asked.Choices {
			if v, err := asked.Mark(c.Typed); err != nil || v.Result == progress.Partly {
				t.Errorf("%s: %q is %v, %v", r.name, c.Typed, v.Result, err)
			}
		}
	}
}

// As many choices are kept as are offered in lines, numbered from 1.
func TestChoicesAreThoseOffered(t *testing.T) {
	for _, r := range deedRows(t) {
		if r.outcome != "right" {
			continue
		}
		q := askings[slices.IndexFunc(askings, func(q struct{ name, drill, asks string }) bool { return q.name == r.name })]
		p, _ := deedPractice(t, q.drill, q.asks)
		f := newLinesFace(t, p)
		f.begin()
		f.leaveUnanswered("")
		offered := regexp.MustCompile(`(?m)^\d+: `).FindAllString(f.read.String(), -1)
		if len(offered) != r.choices || r.choices > 0 && offered[r.choices-1] != fmt.Sprintf("%d: ", r.choices) {
			t.Errorf("%s: %d choices are kept, offered are %q", r.name, r.choices, offered)
		}
	}
}

// However a choice is made, by its number, with arrows, with the mouse or in words, the same is kept.
func TestEveryWayToChooseKeepsTheSame(t *testing.T) {
	t.Parallel()
	for _, r := range deedRows(t) {
		if r.choices == 0 || r.outcome != "wrong" {
			continue
		}
		q := askings[slices.IndexFunc(askings, func(q struct{ name, drill, asks string }) bool { return q.name == r.name })]
		number := int(r.typed[0] - '0')
		choice := func(f *screenFace) drills.Choice { return f.asked().Asked.Choices[number-1] }
		ways := map[string]func(f *screenFace){
			"with arrows": func(f *screenFace) { f.press(append(slices.Repeat([]string{"down"}, number), "enter")...) },
			"with arrows from below": func(f *screenFace) {
				f.press(append(slices.Repeat([]string{"up"}, r.choices-number+1), "enter")...)
			},
			"in words": func(f *screenFace) { f.answer(choice(f).Typed) },
			"with the mouse": func(f *screenFace) {
				f.a.draw()
				at := slices.IndexFunc(f.a.shown.spots, func(s spot) bool { return s.means == tea.Msg(chosenMsg{number - 1}) })
				s := f.a.shown.spots[at]
				_, cmd := f.a.Update(tea.MouseClickMsg{X: s.from, Y: s.row, Button: tea.MouseLeft})
				run(f.a, cmd)
			},
		}
		for name, way := range ways {
			p, c := deedPractice(t, q.drill, q.asks)
			f := &screenFace{t: t, a: newApp(p)}
			f.begin()
			asked := f.asked()
			c.pass(toAnswer)
			way(f)
			if f.a.place == page.Place(asked) {
				t.Fatalf("%s %s: %q is no answer: %s", q.name, name, r.typed, f.a.note)
			}
			c.pass(toEnd)
			f.leave()
			compareKept(t, q.name+" "+name, p.File(), r, q.drill, deeds[0])
		}
		// In lines whatever names the choice does.
		p, _ := deedPractice(t, q.drill, q.asks)
		asked, err := p.Session.Next()
		if err != nil {
			t.Fatal(err)
		}
		for _, said := range []string{asked.Choices[number-1].Typed, asked.Choices[number-1].Said.Aloud(), strings.ToUpper(asked.Choices[number-1].Said.Aloud()) + "."} {
			p, c := deedPractice(t, q.drill, q.asks)
			do(t, faces["lines"], p, c, deeds[0], said)
			compareKept(t, fmt.Sprintf("%s in lines, %q", q.name, said), p.File(), r, q.drill, deeds[0])
		}
	}
}

// withoutIDs is what is kept without the ids that are drawn; they have to be there.
func withoutIDs(t *testing.T, file *store.File) []answerKept {
	t.Helper()
	sessions, answers := keptIn(t, file)
	for i, a := range answers {
		if a.ID == "" || len(sessions) != 1 || a.Session != sessions[0].ID || a.Session == "" {
			t.Errorf("answer %d has id %q, session %q of %v", i+1, a.ID, a.Session, sessions)
		}
		answers[i].ID, answers[i].Session, answers[i].File = "", "", ""
	}
	return answers
}

// What was done with one question is not counted with the next one, on either face.
func TestNothingIsCarriedOver(t *testing.T) {
	var kept [][]answerKept
	for _, make := range faces {
		p, c := deedPractice(t, "chord-ear", "major minor dominant")
		f := make(t, p)
		f.begin()
		for range 2 {
			c.pass(toStep)
			f.sound("again")
			f.sound("open")
		}
		f.answer("1")
		c.pass(toEnd)
		f.sound("again") // after the answer it is no part of it
		f.sound("open")
		f.next()
		c.pass(toAnswer)
		f.answer(drills.Unknown)
		f.leave()
		kept = append(kept, withoutIDs(t, p.File()))
	}
	if diff := cmp.Diff(kept[0], kept[1]); diff != "" {
		t.Errorf("the faces keep different answers:\n%s", diff)
	}
	first, second := kept[0][0], kept[0][1]
	if first.TookMS != 2*toStep.Milliseconds() || first.Replays != 2 || first.Hints != 2 {
		t.Errorf("of the first is kept %+v", first)
	}
	if second.TookMS != toAnswer.Milliseconds() || second.Replays != 0 || second.Hints != 0 || second.Seed == first.Seed ||
		second.At != evening.Add(2*toStep+toEnd+toAnswer).Format("2006-01-02T15:04:05.000Z") {
		t.Errorf("of the second is kept %+v", second)
	}
}

// Where the device goes while others can be asked by eye, the question is put aside: nothing is kept of it, and the
// next one, by eye, is timed by itself. When the device has come back ears are asked again.
func TestPutAsideForTheEye(t *testing.T) {
	t.Parallel()
	for _, q := range askings {
		if d, _ := catalogue.ByID(q.drill); !d.About().Ears {
			continue
		}
		var kept [][]answerKept
		for name, make := range faces {
			p, c := deedPractice(t, q.drill, q.asks)
			p.Setup.Course = append(p.Setup.Course, course.Step{ID: "eye", Drill: "doubled", Asks: []string{"root", "third"}, RestsOn: []string{p.Setup.Course[0].ID}})
			if err := p.Plan(false); err != nil {
				t.Fatal(err)
			}
			f := make(t, p)
			f.begin()
			c.pass(toStep)
			f.sound("again")
			f.sound("open")
			f.turn(playback.NoDevice)
			c.pass(toAnswer)
			f.answer(drills.Unknown)
			c.pass(toEnd)
			f.turn(playback.Ready)
			f.next()
			c.pass(toAnswer)
			f.answer(drills.Unknown)
			f.leave()
			answers := withoutIDs(t, p.File())
			kept = append(kept, answers)
			if len(answers) != 2 || answers[0].Drill != "doubled" || answers[0].Voice != "" || answers[1].Drill != q.drill {
				t.Errorf("%s on %s: kept is %+v", q.name, name, answers)
				continue
			}
			for _, a := range answers {
				if a.TookMS != toAnswer.Milliseconds() || a.Replays != 0 || a.Hints != 0 {
					t.Errorf("%s on %s: kept is %+v", q.name, name, a)
				}
			}
		}
		if diff := cmp.Diff(kept[0], kept[1]); diff != "" {
			t.Errorf("%s: the faces keep different answers:\n%s", q.name, diff)
		}
	}
}

// The device goes and comes as often as it likes: as long as the question waits no time of the ten minutes goes either.
func TestWaitingIsNotPractice(t *testing.T) {
	for name, make := range faces {
		p, c := deedPractice(t, "chord-ear", "major minor")
		session := p.Session
		f := make(t, p)
		f.begin()
		for range 3 {
			c.pass(time.Second)
			f.turn(playback.NoDevice)
			c.pass(9 * time.Minute)
			if left := session.Left(); left > 10*time.Minute || left < 10*time.Minute-3*time.Second {
				t.Errorf("%s: %v are left while it waits", name, left)
			}
			f.turn(playback.Opening)
			f.turn(playback.Ready)
		}
		f.answer("1")
		if left := session.Left(); left != 10*time.Minute-3*time.Second {
			t.Errorf("%s: %v are left", name, left)
		}
		f.leave()
		if kept := withoutIDs(t, p.File()); len(kept) != 1 || kept[0].TookMS != 3000 || kept[0].Replays != 0 {
			t.Errorf("%s: kept is %+v", name, kept)
		}
	}
}

// Opened from its root is opened up, where there is a root. Where there is none nothing is played or counted.
func TestOpenedFromTheRoot(t *testing.T) {
	for drill, hints := range map[string]int{"chord-ear": 1, "interval-ear": 0} {
		q := askings[slices.IndexFunc(askings, func(q struct{ name, drill, asks string }) bool { return q.name == drill })]
		rows := deedRows(t)
		row := rows[slices.IndexFunc(rows, func(r deedRow) bool { return r.name == drill })]
		for name, make := range faces {
			p, c := deedPractice(t, q.drill, q.asks)
			do(t, make, p, c, deed{does: []step{plays(toStep, "open root")}}, row.typed)
			compareKept(t, drill+" on "+name, p.File(), row, drill, deed{took: toStep + toAnswer, hints: hints, gone: toStep + toAnswer})
			if n := p.Speaker.(*fakeSpeaker).played(); n != 2+hints { // the last one after the answer
				t.Errorf("%s on %s: %d sounds were played", drill, name, n)
			}
		}
	}
}
