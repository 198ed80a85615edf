package tui

import (
	"path/filepath"
	"slices"
	"testing"
	"time"

	"sparetone/drills/catalogue"
	"sparetone/drills/inturn"
	"sparetone/drills/meet"
	"sparetone/drills/practice/session"
	"sparetone/drills/practice/setting"

	tea "charm.land/bubbletea/v2"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/drills/practice"
	"sparetone/progress"
	"sparetone/progress/store"
	"sparetone/theory/say"
	"sparetone/tui/page"
	"sparetone/tui/page/asking"
	"sparetone/tui/page/home"
)

// scene is a screen as it looks at one moment.
type scene struct {
	name string
	set  func(t testing.TB) *app
}

// scenes are all screens there are, some of them at more than one moment.
func scenes() []scene {
	all := []scene{
		{"today", func(t testing.TB) *app { return atFirst(t, true) }},
		{"today-later", func(t testing.TB) *app { return withHistory(t) }},
		{"tuner", func(t testing.TB) *app { return tuning(t) }},
		{"tuner-heard", func(t testing.TB) *app { return tuning(t, -18, 31, 0) }},
		{"tuner-agrees", func(t testing.TB) *app { return tuning(t, -18, -17, -20, -19) }},
		{"help", func(t testing.TB) *app { return keyed(atFirst(t, true), "?") }},
		{"settings", func(t testing.TB) *app { return keyed(atFirst(t, false), "s", "down", "right") }},
		{"settings-found", func(t testing.TB) *app {
			a := atFirst(t, false)
			if err := a.Set("level", "ear=minor-on-its-own,eye=suspended-in-the-shape"); err != nil {
				t.Fatal(err)
			}
			return keyed(keyed(a, "s"), slices.Repeat([]string{"down"}, len(setting.All)-1)...)
		}},
		{"today-soundless", func(t testing.TB) *app { return soundless(atFirst(t, false)) }},
		{"one-drill", func(t testing.TB) *app { return keyed(atFirst(t, true), "d") }},
		{"course", func(t testing.TB) *app { return keyed(withHistory(t), "c") }},
		{"course-chapter", func(t testing.TB) *app { return keyed(withHistory(t), "c", "4") }},
		{"course-part", func(t testing.TB) *app { return keyed(withHistory(t), "c", "4", "9", "down") }},
		{"course-meeting", func(t testing.TB) *app { return keyed(withHistory(t), "c", "4", "9", "down", "enter") }},
		{"course-another-bass", func(t testing.TB) *app { return keyed(metAnotherBass(t, true), "c", "2", "5", "3") }},
		{"settings-checked", func(t testing.TB) *app {
			p, c := practiceOf(t, true)
			a := keyed(newApp(p), "s", "c")
			placedBy(a, c, func(n int) bool { return n != 3 })
			return a
		}},
		{"weak-none", func(t testing.TB) *app { return keyed(atFirst(t, true), "w") }},
		{"weak", func(t testing.TB) *app { return keyed(withHistory(t), "w") }},
		{"bench", func(t testing.TB) *app { return keyed(atFirst(t, false), "v") }},
		{"bench-swap", func(t testing.TB) *app { return keyed(atFirst(t, false), "v", "tab", "tab", "tab", "tab") }},
		{"bench-typing", func(t testing.TB) *app { return keyed(atFirst(t, false), "v", "t", "D", "m") }},
		{"ending", func(t testing.TB) *app {
			a, c := begun(t)
			if err := a.File().GoOnIn(filepath.Join(t.TempDir(), "progress.db")); err != nil {
				t.Fatal(err)
			}
			return sixAnswered(a, c)
		}},
		{"ending-heard", func(t testing.TB) *app { return heardEnding(t) }},
		{"answers", func(t testing.TB) *app { return keyed(heardEnding(t), "a") }},
		{"known", func(t testing.TB) *app { return keyed(withHistory(t), "k") }},
		{"known-nothing", func(t testing.TB) *app { return keyed(atFirst(t, false), "k") }},
		{"ending-unkept", func(t testing.TB) *app { return sixAnswered(begun(t)) }},
		{"saving", func(t testing.TB) *app {
			a := keyed(sixAnswered(begun(t)), "s")
			a.field.SetValue("/home/player/sparetone-2026-05-04.db")
			a.field.CursorEnd()
			return a
		}},
		{"reveal-sounding", func(t testing.TB) *app { // what was answered sounds
			a := revealed(t, "chord-ear", false)
			yours := inturn.Yours(a.place.(*asking.Reveal).Verdict)
			a.Sounding, a.made = &yours[0], nil
			return a
		}},
		{"stopping", func(t testing.TB) *app {
			a, c := begun(t)
			answered(a, c, true)
			return keyed(a, "esc")
		}},
		{"ending-empty", func(t testing.TB) *app { return keyed(atFirst(t, true), "enter", "q") }},
	}
	for _, id := range []string{"interval-ear", "added-ear", "progression-ear"} {
		all = append(all, scene{"meeting-" + id, func(t testing.TB) *app { return keyed(revealed(t, id, false), "m") }})
	}
	all = append(all, scene{"words", func(t testing.TB) *app { return keyed(firstMet(t, "added-ear"), "w") }})
	for _, id := range []string{"chord-ear", "added-ear", "progression-ear", "shape-name"} {
		all = append(all, scene{"new-" + id, func(t testing.TB) *app { return firstMet(t, id) }})
	}
	all = append(all, scene{"sounding", func(t testing.TB) *app {
		a := asked(t, "chord-ear")
		a.levels = func() map[int]float64 { return map[int]float64{1: 0.02, 2: 0.5, 3: 0.1, 4: 0.3} }
		return a
	}})
	for n, g := range []string{"instrument", "hand", "sound", "level", "cautions"} {
		all = append(all, scene{"welcome-" + g, func(t testing.TB) *app {
			p, _ := practiceOf(t, true)
			p.New = true
			a := newApp(p)
			for range n {
				keyed(a, "enter")
			}
			return a
		}})
	}
	all = append(all, scene{"welcome-soundless", func(t testing.TB) *app {
		p, _ := practiceOf(t, false)
		p.New = true
		return keyed(soundless(newApp(p)), "enter", "enter")
	}})
	all = append(all,
		scene{"placement-eye", func(t testing.TB) *app { a, _ := placing(t); return a }},
		scene{"placement-ear", func(t testing.TB) *app {
			a, _ := placing(t)
			p := a.place.(*home.Placement)
			a.Setup.Silent = false
			p.Course.SetSilent(false)
			for p.Asked = p.Course.Next(); len(p.Asked.Sounds) == 0; p.Asked = p.Course.Next() {
			}
			a.made = nil
			*choice(a).Mark = len(p.Asked.Choices) // as it is when a question has come
			return a
		}},
		scene{"placement-found", func(t testing.TB) *app {
			a, c := placing(t)
			placedBy(a, c, func(n int) bool { return n != 3 })
			return a
		}},
		scene{"placement-beginner", func(t testing.TB) *app {
			a, c := placing(t)
			placedBy(a, c, func(n int) bool { return false })
			return a
		}},
	)
	all = append(all,
		scene{"playing-swap", func(t testing.TB) *app { a, _, _ := playsFor(t, "swap"); return a }},
		scene{"playing-tones", func(t testing.TB) *app { a, _, _ := playsFor(t, "shape-tones"); return a }},
		scene{"played-right", func(t testing.TB) *app { return playedAnswer(t, "swap", false) }},
		scene{"played-wrong", func(t testing.TB) *app { return playedAnswer(t, "swap", true) }},
		scene{"played-counts", func(t testing.TB) *app { return keyed(playedAnswer(t, "swap", true), "enter") }},
		scene{"played-gone", func(t testing.TB) *app { return keyed(playedAnswer(t, "swap", true), "enter", "u") }},
	)
	for _, d := range catalogue.All() {
		id := d.About().ID
		all = append(all,
			scene{"question-" + id, func(t testing.TB) *app { return asked(t, id) }},
			scene{"typing-" + id, func(t testing.TB) *app { return keyed(asked(t, id), "t", "m") }},
			scene{"right-" + id, func(t testing.TB) *app { return revealed(t, id, true) }},
			scene{"wrong-" + id, func(t testing.TB) *app { return revealed(t, id, false) }},
		)
	}
	return append(append(all, songScenes()...), lessonScenes()...)
}

// sceneNamed is one of the scenes.
func sceneNamed(t testing.TB, name string) *app {
	t.Helper()
	all := scenes()
	i := slices.IndexFunc(all, func(s scene) bool { return s.name == name })
	if i < 0 {
		t.Fatalf("there is no scene %s", name)
	}
	return all[i].set(t)
}

// atFirst is the program as it opens.
func atFirst(t testing.TB, silent bool) *app {
	p, _ := practiceOf(t, silent)
	return newApp(p)
}

// placing is a first run that finds out by eye what is known, at its first question.
func placing(t testing.TB) (*app, *clock) {
	p, c := practiceOf(t, true)
	p.New = true
	return keyed(newApp(p), "enter", "enter", "enter", "5", "enter"), c
}

// placedBy answers what is asked to find out what is known: right, or that it is not known.
func placedBy(a *app, c *clock, knows func(n int) bool) {
	for n := 0; ; n++ {
		p, ok := a.place.(*home.Placement)
		if !ok {
			return
		}
		c.at = c.at.Add(9 * time.Second)
		key := "0"
		if q := p.Asked; knows(n) {
			key = string(rune('1' + slices.IndexFunc(q.Choices, func(c drills.Choice) bool { return c.ID == q.Expected().ID })))
		}
		keyed(a, key)
	}
}

// metAnotherBass is the opening screen of somebody on a guitar, who has met chords over another note, or not.
func metAnotherBass(t testing.TB, met bool) *app {
	t.Helper()
	p, _ := practiceOf(t, false)
	p.Settings.Tuning = "guitar"
	if err := p.Begin(p.Called); err != nil {
		t.Fatal(err)
	}
	if met {
		if err := p.File().SetSetting(session.MetKey(drills.ItemID("build", meet.AnotherBass, "guitar")), "yes"); err != nil {
			t.Fatal(err)
		}
	}
	return newApp(p)
}

// soundless is the program where no sound device could be opened.
func soundless(a *app) *app {
	a.Deviceless, a.Trouble = true, say.Of("No sound (the sound device does not come back): only questions for the eye.")
	a.made = nil
	return a
}

// begun is a practice by eye that shows its first question.
func begun(t testing.TB) (*app, *clock) {
	p, c := practiceOf(t, true)
	return keyed(newApp(p), "enter"), c
}

// heardEnding is the end of a practice by ear, kept in a file, of somebody who has met added notes.
func heardEnding(t testing.TB) *app {
	t.Helper()
	p, c := practiceOf(t, false)
	way := practice.Way{Course: course.Course{
		{ID: "added", Drill: "added-ear", Asks: []string{"added-ninth", "major-sixth"}},
		{ID: "thirds", Drill: "interval-ear", Asks: []string{"M3", "m3"}},
		{ID: "kinds", Drill: "chord-ear", Asks: []string{"major", "minor"}},
	}}
	if err := p.File().GoOnIn(filepath.Join(t.TempDir(), "progress.db")); err != nil {
		t.Fatal(err)
	}
	if err := p.Begin(way); err != nil {
		t.Fatal(err)
	}
	a := keyed(newApp(p), "enter")
	for n := range 6 {
		answered(a, c, n%3 != 1)
		keyed(a, "enter")
	}
	return keyed(a, "q")
}

// sixAnswered is the end of a practice of six questions, two of them missed.
func sixAnswered(a *app, c *clock) *app {
	for n := range 6 {
		answered(a, c, n%3 != 1)
		keyed(a, "enter")
	}
	return keyed(a, "esc", "q")
}

// keyed presses keys.
func keyed(a *app, names ...string) *app {
	for _, n := range names {
		a.draw()
		a.Update(pressed(n))
	}
	return a
}

// answered answers the question that shows.
func answered(a *app, c *clock, right bool) {
	c.at = c.at.Add(5 * time.Second)
	q, ok := a.place.(*asking.Question)
	if !ok {
		return
	}
	a.apply(a.page().Take(given(q.Asked, right)))
}

// given is a right or a wrong answer to a question, as a person would type it.
func given(q *session.Asked, right bool) string {
	if right {
		return q.Expected().Typed
	}
	for _, c := range q.Choices {
		if c.ID != q.Expected().ID {
			return c.Typed
		}
	}
	return map[drills.Form]string{drills.Tones: "R R R R", drills.Frets: "0 0 0 0", drills.Notes: "C D E"}[q.Form]
}

// firstMet is what a question of a drill shows before it is asked.
func firstMet(t testing.TB, id string) *app {
	t.Helper()
	return keyed(newApp(ofDrill(t, id, setting.Read)), "enter")
}

// asked is a question of a drill, as it looks while nothing sounds.
func asked(t testing.TB, id string) *app {
	t.Helper()
	return keyed(newApp(ofDrill(t, id, atOnce)), "enter")
}

// ofDrill is a practice of one drill.
func ofDrill(t testing.TB, id string, settings func(*store.File) setting.Values) practice.App {
	t.Helper()
	p, _ := practiceOf(t, false)
	file, err := store.InMemory(p.Setup.Now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { file.Close() })
	p.Setup.File, p.Settings = file, settings(file)
	d, _ := catalogue.ByID(id)
	step := course.Step{ID: "all", Drill: id}
	targets := d.Targets(p.Session.On())
	for n := range targets[:min(8, len(targets))] {
		step.Asks = append(step.Asks, targets[(n+3)%len(targets)].ID)
	}
	if err := p.Begin(practice.Way{Course: course.Course{step}}); err != nil {
		t.Fatal(err)
	}
	return p
}

// revealed is what comes of an answer to a question of a drill.
func revealed(t testing.TB, id string, right bool) *app {
	t.Helper()
	a := asked(t, id)
	q := a.place.(*asking.Question)
	text := given(q.Asked, right)
	a.apply(a.page().Take(text))
	r, ok := a.place.(*asking.Reveal)
	if !ok {
		t.Fatalf("%s: %q: %s", id, text, a.note)
	}
	if (r.Verdict.Result == progress.Right) != right {
		t.Fatalf("%s: %q is %v", id, text, r.Verdict.Result)
	}
	return a
}

// withHistory is the opening screen of somebody who has practised for some weeks and mistakes a few
// things for others.
func withHistory(t testing.TB) *app {
	t.Helper()
	p, c := practiceOf(t, false)
	end := c.at
	for day := 27; day >= 0; day-- {
		if day%7 == 3 || day%11 == 5 {
			continue
		}
		at := end.AddDate(0, 0, -day)
		id := progress.NewID()
		if err := p.File().Begin(progress.Session{ID: id, Began: at, Minutes: 10 * time.Minute}); err != nil {
			t.Fatal(err)
		}
		for n, k := range []struct{ item, takenFor string }{
			{"major", ""}, {"minor", ""}, {"dominant", "minor-seventh"}, {"minor-seventh", "dominant"}, {"suspended-fourth", "major"}, {"dominant", ""},
		} {
			a := progress.Answer{Session: id, Item: drills.ItemID("chord-ear", k.item, "ukulele"), Drill: "chord-ear", At: at.Add(time.Duration(n) * 20 * time.Second), Result: progress.Right, Took: 4 * time.Second}
			if k.takenFor != "" && (day+n)%3 != 0 {
				a.Result, a.TakenFor = progress.Wrong, drills.ItemID("chord-ear", k.takenFor, "ukulele")
			}
			if err := p.File().Record(a); err != nil {
				t.Fatal(err)
			}
		}
		if err := p.File().End(id, at.Add(10*time.Minute)); err != nil {
			t.Fatal(err)
		}
	}
	if err := p.Begin(p.Called); err != nil {
		t.Fatal(err)
	}
	return newApp(p)
}

// sized gives the program a window.
func sized(a *app, width, height int) *app {
	a.Update(tea.WindowSizeMsg{Width: width, Height: height})
	return a
}

// choice is the list that shows.
func choice(a *app) page.Choice {
	for _, b := range a.page().Blocks {
		switch b := b.(type) {
		case page.Choice:
			return b
		case page.Field:
			if c, ok := b.WhileClosed[0].(page.Choice); ok {
				return c
			}
		}
	}
	return page.Choice{Mark: new(int)}
}
