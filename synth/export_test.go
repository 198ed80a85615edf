package synth

import "sparetone/synth/measure"

// What tests outside the package measure sounds with.

// LoudnessOf returns how loud a sound is, in LUFS, and how high it peaks, in dBTP, or that this is not above TruePeak.
func LoudnessOf(s *Sound) (lufs, peak float64) { return loudnessOf(s) }

// FrequencyOf returns the frequency in Hz of what a sound has near f Hz, between two times in seconds.
func FrequencyOf(s *Sound, f, from, to float64) float64 {
	return measure.Record(s, SampleRate).Frequency(f, from, to)
}

// BrightnessOf returns the centre of a sound's spectrum about a time in seconds, in Hz.
func BrightnessOf(s *Sound, about float64) float64 {
	return measure.Record(s, SampleRate).Centroid(about)
}
