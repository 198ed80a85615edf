// Package perform makes scores of arranged songs: strums and picking orders in time, plain and coloured, with a click.
package perform

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
	"time"

	"sparetone/drills"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
)

// Sounds is which shapes of a song are heard.
type Sounds string

// What may be heard.
const (
	Path    Sounds = "path"     // the path that was asked for
	Plain   Sounds = "plain"    // the plain one
	ByTurns Sounds = "by-turns" // the plain one and then the other, a round each
	ByBars  Sounds = "by-bars"  // the same, a bar each
)

// All returns what may be heard.
func All() []Sounds { return []Sounds{Path, Plain, ByTurns, ByBars} }

// Wishes is how a song is to be played. The zero Wishes plays its path once, as the song says, without a click.
type Wishes struct {
	Sounds  Sounds     // empty is Path
	Tempo   float64    // beats a minute; 0 is the song's, or usualTempo where it says none
	Rounds  int        // how often the song goes round; by turns that is once for both; 0 is once
	Click   bool       // a click on each beat
	CountIn bool       // a bar of clicks before
	Rand    *rand.Rand // small differences in time and strength; nil plays evenly
}

// usualTempo is the tempo, in beats a minute, of a song that says none. Common practice, no source.
const usualTempo = 90

// TempoOf returns the tempo, in beats a minute, at which a song is played.
func (w Wishes) TempoOf(s song.Song) float64 { return cmp.Or(w.Tempo, s.Header.Tempo, usualTempo) }

// Performance is an arranged song as a score, and when its chords come.
type Performance struct {
	Score   synth.Score
	Tempo   float64 // beats a minute
	Chords  []Chord
	Strings []synth.StringTrack // of the instrument, and the click where there is one
}

// Chord is a chord where it comes in a performance.
type Chord struct {
	At    time.Duration
	Chord theory.Chord
}

// Play makes a score of an arranged song. The error says that it is too long.
func Play(a arrange.Arrangement, w Wishes) (Performance, error) {
	tempo := w.TempoOf(a.Song)
	beats := a.Song.Meter().Beats
	sounding, err := soundingTuning(a)
	if err != nil {
		return Performance{}, err
	}
	rounds := 1 // until what is heard comes again
	if w.Sounds == ByTurns {
		rounds = 2
	}
	pattern := patternOf(a, beats)
	perf := Performance{Tempo: tempo}
	at := 0.0 // beats
	var clicks int
	if w.CountIn {
		at, clicks = float64(beats), beats
	}
	start := at
	var held []synth.Held
	for n := range max(1, w.Rounds) * rounds {
		for _, p := range a.Places {
			path := w.pathHeard(n, p.Bar)
			if !p.Rests() {
				perf.Chords = append(perf.Chords, Chord{inTime(at, tempo), w.shapeAt(p, path).Chord})
			}
			at += p.Beats
			held = append(held, w.heldAt(p, path, sounding, p.Beats))
		}
	}
	if total := inTime(at, tempo) + lastRing; total > synth.LongestScore {
		return Performance{}, fmt.Errorf("the song lasts %v: the longest that is played is %v", total.Round(time.Second), synth.LongestScore)
	}
	hand := synth.Hand{Tempo: tempo, Ring: lastRing, Rand: w.Rand}
	perf.Score = synth.RingOn(synth.Score{Length: inTime(start, tempo)}, hand.Along(pattern, held...))
	for i := range a.Tuning.Strings {
		number := a.Tuning.StringNumber(i)
		perf.Strings = append(perf.Strings, synth.StringTrack{Number: number, Name: a.Tuning.StringCalled(number)})
	}
	if w.Click {
		clicks = int(at)
	}
	if clicks > 0 {
		perf.Score.Plucks = append(perf.Score.Plucks, click(clicks, beats, tempo)...)
		perf.Strings = append(perf.Strings, synth.StringTrack{Number: clickString, Name: "click"})
	}
	return perf, nil
}

// pathHeard reports whether the path is heard in a bar, counted from 1, of a round, counted from 0, and not the plain shapes.
func (w Wishes) pathHeard(round, bar int) bool {
	switch w.Sounds {
	case Plain:
		return false
	case ByTurns:
		return round%2 == 1
	case ByBars:
		return bar%2 == 0
	}
	return true
}

// shapeAt returns the shape that is heard at a place. Plain chords that are set against coloured ones are those of which one string is moved:
// so nothing else is heard to change.
func (w Wishes) shapeAt(p arrange.Place, path bool) arrange.Held {
	switch {
	case path:
		return p.Path
	case w.Sounds == Plain:
		return p.Plain
	}
	return p.Uncoloured()
}

// heldAt is what a hand holds at a place for some beats.
func (w Wishes) heldAt(p arrange.Place, path bool, sounding *fret.Tuning, beats float64) synth.Held {
	one := synth.Held{Beats: beats}
	if p.Rests() {
		return one
	}
	h := w.shapeAt(p, path)
	one.Notes = soundings(sounding, h)
	if c := h.Colour; c != nil {
		one.Before = soundings(sounding, arrange.Held{Shape: c.From, Chord: p.Chord})
	}
	return one
}

// Loop makes scores of an arranged song that goes round and round: what is played once before, the bar that counts it in, and a round,
// which is as long as it takes until the pattern begins anew with the song. The errors are those of Play.
func Loop(a arrange.Arrangement, w Wishes) (once, round synth.Score, err error) {
	beats := 0.0
	for _, p := range a.Places {
		beats += p.Beats
	}
	pattern := patternOf(a, a.Song.Meter().Beats)
	turns := 1
	if w.Sounds == ByTurns {
		turns = 2
	}
	steps := int(beats*float64(pattern.PerBeat)+0.5) * turns
	rounds := 1
	for steps*rounds%len(pattern.Steps) != 0 {
		rounds++
	}
	if most := synth.LongestScore - lastRing; inTime(3*beats*float64(turns*rounds), w.TempoOf(a.Song)) > most {
		rounds = 1 // too long: the pattern begins anew with the song
	}
	// The middle one of three is what goes on: another has come before, and another comes.
	long := w
	long.Rounds, long.CountIn = 3*rounds, false
	p, err := Play(a, long)
	if err != nil {
		return once, round, err
	}
	round.Length = inTime(beats*float64(turns*rounds), p.Tempo)
	for _, k := range p.Score.Plucks {
		if k.At -= round.Length; k.At >= 0 && k.At < round.Length {
			round.Plucks = append(round.Plucks, k)
		}
	}
	if w.CountIn {
		inBar := a.Song.Meter().Beats
		once = synth.Score{Plucks: click(inBar, inBar, p.Tempo), Length: inTime(float64(inBar), p.Tempo)}
	}
	return once, round, nil
}

// lastRing is how long the last chord rings on.
const lastRing = 3 * time.Second

// inTime returns how long so many beats last.
func inTime(beats, tempo float64) time.Duration {
	return time.Duration(beats * float64(time.Minute) / tempo)
}

// soundingTuning returns the tuning as it sounds: with the song's capo, from which its shapes are counted.
func soundingTuning(a arrange.Arrangement) (*fret.Tuning, error) {
	if a.Song.Header.Capo == 0 || a.Capoed {
		return a.Tuning, nil
	}
	return a.Tuning.Capo(a.Song.Header.Capo)
}

// soundings lists what a shape sounds.
func soundings(t *fret.Tuning, h arrange.Held) []synth.Sounding {
	v, err := fret.Voice(t, h.Shape, h.Chord)
	if err != nil {
		return nil
	}
	return drills.Soundings(v)
}

// stepsInBeat is how many steps a beat has where the song says no pattern.
const stepsInBeat = 2

// patternOf returns the pattern of a song: its strums, else its picking order, else the one that suits its colours.
func patternOf(a arrange.Arrangement, beats int) synth.Pattern {
	p, per := a.Song.Header.Strum, 0
	if p.IsZero() {
		p = a.Song.Header.Pick
	}
	if p.IsZero() {
		p, per = a.Picking(), stepsInBeat
	}
	if per == 0 {
		per = p.PerBeat(beats)
	}
	out := synth.Pattern{PerBeat: per}
	strokes := map[song.Stroke]synth.How{song.Down: synth.Strum, song.Up: synth.Up}
	for _, s := range p.Steps {
		out.Steps = append(out.Steps, synth.Step{Stroke: strokes[s.Stroke], Strings: s.Pluck, Still: s.Still, Hammer: s.Hammer})
	}
	return out
}

// The click is a high string that is stopped at once, on a string of its own. From judgement.
const (
	clickString = 0
	clickLength = 25 * time.Millisecond
	clickLoud   = 0.5 // strength on the first beat of a bar
	clickSoft   = 0.3 // and on the others
)

var clickFirst, clickOther = theory.Pitch{Note: theory.Note{Letter: theory.C}, Octave: 7}, theory.Pitch{Note: theory.Note{Letter: theory.G}, Octave: 6}

// click returns so many clicks, a beat apart.
func click(beats, inBar int, tempo float64) (plucks []synth.Pluck) {
	for n := range beats {
		p := synth.Pluck{String: clickString, Pitch: clickOther, At: inTime(float64(n), tempo), Strength: clickSoft, Damp: clickLength}
		if n%inBar == 0 {
			p.Pitch, p.Strength = clickFirst, clickLoud
		}
		plucks = append(plucks, p)
	}
	return plucks
}

// MIDI is what a Standard MIDI File of a performance says beside its score: the chords are texts.
func (p Performance) MIDI(a arrange.Arrangement) synth.MIDI {
	m := a.Song.Meter()
	out := synth.MIDI{
		Title: a.Song.Header.Title, Tempo: p.Tempo, Beats: m.Beats, Unit: m.Unit, Sharps: a.Key.Signature(), Minor: a.Key.Minor,
		Strings: slices.Clone(p.Strings),
	}
	for _, c := range p.Chords {
		out.Texts = append(out.Texts, synth.Text{At: c.At, Text: c.Chord.Symbol()})
	}
	return out
}
