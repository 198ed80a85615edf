package hear

import (
	"math"
	"slices"
)

// What it costs a reading, in the logarithm of odds, that a string does not sound what is expected. Faults that fingers make are cheap.
// Chosen on invented sounds and on two sound fonts, see the study.
const (
	costSilent   = 3.0 // it is not struck, or stilled
	costSemitone = 4.0 // a finger one fret off
	costOpen     = 4.0 // a finger is lifted
	costTone     = 5.0 // two frets off
	costAny      = 7.0
	costSounds   = 4.0 // a string that should be silent sounds open
	costAmong    = 5.0 // something else as a whole was played
	mostOdds     = 9.0 // a net is never surer than this
	optionsKept  = 6   // of a string's pitches, the likeliest
)

// cost is what it costs that a string sounds a pitch in the place of another.
func cost(s String, expected, pitch int) float64 {
	off := pitch - expected
	switch {
	case pitch == expected:
		return 0
	case pitch == Silent:
		return costSilent
	case expected == Silent && pitch == s.Open:
		return costSounds
	case expected == Silent:
		return costAny
	case pitch == s.Open:
		return costOpen
	case off == 1 || off == -1:
		return costSemitone
	case off == 2 || off == -2:
		return costTone
	}
	return costAny
}

// option is what a string may sound, and what that is worth by itself.
type option struct {
	pitch int
	cost  float64
}

// tally adds up how likely everything is.
type tally struct {
	strings []map[int]float64 // of each string, its pitches
	at      [][]float64       // of each string plucked in turn, at which pluck
	among   []float64
	notes   map[int]float64 // that a pitch sounds on any string
	all     float64
}

// add counts a reading of some worth, the logarithm of how likely it is.
func (t *tally) add(reading []int, worth float64) {
	p := math.Exp(worth)
	t.all += p
	for i, pitch := range reading {
		t.strings[i][pitch] += p
		if pitch != Silent && !slices.Contains(reading[:i], pitch) {
			t.notes[pitch] += p
		}
	}
}

// struck weighs all readings of one stroke, given the odds of each pitch that it was struck.
func struck(task Task, odds map[int]float64) *tally {
	t := &tally{notes: map[int]float64{}, among: make([]float64, len(task.Among))}
	for range task.Strings {
		t.strings = append(t.strings, map[int]float64{})
	}
	worth := func(reading []int) (sum float64) {
		for i, p := range reading {
			if p != Silent && !slices.Contains(reading[:i], p) {
				sum += odds[p]
			}
		}
		return sum
	}
	apiece := 0.0
	if task.Expect != nil {
		apiece = costAmong + math.Log(float64(max(1, len(task.Among))))
	}
	for n, w := range task.Among {
		t.among[n] = math.Inf(-1)
		if task.Expect != nil && slices.Equal(w, task.Expect) {
			continue
		}
		v := worth(w) - apiece
		t.among[n] = v
		t.add(w, v)
	}
	if task.Expect == nil {
		return t
	}
	options := make([][]option, len(task.Strings))
	for i, s := range task.Strings {
		options[i] = likely(s, task.Expect[i], odds)
	}
	reading := make([]int, len(task.Strings))
	var rest func(i int, worth float64)
	rest = func(i int, worth float64) {
		if i == len(reading) {
			t.add(reading, worth)
			return
		}
		for _, o := range options[i] {
			w := worth - o.cost
			if o.pitch != Silent && !slices.Contains(reading[:i], o.pitch) {
				w += odds[o.pitch]
			}
			reading[i] = o.pitch
			rest(i+1, w)
		}
	}
	rest(0, 0)
	return t
}

// likely returns what a string may sound: what is expected, nothing, and the pitches that are worth most.
func likely(s String, expected int, odds map[int]float64) []option {
	all := []option{{Silent, cost(s, expected, Silent)}}
	if expected != Silent {
		all = append(all, option{expected, 0})
	}
	var others []option
	for _, p := range s.May {
		if p != expected {
			others = append(others, option{p, cost(s, expected, p)})
		}
	}
	slices.SortStableFunc(others, func(a, b option) int {
		switch x, y := odds[a.pitch]-a.cost, odds[b.pitch]-b.cost; {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	return append(all, others[:min(len(others), optionsKept-len(all))]...)
}
