package tui

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"sparetone/drills"
	"sparetone/synth"
	"sparetone/theory/fret"
)

// run is the first run, if it is one, and then today's practice and the ways to the rest, until the
// student leaves. Where it was said already what to practise, that comes first.
func (t *plain) run() error {
	if t.New {
		if err := t.welcome(); err != nil && !errors.Is(err, errStopped) {
			return err
		}
	}
	t.say(cautions)
	if t.Named {
		t.say(outlook(t.Practice)...)
		if err := t.practise(); err != nil {
			return err
		}
	}
	for {
		if !t.fresh() {
			if err := t.begin(t.called); err != nil {
				t.say(sentence(err.Error()))
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
	for i, g := range greetings {
		t.say(fmt.Sprintf("%d of %d. %s", i+1, len(greetings), g.title), plainWords(g.about))
		if k := settingByID(g.setting); k != nil {
			if err := t.choose(k); err != nil {
				return err
			}
			continue
		}
		for {
			switch {
			case i == stepSound && t.hears():
				t.sample()
				t.say("You hear the open strings. Type again, louder or softer; an empty line goes on.")
			case i == stepSound:
				t.say("There is no sound here. An empty line goes on.")
			default:
				t.say("An empty line goes on.")
			}
			line, err := t.next()
			if err != nil {
				return err
			}
			if !strings.EqualFold(line, "again") {
				break
			}
		}
	}
	t.Speaker.Stop()
	if err := t.met(); err != nil {
		t.say("Not kept: " + err.Error())
	}
	return t.begin(t.called)
}

// choose lets a setting be chosen, and how much is known be found out. An empty line takes what is set, or what was
// found.
func (t *plain) choose(k *kept) error {
	choices, take := k.choices(), k.get(&t.Settings)
	if k.id == "level" {
		choices = append(choices, findOut)
	}
	for {
		for n, v := range choices {
			t.say(fmt.Sprintf("%d: %s", n+1, v))
		}
		t.say("An empty line takes " + take + ".")
		line, err := t.next()
		if err != nil {
			return err
		}
		if line == "" {
			line = take
		}
		line = choice(choices, line)
		if strings.EqualFold(line, findOut) {
			found, err := t.findOut()
			if err != nil {
				return err
			}
			if found != nil {
				t.say(foundWords(found)...)
				take = levelName(found.Found().Place())
			}
			continue
		}
		if err := t.set(k.id, line); err != nil {
			t.say(sentence(err.Error()))
			continue
		}
		t.say("Set to " + k.get(&t.Settings) + ".")
		return nil
	}
}

// plainWords takes out what is said of keys that lines of text do not have.
func plainWords(s string) string { return strings.Replace(s, "press +", "type louder", 1) }

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
		t.say(sentence(err.Error()))
		return
	}
	f := newFingerboard(on.Tuning, nil)
	t.play(on.Voices[0], drills.Once(synth.Strum, f.notes()))
}

// today says what the day holds, and goes where the student wants.
func (t *plain) today() error {
	t.say(outlook(t.Practice)...)
	if days := practised(&t.Practice); slices.Contains(days, true) {
		t.say(weeksWords(days))
	}
	t.say("An empty line begins. Or type: ear, eye, weak, drills, course, try, settings, help or leave.")
	for {
		line, err := t.next()
		if err != nil {
			return err
		}
		if line == "" {
			return t.practise()
		}
		open := plainWay(line)
		if open == nil {
			t.say(fmt.Sprintf("%q is nothing here. An empty line begins; ear, eye, weak, drills, course, try, settings, help and leave are known.", cut(line)))
			continue
		}
		return open(t)
	}
}

// plainWay is the way from the start that a word leads to, nil if it leads nowhere.
func plainWay(word string) func(t *plain) error {
	return map[string]func(t *plain) error{
		"ear":      func(t *plain) error { return t.start(wayEar) },
		"eye":      func(t *plain) error { return t.start(wayEye) },
		"weak":     (*plain).weak,
		"drills":   (*plain).oneDrill,
		"course":   (*plain).course,
		"try":      (*plain).try,
		"settings": (*plain).change,
	}[strings.ToLower(word)]
}

// start practises in a way. If there is nothing to practise it says why.
func (t *plain) start(w way) error {
	if err := t.begin(w); err != nil {
		t.say(sentence(err.Error()))
		return nil
	}
	t.say(sentence(t.part()))
	return t.practise()
}

// pick lists lines and waits for the number of one, or an empty line to go back; other words are handed
// on. It returns the number from 0, or -1.
func (t *plain) pick(lines []string, does string, other func(word string) (done bool, err error)) (int, error) {
	for i, l := range lines {
		t.say(fmt.Sprintf("%d: %s", i+1, l))
	}
	t.say(does + " An empty line goes back.")
	for {
		line, err := t.next()
		if err != nil {
			return -1, err
		}
		if line == "" {
			return -1, nil
		}
		if n, err := strconv.Atoi(line); err == nil && n >= 1 && n <= len(lines) {
			return n - 1, nil
		}
		if other != nil {
			if done, err := other(line); done || err != nil {
				return -1, err
			}
			continue
		}
		t.say(fmt.Sprintf("%q is not a number from 1 to %d.", cut(line), len(lines)))
	}
}

// oneDrill practises one drill.
func (t *plain) oneDrill() error {
	var titles []string
	for _, d := range drills.All() {
		titles = append(titles, d.About().Title)
	}
	i, err := t.pick(titles, "Type the number of the drill to practise.", nil)
	if i < 0 || err != nil {
		return err
	}
	return t.start(wayOf(drills.All()[i]))
}

// course practises one step of the course.
func (t *plain) course() error {
	var titles []string
	for _, s := range t.Setup.Course {
		titles = append(titles, stepTitle(s))
	}
	i, err := t.pick(titles, "These are the steps of the course, in order. Type the number of one to practise it.", nil)
	if i < 0 || err != nil {
		return err
	}
	return t.start(wayStep(t.Setup.Course[i]))
}

// weak says what is mistaken for what, and practises a pair of it, or all.
func (t *plain) weak() error {
	mixed, err := mixedUp(&t.Practice)
	if err != nil {
		t.say(sentence(err.Error()))
		return nil
	}
	var lines []string
	var ways []way
	for _, m := range mixed {
		for r := range m.items {
			for c := range m.items {
				if m.times(r, c) > 0 {
					lines = append(lines, m.drill.About().Title+". "+m.told(r, c)[0])
					ways = append(ways, m.wayBetween(r, c))
				}
			}
		}
	}
	weak, nothing := t.weakWay()
	does := "Type a number to practise that pair, or all to practise all that is weak."
	switch {
	case len(lines) == 0 && nothing != nil:
		t.say("Nothing was mistaken for anything in the last eight weeks.")
		return nil
	case len(lines) == 0:
		does = "Nothing was mistaken for anything in the last eight weeks, but something is weak. Type all to practise it."
	case nothing != nil:
		does = "Type a number to practise that pair."
	}
	i, err := t.pick(lines, does, func(word string) (bool, error) {
		switch {
		case !strings.EqualFold(word, "all"):
			t.say(does)
			return false, nil
		case nothing != nil:
			t.say(sentence(nothing.Error()))
			return false, nil
		}
		return true, t.start(weak)
	})
	if i < 0 || err != nil {
		return err
	}
	return t.start(ways[i])
}

// change says the settings and changes them.
func (t *plain) change() error {
	for _, k := range settings {
		t.say(fmt.Sprintf("%s: %s. %s", k.id, k.get(&t.Settings), sentence(k.about)))
	}
	t.say("To change one, type its name and what it is to be, such as: capo 2. Its name alone says what it may be. An empty line goes back.")
	for {
		line, err := t.next()
		if err != nil {
			return err
		}
		if line == "" {
			return t.begin(t.called)
		}
		id, value, given := strings.Cut(line, " ")
		k := settingByID(strings.ToLower(id))
		switch {
		case k == nil:
			t.say(fmt.Sprintf("%q is no setting.", cut(id)))
		case !given:
			t.say(fmt.Sprintf("%s is %s. It may be: %s.", k.id, k.get(&t.Settings), strings.Join(k.choices(), "; ")))
		default:
			if err := t.set(k.id, strings.TrimSpace(value)); err != nil {
				t.say(sentence(err.Error()))
				continue
			}
			t.say(fmt.Sprintf("%s is now %s.", k.id, k.get(&t.Settings)))
		}
	}
}

// try says of chords and shapes that are typed what they are, and what one finger moved makes of them.
func (t *plain) try() error {
	on, err := t.Settings.Instrument()
	if err != nil {
		t.say(sentence(err.Error()))
		return nil
	}
	g, v := drills.NewGrip(on, t.Settings.Key), on.Voices[0]
	t.say("Type a chord such as Cadd9, or a fret for each string such as 0003. Then: again, picked, apart; a number, to hear that swap after the plain shape and take it; both, to hear the two once more; back, to undo it; shape, for another shape; name, for another name of this one. An empty line goes back.")
	t.tell(g)
	for {
		line, err := t.next()
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
			t.tell(g)
		case "name":
			g = g.NextName()
			t.tell(g)
		case "shape":
			g = g.NextShape()
			t.tell(g)
			t.play(v, g.Played(synth.Strum))
		default:
			if n, err := strconv.Atoi(word); err == nil && len(word) < 3 {
				switch {
				case len(g.Swaps) == 0:
					t.say("There is no swap from this shape.")
					continue
				case n < 1 || n > len(g.Swaps):
					t.say(fmt.Sprintf("There are swaps 1 to %d.", len(g.Swaps)))
					continue
				}
				g = g.Swapped(n - 1)
				t.tell(g)
				t.play(v, g.Compared(-1))
				continue
			}
			typed, err := g.Read(line)
			if err != nil {
				t.say(sentence(err.Error()))
				continue
			}
			g = typed
			t.tell(g)
			t.play(v, g.Played(synth.Strum))
		}
	}
}

// tell says what is on the bench.
func (t *plain) tell(g drills.Grip) {
	t.say("Frets " + spelled(g.Shape) + ".")
	t.say(g.Told()...)
	t.say(Neck{Voicing: g.Voicing, Named: len(g.Names) > 0}.Words()...)
	for i, s := range g.Swaps {
		to := fmt.Sprintf("to fret %d", s.ToFret)
		if s.ToFret == 0 {
			to = "open"
		}
		t.say(fmt.Sprintf("Swap %d: string %d %s gives %s, %s.", i+1, s.String, to, s.Chord, s.Adds.Role()))
	}
}

// spelled writes frets one by one, so that they are not read as one number.
func spelled(s fret.Shape) string {
	var out []string
	for _, f := range s {
		if f == fret.Muted {
			out = append(out, "muted")
		} else {
			out = append(out, strconv.Itoa(f))
		}
	}
	return strings.Join(out, " ")
}
