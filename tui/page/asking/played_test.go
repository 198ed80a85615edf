package asking

import (
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/played"
	"sparetone/drills/played/student"
	"sparetone/progress"
	"sparetone/synth/hear"
	"sparetone/theory/fret"
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

// words are the sentences of a page, those for the screen alone among them.
func words(p page.Page) (out []string) {
	for _, b := range p.Blocks {
		switch b := b.(type) {
		case page.Sentence:
			out = append(out, b.Text.Screen())
		case page.Seen:
			out = append(out, b.Text.Screen())
		}
	}
	return out
}

// The page says how an answer that was heard counts, and, where its strings are to be plucked, which, or what was heard since.
func TestHowWhatWasHeardCounts(t *testing.T) {
	const pluck = "Pluck the strings one after another, from g to A."
	shape := fret.Shape{2, 2, 2, 3}
	for _, c := range []struct {
		name   string
		came   played.Came
		denied bool
		since  string
		want   []string
	}{
		{"right", played.Came{Right: true, Shape: shape}, false, "", []string{"It counts in a moment."}},
		{"right, plucked", played.Came{Right: true, Shape: shape, InTurn: true}, false, "Plucked: 1 of 4.", []string{"It counts in a moment."}},
		{"struck", played.Came{Shape: shape}, false, "", []string{"Is that what you played? Enter counts it. If not, play it once more."}},
		{"plucked", played.Came{Shape: shape, InTurn: true}, false, "", []string{"Is that what you played? Enter counts it, or the same once more.", pluck}},
		{"plucked, and being plucked again", played.Came{Shape: shape, InTurn: true}, false, "Plucked: 1 of 4.", []string{"Is that what you played? Enter counts it, or the same once more.", "Plucked: 1 of 4."}},
		{"struck, and not heard again", played.Came{Shape: shape}, false, "No stroke.", []string{"Is that what you played? Enter counts it. If not, play it once more.", "No stroke."}},
		{"notes", played.Came{}, false, "", []string{"Is that what you played? Enter counts it, or the same once more."}},
		{"taken back before", played.Came{Shape: shape, InTurn: true}, true, "", []string{"You took that back before. Enter counts it, and nothing else does."}},
		{"right, and taken back before", played.Came{Right: true, Shape: shape}, true, "", []string{"You took that back before. Enter counts it, and nothing else does."}},
	} {
		p := newPlaying(t, "build", "ukulele", 3)
		q := p.At.(*Question)
		p.PageOf(q) // listens
		q.attempt.Word = say.Of("Not sure.")
		c.came.Answer = shape.String()
		if c.denied {
			q.denied = []string{"0000", c.came.Answer}
		} else {
			q.denied = []string{"0000"}
		}
		if c.came.InTurn && !c.came.Right {
			r := hear.Reading{AboveNoise: 40, Verdict: hear.Unsure} // so that strings are plucked in turn
			q.attempt.Take(played.Heard{Reading: &r})
		}
		p.Apply(playedAnswer(p.Walk, q, c.came))
		if c.since != "" {
			q.attempt.Word = say.Of("{}", say.Foreign(c.since))
		}
		at := p.PageOf(p.At)
		if got := words(at)[2:]; !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
		if counts := at.GoesOn != nil; counts != (c.came.Right && !c.denied) {
			t.Errorf("%s: it counts by itself: %v", c.name, counts)
		}
	}
}

// The same wrong shape, struck again and again, never counts, for what is misheard once is misheard again; plucked string by string it does. What was taken
// back counts by no hearing, however often: only when somebody says so.
func TestTheSameAgain(t *testing.T) {
	for _, denied := range []bool{false, true} {
		p, q, struck := struckWrong(t)
		if denied {
			p.Does(t, "undo")
		}
		want := progress.TakenBack{Heard: map[bool]int{true: 1}[denied]}
		if kept, err := p.File().TakenBack(); p.Session.TakenBack() != want || kept != want || err != nil {
			t.Errorf("taken back %v: %v is counted, %v kept, %v", denied, p.Session.TakenBack(), kept, err)
		}
		before := p.At
		p.Said = nil
		p.Hears(p.Student.Strum(struck))
		if p.At != before || len(p.Session.Done()) != 0 || !slices.ContainsFunc(p.Said, func(s string) bool { return strings.HasPrefix(s, "I heard the same once more. Pluck") }) {
			t.Fatalf("taken back %v, struck again it leads to %T, with %d answers: %q", denied, p.At, len(p.Session.Done()), p.Said)
		}
		order := q.attempt.Listens().Task.Order
		for n := range 3 {
			if _, counted := p.At.(*Reveal); counted {
				break
			}
			p.Hears(p.Student.Turn(struck, order))
			if counts := len(p.Session.Done()) == 1; counts != !denied {
				t.Fatalf("taken back %v, plucked %d times: %d answers, at %T", denied, n+1, len(p.Session.Done()), p.At)
			}
		}
		if denied {
			p.Does(t, "go on")
		}
		if done := p.Session.Done(); len(done) != 1 || done[0].Result == progress.Right {
			t.Errorf("taken back %v: %+v", denied, done)
		}
	}
}

// struckWrong is a question to which a shape with a string a fret off was struck, that one stroke tells.
func struckWrong(t *testing.T) (p playing, q *Question, struck fret.Shape) {
	t.Helper()
	for seed := range uint64(20) {
		p = newPlaying(t, "swap", "ukulele", seed+1)
		q = p.At.(*Question)
		p.PageOf(q) // listens
		struck, err := fret.ParseShape(q.Asked.Expected().Typed)
		if err != nil {
			t.Fatal(err)
		}
		struck[len(struck)-1]++
		p.Hears(p.Student.Strum(struck))
		if now, is := p.At.(*Played); is && !now.came.Right && !now.came.InTurn && now.came.Answer == struck.String() {
			return p, q, struck
		}
	}
	t.Fatal("no stroke with a fault is told")
	return p, q, nil
}
