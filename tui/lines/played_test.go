package lines

import (
	"strings"
	"testing"
	"time"

	"sparetone/drills/played/student"
	"sparetone/synth/capture"
	"sparetone/tui/page/asking"
)

// An answer is played in lines as well, all in words: what to play, what was heard, and that it can be taken back before it counts.
func TestAnAnswerIsPlayedInLines(t *testing.T) {
	a := newAnswering(t, "swap", "ukulele", 1)
	line := capture.NewLine(student.Rate)
	a.Microphone = capture.NewMicrophone(line)
	t.Cleanup(a.Microphone.Off)
	if said := a.types("listen"); !strings.Contains(said, "The microphone is switched on.") {
		t.Errorf("switched on it says %q", said)
	}
	on := a.Session.On()
	s := student.New(on.Tuning, on.Voices[0], 1)
	hears := func(sound []float64, until func() bool) {
		for began := time.Now(); !until(); time.Sleep(time.Millisecond) {
			if time.Since(began) > 20*time.Second {
				t.Fatalf("it did not come of what was played:\n%s", a.out)
			}
			line.Put(sound)
			sound = s.Silence(0.1)
			next, _ := a.Heard(a.place)
			a.apply(next)
			a.HearAll()
		}
	}
	hears(nil, func() bool { state, _ := a.Microphone.State(); return state == capture.Listening })
	said := a.out.Len()
	if a.hearingChanged(); a.out.String()[said:] != "Listening.\nPlay it: strike all strings once.\n" {
		t.Errorf("once it listens it says %q", a.out.String()[said:])
	}
	plays := func(fault bool) string {
		before := a.out.Len()
		q := a.place.(*asking.Question)
		hears(s.Answers(q.Asked.Question, fault).Plays(nil), func() bool { _, is := a.place.(*asking.Played); return is })
		return a.out.String()[before:]
	}
	wrong := plays(true)
	for _, want := range []string{"I heard ", "Is that what you played?"} {
		if !strings.Contains(wrong, want) {
			t.Errorf("a wrong answer is said without %q:\n%s", want, wrong)
		}
	}
	if said := strings.Join(a.Help(a.place), " "); !strings.Contains(said, "back") {
		t.Errorf("the help does not say how to take it back:\n%s", said)
	}
	if a.types("back"); len(a.Session.Done()) != 0 {
		t.Error("an answer counts that was taken back")
	}
	if said := plays(false); !strings.Contains(said, "That is it.") || a.onward == nil {
		t.Errorf("a right answer does not go on by itself, or says\n%s", said)
	}
	if a.types(""); len(a.Session.Done()) != 1 {
		t.Errorf("%d answers are kept, want 1", len(a.Session.Done()))
	}
	a.types("")
	if said := a.types("stop listening"); !strings.Contains(said, "switched off") {
		t.Errorf("switched off it says %q", said)
	}
	was := a.out.Len()
	if a.hearingChanged(); a.out.Len() != was {
		t.Errorf("while it is off it says %q", a.out.String()[was:])
	}
}
