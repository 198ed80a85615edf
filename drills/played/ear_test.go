package played

import (
	"math"
	"slices"
	"testing"

	"sparetone/drills/neck"
	"sparetone/drills/played/student"
	"sparetone/synth"
	"sparetone/synth/hear"
	"sparetone/theory"
)

// timed is what an ear heard, and when.
type timed struct {
	at float64
	Heard
}

// listens feeds an ear what somebody plays, in blocks of a twentieth of a second, and returns what it heard.
func listens(t *testing.T, l Listening, sound []float64) (out []timed) {
	t.Helper()
	ear, err := NewEar(student.Rate, l)
	if err != nil {
		t.Fatal(err)
	}
	fed := 0
	for block := range slices.Chunk(sound, student.Rate/20) {
		fed += len(block)
		for _, h := range ear.Feed(block) {
			out = append(out, timed{float64(fed) / student.Rate, h})
		}
	}
	return out
}

// hums adds a steady tone of a MIDI number from a time to another, in seconds, to a sound.
func hums(sound []float64, midi int, from, to, loud float64) {
	for i := int(from * student.Rate); i < min(len(sound), int(to*student.Rate)); i++ {
		at := float64(i)/student.Rate - from
		a := loud * min(1, at/0.05, (to-from-at)/0.05)
		for k := 1.0; k <= 6; k++ {
			sound[i] += a / k / k * math.Sin(2*math.Pi*k*theory.MIDIFrequency(midi, 440)*at)
		}
	}
}

// A note is sung when it was held for 0.6 s; not one that is held from the beginning, nor one behind a pluck, of which a string may ring.
func TestWhenANoteIsSung(t *testing.T) {
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	s := student.New(on.Tuning, on.Voices[0], 1)
	sung := func(sound []float64) (at []float64) {
		for _, h := range listens(t, neckNotes(on.Tuning, 0), sound) {
			if h.Note != nil && h.Note.Sung {
				if h.Note.MIDI != 55 {
					t.Errorf("sung at %d", h.Note.MIDI)
				}
				at = append(at, h.at)
			}
		}
		return at
	}
	for _, c := range []struct {
		name       string
		from, to   float64
		least, not float64 // when it is heard, and by when; 0 for never
	}{
		{"long", 1, 2.5, 1.55, 1.8},
		{"too short", 1, 1.55, 0, 0},
		{"just long enough", 1, 1.8, 1.55, 1.8},
		{"from the beginning on", 0.1, 3, 0, 0},
		{"soon after it", 0.5, 2, 1.05, 1.3},
	} {
		sound := s.Silence(3.2)
		hums(sound, 55, c.from, c.to, 0.1)
		got := sung(sound)
		if c.not == 0 && got != nil || c.not > 0 && (len(got) != 1 || got[0] < c.least || got[0] > c.not) {
			t.Errorf("%s: sung at %v s, want %v to %v", c.name, got, c.least, c.not)
		}
	}
	for after, want := range map[float64]int{1.5: 0, 3.0: 1} {
		sound := s.Notes(67) // at 0.4 s or a little later
		sound = append(sound, s.Silence(4)...)
		fade := int(1.4 * student.Rate) // the string is stilled
		quiet := s.Silence(float64(len(sound))/student.Rate + 1)
		copy(sound[fade:], quiet[:len(sound)-fade])
		hums(sound, 55, 0.45+after, 0.45+after+1, 0.1)
		if got := sung(sound); len(got) != want {
			t.Errorf("a note sung %v s after a pluck is heard at %v", after, got)
		}
	}
}

// A pause is told once, 2.2 s after the last note that was plucked, and never of strings.
func TestWhenAPauseIsTold(t *testing.T) {
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	s := student.New(on.Tuning, on.Voices[0], 1)
	sound := append(s.Notes(67, 64), s.Silence(3)...) // the second at 1.2 to 1.28 s
	var at []float64
	for _, h := range listens(t, neckNotes(on.Tuning, 0), sound) {
		if h.Paused {
			at = append(at, h.at)
		}
	}
	if len(at) != 1 || at[0] < 3.35 || at[0] > 3.6 {
		t.Errorf("a pause at %v s, want one at about 3.4", at)
	}
	a := held(t, "ukulele", "0232", "G")
	for _, h := range listens(t, a.Listens(), append(s.Strum(a.want.Shape), s.Silence(3)...)) {
		if h.Paused {
			t.Errorf("after a stroke a pause is told at %.2f s", h.at)
		}
	}
}

// What began within a quarter of a second rang already: it is no reading.
func TestWhatRangAlreadyIsNotHeard(t *testing.T) {
	a := held(t, "ukulele", "0232", "G")
	s := student.New(a.on, ukuleleVoice(t), 1)
	sound := s.Strum(a.want.Shape) // at 0.4 s
	for cut, want := range map[float64]int{0: 1, 0.1: 1, 0.2: 0, 0.25: 0} {
		n := 0
		for _, h := range listens(t, a.Listens(), sound[int(cut*student.Rate):]) {
			if h.Reading != nil {
				n++
			}
		}
		if n != want {
			t.Errorf("a stroke %.2f s after the first sample: %d readings, want %d", 0.4-cut, n, want)
		}
	}
}

// knocks adds a knock at a time in seconds to a sound.
func knocks(sound []float64, from, loud float64) {
	for i := range int(0.1 * student.Rate) {
		x := float64(i) / student.Rate
		for _, f := range []float64{311, 743, 1289, 2153} {
			sound[int(from*student.Rate)+i] += loud * math.Exp(-x/0.012) * math.Sin(2*math.Pi*f*x)
		}
	}
}

// What was struck and is no stroke is said, once in four seconds, if it was far louder than the room; as long as nothing else is heard, ever less often.
func TestWhenNothingIsSaid(t *testing.T) {
	a := held(t, "ukulele", "0232", "G")
	s := student.New(a.on, ukuleleVoice(t), 1)
	said := func(loud float64, at ...float64) (out []float64) {
		sound := s.Silence(slices.Max(at) + 2.5)
		for _, from := range at {
			knocks(sound, from, loud)
		}
		for _, h := range listens(t, a.Listens(), sound) {
			if h.Nothing {
				out = append(out, h.at)
			}
			if h.Reading != nil {
				t.Errorf("a knock is read: %+v", h.Reading)
			}
		}
		return out
	}
	if got := said(0.1, 1); len(got) != 1 || got[0] > 2.5 {
		t.Errorf("a knock: said at %v s", got)
	}
	if got := said(0.1, 1, 2.5, 4); len(got) != 1 {
		t.Errorf("knocks within four seconds: said at %v s", got)
	}
	if got := said(0.1, 1, 6.5); len(got) != 2 {
		t.Errorf("knocks five seconds apart: said at %v s", got)
	}
	var often []float64
	for at := 1.0; at < 38; at += 2 {
		often = append(often, at)
	}
	if got := said(0.1, often...); len(got) != 4 {
		t.Errorf("knocks every two seconds: said at %v s", got)
	} else {
		for n, gap := range []float64{4, 8, 16} {
			if d := got[n+1] - got[n]; d < gap || d > gap+2.1 {
				t.Errorf("%v s between two words, want %v", d, gap)
			}
		}
	}
	if got := said(0.003, 1); got != nil {
		t.Errorf("a soft one: said at %v s", got)
	}
}

// Once something is heard again, a word that nothing was heard may follow as soon as the first.
func TestWordsFollowWhatWasHeard(t *testing.T) {
	a := held(t, "ukulele", "0232", "G")
	ear, err := NewEar(student.Rate, a.Listens())
	if err != nil {
		t.Fatal(err)
	}
	s := student.New(a.on, ukuleleVoice(t), 1)
	knock := s.Silence(3)
	knocks(knock, 1, 0.1)
	for _, c := range []struct {
		every float64
		sound []float64
		want  float64
	}{{32, s.Silence(2), 32}, {32, s.Strum(a.want.Shape), wordEvery / 2}, {32, knock, wordLatest}, {wordLatest, knock, wordLatest}} {
		ear.said = -wordLatest
		ear.every = c.every
		for block := range slices.Chunk(c.sound, student.Rate/20) {
			ear.Feed(block)
		}
		if ear.every != c.want {
			t.Errorf("%v s until the next word, want %v", ear.every, c.want)
		}
	}
}

// Below hear.Quiet everything is too noisy.
func TestTooNoisyIsSaid(t *testing.T) {
	a := held(t, "ukulele", "0232", "G")
	s := student.New(a.on, ukuleleVoice(t), 1)
	sound := s.Strum(a.want.Shape)
	noise := s.Silence(float64(len(sound))/student.Rate + 1)
	for i := range sound {
		sound[i] += 80 * noise[i]
	}
	for _, h := range listens(t, a.Listens(), sound) {
		if !h.Noisy || h.Reading != nil {
			t.Errorf("in noise it hears %+v", h.Heard)
		}
	}
	for h, want := range map[Heard]string{{Noisy: true}: sayNoisy.Screen(), {Nothing: true}: sayNothing.Screen()} {
		if c, is := nothingToMark(h); !is || !c.Again || c.Says.Screen() != want {
			t.Errorf("%+v: %+v", h, c)
		}
	}
	if _, is := nothingToMark(Heard{Reading: &hear.Reading{}}); is {
		t.Error("a reading says nothing")
	}
}

func ukuleleVoice(t *testing.T) synth.Voice {
	t.Helper()
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	return on.Voices[0]
}
