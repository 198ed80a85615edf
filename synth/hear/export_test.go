package hear

import "maps"

// Stroke is what the nets say of a stroke.
type Stroke struct {
	task          Task
	strum, masked map[int]float64
}

// StrokeAt returns what the nets say of a stroke at a time, in seconds.
func StrokeAt(samples []float64, rate float64, task Task, at float64) (Stroke, error) {
	l, err := Listen(rate, task)
	if err != nil {
		return Stroke{}, err
	}
	l.kept = samples
	odds, cents, spectra := l.strumOdds(at, 0)
	return Stroke{task, odds, l.maskedOdds(odds, at, 0, cents, spectra)}, nil
}

// Likeliest returns what each string most likely sounds, if the odds of masked strings are weighed so.
func (s Stroke) Likeliest(weights Weights) (pitches []int) {
	odds := map[int]float64{}
	for p, o := range s.strum {
		odds[p] = o
	}
	for p, o := range s.masked {
		odds[p] = weights.odds(odds[p], o)
	}
	t := struck(s.task, odds)
	for i := range s.task.Strings {
		pitch, _ := t.likeliest(i)
		pitches = append(pitches, pitch)
	}
	return pitches
}

// Weights are how a masked string is judged.
type Weights = weights

// NewWeights returns weights.
func NewWeights(strum, masked, doubt float64) Weights { return weights{strum, masked, doubt} }

// ChosenWeights are those of the package.
func ChosenWeights() Weights { return maskedWeights }

// Sure returns how sure it is of each string, by index, that it sounds what it does, if the odds of masked strings are weighed so; 0 for one that is silent.
func (s Stroke) Sure(truth []int, weights Weights) (sure []float64) {
	odds := maps.Clone(s.strum)
	for p, o := range s.masked {
		odds[p] = weights.odds(odds[p], o)
	}
	t := struck(s.task, odds)
	for i, p := range truth {
		one := 0.0
		if p != Silent {
			one = t.strings[i][p] / t.all
		}
		sure = append(sure, one)
	}
	return sure
}
