package ear

import (
	"slices"
	"time"

	"sparetone/drills"
	"sparetone/drills/fair"
	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// Interval plays two notes, one after the other or together, and asks for the interval.
type Interval struct{}

func (Interval) About() drills.About {
	return drills.About{ID: "interval-ear", Title: "Name an interval by ear", Ears: true}
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
func (Interval) Targets(on *neck.Instrument) []drills.Target {
	var out []drills.Target
	if len(on.Tuning.Strings) < 2 {
		return out
	}
	low, high := compass(on.Tuning)
	for _, e := range earIntervals {
		if e.interval.Semitones > high-low {
			continue
		}
		t := drills.Target{ID: e.interval.String(), Topic: drills.Topic{Of: "interval", ID: e.interval.String()}, Name: wording.Interval(e.interval)}
		for _, n := range e.near {
			t.Near = append(t.Near, n.String())
		}
		out = append(out, t)
	}
	return out
}

func (Interval) Rungs(string) []drills.Rung { return drills.IntervalRungs }

// highestFret is as far up the neck as an ear drill goes: the octave and a little more.
const highestFret = 14

// lowestReach is as far up the neck as two notes lie where little of it is known: beginners play there first.
const lowestReach = 5

// compass returns the lowest and the highest MIDI number that the ear drills play on a tuning.
func compass(t *fret.Tuning) (low, high int) {
	low, high = t.Strings[0].MIDI(), 0
	for _, s := range t.Strings {
		low = min(low, s.MIDI())
		high = max(high, s.MIDI()+min(highestFret, t.Frets))
	}
	return low, high
}

func (d Interval) Ask(r drills.Request) (*drills.Question, error) {
	targets := d.Targets(r.On)
	choices, err := fair.Pick(targets, r, fair.Never)
	if err != nil {
		return nil, err
	}
	choices = r.Settle(choices)
	want, err := theory.ParseInterval(r.Target)
	if err != nil {
		return nil, err
	}
	t := r.On.Tuning
	var intervals []theory.Interval
	for _, c := range choices {
		i, err := theory.ParseInterval(c.ID)
		if err != nil {
			return nil, err
		}
		intervals = append(intervals, i)
	}
	right := slices.Index(intervals, want)
	spots := func(reach float64) (out [][]spot) {
		for _, i := range intervals {
			out = append(out, spotsWithin(t, i, reach))
		}
		return out
	}
	spot, ok := fair.Match(r, right, spots, func(s spot) fair.Feature { return fair.Feature{s.low.MIDI()} })
	if !ok {
		return nil, say.Wrong("{} does not fit on {}", say.A(say.Interval(want)), say.Foreign(t.Name))
	}
	how := pickIntervalHow(r)
	hand := r.NotesHand()
	notes := spot.notes(t)
	q := &drills.Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: how.prompt,
		Voice:  r.Voice(),
		Sounds: []drills.Sound{{Notes: notes, Score: unevenNotes(r, how.play(hand, notes))}},
	}
	var offered []drills.Choice
	for _, t := range choices {
		offered = append(offered, drills.Choice{ID: t.ID, Said: t.Name, Typed: t.ID})
	}
	q.Offer(r.Target, offered...)
	q.Accepts = twins(want)
	q.Answers = drills.Answers[theory.Interval]{
		Offered: intervals,
		Read: func(text string) (theory.Interval, error) {
			i, err := read.Interval(text)
			if err != nil {
				return i, drills.ErrUnread
			}
			return i, nil
		},
		Mark: func(i theory.Interval) drills.Given {
			g := drills.Given{ID: i.String(), Said: wording.Interval(i), Result: drills.RightIf(i.Semitones == want.Semitones)}
			if g.Right() && i != want {
				g.Note = sayTwins(i, want)
			}
			return g
		},
		Explain: func(i theory.Interval, g drills.Given, v *drills.Verdict) {
			v.Short = how.says(spot.low.Note, spot.high.Note, want)
			v.Say(v.Short)
			v.Shapes = []drills.Reveal{{Caption: wording.Interval(want), Voicing: spot.voicing(t, want)}}
			if g.Right() {
				return
			}
			v.TakenFor = i.String()
			v.Short = sayWider(want, i)
			v.Say(v.Short)
			if beside, ok := spot.beside(t, i); ok {
				notes := beside.notes(t)
				hand.Rand = nil
				v.Other = []drills.Sound{{Label: wording.Interval(i), Notes: notes, Score: how.play(hand, notes)}}
				v.Show(wording.Interval(i), beside.voicing(t, i))
				v.SetContrast()
			}
		},
	}
	return q, nil
}

// intervalHow is how two notes are heard.
type intervalHow struct {
	prompt say.Text
	play   func(hand synth.Hand, notes []synth.Sounding) synth.Score
	says   func(low, high theory.Note, i theory.Interval) say.Text // after the answer
}

// intervalHows are the ways in which two notes are heard.
var intervalHows = []intervalHow{
	{askRising, synth.Hand.Rising, sayUp},
	{askFalling, synth.Hand.Falling, sayDown},
	{askTogether, synth.Hand.Block, sayUp},
}

// pickIntervalHow picks how two notes are heard: where it is to be clear, one after the other, and rising where it is to be clearest.
func pickIntervalHow(r drills.Request) intervalHow {
	switch {
	case r.Clarity.Plainly:
		return intervalHows[0]
	case r.Clarity.InTurn:
		return intervalHows[r.Rand.IntN(2)]
	}
	return intervalHows[r.Rand.IntN(len(intervalHows))]
}

// softestNote and loudestNote are how hard each of two notes that follow each other is plucked, as shares of what is usual.
const softestNote, loudestNote = 0.6, 1.2

// unevenNotes plucks each of two notes that follow each other harder or softer than usual, whichever it is. How long they last does not alone
// hide how much louder the loudest moment is than the whole: by that, 3 to 4 points more than by chance were guessed.
func unevenNotes(r drills.Request, s synth.Score) synth.Score {
	if last := s.Plucks[len(s.Plucks)-1]; last.At < time.Second/4 {
		return s // they sound together
	}
	return drills.Unevenly(s, softestNote, loudestNote, r.Rand)
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

// spotsWithin returns those of the places for an interval that lie within the student's reach, 0 to 1.
func spotsWithin(t *fret.Tuning, want theory.Interval, reach float64) []spot {
	highest := lowestReach + int(reach*(highestFret-lowestReach)+0.5)
	return slices.DeleteFunc(spotsOf(t, want), func(s spot) bool { return max(s.at[0].fret, s.at[1].fret) > highest })
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
		if !found || neck.Distance(f, at.fret) < neck.Distance(best.at[1].fret, at.fret) {
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
		return neck.Distance(a.low.MIDI(), s.low.MIDI()) - neck.Distance(b.low.MIDI(), s.low.MIDI())
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

// IntervalNames lists the names of the intervals that are asked for, the smallest first.
func IntervalNames() []string {
	out := make([]string, len(earIntervals))
	for i, row := range earIntervals {
		out[i] = row.interval.Name()
	}
	return out
}
