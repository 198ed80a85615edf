package asking

import (
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/played"
	"sparetone/drills/played/student"
	"sparetone/progress"
	"sparetone/theory/say"
	"sparetone/tui/page"
	"sparetone/tui/page/player"
)

// playing is a player at questions of one drill.
type playing struct{ *player.Player }

func newPlaying(t *testing.T, drill, tuning string, seed uint64) playing {
	t.Helper()
	p := playing{player.New(t, drill, tuning, seed)}
	p.Apply(Begin(p.Walk, nil))
	return p
}

// plays plays an answer to the question that is asked, for as long as it is asked in turn, at the most so many times.
func (p playing) plays(a student.Answer, most int) {
	q := p.At.(*Question)
	for range most {
		if p.At != q {
			return
		}
		p.PageOf(p.At)
		var order []int
		if task := q.attempt.Listens().Task; task != nil {
			order = task.Order
		}
		p.Hears(a.Plays(order))
	}
}

// Ten questions of each drill are played, right ones and ones with a fault: all are recorded as they were played, and none that was played
// right as a miss.
func TestTenQuestionsArePlayed(t *testing.T) {
	for _, c := range []struct{ drill, tuning string }{
		{"build", "ukulele"}, {"swap", "ukulele"}, {"shape-tones", "ukulele"}, {"interval-ear", "ukulele"}, {"spell", "ukulele"}, {"build", "guitar"},
	} {
		p := newPlaying(t, c.drill, c.tuning, 3)
		var want []bool
		for n := 0; len(want) < 10; n++ {
			q := p.At.(*Question)
			if len(p.toPlay(q)) == 0 {
				t.Fatalf("%s cannot be played", q.Asked.Prompt.Screen())
			}
			a := p.Student.Answers(q.Asked.Question, n%3 == 2)
			p.Said = nil
			p.plays(a, 4)
			heard, is := p.At.(*Played)
			if !is {
				t.Errorf("%s on %s: %s %s is not heard: %q", c.drill, c.tuning, q.Asked.Prompt.Screen(), a.Typed, p.Said)
				break
			}
			if heard.came.Right != a.Right || a.Typed != "" && heard.came.Answer != a.Typed {
				t.Errorf("%s on %s: %s: %q is heard as %q, right %v: %q", c.drill, c.tuning, q.Asked.Prompt.Screen(), a.Typed, heard.came.Answer, heard.came.Right, p.Said)
			}
			p.Does(t, "go on")
			if _, is := p.At.(*Reveal); !is {
				t.Fatalf("%s: an answer that counts leads to %T", c.drill, p.At)
			}
			want = append(want, a.Right)
			p.Does(t, "go on")
		}
		if n := strings.Count(p.kept(t), `"played":1`); n != 10 {
			t.Errorf("%s on %s: %d are kept as played", c.drill, c.tuning, n)
		}
		got := []bool{}
		for _, a := range p.Session.Done() {
			got = append(got, a.Result == progress.Right)
		}
		if len(want) != 10 || len(got) < 10 {
			t.Errorf("%s on %s: %d played, %d recorded", c.drill, c.tuning, len(want), len(got))
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s on %s: recorded as right: %v; played right: %v", c.drill, c.tuning, got, want)
		}
	}
}

func (p playing) toPlay(q *Question) []page.Block { return q.askToPlay(p.Walk) }

// What was just shown is played, and nothing of it is kept.
func TestWhatWasShownIsPlayed(t *testing.T) {
	p := newPlaying(t, "build", "ukulele", 1)
	q := p.At.(*Question)
	m, err := p.Session.MeetAgain(q.Asked)
	if err != nil {
		t.Fatal(err)
	}
	p.Apply(meeting(p.Walk, &Meeting{Meeting: m}))
	shape := p.At.(*Meeting).Looks()[p.At.(*Meeting).look].Shape.Shape
	p.PageOf(p.At)
	p.Said = nil
	p.Hears(p.Student.Strum(shape))
	if len(p.Said) != 1 || p.Said[0] != "That is it." || len(p.Session.Done()) != 0 {
		t.Errorf("%s played is heard as %q, with %d answers", shape, p.Said, len(p.Session.Done()))
	}
}

// What was plucked in turn and taken back is plucked once more; what was said of it is gone, and the screen counts the plucks in silence.
func TestTakenBackIsPluckedOnceMore(t *testing.T) {
	p := newPlaying(t, "build", "ukulele", 3)
	q := p.At.(*Question)
	p.PageOf(q)
	held := q.attempt.Attempt.(*played.ShapeAttempt)
	p.Apply(playedAnswer(p.Walk, q, played.Came{Answer: q.Asked.Expected().Typed}))
	q.attempt.Word = say.Of("Plucked: 4 of 4.")
	p.Does(t, "undo")
	if p.At != q || q.attempt.Attempt != played.Attempt(held) || q.attempt.LastWord().Screen() != held.Asks().Screen() {
		t.Errorf("taken back, it asks %q at %T", q.attempt.LastWord().Screen(), p.At)
	}
}

// What was heard and is not right never counts by itself, however long it stands: not when nothing more is heard, nor something else, but when
// somebody says so or plays it again.
func TestWhatIsNotRightNeverCountsByItself(t *testing.T) {
	for _, confirmed := range []bool{false, true} {
		p := newPlaying(t, "swap", "ukulele", 4)
		q := p.At.(*Question)
		p.PageOf(q) // listens
		p.Apply(playedAnswer(p.Walk, q, played.Came{Answer: drills.Unknown}))
		before := p.At.(*Played)
		if p.PageOf(before).GoesOn != nil {
			t.Error("it goes on by itself")
		}
		right := &Played{q: q, came: played.Came{Answer: q.Asked.Expected().Typed, Right: true}}
		if p.PageOf(right).GoesOn == nil {
			t.Error("what is right does not")
		}
		p.Hears(make([]float64, 3*student.Rate))
		if p.At != before || len(p.Session.Done()) != 0 {
			t.Errorf("after silence it is at %T, with %d answers", p.At, len(p.Session.Done()))
		}
		other := q.Asked.Expected().Typed
		p.Apply(playedAnswer(p.Walk, q, played.Came{Answer: other}))
		if now, is := p.At.(*Played); !is || now.came.Answer != other || len(p.Session.Done()) != 0 {
			t.Errorf("something else that is heard leads to %T, with %d answers", p.At, len(p.Session.Done()))
		}
		p.Does(t, map[bool]string{true: "go on", false: "undo"}[confirmed])
		if want := map[bool]int{true: 1}[confirmed]; len(p.Session.Done()) != want {
			t.Errorf("confirmed %v: %d answers", confirmed, len(p.Session.Done()))
		}
	}
}
