// Package hear is the way back from sound to strings: it is told what each string may sound, and says what did, how far off it is, and
// how sure that is. It knows pitches, never chords. What it is given is samples; it has no microphone, no clock and no file.
//
//	samples ──▶ onsets ──▶ windows ──▶ cents ──▶ levels ──▶ net ──▶ readings ──▶ margins
//	             │          │           │         │          │       │            │
//	  a stroke   when       two of      how far   of each    odds    every way    how likely
//	  begins:    much is    half a      the       pitch at   that it to lay       each string
//	  ▁▁▁█▆▅▄    new in     second,     whole     its        was     pitches to   was read
//	     ├──┤├──┤the        behind      instru-   partials,  plucked strings,     right
//	             spectrum   each other  ment is   between            with what
//	                                    off       them and           each fault
//	                                              beside             costs
//
// Strings plucked in turn, in a known order, are looked at in three windows each: before the pluck, from it to the next, and half a second
// whatever comes; and what is weighed is every way to lay plucks to strings in that order. A string that is silent then and should not be is sought
// once more, moment by moment, between those beside it (seek.go): a soft pluck may begin without an onset. One note alone goes another way (Tones).
//
// # What it costs
//
// One to two seconds of one core for a minute of sound (BenchmarkHear). A stroke is read 1.15 s after it began, plucks in
// turn 0.6 s after the last.
//
// # What it cannot tell
//
//   - Which of two strings in unison is silent, when both are struck at once. Plucked in turn they can be told.
//   - A string an octave above another that is struck with it: it has no partial of its own. How strong the partials are that they share, when in
//     the stroke they begin and whether they beat speaks for it (net/masked.go), and is wrong of one such string in fourteen of those invented.
//   - Where on the neck a pitch is stopped, beyond which string may sound it.
//   - An instrument that is off by half a semitone or more: it is heard as the next semitone.
package hear
