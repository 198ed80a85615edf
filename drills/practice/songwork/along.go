package songwork

import (
	"slices"

	"sparetone/drills/played"
	"sparetone/synth/hear"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Along is a song being played through by the student, chord after chord: it waits for each, or it goes on in time.
type Along struct {
	InTime bool

	work   *Work
	places []int // that are played, in turn
	at     int   // of these the one that is to be played now
	right  map[int]bool
	held   *played.ShapeAttempt // where it waits
	shapes []fret.Shape         // of the song, each once: what is listened for in time
	began  float64              // in time: when the first chord was struck, in seconds of what was heard
	fed    float64              // how much was heard, in seconds
	ends   []float64            // in time: when each place ends, in seconds from the beginning
	goes   bool                 // in time: the first chord was struck
}

// How early a chord may be struck in time, as a part of a beat, and how long after a stroke it is read, in seconds.
const (
	earlyBy  = 0.4
	readWait = 1.4
)

// NewAlong begins to play a song through. The error says that nothing is played in it.
func (w *Work) NewAlong(inTime bool) (*Along, error) {
	a := &Along{InTime: inTime, work: w, right: map[int]bool{}}
	beat, at := 60/w.Tempo(), 0.0
	for n, p := range w.Places {
		at += p.Beats * beat
		if p.Rests() {
			if len(a.ends) > 0 {
				a.ends[len(a.ends)-1] = at
			} else {
				at = 0 // it begins with the first chord
			}
			continue
		}
		a.places, a.ends = append(a.places, n), append(a.ends, at)
		if s := w.Heard(n).Shape; !slices.ContainsFunc(a.shapes, func(o fret.Shape) bool { return slices.Equal(o, s) }) {
			a.shapes = append(a.shapes, s)
		}
	}
	if a.places == nil {
		return nil, say.Wrong("no chord is played in this song")
	}
	a.hold()
	return a, nil
}

// hold has the chord that comes now be waited for.
func (a *Along) hold() {
	h := a.work.Heard(a.places[a.at])
	v, err := fret.Voice(a.work.Tuning, h.Shape, h.Chord)
	if err != nil {
		panic("practice: a shape of a song that does not fit its tuning: " + err.Error())
	}
	a.held = played.NewShapeAttempt(v, a.work.player.HeardA4())
}

// Place is the place of the song that is to be played now.
func (a *Along) Place() int { return a.places[a.at] }

// Lit reports whether the chord of a place was heard.
func (a *Along) Lit(place int) bool { return a.right[place] }

// Asks says what is to be played now.
func (a *Along) Asks() say.Text {
	switch {
	case a.InTime && !a.goes:
		return say.Of("Play it through in time, {} beats a minute: it begins with your first {}.", say.Number(a.work.Tempo()), a.work.Named(a.Place()))
	case a.InTime:
		return say.Of("{}.", a.work.Named(a.Place()))
	case a.held.InTurn():
		return a.held.Asks()
	}
	return say.Of("Play {}.", a.work.Named(a.Place()))
}

// Listens implements played.Attempt.
func (a *Along) Listens() played.Listening {
	if !a.InTime {
		return a.held.Listens()
	}
	task := &hear.Task{Strings: played.Strings(a.work.Tuning), A4: a.work.player.HeardA4()}
	for _, s := range a.shapes {
		task.Among = append(task.Among, played.Pitches(a.work.Tuning, s))
	}
	return played.Listening{Task: task}
}

// Take implements played.Attempt. An answer says that the song is over.
func (a *Along) Take(h played.Heard) played.Came {
	if a.InTime {
		return a.struck(h)
	}
	came := a.held.Take(h)
	switch {
	case came.Answer == "":
		return came
	case !came.Right:
		return played.Came{Says: joined(came.Says, came.Amiss), Anew: came.Anew}
	}
	a.right[a.Place()] = true
	if a.at == len(a.places)-1 {
		return played.Came{Says: a.over(), Answer: Over}
	}
	a.at++
	a.hold()
	return played.Came{Says: a.Asks(), Anew: true}
}

// Over is the answer of a song that was played through.
const Over = "over"

// struck takes a stroke in time: it is of the chord in whose time it lies.
func (a *Along) struck(h played.Heard) played.Came {
	if h.Reading == nil || h.Reading.Among < 0 {
		return played.Came{}
	}
	heard := a.shapes[h.Reading.Among]
	if !a.goes {
		if !slices.Equal(heard, a.work.Heard(a.places[0]).Shape) {
			return played.Came{Says: say.Of("It begins with {}.", a.work.Named(a.places[0]))}
		}
		a.goes, a.began = true, h.Reading.At
	}
	early := earlyBy * 60 / a.work.Tempo()
	n := slices.IndexFunc(a.ends, func(end float64) bool { return h.Reading.At-a.began < end-early })
	if n < 0 {
		return played.Came{}
	}
	if slices.Equal(heard, a.work.Heard(a.places[n]).Shape) {
		a.right[a.places[n]] = true
	}
	return played.Came{}
}

// Passed lets so many seconds pass of what is heard, and returns what comes of it: in time it goes on by itself.
func (a *Along) Passed(seconds float64) (came played.Came) {
	a.fed += seconds
	if !a.goes {
		return came
	}
	now := a.fed - a.began
	if n := slices.IndexFunc(a.ends, func(end float64) bool { return now < end }); n > a.at {
		a.at = n
		return played.Came{Says: a.Asks()}
	}
	if now > a.ends[len(a.ends)-1]+readWait {
		return played.Came{Says: a.over(), Answer: Over}
	}
	return came
}

// over says how it went.
func (a *Along) over() say.Text {
	n := 0
	for _, p := range a.places {
		if a.right[p] {
			n++
		}
	}
	all := say.Count{N: len(a.places), One: "chord", Many: "chords"}
	switch {
	case n == len(a.places) && a.InTime:
		return say.Of("Played through in time: all {} were heard.", all)
	case n == len(a.places):
		return say.Of("Played through: all {} were heard.", all)
	}
	return say.Of("Played through: of {}, {} heard in time.", all, say.Count{N: n, One: "was", Many: "were"})
}

// joined is two sentences, or the one that there is.
func joined(a, b say.Text) say.Text {
	switch {
	case a.IsZero():
		return b
	case b.IsZero():
		return a
	}
	return say.Of("{} {}", a, b)
}
