package hear_test

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"sparetone/synth"
	"sparetone/synth/hear"
	"sparetone/synth/hear/net"
	"sparetone/theory"
)

// studied skips a test unless SPARETONE_STUDY is set, and returns how many trials are wanted, SPARETONE_TRIALS or so many.
func studied(t *testing.T, usual int) int {
	t.Helper()
	if os.Getenv("SPARETONE_STUDY") == "" {
		t.Skip("a study of some minutes: SPARETONE_STUDY=1")
	}
	if n, err := strconv.Atoi(os.Getenv("SPARETONE_TRIALS")); err == nil {
		return n
	}
	return usual
}

// fontsWanted are the fonts of SPARETONE_FONTS that are there, or all.
func fontsWanted(t *testing.T) (out []font) {
	for _, f := range fonts {
		if only := os.Getenv("SPARETONE_FONTS"); only != "" && !strings.Contains(only, f.name) {
			continue
		}
		if !f.there() {
			missing(t, f.name)
		}
		out = append(out, f)
	}
	return out
}

// TestStudyOfSingleNotes measures notes plucked by themselves on recordings, in a room half the time and with noise 20 dB below: as one
// tone, and as a pluck that is read by itself.
func TestStudyOfSingleNotes(t *testing.T) {
	count := studied(t, 500)
	for _, f := range fontsWanted(t) {
		r := rand.New(rand.NewPCG(77, 1))
		for _, program := range []int{nylon, steel} {
			var notes []sounded
			const each = 4.5
			for n := range count / 2 {
				notes = append(notes, sounded{at: 0.4 + each*float64(n), length: 1.5, midi: 40 + r.IntN(40), velocity: 60 + r.IntN(60), cents: 60*r.Float64() - 30})
			}
			all := f.renderAfter(t, program, notes, each*float64(len(notes)+1))
			may := []int{}
			for p := 38; p <= 82; p++ {
				may = append(may, p)
			}
			var off []float64
			told, octaves, others, plucked, pluckedOctaves, pluckedOthers := 0, 0, 0, 0, 0, 0
			for n, note := range notes {
				from := int(each * float64(n) * fontRate)
				sound := slices.Clone(all[from : from+int(1.8*fontRate)])
				if n%2 == 0 {
					sound = inRoom(r, sound)
				}
				sound = withNoise(r, sound, 20, int(0.4*fontRate), int(0.9*fontRate))
				want := theory.MIDIFrequency(note.midi, 440) * math.Exp2(note.cents/1200)
				if got, ok := hear.ToneOf(sound[int(0.5*fontRate):int(1.0*fontRate)], fontRate, 60, 1200); ok {
					told++
					switch cents := math.Abs(1200 * math.Log2(got.Hz/want)); {
					case cents <= 50:
						off = append(off, cents)
					case math.Abs(math.Remainder(cents, 1200)) <= 50:
						octaves++
						t.Logf("  %d, velocity %d, in a room %v: heard at %.1f Hz for %.1f, clear by %.2f", note.midi, note.velocity, n%2 == 0, got.Hz, want, got.Clear)
					default:
						others++
						t.Logf("  %d, velocity %d, in a room %v: heard at %.1f Hz for %.1f, clear by %.2f", note.midi, note.velocity, n%2 == 0, got.Hz, want, got.Clear)
					}
				}
				heard, err := hear.Hear(sound, fontRate, hear.Task{Strings: []hear.String{{Number: 1, Open: may[0], May: may}}, Order: []int{1}})
				if err != nil {
					t.Fatal(err)
				}
				if len(heard) > 0 {
					plucked++
					switch d := heard[0].Strings[0].Pitch - note.midi; {
					case d == 0:
					case d%12 == 0:
						pluckedOctaves++
					default:
						pluckedOthers++
						t.Logf("  %d, velocity %d, in a room %v: plucked, heard as %d", note.midi, note.velocity, n%2 == 0, heard[0].Strings[0].Pitch)
					}
				} else {
					t.Logf("  %d, velocity %d, in a room %v: plucked, not heard", note.midi, note.velocity, n%2 == 0)
				}
			}
			slices.Sort(off)
			t.Logf("%-8s %d: %d notes; as a tone %d told, %d an octave off, %d else, %.1f cents off in the middle, %.1f at most; as a pluck %d told, %d an octave off, %d else",
				f.name, program, len(notes), told, octaves, others, off[len(off)/2], off[len(off)-1], plucked, pluckedOctaves, pluckedOthers)
		}
	}
}

// TestStudyOfNoExpectation measures strums of shapes of a first book that nothing is expected of.
func TestStudyOfNoExpectation(t *testing.T) {
	count := studied(t, 60)
	for _, f := range fontsWanted(t) {
		for n, on := range instruments {
			tuning := tuningCalled(t, on.tuning)
			book := bookOf(t, tuning)
			var among [][]int
			for _, s := range book {
				among = append(among, pitchesOf(tuning, s))
			}
			r := rand.New(rand.NewPCG(303, uint64(n)))
			var trials []trial
			for len(trials) < count {
				if tr := newTrial(r, tuning, book, false); tr.fault == "none" {
					trials = append(trials, tr)
				}
			}
			sounds := trialsOn(t, f, on, trials)
			same, pitches, missed := 0, 0, 0
			for i, tr := range trials {
				sound := sounds[i]
				if tr.inARoom {
					sound = inRoom(r, sound)
				}
				sound = withNoise(r, sound, 20, int(0.4*fontRate), int(1.4*fontRate))
				heard, err := hear.Hear(sound, fontRate, tr.task(among, false))
				if err != nil {
					t.Fatal(err)
				}
				if len(heard) == 0 {
					missed++
					continue
				}
				var got []int
				for _, s := range heard[0].Strings {
					got = append(got, s.Pitch)
				}
				if slices.Equal(classes(got), classes(tr.truth)) {
					same++
				}
				if slices.Equal(sounding(got), sounding(tr.truth)) {
					pitches++
				}
			}
			t.Logf("%-8s %-13s %d shapes of %d: the same notes %.1f %%, the same pitches %.1f %%, %d not heard", f.name, on.name, count, len(book), percent(same, count), percent(pitches, count), missed)
		}
	}
}

// classes returns the different pitch classes that sound, rising.
func classes(pitches []int) []int {
	out := sounding(pitches)
	for i := range out {
		out[i] %= 12
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// throughALoudspeaker is the sound as a small loudspeaker gives it: what lies below some 250 Hz and above 4 kHz is weaker by 12 dB an octave.
func throughALoudspeaker(s []float64, rate float64) []float64 {
	out := slices.Clone(s)
	for range 2 {
		high, low := 0.0, 0.0
		a, b := math.Exp(-2*math.Pi*250/rate), math.Exp(-2*math.Pi*4000/rate)
		for i, x := range out {
			high = a*high + (1-a)*x
			low = b*low + (1-b)*(x-high)
			out[i] = low
		}
	}
	return out
}

// TestStudyOfLoudspeakers measures strums of our own voices, with noise 20 dB below: as a small loudspeaker plays them in a room, strings in tune to the
// cent; the same by themselves; and through both again, each string up to 10 cents off as an instrument's are. There each string is rendered by itself,
// so that all are as loud as they are plucked hard. SPARETONE_ON is one voice alone.
func TestStudyOfLoudspeakers(t *testing.T) {
	count := studied(t, 60)
	const rate = float64(synth.SampleRate)
	for n, on := range []struct{ voice, tuning string }{{"ukulele", "ukulele"}, {"tenor", "baritone"}, {"steel", "guitar"}, {"guitar", "guitar"}} {
		if only := os.Getenv("SPARETONE_ON"); only != "" && only != on.voice {
			continue
		}
		tuning := tuningCalled(t, on.tuning)
		book := bookOf(t, tuning)
		var among [][]int
		for _, s := range book {
			among = append(among, pitchesOf(tuning, s))
		}
		for _, way := range []struct {
			name         string
			small, apart bool
		}{{"small, in tune", true, false}, {"plain, in tune", false, false}, {"small, 10 cents apart", true, true}} {
			r := rand.New(rand.NewPCG(404, uint64(n)))
			var c tells
			for range count {
				tr := newTrial(r, tuning, book, false)
				var plucks []synth.Pluck
				for _, note := range tr.notes {
					i := note.channel
					pitch := tuning.Pitch(i, max(0, note.midi-tuning.MIDI(i, 0)+tuning.Start(i)))
					if note.midi == tuning.MIDI(i, 0) {
						pitch = tuning.Pitch(i, 0)
					}
					plucks = append(plucks, synth.Pluck{String: tuning.StringNumber(i), Pitch: pitch, At: time.Duration((note.at - 0.4) * float64(time.Second)), Strength: float64(note.velocity) / 127})
				}
				var sound []float64
				if way.apart {
					for k, pluck := range plucks {
						one := ownSound(t, on.voice, synth.Score{Plucks: []synth.Pluck{pluck}, Length: 2 * time.Second}, 440*math.Exp2(tr.notes[k].cents/1200))
						if sound == nil {
							sound = make([]float64, len(one))
						}
						for i := range min(len(one), len(sound)) {
							sound[i] += 0.4 * pluck.Strength * one[i]
						}
					}
				} else {
					slices.SortFunc(plucks, func(a, b synth.Pluck) int { return int(a.At - b.At) })
					sound = ownSound(t, on.voice, synth.Score{Plucks: plucks, Length: 2 * time.Second}, 440*math.Exp2(tr.cents/1200))
				}
				if way.small {
					sound = inRoom(r, throughALoudspeaker(sound, rate))
				}
				sound = withNoise(r, sound, 20, int(0.5*rate), int(1.5*rate))
				heard, err := hear.Hear(sound, rate, tr.task(among, true))
				if err != nil {
					t.Fatal(err)
				}
				before := c.chordsRight
				c.count(tr, heard)
				if c.chordsRight == before {
					t.Logf("  amiss: %s", amissIn(tr, heard))
				}
			}
			t.Logf("%-8s on %-8s %-21s: %d strums, %.1f %% missed; sure of %.1f %% of strings, of these right %.1f %%; said of %.1f %%, of these right %.1f %%; alarms %.1f %%; the chord right or not %.1f %%, unisons aside %.1f %% of %d",
				on.voice, on.tuning, way.name, count, percent(c.missed, c.trials), percent(c.sure, c.strings), percent(c.sureRight, c.sure), percent(c.said, c.trials), percent(c.saidRight, c.said),
				percent(c.alarms, c.rights), percent(c.chordsRight, c.chords), percent(c.apartRight, c.apart), c.apart)
		}
	}
}

// amissIn says of a trial what was expected, what sounded and what was heard, and of strings that were misread which others lie an octave or a few
// partials below them.
func amissIn(tr trial, heard []hear.Reading) string {
	out := fmt.Sprintf("%s, expected %v, sounds %v", tr.fault, tr.expect, tr.truth)
	if len(heard) == 0 {
		return out + ", not heard"
	}
	for i, h := range heard[0].Strings {
		if h.Pitch == tr.truth[i] {
			continue
		}
		out += fmt.Sprintf("; string %d as %d, sure by %.2f", h.Number, h.Pitch, h.Sure)
		for _, p := range tr.truth {
			if above := tr.expect[i] - p; p != hear.Silent && slices.Contains(net.Above, above) {
				out += fmt.Sprintf(", %d above one that sounds", above)
			}
		}
	}
	return out + fmt.Sprintf("; %s", heard[0].Verdict)
}

// TestStudyOfNothing measures how often something is heard in what is no instrument, SPARETONE_TRIALS minutes of each, by who listens for a
// ukulele's chord and for a guitar's, struck at once and plucked in turn. What is read aloud is the README, by Debian's espeak-ng; music is
// invented, and played by timgm on what is not plucked. SPARETONE_ON is one kind alone, SPARETONE_HOW strum or turn, SPARETONE_SEED what all is
// drawn by.
func TestStudyOfNothing(t *testing.T) {
	minutes := studied(t, 10)
	const rate = 16000.0
	seed := 505
	if n, err := strconv.Atoi(os.Getenv("SPARETONE_SEED")); err == nil {
		seed = n
	}
	for _, on := range []struct {
		tuning string
		expect []int
	}{{"ukulele", []int{67, 60, 64, 72}}, {"guitar", []int{hear.Silent, 48, 52, 55, 60, 64}}} {
		tuning := tuningCalled(t, on.tuning)
		r := rand.New(rand.NewPCG(uint64(seed), 1))
		var among [][]int
		for _, s := range bookOf(t, tuning) {
			among = append(among, pitchesOf(tuning, s))
		}
		for _, name := range []string{"silence", "noise", "knocks", "speech", "read aloud", "piano", "winds", "bowed"} {
			if only := os.Getenv("SPARETONE_ON"); only != "" && only != name {
				continue
			}
			var aloud []float64
			if name == "read aloud" {
				aloud = readAloud(t, r, minutes)
			}
			ways := map[string]*heardIn{}
			for _, how := range []string{"strum", "turn"} {
				if only := os.Getenv("SPARETONE_HOW"); only != "" && only != how {
					continue
				}
				l, err := hear.Listen(rate, trial{tuning: tuning, expect: on.expect, inTurn: how == "turn"}.task(among, true))
				if err != nil {
					t.Fatal(err)
				}
				ways[how] = &heardIn{listener: l}
			}
			for minute := range minutes {
				sound := make([]float64, 60*int(rate))
				switch name {
				case "speech":
					sound = spoken(r, rate, 60)
				case "read aloud":
					sound = aloud[minute*len(sound):][:len(sound)]
				case "noise":
					level := dB(-50 + 30*r.Float64())
					for i := range sound {
						sound[i] = level * r.NormFloat64()
					}
				case "knocks":
					knocked(r, sound, rate)
				case "silence":
					if minute%2 == 0 { // else not a single bit
						for i := range sound {
							sound[i] = math.Round(r.NormFloat64()) / (1 << 15)
						}
					}
				default:
					sound = music(t, r, name, rate)
				}
				for _, w := range ways {
					w.minute(t, name, sound, int(rate/10))
				}
			}
			for how, w := range ways {
				t.Logf("%-8s %-10s %-5s %d minutes: %d readings, in %d of them; %d say right, %d another, %d of them the same again", on.tuning, name, how, minutes, w.readings, w.minutes, w.rights, w.others, w.twice)
				if w.rights > 0 {
					t.Errorf("%s: %d readings say that what was asked for was played", name, w.rights)
				}
				if isMusic := name == "piano" || name == "winds" || name == "bowed"; how == "strum" && !isMusic && 100*w.minutes > minutes {
					t.Errorf("%s: strokes are heard in more than one minute of a hundred", name)
				}
			}
		}
	}
}

// heardIn is what a listener heard in some minutes of what is no instrument.
type heardIn struct {
	listener                          *hear.Listener
	readings, minutes, rights, others int
	twice                             int   // verdicts that another chord was played, twice in a row the same: to play it again is to confirm
	last                              []int // what the strings sounded by the verdict before; nil if it counted
}

// minute listens to a minute, block by block.
func (h *heardIn) minute(t *testing.T, name string, sound []float64, block int) {
	before := h.readings
	for part := range slices.Chunk(sound, block) {
		for _, reading := range h.listener.Feed(part) {
			h.readings++
			switch reading.Verdict {
			case hear.Right:
				h.rights++
				t.Logf("%s: %+v", name, reading)
			case hear.Other:
				h.others++
				var now []int
				for _, s := range reading.Strings {
					now = append(now, s.Pitch)
				}
				if slices.Equal(now, h.last) {
					h.twice++
					now = nil
				}
				h.last = now
			}
		}
	}
	if h.readings > before {
		h.minutes++
	}
}

// music returns a minute of invented music, chords below a tune, on what is not plucked.
func music(t *testing.T, r *rand.Rand, name string, rate float64) []float64 {
	t.Helper()
	f := fonts[slices.IndexFunc(fonts, func(f font) bool { return f.name == "timgm" })]
	if !f.there() {
		missing(t, f.name)
	}
	tune, chords := 0, 0 // by General MIDI 1, counted from 0
	switch name {
	case "winds":
		tune, chords = []int{73, 71, 56}[r.IntN(3)], 19 // a flute, a clarinet or a trumpet; a church organ
	case "bowed":
		tune, chords = 40, 48 // a violin; strings
	}
	const length = 60.0
	beat := 60 / (70 + 80*r.Float64())
	key := r.IntN(12)
	scale := []int{0, 2, 4, 5, 7, 9, 11}
	degree := func(n int) int { return 12*(n/7) + scale[n%7] }
	var high, low []sounded
	for bar, at := 0, 0.5; at < length-5*beat; bar, at = bar+1, at+4*beat {
		root := []int{0, 3, 4, 5, 1}[r.IntN(5)]
		for n, above := range []int{0, 2, 4, 7}[:3+r.IntN(2)] {
			low = append(low, sounded{at: at, length: 3.8 * beat, channel: n, midi: 48 + key%7 + degree(root+above), velocity: 50 + r.IntN(50)})
		}
		for b := 0.0; b < 4; {
			long := []float64{0.5, 1, 1, 2}[r.IntN(4)]
			if r.IntN(8) > 0 {
				high = append(high, sounded{at: at + b*beat, length: 0.9 * long * beat, channel: int(2*b) % 6, midi: 60 + key%7 + degree(root+r.IntN(9)), velocity: 60 + r.IntN(60)})
			}
			b += long
		}
	}
	out := make([]float64, int(length*rate))
	for _, part := range []struct {
		program int
		notes   []sounded
	}{{tune, high}, {chords, low}} {
		slices.SortFunc(part.notes, func(a, b sounded) int { return cmp.Compare(a.at, b.at) })
		sound := f.render(t, part.program, part.notes, length)
		for i := range out { // straight lines between the means of two samples
			x := float64(i) * fontRate / rate
			k := int(x)
			if k+2 < len(sound) {
				a, b := (sound[k]+sound[k+1])/2, (sound[k+1]+sound[k+2])/2
				out[i] += a + (x-float64(k))*(b-a) + 1e-4*r.NormFloat64()
			}
		}
	}
	return out
}

// readAloud returns minutes of the README, read by some voices in turn, with some noise, at 16 kHz.
func readAloud(t *testing.T, r *rand.Rand, minutes int) (out []float64) {
	t.Helper()
	if _, err := exec.LookPath("espeak-ng"); err != nil {
		missing(t, "espeak-ng")
	}
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for n := 0; len(out) < minutes*60*16000; n++ {
		voice := []string{"en-gb+m3", "es", "nl+f2", "sv", "pt+m1", "pl+f5", "hu+m4", "en-029"}[n%8]
		from := 1500 * n % (len(text) - 1500)
		b, err := exec.Command("espeak-ng", "-v", voice, "-s", strconv.Itoa(120+r.IntN(80)), "-p", strconv.Itoa(30+r.IntN(50)), "--stdout", string(text[from:from+1500])).Output()
		if err != nil {
			t.Fatal(err)
		}
		rate := float64(binary.LittleEndian.Uint32(b[24:]))
		data := b[bytes.Index(b, []byte("data"))+8:]
		at := func(i int) float64 {
			return float64(int16(binary.LittleEndian.Uint16(data[2*i:]))) / (1 << 15)
		}
		for i := 0; ; i++ { // straight lines between samples are near enough for a voice
			x := float64(i) * rate / 16000
			k := int(x)
			if 2*(k+1)+2 > len(data) {
				break
			}
			out = append(out, at(k)+(x-float64(k))*(at(k+1)-at(k))+5e-4*r.NormFloat64())
		}
	}
	return out
}

// knocked puts knocks into a sound: bodies that ring for some hundredths of a second.
func knocked(r *rand.Rand, sound []float64, rate float64) {
	for i := range sound {
		sound[i] = 5e-4 * r.NormFloat64()
	}
	for at := 0.5; at < float64(len(sound))/rate-1; at += 0.3 + r.Float64() {
		for range 5 {
			f, fall := 100*math.Pow(20, r.Float64()), 0.005+0.05*r.Float64()
			for i := range int(8 * fall * rate) {
				if n := int(at*rate) + i; n < len(sound) {
					s := float64(i) / rate
					sound[n] += 0.1 * math.Exp(-s/fall) * math.Sin(2*math.Pi*f*s)
				}
			}
		}
	}
}

// TestStudyOfStrumming measures strokes that follow each other, each string ringing until the next: of how many it is said whether they are
// what is expected, and whether that is so.
func TestStudyOfStrumming(t *testing.T) {
	count := studied(t, 40)
	for _, f := range fontsWanted(t) {
		for _, gap := range []float64{0.6, 1.2, 2.5} {
			var c tells
			for n, on := range instruments {
				tuning := tuningCalled(t, on.tuning)
				book := bookOf(t, tuning)
				r := rand.New(rand.NewPCG(7, uint64(n)))
				var among [][]int
				for _, s := range book {
					among = append(among, pitchesOf(tuning, s))
				}
				var trials []trial
				var notes []sounded
				for i := range count {
					tr := newTrial(r, tuning, book, false)
					for _, note := range tr.notes {
						note.at, note.length = note.at+gap*float64(i), gap
						notes = append(notes, note)
					}
					trials = append(trials, tr)
				}
				length := gap*float64(count) + 3
				all := f.renderAfter(t, on.program, notes, length)
				all = withNoise(r, all, 25, int(0.4*fontRate), int((length-3)*fontRate))
				for i, tr := range trials {
					begins := int((0.3 + gap*float64(i)) * fontRate)
					l, err := hear.Listen(fontRate, tr.task(among, true))
					if err != nil {
						t.Fatal(err)
					}
					l.Feed(all[max(0, begins-2*fontRate):begins])
					if err := l.Ask(tr.task(among, true)); err != nil {
						t.Fatal(err)
					}
					c.count(tr, l.Feed(all[begins:min(len(all), begins+int(1.35*fontRate))]))
				}
			}
			t.Logf("%-8s %.1f s apart: %d strokes, %.1f %% missed; said of %.1f %%, of these right %.1f %%; alarms %.1f %%; the chord right or not %.1f %%", f.name, gap, c.trials,
				percent(c.missed, c.trials), percent(c.said, c.trials), percent(c.saidRight, c.said), percent(c.alarms, c.rights), percent(c.chordsRight, c.chords))
		}
	}
}
