package asking

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/played"
	"sparetone/progress"
	"sparetone/tui/page"
)

// kept is what the file has, as it is exported.
func (p playing) kept(t *testing.T) string {
	t.Helper()
	var out bytes.Buffer
	if err := p.File().ExportJSON(&out); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// answers answers what is asked as if that had been heard, up to what came of it.
func (p playing) answers(t *testing.T, typed string) {
	t.Helper()
	p.Apply(playedAnswer(p.Walk, p.At.(*Question), played.Came{Answer: typed}))
	p.Does(t, "go on")
	if _, is := p.At.(*Reveal); !is {
		t.Fatalf("an answer that counts leads to %T", p.At)
	}
}

// offers reports whether an act can be done.
func (p playing) offers(id string) bool {
	return slices.ContainsFunc(p.PageOf(p.At).Acts, func(a page.Act) bool { return a.ID == id })
}

// A played answer that counts can be taken back until the next one is given, from what came of it and from the next question. Nothing is kept
// of it then, and the file is as it was.
func TestAPlayedAnswerIsTakenBackAfterItCounts(t *testing.T) {
	for _, from := range []string{"its own page", "the next question"} {
		for before := range 2 { // answers ahead of it
			p := newPlaying(t, "swap", "ukulele", 4)
			for range before {
				p.answers(t, p.At.(*Question).Asked.Expected().Typed)
				p.Does(t, "go on")
			}
			was, known := p.kept(t), p.known(t)
			q := p.At.(*Question)
			p.answers(t, drills.Unknown)
			if n := strings.Count(p.kept(t), `"played":1`); n != before+1 {
				t.Fatalf("%d are kept as played", n)
			}
			if from == "the next question" {
				p.Does(t, "go on")
			}
			p.Said = nil
			p.Does(t, "take back")
			if got := p.kept(t); got != was {
				t.Errorf("taken back from %s, kept is\n%s\nand before it\n%s", from, got, was)
			}
			if now := p.known(t); now != known {
				t.Errorf("taken back from %s, memory is\n%s\nand before it\n%s", from, now, known)
			}
			if !slices.Equal(p.Said, []string{"Taken back: all that is kept is that you took it back."}) || len(p.Session.Done()) != before || p.Session.TakenBack() != (progress.TakenBack{Counted: 1}) {
				t.Errorf("it says %q, %d answers count, %v were taken back", p.Said, len(p.Session.Done()), p.Session.TakenBack())
			}
			if p.offers("take back") {
				t.Error("it can be taken back twice")
			}
			if from == "its own page" {
				for _, b := range p.PageOf(p.At).Blocks {
					if o, is := b.(page.Outcome); is {
						t.Errorf("it still says %s", o.Text.Screen())
					}
				}
				p.Does(t, "go on")
			}
			next := p.At.(*Question)
			if next.Asked.Item == q.Asked.Item && next.Asked.Seed == q.Asked.Seed {
				t.Error("what was shown with its answer is asked once more")
			}
			if next.Asked.Number != before+2 {
				t.Errorf("the next question has the number %d", next.Asked.Number)
			}
			p.answers(t, next.Asked.Expected().Typed)
			if n := strings.Count(p.kept(t), `"played":1`); n != before+1 {
				t.Errorf("after another answer %d are kept", n)
			}
		}
	}
}

// known is what is derived of the answers.
func (p playing) known(t *testing.T) string {
	t.Helper()
	all, err := p.File().Standings()
	if err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("%+v", all)
}

// What was typed, and what was played before the last answer, stays.
func TestOnlyTheLastPlayedAnswerIsTakenBack(t *testing.T) {
	p := newPlaying(t, "swap", "ukulele", 4)
	if p.offers("take back") {
		t.Error("there is nothing to take back yet")
	}
	p.answers(t, p.At.(*Question).Asked.Expected().Typed)
	p.Does(t, "go on")
	q := p.At.(*Question)
	p.Apply(q.take(p.Walk, q.Asked.Expected().Typed))
	if p.offers("take back") {
		t.Error("what was typed can be taken back")
	}
	if n := strings.Count(p.kept(t), `"played":1`); n != 1 || len(p.Session.Done()) != 2 {
		t.Errorf("%d of %d are kept as played", n, len(p.Session.Done()))
	}
	p.Does(t, "go on")
	p.answers(t, p.At.(*Question).Asked.Expected().Typed)
	if err := p.Session.End(); err != nil {
		t.Fatal(err)
	}
	if p.offers("take back") {
		t.Error("it can be taken back after the practice")
	}
}

// How far the instrument is off as a whole, as the tuner found it, is what answers are listened for at, and is said once.
func TestAnswersFollowAnInstrumentThatIsOff(t *testing.T) {
	p := newPlaying(t, "swap", "ukulele", 4)
	p.SetOff(-20)
	q := p.At.(*Question)
	p.toPlay(q)
	if a4 := q.attempt.Listens().Task.A4; math.Abs(1200*math.Log2(a4/440)+20) > 0.01 {
		t.Errorf("it is listened for at an A4 of %v Hz", a4)
	}
	for n, want := range []bool{true, false} {
		q := p.At.(*Question)
		p.Apply(playedAnswer(p.Walk, q, played.Came{Answer: q.Asked.Expected().Typed}))
		says := slices.ContainsFunc(p.PageOf(p.At).Blocks, func(b page.Block) bool {
			s, is := b.(page.Sentence)
			return is && s.Text.Screen() == "Your instrument is 20 cents low as a whole. It is heard as it is."
		})
		if says != want {
			t.Errorf("at answer %d it is said: %v", n+1, says)
		}
		p.Does(t, "go on")
		p.Does(t, "go on")
	}
}
