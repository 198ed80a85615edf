package session

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// revealed is what a session has shown and played so far. A question that can be answered from it without knowing
// anything asks for memory of a minute ago: another one is made in its place, as long as there is one.
type revealed struct {
	at     map[string]int // the number of the latest question that showed it, by what it was
	number int
}

// shownShape and those below make the name by which a thing is known that was shown: a shape is known by where it lies, a chord by its name, a sound by its pitches and all else by its subject.
func shownShape(s fret.Shape) string { return "shape " + s.String() }
func shownChord(c theory.Chord) string {
	if c.Kind == nil {
		return ""
	}
	return fmt.Sprintf("chord %d %s over %d", c.Root.Class(), c.Kind.ID, c.Bass.Class())
}
func shownSubject(q *drills.Question) string  { return "subject " + q.Drill + " " + q.Subject }
func askedTarget(drill, target string) string { return "asked " + drill + " " + target }
func heardNotes(s drills.Sound) string {
	var midi []int
	for _, n := range s.Notes {
		midi = append(midi, n.Pitch.MIDI())
	}
	slices.Sort(midi)
	return "notes" + fmt.Sprint(midi)
}

// add keeps what a question and its reveal have shown.
func (r *revealed) add(q *drills.Question, v drills.Verdict) {
	if r.at == nil {
		r.at = map[string]int{}
	}
	r.number++
	keep := func(key string) { r.at[key] = r.number }
	keep(askedTarget(q.Drill, q.Target))
	if q.Subject != "" {
		keep(shownSubject(q)) // what is asked about a chord of a key may be told by another question about it
	}
	for _, s := range slices.Concat(q.Sounds, v.Asked, v.Other, v.Contrast.Right, v.Contrast.Given) {
		keep(heardNotes(s))
	}
	for _, s := range v.Shapes {
		keep(shownShape(s.Voicing.Shape))
		keep(shownChord(s.Voicing.Chord))
		keep(heardNotes(drills.Sound{Notes: drills.Soundings(s.Voicing)}))
	}
	if q.Shown != nil {
		keep(shownShape(q.Shown.Shape))
	}
}

// gives returns the number of the latest question that showed what answers a question; 0 if none did.
func (r *revealed) gives(q *drills.Question) int {
	switch {
	case q.Answer.Kind != nil:
		return r.at[shownChord(q.Answer)]
	case q.Shown != nil:
		return r.at[shownShape(q.Shown.Shape)]
	case len(q.Sounds) == 0:
		return r.at[shownSubject(q)]
	case q.Among:
		return r.at[heardNotes(q.Sounds[1])]
	case len(q.Sounds) <= 2:
		return r.at[heardNotes(q.Sounds[len(q.Sounds)-1])] // what comes before it is there to compare
	}
	oldest := r.number
	for _, s := range q.Sounds { // of a row each chord has to be known
		oldest = min(oldest, r.at[heardNotes(s)])
	}
	return oldest
}

// mostTries is how many questions are made at the most to find one that nothing shown before gives away.
const mostTries = 32

// triesARung is how many of them are made on a rung before the next one, which reaches further, is tried.
const triesARung = 8

// againAfter is after how many other questions something comes again that was shown, where it is asked in its first form alone: to
// know it then is to have learned it. It is not asked on the next rung only because the first forms are few.
const againAfter = 4

// made is a question as it was found.
type made struct {
	*drills.Question
	seed  uint64 // makes it
	rung  int    // in the form of which it is asked, but where Anew asks in that of the first
	given int    // number of the question that gives it away; 0 if none does
}

// fresh makes a question that nothing shown before gives away, or else the one that was given away longest ago. It begins in the form
// of a rung, counted from 1, and where there is none goes on to the next ones, unless it is asked in its first form alone.
func (r *revealed) fresh(d drills.Drill, request drills.Request, rung int, seeds *rand.Rand) (made, error) {
	id, target := d.About().ID, request.Target
	var best made
	var again bool
	for n := range mostTries {
		if n > 0 && n%triesARung == 0 && !again {
			rung++
		}
		var form drills.Rung
		form, rung = catalogue.AtRung(request.On, id, target, rung)
		request.Reach, request.Clarity = form.Reach, form.Clarity
		try := seeds.Uint64()
		request.Rand = drills.QuestionRand(id, target, try)
		q, err := d.Ask(request)
		if err != nil && best.Question == nil {
			return made{}, err
		} else if err != nil {
			break
		}
		again = again || inFirstForm(d, request)
		at := r.gives(q)
		if q.Instead != nil && (request.First || request.Anew != nil && request.Anew.AnyNew()) { // it is shown just before
			at = 0
		}
		if again && r.number-at >= againAfter {
			at = 0
		}
		if best.Question == nil || at < best.given {
			best = made{q, try, rung, at}
		}
		if at == 0 {
			break
		}
	}
	return best, nil
}

// givesOther returns the number of the question that gives away another choice of a question than the one it asks for; 0 if none does.
// What was asked lately is given away most easily: passed over for that alone, it would be asked for less often than what stands beside
// it. So a question is passed over whichever of its choices is given away. request is what it was made from.
func (r *revealed) givesOther(d drills.Drill, request drills.Request, found made) int {
	seeds := rand.New(rand.NewPCG(found.seed, uint64(found.rung)))
	for _, other := range request.Anew.Others() {
		if r.at[askedTarget(d.About().ID, other.Target())] == 0 {
			continue // nothing of it was shown
		}
		request.Anew = other
		if o, err := r.fresh(d, request, found.rung, seeds); err == nil && o.given > 0 {
			return o.given
		}
	}
	return 0
}

// inFirstForm reports whether something is asked in its first form alone: it is new and learned by heart, or it is picked among choices
// of which one is new.
func inFirstForm(d drills.Drill, r drills.Request) bool {
	return r.New() && d.About().ByHeart || r.Anew != nil && r.Anew.AnyNew()
}
