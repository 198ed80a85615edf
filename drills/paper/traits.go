package paper

import (
	"cmp"
	"math"
	"regexp"

	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/theory/fret"
)

// traits is what makes a question harder or easier beside what it asks for. Each is measured so that one more of it is about as much as
// one more of another (from judgement).
type traits [traitCount]float64

// The traits.
const (
	traitChoices   = iota // how many choices there are
	traitSigns            // sharps and flats of the notes that sound, a half each
	traitAnySign          // 1 where there are any
	traitManySigns        // 1 where there are more than two
	traitTyped            // sharps and flats in the answer, of notes or of tones, a half each
	traitAnyTyped         // 1 where there are any
	traitManyTyped        // 1 where there are more than two
	traitEffort           // what the shapes ask of a hand, on average, in thirds
	traitWorst            // what the hardest asks, in the same
	traitPosition         // the lowest fret that is stopped, in thirds
	traitHighest          // the highest, in halves
	traitStrings          // how many sound
	traitDoubled          // notes that are doubled, a half each
	traitLow              // the lowest note, in steps of a third of an octave
	traitEachLow          // the lowest of each sound, on average, in the same
	traitTogether         // sounds that are struck at once, as a share
	traitSpread           // from the first pluck to the last, in halves of a second
	traitLength           // of what is heard, in seconds
	traitSounds           // how many are heard in turn
	traitStrange          // 1 in a voice that is not the instrument's own
	traitAlso             // how much else is right, a third each, up to two
	traitTurns            // where notes that are plucked go down and up: changes of direction, a third each
	traitCount
)

// traitsOf finds the traits of a question.
func traitsOf(q *drills.Question, on *neck.Instrument) (t traits) {
	t[traitChoices] = float64(len(q.Choices))
	t[traitAlso] = float64(min(len(q.Accepts), 6)) / 3
	t.addSounds(q, on)
	t.addSigns(traitSigns, t.addShapes(q))
	t.addSigns(traitTyped, float64(signsIn(q.Expected().Typed)))
	return t
}

// addSigns adds the three traits of so many sharps and flats, from the first of them on. Those of the notes and those of the answer are
// told apart: a minor third is written with a flat whatever note it is.
func (t *traits) addSigns(first int, signs float64) {
	t[first], t[first+1] = signs/2, min(1, signs)
	if signs > 2 {
		t[first+2] = 1
	}
}

// addSounds adds the traits of what is heard.
func (t *traits) addSounds(q *drills.Question, on *neck.Instrument) {
	if len(q.Sounds) == 0 {
		return
	}
	share, deepest := 1/float64(len(q.Sounds)), math.Inf(1)
	for _, s := range q.Sounds {
		plucks, low := s.Score.InTime(), math.Inf(1)
		turns, up := 0, 0
		for n, p := range plucks {
			low = min(low, float64(p.Pitch.MIDI())/4)
			if n == 0 {
				continue
			}
			way := cmp.Compare(p.Pitch.MIDI(), plucks[n-1].Pitch.MIDI())
			if way*up < 0 {
				turns++
			}
			up = way
		}
		spread := plucks[len(plucks)-1].At - plucks[0].At
		if spread == 0 && len(plucks) > 1 {
			t[traitTogether] += share
		}
		deepest = min(deepest, low)
		t[traitEachLow] += share * low
		t[traitSpread] += spread.Seconds() * 2
		t[traitLength] += s.Score.Length.Seconds()
		t[traitTurns] += float64(turns) / 3
	}
	t[traitSounds], t[traitLow] = float64(len(q.Sounds)), deepest
	if q.Voice != on.Voices[0] {
		t[traitStrange] = 1
	}
}

// addShapes adds the traits of the shapes that a question is about, that which is seen or those which are heard, and returns how many
// sharps and flats are in them.
func (t *traits) addShapes(q *drills.Question) (signs float64) {
	shapes := q.Solution().AskedShapes()
	share := 1 / float64(len(shapes))
	for _, r := range shapes {
		_, _, effort, _ := fret.Finger(r.Voicing.Shape)
		t[traitEffort] += share * effort / 3
		t[traitWorst] = max(t[traitWorst], effort/3)
		lowest := 0
		for _, s := range r.Voicing.Strings {
			if s.Fret == fret.Muted {
				continue
			}
			t[traitStrings] += share
			signs += math.Abs(float64(s.Pitch.Note.Alter))
			if s.Fret > 0 && (lowest == 0 || s.Fret < lowest) {
				lowest = s.Fret
			}
			t[traitHighest] = max(t[traitHighest], float64(s.Fret)/2)
		}
		t[traitPosition] += share * float64(lowest) / 3
		t[traitDoubled] += share * float64(len(r.Voicing.Doubled())) / 2
	}
	return signs
}

// signsIn counts the sharps and flats of an answer as it is typed: behind the letter of a note or before the number of a tone.
func signsIn(typed string) (n int) {
	for _, sign := range signed.FindAllStringSubmatch(typed, -1) {
		n += len(sign[1]) + len(sign[2])
	}
	return n
}

var signed = regexp.MustCompile(`[A-G]([#b]+)|([#b]+)[0-9]`)

// from is how far traits are from others.
func (t traits) from(o traits) float64 {
	sum := 0.0
	for n := range t {
		sum += (t[n] - o[n]) * (t[n] - o[n])
	}
	return math.Sqrt(sum)
}
