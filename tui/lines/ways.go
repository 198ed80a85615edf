package lines

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/theory/say"
	"sparetone/tui/draw"
)

// run is the first run, if it is one, and then today's practice and the ways to the rest, until the
// student leaves. Where it was said already what to practise, that comes first.
func (t *plain) run() error {
	if t.New {
		if err := t.welcome(); err != nil && !errors.Is(err, errStopped) {
			return err
		}
		if err := t.Begin(t.Called); err != nil {
			return err
		}
	}
	if !t.cautioned {
		t.say(practice.Cautions)
	}
	if t.Named {
		t.tell(practice.Outlook(&t.App)...)
		if err := t.practise(); err != nil {
			return err
		}
	}
	for {
		if !t.Fresh() {
			if err := t.Begin(t.Called); err != nil {
				t.wrong(err)
				return errLeft
			}
		}
		if err := t.today(); err != nil && !errors.Is(err, errStopped) {
			return err
		}
	}
}

// welcome is the first run: a few questions, each of which an empty line answers.
func (t *plain) welcome() error {
	t.say("Welcome to sparetone. A few short questions first; stop leaves them for another time.")
	for i := range practice.Greetings {
		if err := t.greet(i); err != nil {
			return err
		}
	}
	t.Speaker.Stop()
	if err := t.Welcomed(); err != nil {
		t.say("Not kept: " + err.Error())
	}
	return nil
}

// greet asks one question of the first run.
func (t *plain) greet(step int) error {
	g := practice.Greetings[step]
	title, about := g.Title, plainWords(g.About)
	if step == practice.StepSound && !t.Hears() {
		title, about = t.withoutSound()
	}
	if !strings.HasSuffix(title, "?") {
		title = practice.Sentence(title)
	}
	t.say(fmt.Sprintf("%d of %d. %s", step+1, len(practice.Greetings), title), about)
	switch {
	case g.Setting != "":
		return t.choose(g, title)
	case step == practice.StepSound && t.Hears():
		return t.hearing()
	case step == practice.StepLast:
		t.cautioned = true
	}
	t.say("An empty line goes on.")
	_, err := t.next(helpGreeting)
	return err
}

// withoutSound says why there is nothing to hear, and what is asked then.
func (t *plain) withoutSound() (title, about string) {
	if t.Setup.Silent {
		return "Sound is off, as you asked.", "Only questions for the eye are asked."
	}
	return "There is no sound here.", "Only questions for the eye are asked until there is."
}

// hearing lets the student say whether the open strings are heard.
func (t *plain) hearing() error {
	t.sample()
	t.say("These are the open strings. Type again, louder or softer; no, if you hear nothing. An empty line goes on.")
	for {
		line, err := t.next(helpSound)
		if err != nil {
			return err
		}
		switch strings.ToLower(line) {
		case "", "yes":
			return nil
		case "again":
			t.sample()
		case "no", "no sound":
			return t.hush()
		default:
			t.say(nothingHere(line) + " " + helpSound)
		}
	}
}

// hush asks by eye only from now on, until the program ends.
func (t *plain) hush() error {
	t.Speaker.Stop()
	t.Setup.Silent = true
	if err := t.Session.SetSilent(true); err != nil {
		t.wrong(err)
	}
	t.say("Then only questions for the eye are asked, until you leave. The next time sound is tried again.")
	return nil
}

// choose lets the setting of a step be chosen, and how much is known be found out. An empty line takes what is set, or what was
// found.
func (t *plain) choose(g practice.Greeting, title string) error {
	k := practice.SettingByID(g.Setting)
	choices, take := g.Choices(), k.Get(&t.Settings)
	for {
		for n, v := range choices {
			t.tell(numbered(n, k.Long(v)))
		}
		t.tell(say.Of("An empty line takes {}.", k.Long(take)))
		line, err := t.next(helpChoice)
		if err != nil {
			return err
		}
		if line == "" {
			line = take
		}
		line = choice(choices, line)
		if g.AsksToFindOut(line) {
			found, err := t.findOut()
			if err != nil {
				return err
			}
			if found != nil {
				t.tell(practice.FoundInWords(found)...)
				take = found.Found().Place().ID()
			}
			t.say(title)
			continue
		}
		if err := t.setTyped(k, line); err != nil {
			t.say(practice.Sentence(err.Error()), title)
			continue
		}
		t.tell(say.Of("Set to {}.", k.Long(k.Get(&t.Settings))))
		return nil
	}
}

// plainWords writes what is said of keys and drawings, which lines of text do not have, as it is here.
func plainWords(s string) string { return ofTheKeys.Replace(s) }

var ofTheKeys = strings.NewReplacer(
	"press +", "type louder",
	"Shapes are drawn for it.", "Shapes are for it.",
	"Left-handed players see necks the other way round.", "It matters only on the full screen, where necks are drawn.",
)

// choice is the choice that was typed by its number or in words.
func choice(choices []string, typed string) string {
	if n, err := strconv.Atoi(typed); err == nil && n >= 1 && n <= len(choices) {
		return choices[n-1]
	}
	return typed
}

// sample plays the open strings as the settings have them.
func (t *plain) sample() {
	on, err := t.Settings.Instrument()
	if err != nil {
		t.wrong(err)
		return
	}
	t.play(on.Voices[0], drills.OpenStrings(on))
}

// today says what the day holds, and goes where the student wants.
func (t *plain) today() error {
	t.tell(practice.Outlook(&t.App)...)
	if days := practice.Practised(&t.App); slices.Contains(days, true) {
		t.tell(practice.DaysInWords(days))
	}
	t.say("An empty line begins. Or type: ear, eye, weak, drills, course, try, settings, help or leave.")
	for {
		line, err := t.next(helpToday)
		if err != nil {
			return err
		}
		if line == "" {
			return t.practise()
		}
		open := plainWay(line)
		if open == nil {
			t.say(nothingHere(line) + " An empty line begins; ear, eye, weak, drills, course, try, settings, help and leave are known.")
			continue
		}
		return open(t)
	}
}

// plainWay is the way from the start that a word leads to, nil if it leads nowhere.
func plainWay(word string) func(t *plain) error {
	return map[string]func(t *plain) error{
		"ear":      func(t *plain) error { return t.start(practice.ByEar) },
		"eye":      func(t *plain) error { return t.start(practice.ByEye) },
		"weak":     (*plain).weak,
		"drills":   (*plain).oneDrill,
		"course":   (*plain).course,
		"try":      (*plain).try,
		"settings": (*plain).change,
	}[strings.ToLower(word)]
}

// start practises in a way. If there is nothing to practise it says why.
func (t *plain) start(w practice.Way) error {
	if err := t.Begin(w); err != nil {
		t.wrong(err)
		return nil
	}
	t.tell(say.Sentence("{}.", t.Part()))
	return t.practise()
}

// try says of chords and shapes that are typed what they are, and what one string moved makes of them.
func (t *plain) try() error {
	on, err := t.Settings.Instrument()
	if err != nil {
		t.wrong(err)
		return nil
	}
	g, v := drills.NewGrip(on, t.Settings.Key), on.Voices[0]
	t.say(helpBench)
	t.tellGrip(g)
	for {
		line, err := t.next(helpBench)
		if err != nil {
			return err
		}
		switch word := strings.ToLower(line); word {
		case "":
			return nil
		case "again":
			t.play(v, g.Played(synth.Strum))
		case "picked":
			t.play(v, g.Played(synth.Pick))
		case "apart":
			t.play(v, g.Played(synth.Apart))
		case "both":
			t.play(v, g.Compared(-1))
		case "back":
			g = g.Back()
			t.tellGrip(g)
		case "name":
			g = g.NextName()
			t.tellGrip(g)
		case "shape":
			g = g.NextShape()
			t.tellGrip(g)
			t.playAlong(v, g.Played(synth.Strum))
		default:
			if n, err := strconv.Atoi(word); err == nil && len(word) < 3 {
				switch {
				case len(g.Swaps) == 0:
					t.say("There is no swap from this shape.")
					continue
				case n != 1 && len(g.Swaps) == 1:
					t.say("There is one swap: 1.")
					continue
				case n < 1 || n > len(g.Swaps):
					t.say(fmt.Sprintf("There are swaps 1 to %d.", len(g.Swaps)))
					continue
				}
				g = g.Swapped(n - 1)
				t.tellGrip(g)
				t.playAlong(v, g.Compared(-1))
				continue
			}
			typed, err := g.Read(line)
			if err != nil {
				t.refuse(line, err)
				continue
			}
			g = typed
			t.tellGrip(g)
			t.playAlong(v, g.Played(synth.Strum))
		}
	}
}

// tellGrip says what is on the bench.
func (t *plain) tellGrip(g drills.Grip) {
	t.tell(say.Of("Frets {}.", say.Shape(g.Shape)))
	t.tell(g.Told()...)
	t.tell(draw.Neck{Voicing: g.Voicing, Named: len(g.Names) > 0}.Words()...)
	for i, s := range g.Swaps {
		t.tell(say.Of("Swap {}: the {} gives {}, {}.", say.Number(i+1), say.Move(g.Tuning, s), say.Chord(s.Chord), g.SwapAdds(i)))
	}
}
