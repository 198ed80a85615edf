package read

import (
	"slices"

	"sparetone/theory"
)

// alteredTone returns the tone of a number, major or perfect as written, or a semitone off. A second is a ninth.
func alteredTone(n int, w sign) theory.Interval {
	if n == 2 {
		n = 9
	}
	i := theory.Plain(n)
	switch w {
	case sharp:
		i.Semitones++
	case flat:
		i.Semitones--
	}
	return i
}

func (r *reading) hasAltered(number int) bool {
	return slices.ContainsFunc(r.altered, func(i theory.Interval) bool { return i.Number == number })
}

// tones returns the formula that was read.
func (r *reading) tones() []theory.Interval {
	third, fifth, seventh := theory.MajorThird, theory.PerfectFifth, theory.MinorSeventh
	number := r.number
	switch r.quality {
	case minor:
		third = theory.MinorThird
	case dim:
		third, fifth, seventh = theory.MinorThird, theory.DiminishedFifth, theory.DimSeventh
	case halfDim:
		third, fifth = theory.MinorThird, theory.DiminishedFifth
		number = max(number, 7)
	case aug:
		fifth = theory.AugmentedFifth
	}
	if r.majorSev {
		seventh = theory.MajorSeventh
	}
	if r.alt || len(r.sus) > 0 && r.hasAltered(9) { // a suspended chord with an altered ninth is a dominant one
		number = max(number, 7)
	}
	out := []theory.Interval{theory.Unison}
	switch {
	case len(r.sus) > 0:
		for _, s := range r.sus {
			out = append(out, theory.Plain(s))
		}
	case r.number == 5:
	default:
		out = append(out, third)
	}
	if !r.hasAltered(5) {
		out = append(out, fifth)
	}
	switch number {
	case 6:
		out = append(out, theory.MajorSixth)
	case 69:
		out = append(out, theory.MajorSixth, theory.MajorNinth)
	case 7, 9, 11, 13:
		out = append(out, seventh)
		for _, stacked := range []theory.Interval{theory.MajorNinth, theory.Eleventh, theory.Thirteenth} {
			// The eleventh of a thirteenth chord would hurt a major third.
			left := stacked == theory.Eleventh && number == 13 && third == theory.MajorThird
			if stacked.Number <= number && !left && !r.hasAltered(stacked.Number) {
				out = append(out, stacked)
			}
		}
	}
	if r.bothSev {
		out = append(out, theory.MajorSeventh)
	}
	return append(append(out, r.altered...), r.added...)
}
