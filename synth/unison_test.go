package synth

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"

	"sparetone/synth/measure"
	"sparetone/theory/fret"
)

// doubled is a chord in which two strings sound one pitch, and the way it is played.
type doubled struct {
	how   How
	score Score
	pair  [2]Pluck // in the order they are plucked
	v     Voice
	a4    float64
}

func (d doubled) String() string {
	return fmt.Sprintf("%s, %s, %v on strings %d and %d, A4 at %.1f Hz", d.v.Name(), d.how, d.pair[0].Pitch, d.pair[0].String, d.pair[1].String, d.a4)
}

// anyDoubled draws a chord of a tuning with two strings at one pitch, not above fret 12, other notes on the others.
func anyDoubled(rng *rand.Rand, v Voice) doubled {
	for {
		tuning := fret.Tunings()[rng.IntN(len(fret.Tunings()))]
		i, j := rng.IntN(len(tuning.Strings)), rng.IntN(len(tuning.Strings))
		lower, higher := tuning.Strings[i].MIDI(), tuning.Strings[j].MIDI()
		if i == j || higher < lower || higher-lower > 12 {
			continue
		}
		pitch := higher + rng.IntN(13-(higher-lower))
		var notes []Sounding
		for n := range tuning.Strings {
			note := tuning.Strings[n].MIDI() + rng.IntN(13)
			if n == i || n == j {
				note = pitch
			}
			notes = append(notes, Sounding{String: tuning.StringNumber(n), Pitch: midiPitch(note)})
		}
		hand := Hand{Tempo: float64(100 + rng.IntN(300))}
		if rng.IntN(4) > 0 {
			hand.Rand = rand.New(rand.NewPCG(rng.Uint64(), 1))
		}
		d := doubled{how: []How{Block, Strum, Up, Pick}[rng.IntN(4)], v: v, a4: LowestA4 + rng.Float64()*(HighestA4-LowestA4)}
		if rng.IntN(3) == 0 {
			d.a4 = 440
		}
		d.score = hand.Play(d.how, notes)
		k := 0
		for _, p := range d.score.InTime() {
			if p.String == tuning.StringNumber(i) || p.String == tuning.StringNumber(j) {
				d.pair[k] = p
				k++
			}
		}
		return d
	}
}

// partials returns how strong partials 1 to 6 are in the second from the later pluck on, where only these strings are
// plucked, as the chord is played.
func (d doubled) partials(plucks ...Pluck) (level [watched]float64) {
	score := Score{Plucks: plucks, Length: d.score.Length}
	r := measure.Recording{Rate: float64(SampleRate), Samples: wholly(score, d.v, d.a4)}
	from := SampleRate.N(d.pair[1].At + 10*time.Millisecond)
	second := r.Samples[from:min(from+int(SampleRate), len(r.Samples))]
	f := d.pair[0].Pitch.Frequency(d.a4)
	for k := range level {
		c := r.At(second, f*float64(k+1))
		level[k] = math.Hypot(real(c), imag(c))
	}
	return level
}

// Two strings in unison are stronger than either alone, at each of partials 1 to 6 that is heard (within 60 dB of the
// strongest), by 2 to 7 dB over the first second: for every voice and way of playing, whatever the hand's seed, the
// pitch and A4. Thirty chords a voice; 2,000 in all with SPARETONE_STUDY=1.
func TestUnisonsAddUp(t *testing.T) {
	t.Parallel()
	each := 30
	if os.Getenv("SPARETONE_STUDY") != "" {
		each = 334
	}
	for i, v := range voices {
		rng := rand.New(rand.NewPCG(uint64(i), 12))
		over, weaker := []float64{}, []float64{}
		for range each {
			d := anyDoubled(rng, v)
			both, first, later := d.partials(d.pair[:]...), d.partials(d.pair[0]), d.partials(d.pair[1])
			strongest := max(slices.Max(first[:]), slices.Max(later[:]))
			for k := range both {
				if max(first[k], later[k]) < strongest/1000 {
					continue
				}
				db := 20 * math.Log10(both[k]/max(first[k], later[k]))
				over = append(over, db)
				if !(db >= 2 && db <= 7) {
					t.Errorf("%v: partial %d is %.2f dB above the stronger of the two alone", d, k+1, db)
				}
				if d.how != Pick {
					weaker = append(weaker, 20*math.Log10(both[k]/min(first[k], later[k])))
				}
			}
		}
		t.Logf("%s: %d partials of %d chords are %.2f to %.2f dB above the stronger string; in one stroke up to %.2f dB above the weaker",
			v.Name(), len(over), each, slices.Min(over), slices.Max(over), slices.Max(weaker))
	}
}

// Both together are as much in tune as one.
func TestUnisonsAreInTune(t *testing.T) {
	for i, v := range voices {
		rng := rand.New(rand.NewPCG(uint64(i), 13))
		for range 5 {
			d := anyDoubled(rng, v)
			r := measure.Recording{Rate: float64(SampleRate), Samples: wholly(Score{Plucks: d.pair[:], Length: d.score.Length}, v, d.a4)}
			from := d.pair[1].At.Seconds() + 0.1
			want := d.pair[0].Pitch.Frequency(d.a4)
			if off := measure.Cents(r.Frequency(want, from, from+0.6), want); math.Abs(off) > 0.1 {
				t.Errorf("%v: %.3f cents off", d, off)
			}
		}
	}
}

// Where no two strings ring on at one pitch nothing is moved, and nothing plucked harder or softer. A pluck that is
// moved stays within half a period or a millisecond.
func TestWhatMakesAPair(t *testing.T) {
	const ms = time.Millisecond
	pluck := func(s int, note string, at, damp time.Duration) Pluck {
		return Pluck{String: s, Pitch: sounding(t, "1:"+note)[0].Pitch, At: at, Strength: 0.7, Damp: damp}
	}
	for _, tt := range []struct {
		name   string
		plucks []Pluck
		paired bool
	}{
		{"unison", []Pluck{pluck(1, "G4", 0, 0), pluck(2, "G4", 17*ms, 0)}, true},
		{"enharmonic", []Pluck{pluck(1, "F#4", 0, 0), pluck(2, "Gb4", 17*ms, 0)}, true},
		{"an octave", []Pluck{pluck(1, "G4", 0, 0), pluck(2, "G5", 17*ms, 0)}, false},
		{"a semitone", []Pluck{pluck(1, "G4", 0, 0), pluck(2, "G#4", 17*ms, 0)}, false},
		{"stopped before", []Pluck{pluck(1, "G4", 0, 500*ms), pluck(2, "G4", 517*ms, 0)}, false},
		{"stopped soon after", []Pluck{pluck(1, "G4", 0, 600*ms), pluck(2, "G4", 517*ms, 0)}, false},
		{"stopped later", []Pluck{pluck(1, "G4", 0, 620*ms), pluck(2, "G4", 517*ms, 0)}, true},
		{"the same string", []Pluck{pluck(1, "G4", 0, 0), pluck(1, "G4", 517*ms, 0)}, false},
		{"slurred to it", []Pluck{pluck(1, "F4", 0, 0), {String: 1, Pitch: pluck(1, "G4", 0, 0).Pitch, At: 200 * ms, Strength: 0.5, Slur: true}, pluck(2, "G4", 517*ms, 0)}, false},
	} {
		for _, v := range []Voice{voices[0], voices[4]} {
			p := newPlaying(Score{Plucks: tt.plucks, Length: 3 * time.Second}, v, 440)
			p.pluckBefore(p.length)
			tones := p.last[tt.plucks[len(tt.plucks)-1].String].tones
			s, asked := tones[len(tones)-1].(*vibrating), SampleRate.N(tt.plucks[len(tt.plucks)-1].At)
			moved := max(s.start-asked, asked-s.start)
			if paired := s.gain != 1; paired != tt.paired || moved > SampleRate.N(1276*time.Microsecond) || !paired && moved != 0 {
				t.Errorf("%s, %s: a gain of %v, moved by %d samples", tt.name, v.Name(), s.gain, moved)
			}
		}
	}
}
