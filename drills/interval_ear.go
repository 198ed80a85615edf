package drills

import (
	"slices"
	"time"

	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// intervalEar plays two notes, one after the other or together, and asks for the interval.
type intervalEar struct{}

func (intervalEar) About() About {
	return About{ID: "interval-ear", Title: "Name an interval by ear", Ears: true}
}

// earIntervals are the intervals asked for, smallest first, and what each is mistaken for.
// Which are confused is common practice, no source.
var earIntervals = []struct {
	interval theory.Interval
	near     []theory.Interval
}{
	{theory.MinorSecond, []theory.Interval{theory.MajorSecond}},
	{theory.MajorSecond, []theory.Interval{theory.MinorSecond, theory.MinorThird}},
	{theory.MinorThird, []theory.Interval{theory.MajorThird, theory.MajorSecond}},
	{theory.MajorThird, []theory.Interval{theory.MinorThird, theory.PerfectFourth}},
	{theory.PerfectFourth, []theory.Interval{theory.PerfectFifth, theory.AugmentedFourth}},
	{theory.AugmentedFourth, []theory.Interval{theory.PerfectFourth, theory.PerfectFifth}},
	{theory.PerfectFifth, []theory.Interval{theory.PerfectFourth, theory.AugmentedFourth}},
	{theory.MinorSixth, []theory.Interval{theory.MajorSixth, theory.PerfectFifth}},
	{theory.MajorSixth, []theory.Interval{theory.MinorSixth, theory.MinorSeventh}},
	{theory.MinorSeventh, []theory.Interval{theory.MajorSeventh, theory.MajorSixth}},
	{theory.MajorSeventh, []theory.Interval{theory.MinorSeventh, theory.Octave}},
	{theory.Octave, []theory.Interval{theory.MajorSeventh, theory.PerfectFifth}},
	{theory.MinorNinth, []theory.Interval{theory.MajorNinth, theory.MinorSecond}},
	{theory.MajorNinth, []theory.Interval{theory.MinorNinth, theory.MajorSecond}},
	{theory.MinorTenth, []theory.Interval{theory.MajorTenth, theory.MinorThird}},
	{theory.MajorTenth, []theory.Interval{theory.MinorTenth, theory.MajorThird}},
	{theory.Eleventh, []theory.Interval{theory.Twelfth, theory.PerfectFourth}},
	{theory.Twelfth, []theory.Interval{theory.Eleventh, theory.PerfectFifth}},
	{theory.MinorThirteenth, []theory.Interval{theory.Thirteenth, theory.MinorSixth}},
	{theory.Thirteenth, []theory.Interval{theory.MinorThirteenth, theory.MajorSixth}},
	{theory.DoubleOctave, []theory.Interval{theory.Octave, theory.Thirteenth}},
}

// Targets leaves out what the neck has no room for.
func (intervalEar) Targets(on *Instrument) []Target {
	var out []Target
	if len(on.Tuning.Strings) < 2 {
		return out
	}
	low, high := compass(on.Tuning)
	for _, e := range earIntervals {
		if e.interval.Semitones > high-low {
			continue
		}
		t := Target{ID: e.interval.String(), Topic: Topic{"interval", e.interval.String()}, Name: sayInterval(e.interval)}
		for _, n := range e.near {
			t.Near = append(t.Near, n.String())
		}
		out = append(out, t)
	}
	return out
}

// highestFret is as far up the neck as an ear drill goes: the octave and a little more.
const highestFret = 14

// compass returns the lowest and the highest MIDI number that the ear drills play on a tuning.
func compass(t *fret.Tuning) (low, high int) {
	low, high = t.Strings[0].MIDI(), 0
	for _, s := range t.Strings {
		low = min(low, s.MIDI())
		high = max(high, s.MIDI()+min(highestFret, t.Frets))
	}
	return low, high
}

func (d intervalEar) Ask(r Request) (*Question, error) {
	targets := d.Targets(r.On)
	choices, err := pick(targets, r, never)
	if err != nil {
		return nil, err
	}
	choices = r.settle(choices)
	want, err := theory.ParseInterval(r.Target)
	if err != nil {
		return nil, err
	}
	t := r.On.Tuning
	var spots [][]spot
	var intervals []theory.Interval
	for _, c := range choices {
		i, err := theory.ParseInterval(c.ID)
		if err != nil {
			return nil, err
		}
		spots, intervals = append(spots, spotsOf(t, i)), append(intervals, i)
	}
	right := slices.Index(intervals, want)
	spot, ok := match(r, right, func(float64) [][]spot { return spots }, func(s spot) feature { return feature{s.low.MIDI()} })
	if !ok {
		return nil, say.Wrong("{} does not fit on {}", say.A(say.Interval(want)), say.Foreign(t.Name))
	}
	how := r.intervalHow()
	hand := r.notesHand()
	notes := spot.notes(t)
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: how.prompt,
		Voice:  r.voice(),
		Sounds: []Sound{{Notes: notes, Score: r.unevenly(how.play(hand, notes))}},
	}
	var offered []Choice
	for _, t := range choices {
		offered = append(offered, Choice{ID: t.ID, Said: t.Name, Typed: t.ID})
	}
	q.offer(r.Target, offered...)
	q.Accepts = twins(want)
	q.answers = answers[theory.Interval]{
		offered: intervals,
		read: func(text string) (theory.Interval, error) {
			i, err := read.Interval(text)
			if err != nil {
				return i, errUnread
			}
			return i, nil
		},
		mark: func(i theory.Interval) given {
			g := given{id: i.String(), said: sayInterval(i), result: rightIf(i.Semitones == want.Semitones)}
			if g.right() && i != want {
				g.note = sayTwins(i, want)
			}
			return g
		},
		explain: func(i theory.Interval, g given, v *Verdict) {
			v.Short = how.says(spot, want)
			v.say(v.Short)
			v.Shapes = []Reveal{{Caption: sayInterval(want), Voicing: spot.voicing(t, want)}}
			if g.right() {
				return
			}
			v.TakenFor = i.String()
			v.Short = sayWider(want, i)
			v.say(v.Short)
			if beside, ok := spot.beside(t, i); ok {
				notes := beside.notes(t)
				hand.Rand = nil
				v.Other = []Sound{{Label: sayInterval(i), Notes: notes, Score: how.play(hand, notes)}}
				v.shows(sayInterval(i), beside.voicing(t, i))
				v.against()
			}
		},
	}
	return q, nil
}

// intervalHow is how two notes are heard.
type intervalHow struct {
	prompt say.Text
	play   func(hand synth.Hand, notes []synth.Sounding) synth.Score
	says   func(s spot, i theory.Interval) say.Text // what sounded
}

// intervalHows are the ways in which two notes are heard.
var intervalHows = []intervalHow{
	{askRising, synth.Hand.Rising, sayUp},
	{askFalling, synth.Hand.Falling, sayDown},
	{askTogether, synth.Hand.Block, sayUp},
}

// intervalHow picks how two notes are heard: where it is to be clear, one after the other, and rising where it is to be clearest.
func (r Request) intervalHow() intervalHow {
	switch {
	case r.Clarity.Plainly:
		return intervalHows[0]
	case r.Clarity.InTurn:
		return intervalHows[r.Rand.IntN(2)]
	}
	return intervalHows[r.Rand.IntN(len(intervalHows))]
}

// How fast two notes follow each other, in plucks a minute, and how long the last one rings.
const (
	slowestNotes, fastestNotes = 60, 100
	shortestRing, longestRing  = time.Second, 3 * time.Second
)

// notesHand picks a hand for two notes. Sounds are equally loud as a whole, but two notes beat, or one dies away
// before the other, so that the loudest moment would tell one interval from another. How much louder it is than the
// whole depends on how long the notes last as well: that differs from question to question, as level is roved in
// listening tests, so that it tells nothing. So it is where it is to be clearest as well.
func (r Request) notesHand() synth.Hand {
	rng := r.Rand
	return synth.Hand{
		Tempo: slowestNotes + (fastestNotes-slowestNotes)*rng.Float64(),
		Ring:  shortestRing + time.Duration(rng.Float64()*float64(longestRing-shortestRing)),
		Rand:  rng,
	}
}

// softestNote and loudestNote are how hard each of two notes that follow each other is plucked, as shares of what is usual.
const softestNote, loudestNote = 0.6, 1.2

// unevenly plucks each of two notes that follow each other harder or softer than usual, whichever it is. How long they last does not alone
// hide how much louder the loudest moment is than the whole: by that, 3 to 4 points more than by chance were guessed.
func (r Request) unevenly(s synth.Score) synth.Score {
	if last := s.Plucks[len(s.Plucks)-1]; last.At < time.Second/4 {
		return s // they sound together
	}
	return unevenly(s, softestNote, loudestNote, r.Rand)
}

// spot is where two notes lie on a neck: a string and a fret each.
type spot struct {
	low, high theory.Pitch
	at        [2]stop
}

// stop is a place on the neck: a string, counted from 0 in the tuning's order, and a fret.
type stop struct{ string, fret int }

// spotsOf returns the places for an interval anywhere on the neck, on two strings so that both may ring.
func spotsOf(t *fret.Tuning, want theory.Interval) []spot {
	var spots []spot
	for i := range t.Strings {
		for f := range min(highestFret, t.Frets) + 1 {
			if f > 0 && f <= t.Start(i) {
				continue
			}
			low, ok := spellEasily(t.MIDI(i, f), want)
			if !ok {
				continue
			}
			if s, ok := spotAt(t, low, stop{i, f}, want); ok {
				spots = append(spots, s)
			}
		}
	}
	return spots
}

// spotAt finds the upper note of an interval whose lower note lies at a stop: on another string, as
// near along the neck as can be.
func spotAt(t *fret.Tuning, low theory.Pitch, at stop, want theory.Interval) (spot, bool) {
	best, found := spot{}, false
	for j := range t.Strings {
		f := t.MIDI(at.string, at.fret) + want.Semitones - t.Strings[j].MIDI() + t.Start(j)
		if j == at.string || f < t.Start(j) || f > min(highestFret, t.Frets) {
			continue
		}
		if f == t.Start(j) {
			f = 0
		}
		if !found || distance(f, at.fret) < distance(best.at[1].fret, at.fret) {
			best, found = spot{low, low.Up(want), [2]stop{at, {j, f}}}, true
		}
	}
	return best, found
}

// beside finds another interval near: on the same lower note, or where the neck has no room for that, on the nearest that has.
func (s spot) beside(t *fret.Tuning, i theory.Interval) (spot, bool) {
	if at, ok := spotAt(t, s.low, s.at[0], i); ok {
		return at, true
	}
	all := spotsOf(t, i)
	if len(all) == 0 {
		return spot{}, false
	}
	return slices.MinFunc(all, func(a, b spot) int {
		return distance(a.low.MIDI(), s.low.MIDI()) - distance(b.low.MIDI(), s.low.MIDI())
	}), true
}

// spellEasily spells a pitch so that it and the interval above it need the fewest sharps and flats, and
// no double ones.
func spellEasily(midi int, above theory.Interval) (theory.Pitch, bool) {
	best, least := theory.Pitch{}, 3
	for _, alter := range []int8{0, -1, 1} {
		for l := theory.C; l <= theory.B; l++ {
			p, ok := theory.Spell(midi, theory.Note{Letter: l, Alter: alter})
			high := int(p.Up(above).Alter)
			if signs := max(int(alter), -int(alter)) + max(high, -high); ok && signs < least && high >= -1 && high <= 1 {
				best, least = p, signs
			}
		}
	}
	return best, least < 3
}

// notes returns what sounds, in the tuning's order.
func (s spot) notes(t *fret.Tuning) []synth.Sounding {
	out := []synth.Sounding{
		{String: t.StringNumber(s.at[0].string), Pitch: s.low},
		{String: t.StringNumber(s.at[1].string), Pitch: s.high},
	}
	if s.at[0].string > s.at[1].string {
		slices.Reverse(out)
	}
	return out
}

// voicing shows the two notes on the neck.
func (s spot) voicing(t *fret.Tuning, want theory.Interval) fret.Voicing {
	v := fret.Voicing{Tuning: t, Shape: make(fret.Shape, len(t.Strings)), Strings: make([]fret.StringTone, len(t.Strings))}
	for i := range t.Strings {
		v.Shape[i] = fret.Muted
		v.Strings[i] = fret.StringTone{Number: t.StringNumber(i), Fret: fret.Muted}
	}
	tones := [2]fret.StringTone{{Pitch: s.low, Interval: theory.Unison}, {Pitch: s.high, Interval: want}}
	for n, at := range s.at {
		v.Shape[at.string] = at.fret
		tones[n].Number, tones[n].Fret = t.StringNumber(at.string), at.fret
		v.Strings[at.string] = tones[n]
	}
	return v
}

// twins returns the other names of what sounds like an interval, as they are typed.
func twins(want theory.Interval) []string {
	var out []string
	for number := max(1, want.Number-1); number <= min(15, want.Number+1); number++ {
		if i := (theory.Interval{Number: number, Semitones: want.Semitones}); i != want && read.PlainlyNamed(i) {
			out = append(out, i.String())
		}
	}
	return out
}
