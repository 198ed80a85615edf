package drills

import (
	"math/rand/v2"
	"slices"
	"time"

	"sparetone/drills/neck"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Sound is one thing heard: the notes that sound, string by string, and how they are played.
type Sound struct {
	Label say.Text // which of several it is, and never what; zero if there is just one
	Notes []synth.Sounding
	Score synth.Score
	Root  int // number of the string that sounds the lowest root; 0 if none does
}

// Soundings lists what a voicing sounds, in the tuning's order.
func Soundings(v fret.Voicing) []synth.Sounding {
	var out []synth.Sounding
	for _, s := range v.Strings {
		if s.Fret != fret.Muted {
			out = append(out, synth.Sounding{String: s.Number, Pitch: s.Pitch})
		}
	}
	return out
}

// SoundingsOf lists what a shape on a tuning sounds, in the tuning's order; of no shape, the open strings.
func SoundingsOf(t *fret.Tuning, s fret.Shape) []synth.Sounding {
	if s == nil {
		s = make(fret.Shape, len(t.Strings))
	}
	var out []synth.Sounding
	for i, f := range s {
		if f != fret.Muted {
			out = append(out, synth.Sounding{String: t.StringNumber(i), Pitch: t.Pitch(i, f)})
		}
	}
	return out
}

// OpenStrings is an instrument's open strings, strummed.
func OpenStrings(on *neck.Instrument) []Sound { return Once(synth.Strum, SoundingsOf(on.Tuning, nil)) }

// chordWays are the ways a chord is played in a question.
var chordWays = []synth.How{synth.Block, synth.Strum, synth.Up, synth.Pick}

// ChordTempo is how fast a picked chord is, in plucks a minute.
const ChordTempo = 200

// How draws a way to play a chord: where it is to be played plainly a strum, string after string.
func (r Request) How() synth.How {
	if r.Clarity.Plainly {
		return synth.Strum
	}
	return chordWays[r.Rand.IntN(len(chordWays))]
}

// Voice draws one of the instrument's voices: where it is to be clear, its own.
func (r Request) Voice() synth.Voice {
	if r.Clarity.OwnVoice {
		return r.On.Voices[0]
	}
	return r.On.Voices[r.Rand.IntN(len(r.On.Voices))]
}

// A chord rings for a time that is drawn, and of its strings each is plucked harder or softer, as shares of what is usual. All sounds
// are equally loud as a whole, so how much louder its loudest moment is would tell which shape it is, and where there are few shapes, as
// with the root lowest, which kind.
const (
	briefestChord                = 500 * time.Millisecond // where it need not last
	shortestChord, longestChord  = 1500 * time.Millisecond, 3900 * time.Millisecond
	softestString, loudestString = 0.5, 1.2
)

// slowStrum is how many times as slow a slow strum is: 80 ms from string to string (from judgement).
const slowStrum = 5.0

// Played is a voicing played evenly in a way, for 3 s.
func Played(label say.Text, v fret.Voicing, how synth.How) Sound {
	s := Sound{Label: label, Notes: Soundings(v), Root: rootString(v)}
	s.Score = synth.Hand{Tempo: ChordTempo}.Play(how, s.Notes)
	return s
}

// Plays is a voicing played in a way, as a question asks for it.
func (r Request) Plays(label say.Text, v fret.Voicing, how synth.How) Sound {
	s := Sound{Label: label, Notes: Soundings(v), Root: rootString(v)}
	shortest := briefestChord
	if r.Clarity.Lasting {
		shortest = shortestChord
	}
	hand := synth.Hand{Tempo: ChordTempo, Rand: r.Rand, Ring: shortest + time.Duration(r.Rand.Float64()*float64(longestChord-shortest))}
	s.Score = Unevenly(hand.Play(how, s.Notes), softestString, loudestString, r.Rand)
	if how == synth.Strum {
		s = s.Slower(r.strumTimes())
	}
	return s
}

// strumTimes is how many times as slow as usual a chord is strummed: where it need not be slow anything from as fast as usual on, for
// how far the strings lie apart tells nothing then, nor how loud its loudest moment is.
func (r Request) strumTimes() float64 {
	if r.Clarity.Slowly {
		return slowStrum
	}
	return 1 + (slowStrum-1)*r.Rand.Float64()
}

// Slower returns the same with its plucks so many times as far apart, and stilled as much later. The last pluck rings as long as it did.
func (s Sound) Slower(times float64) Sound {
	plucks := slices.Clone(s.Score.Plucks)
	var last time.Duration
	for i := range plucks {
		last = max(last, plucks[i].At)
		plucks[i].At = time.Duration(times * float64(plucks[i].At))
		plucks[i].Damp = time.Duration(times * float64(plucks[i].Damp))
	}
	s.Score.Plucks = plucks
	s.Score.Length += time.Duration((times - 1) * float64(last))
	return s
}

// Unevenly plucks each note harder or softer than usual, between two shares of that, whichever it is.
func Unevenly(s synth.Score, softest, loudest float64, rng *rand.Rand) synth.Score {
	for i := range s.Plucks {
		s.Plucks[i].Strength = min(1, s.Plucks[i].Strength*(softest+(loudest-softest)*rng.Float64()))
	}
	return s
}

// Once is notes played evenly in a way; nothing if there are none.
func Once(how synth.How, notes []synth.Sounding) []Sound {
	if len(notes) == 0 {
		return nil
	}
	return []Sound{{Notes: notes, Score: synth.Hand{}.Play(how, notes)}}
}

// rootString returns the number of the string that sounds the lowest root, 0 if none does.
func rootString(v fret.Voicing) int {
	number, low := 0, 0
	for _, s := range v.Strings {
		if s.Fret != fret.Muted && s.Interval == theory.Unison && (number == 0 || s.Pitch.MIDI() < low) {
			number, low = s.Number, s.Pitch.MIDI()
		}
	}
	return number
}

// Plucked lists the notes in the order in which they are first plucked.
func (s Sound) Plucked() (notes []synth.Sounding) {
	for _, p := range s.Score.InTime() {
		if n := (synth.Sounding{String: p.String, Pitch: p.Pitch}); !slices.Contains(notes, n) {
			notes = append(notes, n)
		}
	}
	return notes
}

// Opened returns the same notes one after the other in the order in which they are plucked, slowly, ringing on.
func (s Sound) Opened() Sound {
	s.Score = synth.Hand{}.OpenUp(s.Plucked())
	return s
}

// Rooted reports whether the sound is of several notes, one of them a root, so that it can be opened from there.
func (s Sound) Rooted() bool { return s.Root != 0 && len(s.Notes) > 1 }

// OpenedFromRoot returns what Opened does, with the root heard first, if there is one.
func (s Sound) OpenedFromRoot() Sound {
	notes := s.Plucked()
	if at := slices.IndexFunc(notes, func(n synth.Sounding) bool { return n.String == s.Root }); at > 0 {
		root := notes[at]
		notes = slices.Insert(slices.Delete(notes, at, at+1), 0, root)
	}
	s.Score = synth.Hand{}.OpenUp(notes)
	return s
}

// How fast two notes follow each other, in plucks a minute, and how long the last one rings.
const (
	slowestNotes, FastestNotes = 60, 100
	shortestRing, longestRing  = time.Second, 3 * time.Second
)

// NotesHand picks a hand for two notes. Sounds are equally loud as a whole, but two notes beat, or one dies away
// before the other, so that the loudest moment would tell one interval from another. How much louder it is than the
// whole depends on how long the notes last as well: that differs from question to question, as level is roved in
// listening tests, so that it tells nothing. So it is where it is to be clearest as well.
func (r Request) NotesHand() synth.Hand {
	rng := r.Rand
	return synth.Hand{
		Tempo: slowestNotes + (FastestNotes-slowestNotes)*rng.Float64(),
		Ring:  shortestRing + time.Duration(rng.Float64()*float64(longestRing-shortestRing)),
		Rand:  rng,
	}
}
