package tui

import (
	"fmt"
	"slices"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"sparetone/drills/course"
	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/theory/fret"
)

// welcome is the first run: a few questions, each of which enter answers.
type welcome struct {
	menu
	at     int
	values []string          // what the lines of the menu set
	found  *course.Placement // how much is known, if it was found out
}

func newWelcome(a *app) screen {
	w := &welcome{}
	w.fill(a)
	return w
}

// fill lists what there is to choose from at this step, with what is set marked.
func (w *welcome) fill(a *app) {
	a.top()
	w.menu = menu{}
	k := practice.SettingByID(practice.Greetings[w.at].Setting)
	if k == nil {
		return
	}
	w.values = practice.Greetings[w.at].Choices()
	for _, v := range w.values {
		w.lines = append(w.lines, line{text: k.Short(v).Screen()})
	}
	if w.at == practice.StepLevel {
		if name := w.foundLevel(); name != "" && !slices.Contains(w.values, name) {
			w.values = slices.Insert(w.values, 0, name)
			w.lines = slices.Insert(w.lines, 0, line{text: "begin there"})
		}
	}
	w.lines = digits(w.lines)
	w.menu.at = max(0, slices.Index(w.values, k.Get(&a.Settings)))
}

// foundLevel is the level that was found, empty if none was looked for.
func (w *welcome) foundLevel() string {
	if w.found == nil {
		return ""
	}
	return w.found.Found().Place().ID()
}

// take takes up what a placement found, marked to be accepted.
func (w *welcome) take(a *app, found *course.Placement) {
	w.found = found
	w.fill(a)
	w.menu.at = slices.Index(w.values, w.foundLevel())
}

func (w *welcome) keys(a *app) []key.Binding {
	var leave []key.Binding
	if w.at > 0 {
		leave = append(leave, keyReturn)
	}
	leave = append(leave, named(keyQuit, "ctrl+c", "leave"))
	out := []key.Binding{keyGoOn}
	switch w.at {
	case practice.StepSound:
		switch {
		case a.Setup.Silent:
		case a.Deviceless:
			out = append(out, labelled(keyHear, "try again"))
		default:
			out = append(out, keyHear, keyLouder, keySofter)
		}
	case practice.StepLast:
		out[0] = labelled(keyGoOn, "to today's practice")
	default:
		return w.menu.keys("go on", leave...)
	}
	return append(out, leave...)
}

func (w *welcome) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	press, isKey := msg.(tea.KeyPressMsg)
	switch {
	case isKey && w.at > 0 && key.Matches(press, keyReturn):
		w.at--
		w.fill(a)
	case isKey && w.at == practice.StepSound && key.Matches(press, keyHear):
		return w, a.sample()
	case practice.Greetings[w.at].Setting == "":
		if isKey && key.Matches(press, keyGoOn) {
			return w.goOn(a)
		}
	default:
		i, ok := w.menu.update(msg)
		if ok && w.values[i] == practice.FindOut {
			return newPlacement(a, w)
		}
		if ok {
			if err := a.Set(practice.Greetings[w.at].Setting, w.values[i]); err != nil {
				a.said = practice.Sentence(err.Error())
			}
			return w.goOn(a)
		}
	}
	return w, nil
}

// goOn takes the next step; after the last one comes the opening screen.
func (w *welcome) goOn(a *app) (screen, tea.Cmd) {
	a.hush()
	if w.at == practice.StepLast {
		if err := a.Welcomed(); err != nil {
			a.said = "Not kept: " + err.Error()
		}
		if err := a.Begin(a.Called); err != nil {
			a.said = practice.Sentence(err.Error())
		}
		return &today{}, nil
	}
	w.at++
	w.fill(a)
	if w.at == practice.StepSound {
		return w, a.sample()
	}
	return w, nil
}

func (w *welcome) view(a *app, b *body) {
	g := practice.Greetings[w.at]
	if w.at == 0 {
		b.say(a.theme.Strong, "Welcome to sparetone")
		b.say(a.theme.Quiet, "Five short steps; enter accepts what is marked.")
		b.gap()
	} else {
		b.say(a.theme.Quiet, fmt.Sprintf("%d of %d", w.at+1, len(practice.Greetings)))
	}
	if w.at == practice.StepLevel && w.found != nil {
		b.say(a.theme.Strong, "What was found")
		for _, l := range practice.FoundInWords(w.found) {
			b.say(a.theme.Text, l.Screen())
		}
	} else {
		b.say(a.theme.Strong, g.Title)
		b.say(a.theme.Quiet, w.about(a))
	}
	b.gap()
	if g.Setting == "tuning" {
		w.describe(b.col)
	}
	w.menu.view(a, b)
	if w.at == practice.StepLevel && w.values[w.menu.at] == w.foundLevel() {
		b.keep(-1) // what was found is read first; the mark need not be in sight
	}
	if w.at == practice.StepSound {
		b.say(a.theme.Text, soundWords(a))
	}
}

// describe says of every tuning what it is, or where that has no room what its strings are.
func (w *welcome) describe(col int) {
	tunings := fret.Tunings()
	for i := range w.lines {
		w.lines[i].quiet = tunings[i].Title
	}
	if _, _, _, all := w.menu.widths(); all <= col {
		return
	}
	for i := range w.lines {
		var names []string
		for n := len(tunings[i].Strings); n > 0; n-- {
			names = append(names, tunings[i].StringName(n))
		}
		w.lines[i].quiet = strings.Join(names, " ")
	}
}

// about is what is said of a step.
func (w *welcome) about(a *app) string {
	switch {
	case w.at == practice.StepSound && a.Setup.Silent:
		return "Sound is off, as you asked: practice is by eye only."
	case w.at == practice.StepSound && a.Deviceless:
		return "There is no sound here. Practice is by eye until there is; space tries again."
	}
	return practice.Greetings[w.at].About
}

// soundWords says how loud it is, where there is something to hear.
func soundWords(a *app) string {
	switch state, _ := a.Speaker.State(); {
	case a.Setup.Silent || a.Deviceless:
		return ""
	case state == synth.Opening:
		return "The sound device is opening."
	}
	return fmt.Sprintf("Open strings, at volume %.0f of 10.", 10*a.Speaker.Volume())
}
