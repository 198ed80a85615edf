package tui

import (
	"strings"
	"testing"
	"time"

	"sparetone/drills/played/student"
	"sparetone/synth/capture"
	"sparetone/theory/say"
	"sparetone/tui/page/asking"
)

// playsFor is a question of a drill, and who plays for it before a microphone that listens.
func playsFor(t testing.TB, drill string) (*app, *capture.Line, *student.Student) {
	t.Helper()
	p := ofDrill(t, drill, atOnce)
	line := capture.NewLine(student.Rate)
	p.Microphone = capture.NewMicrophone(line)
	t.Cleanup(p.Microphone.Off)
	a := keyed(newApp(p), "enter", "ctrl+l")
	on := p.Session.On()
	s := student.New(on.Tuning, on.Voices[0], 1)
	hears(t, a, line, s.Silence(0.1), func() bool { state, _ := p.Microphone.State(); return state == capture.Listening })
	a.said = say.Text{}
	return a, line, s
}

// hears lets the microphone hear something, and goes on until it has come of it what is waited for.
func hears(t testing.TB, a *app, line *capture.Line, sound []float64, until func() bool) {
	t.Helper()
	line.Put(sound)
	room := student.New(a.Session.On().Tuning, a.Session.On().Voices[0], 2).Silence(0.1)
	for began := time.Now(); !until(); {
		if time.Since(began) > 20*time.Second {
			t.Fatalf("it did not come of what was played\n%s", plainText(drawn(a)))
		}
		a.Update(heardMsg{})
		a.HearAll()
		line.Put(room)
		time.Sleep(time.Millisecond)
	}
}

// playedAnswer is an answer to a question that was heard.
func playedAnswer(t testing.TB, drill string, fault bool) *app {
	t.Helper()
	a, line, s := playsFor(t, drill)
	q := a.place.(*asking.Question)
	hears(t, a, line, s.Answers(q.Asked.Question, fault).Plays(nil), func() bool { _, is := a.place.(*asking.Played); return is })
	return a
}

// What is heard becomes an answer on the screen, which a key takes back, or which counts.
func TestAnAnswerIsPlayedOnTheScreen(t *testing.T) {
	a := playedAnswer(t, "swap", false)
	if text := plainText(drawn(a)); !strings.Contains(text, "I heard") || !strings.Contains(text, "That is it.") || !strings.Contains(text, "⌫ take back") {
		t.Errorf("a right answer shows\n%s", text)
	}
	if a.page().GoesOn == nil {
		t.Error("a right answer does not count by itself")
	}
	a.goesOn(onwardMsg{a.place})
	if _, counted := a.place.(*asking.Reveal); !counted || len(a.Session.Done()) != 1 {
		t.Errorf("it leads to %T, with %d answers", a.place, len(a.Session.Done()))
	}

	a = playedAnswer(t, "swap", false)
	p := a.place
	keyed(a, "backspace")
	if a.goesOn(onwardMsg{p}); len(a.Session.Done()) != 0 {
		t.Error("an answer counts that was taken back")
	}
	if _, back := a.place.(*asking.Question); !back {
		t.Errorf("taken back it leads to %T", a.place)
	}

	a = playedAnswer(t, "swap", true)
	if text := plainText(drawn(a)); !strings.Contains(text, "Is that what you played?") || a.page().GoesOn != nil {
		t.Errorf("a wrong answer goes on by itself, or shows\n%s", text)
	}
	if len(a.Session.Done()) != 0 {
		t.Error("a wrong answer counts before anybody said so")
	}
	keyed(a, "enter")
	if done := a.Session.Done(); len(done) != 1 {
		t.Errorf("%d answers after it was said that it counts", len(done))
	}
}
