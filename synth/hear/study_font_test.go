package hear_test

import (
	"encoding/binary"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"sparetone/synth/hear"
	"sparetone/theory"
)

// TestStudyOfFonts prints how far the recordings of each font are off their pitches by themselves, in cents, as we hear it and as aubio does, whose method is
// another (de Cheveigné and Kawahara's, in the spectrum).
func TestStudyOfFonts(t *testing.T) {
	studied(t, 0)
	if _, err := exec.LookPath("aubiopitch"); err != nil {
		missing(t, "aubiopitch")
	}
	for _, f := range fontsWanted(t) {
		for _, program := range []int{nylon, steel} {
			const each, lowest, highest = 2.0, 40, 79
			var notes []sounded
			for midi := lowest; midi <= highest; midi++ {
				notes = append(notes, sounded{at: 0.2 + each*float64(midi-lowest), length: 1.5, midi: midi, velocity: 90})
			}
			all := f.renderAfter(t, program, notes, each*float64(len(notes)+1))
			var ours, theirs, apart []float64
			var worst string
			octaves := 0
			for n, note := range notes {
				from := 0.2 + each*float64(n) + 0.1
				part := all[int(from*fontRate):int((from+0.5)*fontRate)]
				want := theory.MIDIFrequency(note.midi, 440)
				tone, ok := hear.ToneOf(part, fontRate, 60, 1200)
				other := aubio(t, part, want)
				if !ok || math.IsNaN(other) {
					t.Logf("%s %d: %d is not told: we %v, aubio %v", f.name, program, note.midi, ok, other)
					continue
				}
				if folded := math.Remainder(other, 1200); folded != other {
					other = folded
					octaves++
				}
				our := 1200 * math.Log2(tone.Hz/want)
				ours, theirs, apart = append(ours, math.Abs(our)), append(theirs, math.Abs(other)), append(apart, math.Abs(our-other))
				if math.Abs(our) > 8 {
					worst += " " + strconv.Itoa(note.midi) + ":" + strconv.Itoa(int(math.Round(our))) + "/" + strconv.Itoa(int(math.Round(other)))
				}
			}
			for _, s := range [][]float64{ours, theirs, apart} {
				slices.Sort(s)
			}
			middle := func(s []float64) float64 { return s[len(s)/2] }
			t.Logf("%-8s %d: %d notes; off by us %.1f in the middle, %.1f at most; by aubio %.1f, %.1f, octaves aside, in which it erred %d times; apart %.1f, %.1f; over 8, by us and by aubio:%s", f.name, program, len(ours),
				middle(ours), ours[len(ours)-1], middle(theirs), theirs[len(theirs)-1], octaves, middle(apart), apart[len(apart)-1], worst)
		}
	}
}

// ownCents returns how many cents the recordings of a font lie above their pitches by themselves, from one MIDI number to another, by their partials up to
// 1,100 Hz over the time in which a stroke is read. Their period, of which TestStudyOfFonts tells, is not it: a string of freepats' steel guitar begins up to
// 16 cents sharp and falls by 6 within half a second, and its partials lie up to 9 cents above its fundamental.
func ownCents(t *testing.T, f font, program, lowest, highest int) map[int]float64 {
	t.Helper()
	const each = 2.0
	var notes []sounded
	for midi := lowest; midi <= highest; midi++ {
		notes = append(notes, sounded{at: 0.2 + each*float64(midi-lowest), length: 1.5, midi: midi, velocity: 90})
	}
	all := f.renderAfter(t, program, notes, each*float64(len(notes)+1))
	out := map[int]float64{}
	for n, note := range notes {
		from := 0.2 + each*float64(n) + 0.1
		out[note.midi] = partialsOff(all[int(from*fontRate):int((from+0.9)*fontRate)], theory.MIDIFrequency(note.midi, 440))
	}
	return out
}

// partialsOff returns how many cents the partials of a frequency up to 1,100 Hz lie above where they would lie on average, each as weighty as it is strong.
func partialsOff(s []float64, hz float64) float64 {
	power := func(f float64) float64 { // under a Hann window
		var re, im float64
		sin, cos := math.Sincos(2 * math.Pi * f / fontRate)
		r, i := 1.0, 0.0
		for k, x := range s {
			w := x * (0.5 - 0.5*math.Cos(2*math.Pi*(float64(k)+0.5)/float64(len(s))))
			re, im = re+w*r, im+w*i
			r, i = r*cos-i*sin, r*sin+i*cos
		}
		return re*re + im*im
	}
	var sum, weight float64
	for n := 1.0; n == 1 || n*hz < 1100; n++ {
		best, most := 0.0, -1.0
		for c := -40.0; c <= 40; c++ {
			if p := power(n * hz * math.Exp2(c/1200)); p > most {
				best, most = c, p
			}
		}
		w := math.Sqrt(most) * min(1, n*hz/300)
		sum, weight = sum+w*best, weight+w
	}
	return sum / weight
}

// above returns how many cents the strings of a trial lie above the whole instrument on average, given what their recordings do by themselves.
func (tr trial) above(own map[int]float64) (sum float64) {
	for _, n := range tr.notes {
		sum += n.cents - tr.cents + own[n.midi]
	}
	return sum / float64(len(tr.notes))
}

// aubio returns how many cents aubio hears a sound above a frequency, the median of its frames.
func aubio(t *testing.T, s []float64, hz float64) float64 {
	t.Helper()
	path := filepath.Join(t.TempDir(), "note.wav")
	data := make([]byte, 0, 44+2*len(s))
	le := binary.LittleEndian
	data = append(data, "RIFF"...)
	data = le.AppendUint32(data, uint32(36+2*len(s)))
	data = append(data, "WAVEfmt "...)
	data = le.AppendUint32(data, 16)
	data = le.AppendUint16(le.AppendUint16(data, 1), 1)
	data = le.AppendUint32(le.AppendUint32(data, fontRate), 2*fontRate)
	data = le.AppendUint16(le.AppendUint16(data, 2), 16)
	data = append(data, "data"...)
	data = le.AppendUint32(data, uint32(2*len(s)))
	for _, x := range s {
		data = le.AppendUint16(data, uint16(int16(math.Round(math.Max(-1, math.Min(1, x))*32767))))
	}
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("aubiopitch", "-i", path, "-p", "yinfft", "-B", "8192", "-H", "1024", "-u", "hertz").Output()
	if err != nil {
		t.Fatal(err)
	}
	var cents []float64
	for line := range strings.Lines(string(out)) {
		if fields := strings.Fields(line); len(fields) == 2 {
			at, _ := strconv.ParseFloat(fields[0], 64)
			if got, err := strconv.ParseFloat(fields[1], 64); err == nil && got > 0 && at > 0.19 { // its window reaches back
				cents = append(cents, 1200*math.Log2(got/hz))
			}
		}
	}
	if len(cents) == 0 {
		return math.NaN()
	}
	slices.Sort(cents)
	return cents[len(cents)/2]
}
