package hear_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
)

// fontRate is the rate at which sound fonts are rendered, in Hz.
const fontRate = 44100

// font is recordings of instruments, and the program that plays them. None of them was used to make the nets.
type font struct {
	name string
	path string // of the font, or of timidity's list of patches
	with string
}

// fonts are three sets of recordings, each of its own origin, from Debian: fluid-soundfont-gm, timgm6mb-soundfont and freepats.
// musescore-general-soundfont is not among them: it holds recordings of the first.
var fonts = []font{
	{"fluid", "/usr/share/sounds/sf2/FluidR3_GM.sf2", "fluidsynth"},
	{"timgm", "/usr/share/sounds/sf2/TimGM6mb.sf2", "fluidsynth"},
	{"freepats", "/etc/timidity/freepats.cfg", "timidity"},
}

// there reports whether a font can be played here.
func (f font) there() bool {
	_, err := exec.LookPath(f.with)
	_, gone := os.Stat(f.path)
	return err == nil && gone == nil
}

// sounded is one string sounding in a rendered sound.
type sounded struct {
	at, length float64 // seconds
	channel    int     // each string has its own
	midi       int
	velocity   int
	cents      float64
}

// The programs of General MIDI 1, counted from 0.
const (
	nylon = 24
	steel = 25
)

// render plays notes on an instrument of the font, without echo, and returns the samples of so many seconds.
func (f font) render(t testing.TB, program int, notes []sounded, length float64) []float64 {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.mid"), filepath.Join(dir, "out.wav")
	if err := os.WriteFile(in, midiFile(program, notes, length), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("fluidsynth", "-n", "-i", "-q", "-R", "0", "-C", "0", "-g", "0.5", "-r", fmt.Sprint(fontRate), "-F", out, f.path, in)
	if f.with == "timidity" {
		cmd = exec.Command("timidity", "-c", f.path, "-Ow", "-s", fmt.Sprint(fontRate), "-EFreverb=d", "-EFchorus=d", "--no-loop", "-o", out, in)
	}
	if b, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%s: %v\n%s", f.with, err, b)
	}
	b, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	data := b[bytes.Index(b, []byte("data"))+8:]
	samples := make([]float64, int(length*fontRate))
	for i := range min(len(samples), len(data)/4) {
		l, r := int16(binary.LittleEndian.Uint16(data[4*i:])), int16(binary.LittleEndian.Uint16(data[4*i+2:]))
		samples[i] = (float64(l) + float64(r)) / (1 << 16)
	}
	return samples
}

// ahead is what is rendered ahead of notes and cut off: seconds, and when in them a note tells where the sound begins, for timidity leaves out
// the silence before the first note.
const (
	ahead  = 3.0
	marker = 0.05
)

// renderAfter is render with what is left out before the first note put back.
func (f font) renderAfter(t testing.TB, program int, notes []sounded, length float64) []float64 {
	t.Helper()
	all := []sounded{{at: marker, length: 0.3, channel: 0, midi: 72, velocity: 127}}
	for _, n := range notes {
		n.at += ahead
		all = append(all, n)
	}
	sound := f.render(t, program, all, ahead+length+1)
	first := slices.IndexFunc(sound, func(x float64) bool { return math.Abs(x) > 0.01 })
	from := int((ahead-marker)*fontRate) + first
	return sound[from : from+int(length*fontRate)]
}

// midiFile writes notes as a Standard MIDI File of one track: a thousand ticks a second, each channel bent by its note's cents.
func midiFile(program int, notes []sounded, length float64) []byte {
	type event struct {
		tick  int
		order int
		data  []byte
	}
	tick := func(s float64) int { return int(math.Round(s * 1000)) }
	events := []event{{0, 0, []byte{0xFF, 0x51, 3, 0x07, 0xA1, 0x20}}} // half a million µs a quarter, of 500 ticks
	channel := func(n int) byte {
		if n >= 9 {
			n++ // the tenth is the drums'
		}
		return byte(n)
	}
	for c := range 6 {
		events = append(events, event{0, 0, []byte{0xC0 | channel(c), byte(program)}}, event{0, 0, []byte{0xB0 | channel(c), 10, 64}})
	}
	for _, n := range notes {
		c := channel(n.channel)
		bend := 8192 + int(math.Round(n.cents/200*8192)) // two semitones each way
		events = append(events,
			event{tick(n.at) - 2, 1, []byte{0xE0 | c, byte(bend & 0x7F), byte(bend >> 7)}},
			event{tick(n.at), 2, []byte{0x90 | c, byte(n.midi), byte(n.velocity)}},
			event{tick(n.at + n.length), 0, []byte{0x80 | c, byte(n.midi), 0}})
	}
	events = append(events, event{tick(length), 3, []byte{0xFF, 0x2F, 0}})
	slices.SortStableFunc(events, func(a, b event) int {
		if a.tick != b.tick {
			return a.tick - b.tick
		}
		return a.order - b.order
	})
	var track []byte
	now := 0
	for _, e := range events {
		wait := e.tick - now
		var digits []byte
		for {
			digits = append(digits, byte(wait&0x7F))
			if wait >>= 7; wait == 0 {
				break
			}
		}
		for i := len(digits) - 1; i >= 0; i-- {
			d := digits[i]
			if i > 0 {
				d |= 0x80
			}
			track = append(track, d)
		}
		track, now = append(track, e.data...), e.tick
	}
	out := append([]byte("MThd"), 0, 0, 0, 6, 0, 0, 0, 1, 500>>8, 500&0xFF)
	out = append(out, "MTrk"...)
	return append(binary.BigEndian.AppendUint32(out, uint32(len(track))), track...)
}

// dB returns the amplitude of so many decibels.
func dB(x float64) float64 { return math.Pow(10, x/20) }

// withNoise returns the sound with noise, half white and half pink by power, so many dB below the sound's mean power from one sample to
// another.
func withNoise(r *rand.Rand, s []float64, below float64, from, to int) []float64 {
	var power float64
	for _, x := range s[from:to] {
		power += x * x
	}
	level := math.Sqrt(power/float64(to-from)) * dB(-below)
	white, pink := make([]float64, len(s)), make([]float64, len(s))
	var b0, b1, b2 float64 // Kellet's filter from white to pink, from memory
	var sum float64
	for i := range s {
		w := r.NormFloat64()
		b0, b1, b2 = 0.99765*b0+w*0.0990460, 0.96300*b1+w*0.2965164, 0.57000*b2+w*1.0526913
		white[i], pink[i] = r.NormFloat64(), b0+b1+b2+w*0.1848
		sum += pink[i] * pink[i]
	}
	even := math.Sqrt(float64(len(s)) / sum)
	out := make([]float64, len(s))
	for i := range s {
		out[i] = s[i] + level*math.Sqrt(0.5)*(white[i]+even*pink[i])
	}
	return out
}

// inRoom returns the sound in a small room: a few echoes and a tail of 0.2 to 0.5 s.
func inRoom(r *rand.Rand, s []float64) []float64 {
	out := slices.Clone(s)
	for range 6 {
		late, a := int((0.003+0.03*r.Float64())*fontRate), dB(-12-12*r.Float64())
		for i := late; i < len(s); i++ {
			out[i] += a * s[i-late]
		}
	}
	last := 0.2 + 0.3*r.Float64()
	for range 4 {
		late := int((0.02 + 0.03*r.Float64()) * fontRate)
		back := math.Pow(10, -3*float64(late)/fontRate/last)
		line := make([]float64, len(s))
		for i := late; i < len(s); i++ {
			line[i] = s[i-late] + back*line[i-late]
			out[i] += dB(-26) * line[i]
		}
	}
	return out
}
