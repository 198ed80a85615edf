package practice

import (
	"path/filepath"
	"strings"
	"time"

	"sparetone/drills/neck"
	"sparetone/drills/practice/session"
	"sparetone/progress/exchange"
	"sparetone/progress/store"
	"sparetone/theory"
	"sparetone/theory/say"
)

// HandingIn returns the first line of what would be handed in: whose it is, the lessons that were taken and how much of each is done, the
// latest first, and the days, minutes and answers of all practice.
func HandingIn(f *store.File, on *neck.Instrument) (exchange.HandedIn, error) {
	of := exchange.HandedIn{Tuning: on.Name()}
	taken, err := session.Lessons(f)
	if err != nil {
		return of, err
	}
	for i := len(taken) - 1; i >= 0; i-- {
		l := taken[i]
		r, err := session.Runs(f, l, on)
		if err != nil {
			return of, err
		}
		line := exchange.HandedLesson{ID: l.ID, Name: l.Name, From: l.From, Taken: l.Taken.Date().Format(time.DateOnly)}
		if l.Due != 0 {
			line.Due = l.Due.Date().Format(time.DateOnly)
		}
		line.Done, line.Things = r.Done()
		of.Lessons = append(of.Lessons, line)
	}
	return f.HandedIn(of)
}

// HandIn writes a file for the teacher. It appears whole or not at all, and never in the place of another.
func HandIn(f *store.File, on *neck.Instrument, path string) (exchange.HandedIn, error) {
	of, err := HandingIn(f, on)
	if err != nil {
		return of, err
	}
	return of, f.HandInAt(path, of)
}

// SaysHandedIn says what is in a file that is handed in, a sentence each.
func SaysHandedIn(of exchange.HandedIn) (lines []say.Text) {
	if of.Whose == "" {
		lines = append(lines, say.Of("No name is in it."))
	} else {
		lines = append(lines, say.Of("The name in it is {}.", say.Foreign(of.Whose)))
	}
	for _, l := range of.Lessons {
		lines = append(lines, say.Of("Lesson {}: {} of {} done, with {} on {}, {}.", say.Foreign(l.Name), say.Number(l.Done), things(l.Things),
			answers(l.Answers), days(l.Days), minutes(l.Minutes)))
	}
	if back := SayTakenBack(of.TakenBack); !back.IsZero() {
		lines = append(lines, back)
	}
	if of.Answers == 0 {
		return append(lines, say.Of("There is no answer yet."))
	}
	since := of.Since
	if at, err := time.Parse(time.DateOnly, of.Since); err == nil {
		since = at.Format("2 January 2006")
	}
	return append(lines, say.Of("All practice since {}: {} on {}, {}. Each answer says what was asked, what you said, when, and how long it took.",
		say.Words(since), answers(of.Answers), days(of.Days), minutes(of.Minutes)))
}

func things(n int) say.Count  { return say.Count{N: n, One: "thing", Many: "things"} }
func answers(n int) say.Count { return say.Count{N: n, One: "answer", Many: "answers"} }
func days(n int) say.Count    { return say.Count{N: n, One: "day", Many: "days"} }
func minutes(m float64) say.Count {
	return say.Count{N: int(m + 0.5), One: "minute", Many: "minutes"}
}

// nameAsked is the setting that says that the student was asked for a name to hand in with.
const nameAsked = "hand-in"

// AsksName reports whether a name is still to be asked for: none is known, and it was never asked.
func (p *App) AsksName() bool {
	whose, err := p.File().Whose()
	if err != nil || whose.Name != "" {
		return false
	}
	_, asked, err := p.File().Setting(nameAsked)
	return err == nil && !asked
}

// KeepName keeps a name that was typed, or that none is to be asked for again.
func (p *App) KeepName(typed string) error {
	if name := strings.TrimSpace(typed); name != "" {
		if err := p.File().SetName(name); err != nil {
			return err
		}
	}
	return p.File().SetSetting(nameAsked, "yes")
}

// HandsIn says what would be handed in, and in which file if no other is named.
func (p *App) HandsIn() (says []say.Text, path string, err error) {
	of, err := HandingIn(p.File(), p.Session.On())
	if err != nil {
		return nil, "", err
	}
	begun := filepath.Join(home(), fileName(of.Whose, "practice")+"-"+p.Setup.Now().Format(time.DateOnly))
	return SaysHandedIn(of), free(begun, ".jsonl"), nil
}

// HandInAt writes a file for the teacher where a person typed, or where it was proposed.
func (p *App) HandInAt(typed, proposed string) (said say.Text, err error) {
	path := strings.TrimSpace(theory.Clean(typed))
	if path == "" {
		path = proposed
	}
	if rest, ok := strings.CutPrefix(path, "~/"); ok {
		path = filepath.Join(home(), rest)
	}
	if path, err = filepath.Abs(path); err != nil {
		return said, err
	}
	if _, err := HandIn(p.File(), p.Session.On(), path); err != nil {
		return said, err
	}
	return say.Of("Written to {}. Give that file to your teacher; nothing was sent.", say.Foreign(path)), nil
}
