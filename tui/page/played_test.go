package page

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/gopxl/beep/v2"

	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/drills/played"
	"sparetone/drills/played/student"
	"sparetone/drills/practice"
	"sparetone/progress"
	"sparetone/progress/store"
	"sparetone/synth/capture"
	"sparetone/synth/playback"
	"sparetone/theory/say"
)

// mute is a speaker that is ready and plays nothing.
type mute struct{ playback.Speaker }

func (mute) State() (playback.State, string) { return playback.Ready, "" }
func (mute) Play(beep.Streamer)              {}

// playing is a walk through questions of one drill by somebody who plays the answers.
type playing struct {
	*Walk
	student *student.Student
	at      Place
	now     time.Time
	said    []string
}

func newPlaying(t *testing.T, drill, tuning string, seed uint64) *playing {
	t.Helper()
	p := &playing{now: time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)}
	now := func() time.Time { return p.now }
	file, err := store.InMemory(now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { file.Close() })
	d, _ := catalogue.ByID(drill)
	on, err := neck.NewInstrument(tuning, 0, "")
	if err != nil {
		t.Fatal(err)
	}
	step := course.Step{ID: "all", Drill: drill}
	for _, target := range d.Targets(on) {
		step.Asks = append(step.Asks, target.ID)
	}
	microphone := capture.NewMicrophone(capture.NewLine(student.Rate))
	microphone.On()
	t.Cleanup(microphone.Off)
	app := practice.App{
		Setup:   practice.Setup{File: file, On: on, Course: course.Course{step}, Length: time.Hour, Seed: seed, Now: now},
		Speaker: mute{playback.None(playback.StartVolume)}, Settings: practice.Standard, Microphone: microphone,
	}
	app.Settings.Tuning, app.Settings.AtOnce = tuning, true
	if err := app.Plan(false); err != nil {
		t.Fatal(err)
	}
	p.Walk = NewWalk(app)
	p.student = student.New(on.Tuning, on.Voices[0], seed)
	p.Straight, p.Cautioned = true, true
	p.apply(p.Start())
	return p
}

// apply goes where an act leads.
func (p *playing) apply(next Next) {
	if next.To != nil {
		p.at = next.To
	}
	if !next.Said.IsZero() {
		p.said = append(p.said, next.Said.Screen())
	}
}

// does does an act of the place.
func (p *playing) does(t *testing.T, id string) {
	t.Helper()
	acts := p.PageOf(p.at).Acts
	i := slices.IndexFunc(acts, func(a Act) bool { return a.ID == id })
	if i < 0 {
		t.Fatalf("%T has no act %q", p.at, id)
	}
	p.apply(acts[i].Do(""))
}

// hears lets the microphone hear something, until it leads somewhere else.
func (p *playing) hears(sound []float64) {
	from := p.at
	for block := range slices.Chunk(sound, student.Rate/10) {
		p.now = p.now.Add(100 * time.Millisecond)
		p.HearAll()
		if next := p.at.(ear).heard(p.Walk, capture.Sound{Samples: block, Rate: student.Rate, Run: 1}); next.To != nil || !next.Said.IsZero() {
			p.apply(next)
		}
		if p.at != from {
			return
		}
	}
}

// plays plays an answer to the question that is asked, for as long as it is asked in turn, at the most so many times.
func (p *playing) plays(a student.Answer, most int) {
	q := p.at.(*Question)
	for range most {
		if p.at != q {
			return
		}
		p.PageOf(p.at)
		var order []int
		if task := q.attempt.Listens().Task; task != nil {
			order = task.Order
		}
		p.hears(a.Plays(order))
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
			q := p.at.(*Question)
			if len(p.toPlay(q)) == 0 {
				t.Fatalf("%s cannot be played", q.Asked.Prompt.Screen())
			}
			a := p.student.Answers(q.Asked.Question, n%3 == 2)
			p.said = nil
			p.plays(a, 4)
			heard, is := p.at.(*Played)
			if !is {
				t.Errorf("%s on %s: %s %s is not heard: %q", c.drill, c.tuning, q.Asked.Prompt.Screen(), a.Typed, p.said)
				break
			}
			if heard.came.Right != a.Right || a.Typed != "" && heard.came.Answer != a.Typed {
				t.Errorf("%s on %s: %s: %q is heard as %q, right %v: %q", c.drill, c.tuning, q.Asked.Prompt.Screen(), a.Typed, heard.came.Answer, heard.came.Right, p.said)
			}
			p.does(t, "go on")
			if _, is := p.at.(*Reveal); !is {
				t.Fatalf("%s: an answer that counts leads to %T", c.drill, p.at)
			}
			want = append(want, a.Right)
			p.does(t, "go on")
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

func (p *playing) toPlay(q *Question) []Block { return q.toPlay(p.Walk) }

// chart is a song of four bars.
const chart = "tempo: 80\n| C | Am | F | G7 |"

// songPlayed is a song before somebody who plays it.
func songPlayed(t *testing.T) (*playing, *Song) {
	t.Helper()
	p := newPlaying(t, "build", "ukulele", 1)
	work, err := p.NewSong(chart)
	if err != nil {
		t.Fatal(err)
	}
	s := &Song{work: work, back: func() Place { return &Today{} }}
	p.at, p.said = s, nil
	return p, s
}

// A song that waits goes on with each chord that is heard, and not with another.
func TestASongWaitsForItsChords(t *testing.T) {
	p, s := songPlayed(t)
	p.does(t, "along")
	places := s.places()
	for n, place := range places {
		if s.mark != place {
			t.Fatalf("at chord %d it waits for place %d, want %d: %q", n, s.mark, place, p.said)
		}
		if n == 1 {
			p.hears(p.student.Strum(s.work.Heard(places[3]).Shape))
			if s.mark != place || s.through.Lit(place) {
				t.Errorf("another chord is taken for it: %q", p.said)
			}
			if order := s.attempt.Listens().Task.Order; order != nil { // it is not sure: the strings are plucked in turn
				p.hears(p.student.Turn(s.work.Heard(place).Shape, order))
				continue
			}
		}
		p.hears(p.student.Strum(s.work.Heard(place).Shape))
		if order := s.attempt.Listens().Task.Order; s.through != nil && s.mark == place && order != nil {
			p.hears(p.student.Turn(s.work.Heard(place).Shape, order))
		}
	}
	if s.through != nil || p.said[len(p.said)-1] != "Played through: all 4 chords were heard." {
		t.Errorf("it ends with %q", p.said)
	}
}

// In time it goes on by itself, and lights the chords that were struck in theirs.
func TestASongIsPlayedInTime(t *testing.T) {
	for _, faulty := range []bool{false, true} {
		p, s := songPlayed(t)
		p.does(t, "in time")
		const bar = 3.0 // seconds: four beats at 80
		sound := p.student.Silence(20)
		for n, place := range s.places() {
			shape := s.work.Heard(place).Shape
			if faulty && n == 2 {
				continue // nothing is played there
			}
			stroke := p.student.Strum(shape)
			for i, x := range stroke[:int(min(float64(len(stroke)), (bar-student.Before)*student.Rate))] {
				sound[int((0.5+bar*float64(n))*student.Rate)+i] += x
			}
		}
		p.hears(sound)
		want := "Played through in time: all 4 chords were heard."
		if faulty {
			want = "Played through: of 4 chords, 3 were heard in time."
		}
		if s.through != nil || p.said[len(p.said)-1] != want {
			t.Errorf("it ends with %q, want %q", p.said, want)
		}
	}
}

// What was just shown is played, and nothing of it is kept.
func TestWhatWasShownIsPlayed(t *testing.T) {
	p := newPlaying(t, "build", "ukulele", 1)
	q := p.at.(*Question)
	m, err := p.Session.MeetAgain(q.Asked)
	if err != nil {
		t.Fatal(err)
	}
	p.apply(p.meeting(&Meeting{Meeting: m}))
	shape := p.at.(*Meeting).Looks()[p.at.(*Meeting).at].Shape.Shape
	p.PageOf(p.at)
	p.said = nil
	p.hears(p.student.Strum(shape))
	if len(p.said) != 1 || p.said[0] != "That is it." || len(p.Session.Done()) != 0 {
		t.Errorf("%s played is heard as %q, with %d answers", shape, p.said, len(p.Session.Done()))
	}
}

// What was plucked in turn and taken back is plucked once more; what was said of it is gone, and the screen counts the plucks in silence.
func TestTakenBackIsPluckedOnceMore(t *testing.T) {
	p := newPlaying(t, "build", "ukulele", 3)
	q := p.at.(*Question)
	p.PageOf(q)
	held := q.attempt.Attempt.(*played.Held)
	p.apply(p.playedAnswer(q, played.Came{Answer: q.Asked.Expected().Typed}))
	q.attempt.word = say.Of("Plucked: 4 of 4.")
	p.does(t, "undo")
	if p.at != q || q.attempt.Attempt != played.Attempt(held) || q.attempt.asks().Screen() != held.Asks().Screen() {
		t.Errorf("taken back, it asks %q at %T", q.attempt.asks().Screen(), p.at)
	}
	if n := word(played.Came{Says: say.Of("Plucked: 1 of 4."), Seen: true}); !n.Said.IsZero() {
		t.Errorf("it says %q into the plucks", n.Said.Aloud())
	}
	if n := word(played.Came{Says: say.Of("Not sure.")}); n.Said.Screen() != "Not sure." || !n.Aloud {
		t.Errorf("a word is %+v", n)
	}
}

// plucking is an attempt of which one thing comes, whatever is heard.
type plucking struct{ came played.Came }

func (plucking) Listens() played.Listening       { return played.Listening{} }
func (plucking) Asks() say.Text                  { return say.Of("Pluck strings 4, 3, 2, 1.") }
func (p plucking) Take(played.Heard) played.Came { return p.came }

// While strings are plucked, which ones stay on the screen beside how many were; a word that asks for more ends with what is asked, and any
// other stands alone.
func TestWhatIsToBePluckedStaysInSight(t *testing.T) {
	for want, came := range map[string]played.Came{
		"Pluck strings 4, 3, 2, 1. Plucked: 2 of 4.": {Says: say.Of("Plucked: 2 of 4."), Seen: true},
		"Not sure. Pluck strings 4, 3, 2, 1.":        {Says: say.Of("Not sure."), Again: true},
		"That is it.":                                {Says: say.Of("That is it.")},
		"Pluck strings 4, 3, 2, 1.":                  {},
	} {
		a := &attempt{Attempt: plucking{came}}
		a.took(played.Heard{})
		if got := a.asks().Screen(); got != want {
			t.Errorf("it shows %q, not %q", got, want)
		}
	}
}
