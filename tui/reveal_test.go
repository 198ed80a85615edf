package tui

import (
	"fmt"
	"os"
	"os/signal"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"sparetone/drills/catalogue"
	"sparetone/drills/inturn"
	"sparetone/drills/meet"
	"sparetone/drills/practice/session"
	"sparetone/synth/playback"

	tea "charm.land/bubbletea/v2"

	"sparetone/drills"
	"sparetone/progress"
	"sparetone/tui/page"
	"sparetone/tui/page/asking"
)

// soundingSpeaker is a speaker whose sounds go on until it is stopped.
type soundingSpeaker struct{ fakeSpeaker }

func (s *soundingSpeaker) Playing() bool { return s.played() > 0 }

// revealing is an answer to a question of a drill whose sounds take time, with what is to be played.
func revealing(t *testing.T, id string, right bool) (a *app, sounds []drills.Sound) {
	t.Helper()
	a = asked(t, id)
	a.Speaker = &soundingSpeaker{}
	next := a.page().Take(given(a.place.(*asking.Question).Asked, right))
	a.apply(next)
	return sized(a, 120, 50), next.Sounds
}

// names lists what sounds are called.
func names(sounds []drills.Sound) (out []string) {
	for _, s := range sounds {
		out = append(out, s.Label.Screen())
	}
	return out
}

// After a right answer what was asked sounds once more, and after a mistake what was right and what was answered, in turn, each by its
// name; no sound is nameless.
func TestRevealsSound(t *testing.T) {
	for _, d := range catalogue.All() {
		id := d.About().ID
		a, sounds := revealing(t, id, true)
		r := a.place.(*asking.Reveal)
		if len(sounds) == 0 || len(sounds) != len(r.Verdict.Asked) || slices.Contains(names(sounds), "") {
			t.Errorf("%s, right: %q sounds, asked was %d", id, names(sounds), len(r.Verdict.Asked))
		}
		a, sounds = revealing(t, id, false)
		r = a.place.(*asking.Reveal)
		each := len(r.Verdict.Contrast.Right) + len(r.Verdict.Contrast.Given)
		if each == 0 || len(sounds)%each != 0 || len(sounds) > 2*each || slices.Contains(names(sounds), "") {
			t.Errorf("%s, wrong: %q sound, %d are set against each other", id, names(sounds), each)
		}
		for i, s := range sounds {
			if yours := i%each >= len(r.Verdict.Contrast.Right); strings.HasPrefix(s.Label.Screen(), "your answer: ") != yours {
				t.Errorf("%s: sound %d is called %q", id, i+1, s.Label)
			}
		}
		if long := inturn.Lasts(sounds); long > 30*time.Second || len(sounds) > each && long > 9*time.Second {
			t.Errorf("%s: it sounds for %v", id, long)
		}
	}
}

// Each sound is named while it sounds, and no other; when all have ended none is. What was begun before says nothing any more.
func TestEachSoundIsNamedWhileItSounds(t *testing.T) {
	for _, id := range []string{"chord-ear", "spell", "doubled", "progression-ear", "resolve", "same-or-not", "interval-ear"} {
		a, sounds := revealing(t, id, false)
		for i := range sounds {
			a.part(partMsg{a.calls, sounds, i})
			text, marks := plainText(drawn(a)), 0
			for _, l := range strings.Split(text, "\n") {
				marks += strings.Count(l, "♪")
			}
			_, named, _ := strings.Cut(text, "♪ ")
			name := strings.TrimPrefix(sounds[i].Label.Screen(), "your answer: ")
			if named = strings.TrimPrefix(strings.TrimPrefix(named, "Your answer: "), "your answer: "); marks != 1 || !strings.HasPrefix(named, name) {
				t.Errorf("%s: while %q sounds it shows %d notes:\n%s", id, sounds[i].Label, marks, text)
			}
		}
		if a.part(partMsg{a.calls, sounds, len(sounds)}); a.Sounding != nil || strings.Contains(plainText(drawn(a)), "♪") {
			t.Errorf("%s: when all have ended %v sounds", id, a.Sounding)
		}
		if a.part(partMsg{a.calls - 1, sounds, 0}); a.Sounding != nil {
			t.Errorf("%s: what was played before is named", id)
		}
		soundless(a)
		if a.part(partMsg{a.calls, sounds, 0}); a.Sounding != nil {
			t.Errorf("%s: without a sound device %q is named as if it sounded", id, sounds[0].Label)
		}
	}
}

// What sounds after an answer is neither a replay nor a hint, whatever key plays it, and no key but enter leads on.
func TestNothingHeardAfterAnAnswerCounts(t *testing.T) {
	for _, right := range []bool{true, false} {
		a, _ := revealing(t, "chord-ear", right)
		r := a.place.(*asking.Reveal)
		before := *r.Asked
		for _, key := range []string{"space", "b", "tab", "s", "o", "r", "tab", "y", "y"} {
			if keyed(a, key); a.place != page.Place(r) {
				t.Fatalf("%s leads to %T", key, a.place)
			}
		}
		if r.Asked.Replays != before.Replays || r.Asked.Hints != before.Hints {
			t.Errorf("%d replays and %d hints are counted", r.Asked.Replays, r.Asked.Hints)
		}
	}
}

// Why tells the whole explanation on the screen, and takes it away again.
func TestWhyOnTheScreen(t *testing.T) {
	a, _ := revealing(t, "shape-name", false)
	r := a.place.(*asking.Reveal)
	short := plainText(drawn(a))
	whole := strings.Join(strings.Fields(plainText(drawn(keyed(a, "y")))), " ")
	for _, l := range append(r.Verdict.Lines, session.WhyText(r.Asked)) {
		if !strings.Contains(whole, l.Screen()) {
			t.Errorf("%q is not told in\n%s", l, whole)
		}
	}
	if after := plainText(drawn(keyed(a, "y"))); after != short {
		t.Errorf("y twice shows\n%s", after)
	}
}

// Without a device nothing sounds and nothing to hear is offered.
func TestRevealWithoutADevice(t *testing.T) {
	a := asked(t, "shape-name")
	a.Speaker.(*fakeSpeaker).turn(playback.NoDevice, "none opens")
	a.soundChanged()
	next := a.page().Take(given(a.place.(*asking.Question).Asked, false))
	if a.apply(next); len(next.Sounds) > 0 {
		t.Errorf("%q are to sound", names(next.Sounds))
	}
	for _, act := range a.page().Acts {
		if act.Off.IsZero() && slices.Contains([]string{"again", "both", "open", "slower", "root"}, act.ID) {
			t.Errorf("%s is offered", act.ID)
		}
	}
	keyed(a, "space", "b", "tab", "o", "s", "r")
	if n := a.Speaker.(*fakeSpeaker).played(); n > 0 {
		t.Errorf("%d sounds are played", n)
	}
}

// Where the student wishes a right answer goes on by itself, once it has sounded: one key a question. A key stops it, a wrong answer
// waits, and so does whoever did not ask for it.
func TestGoesOnByItself(t *testing.T) {
	begin := func(onward, right bool) (*app, page.Place, tea.Cmd) {
		a := asked(t, "chord-ear")
		a.Settings.Onward = onward
		next := a.page().Take(given(a.place.(*asking.Question).Asked, right))
		a.apply(next)
		return a, a.place, a.onward(next)
	}
	a, at, waits := begin(true, true)
	if waits == nil || !strings.Contains(plainText(drawn(a)), "It goes on by itself") {
		t.Fatalf("it does not go on by itself:\n%s", plainText(drawn(a)))
	}
	if a.Update(onwardMsg{at}); a.place == at {
		t.Error("it does not go on when it is time")
	}
	if _, asks := a.place.(*asking.Question); !asks {
		t.Errorf("it goes on to %T", a.place)
	}
	if a.Update(onwardMsg{at}); a.place.(*asking.Question).Asked.Number != 2 {
		t.Error("it goes on twice")
	}
	a, at, _ = begin(true, true)
	keyed(a, "space")
	if a.Update(onwardMsg{at}); a.place != at || strings.Contains(plainText(drawn(a)), "goes on by itself") {
		t.Error("a key does not stop it")
	}
	for _, row := range [][2]bool{{true, false}, {false, true}} {
		a, at, waits := begin(row[0], row[1])
		if a.Update(onwardMsg{at}); waits != nil || a.place != at {
			t.Errorf("wished %v, right %v: it goes on by itself", row[0], row[1])
		}
	}
	if right := at.(*asking.Reveal).Verdict.Result; right != progress.Right {
		t.Fatal(right)
	}
}

// In lines it says so, and goes on; a word makes it wait.
func TestPlainGoesOnByItself(t *testing.T) {
	_, stop := signal.NotifyContext(t.Context(), os.Interrupt) // what watches for signals begins outside the bubble
	stop()
	synctest.Test(t, func(t *testing.T) {
		p, _ := deedPractice(t, "shape-name", "major minor")
		p.Settings.Onward = true
		q, err := p.Session.Next()
		if err != nil {
			t.Fatal(err)
		}
		right := q.Expected().Typed
		p, _ = deedPractice(t, "shape-name", "major minor")
		p.Settings.Onward = true
		f := newLinesFace(t, p)
		f.begin()
		fmt.Fprintln(f.typed, right)
		for range 600 {
			if strings.Contains(f.read.String(), "Question 2.") {
				break
			}
			time.Sleep(50 * time.Millisecond)
		}
		says(t, f.read.String(), "Right: ", "It goes on by itself", "Question 2.")
		f.leaveUnanswered("")

		p, _ = deedPractice(t, "shape-name", "major minor")
		p.Settings.Onward = true
		f = newLinesFace(t, p)
		f.begin()
		f.line(right)               // and help, a word
		time.Sleep(9 * time.Second) // longer than it takes to read it aloud, and to hear it
		if strings.Contains(f.read.String(), "Question 2.") {
			t.Error("a word does not make it wait")
		}
		f.leaveUnanswered("")
	})
}

// twoNotesWrong is a wrong answer to a question about two notes, with what is to be played.
func twoNotesWrong(t *testing.T, target string, seed uint64) (a *app, sounds []drills.Sound) {
	t.Helper()
	a = asked(t, "same-or-not")
	a.Speaker = &soundingSpeaker{}
	d, _ := catalogue.ByID("same-or-not")
	q, err := d.Ask(drills.Request{Target: target, On: a.Session.On(), Clarity: drills.Clearest, Rand: drills.QuestionRand("same-or-not", target, seed)})
	if err != nil {
		t.Fatal(err)
	}
	wrong := slices.IndexFunc(q.Choices, func(c drills.Choice) bool { return c.ID != q.Expected().ID })
	v, err := q.Mark(q.Choices[wrong].Typed)
	if err != nil {
		t.Fatal(err)
	}
	of := *a.place.(*asking.Question).Asked
	of.Question, of.Target = q, target
	a.place = &asking.Reveal{Asked: &of, Verdict: v}
	return sized(a, 120, 50), inturn.Contrast(v)
}

// Of two notes that are set against each other on one neck the one name that shows is that of what sounds, and which is first is written
// under the strings as it is heard now, and while nothing sounds as it was asked.
func TestTwoNotesAreSeenAsTheyAreHeard(t *testing.T) {
	under := func(order []int) string {
		if order[0] == order[1] {
			return "both"
		}
		if order[0] > order[1] {
			return "1st 2nd"
		}
		return "2nd 1st"
	}
	shows := func(a *app) (named, order []string) {
		for _, l := range strings.Split(plainText(drawn(a)), "\n") {
			if _, name, ok := strings.Cut(l, "♪ "); ok {
				named = append(named, strings.TrimSpace(name))
			}
			if at := strings.Join(strings.Fields(l), " "); at == "both" || strings.Contains(at, "1st") {
				order = append(order, at)
			}
		}
		return named, order
	}
	for _, target := range []string{"higher-note", "same-note"} {
		for seed := range uint64(6) {
			a, sounds := twoNotesWrong(t, target, seed)
			if _, order := shows(a); len(order) != 1 || order[0] != under(sounds[0].InTurn()) {
				t.Errorf("%s: asked were strings %v, it shows %q", target, sounds[0].InTurn(), order)
			}
			for i, s := range sounds {
				a.part(partMsg{a.calls, sounds, i})
				named, order := shows(a)
				if len(named) != 1 || named[0] != s.Label.Screen() {
					t.Errorf("%s: while %q sounds %q is named", target, s.Label, named)
				}
				onNeck := a.place.(*asking.Reveal).Verdict.ShapeOf(s) >= 0
				if want := under(s.InTurn()); onNeck && (len(order) != 1 || order[0] != want) {
					t.Errorf("%s: while %q sounds it shows %q, want %q", target, s.Label, order, want)
				}
			}
		}
	}
}

// After a right answer, too, it is written which of two notes is first, and of a row of chords the one that sounds shows where there is
// room for one.
func TestWhatWasRightIsSeenAsItSounds(t *testing.T) {
	a, sounds := revealing(t, "interval-ear", true)
	if text := plainText(drawn(a)); sounds[0].InTurn() == nil || !strings.Contains(text, "1st") {
		t.Errorf("of notes on strings %v:\n%s", sounds[0].InTurn(), text)
	}
	a, sounds = revealing(t, "progression-ear", true)
	sized(a, 40, 40)
	for i, s := range sounds {
		if a.part(partMsg{a.calls, sounds, i}); !strings.Contains(plainText(drawn(a)), "♪ "+s.Label.Screen()) {
			t.Errorf("while %q sounds:\n%s", s.Label, plainText(drawn(a)))
		}
	}
}

// A meeting names what sounds once, above its shape, which is the one that shows where there is room for one.
func TestAMeetingNamesOnceWhatSounds(t *testing.T) {
	for _, size := range [][2]int{{120, 50}, {44, 30}} {
		a := asked(t, "same-or-not")
		a.Speaker = &soundingSpeaker{}
		d, _ := catalogue.ByID("same-or-not")
		met, err := meet.New(d, "same-note", a.Session.On())
		if err != nil {
			t.Fatal(err)
		}
		m := &asking.Meeting{Meeting: met, New: true}
		a.place = m
		sized(a, size[0], size[1])
		for _, l := range m.Looks() {
			a.part(partMsg{a.calls, l.Sounds, 0})
			if text := plainText(drawn(a)); strings.Count(text, "♪") != 1 || !strings.Contains(text, "♪ "+l.Name.Screen()) {
				t.Errorf("at %v, while %q sounds:\n%s", size, l.Name, text)
			}
		}
	}
}
