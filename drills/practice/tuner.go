package practice

import (
	"math"

	"sparetone/synth/capture"
	"sparetone/synth/hear"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Tuner is somebody's tuning an instrument by the microphone, string by string. What it heard is forgotten with it; of the sound it
// keeps no more than a second.
type Tuner struct {
	On    *fret.Tuning
	a4    float64
	hears *hear.Tuner // nil until something was heard
	run   int         // of the microphone, that it hears
	told  hear.Tuned  // as it was told last in lines
	noisy bool        // that it is too noisy was told last
}

// NewTuner begins to tune the instrument of the settings.
func (p *App) NewTuner() (*Tuner, error) {
	on, err := p.Settings.Instrument()
	if err != nil {
		return nil, err
	}
	return &Tuner{On: on.Tuning, a4: p.Settings.A4}, nil
}

// strings are the open strings.
func (t *Tuner) strings() (out []hear.String) {
	for i := range t.On.Strings {
		out = append(out, hear.String{Number: t.On.StringNumber(i), Open: t.On.MIDI(i, 0)})
	}
	return out
}

// Take hears what came from the microphone. The error says why it cannot.
func (t *Tuner) Take(s capture.Sound) error {
	if t.hears == nil || s.Run != t.run {
		hears, err := hear.NewTuner(s.Rate, t.strings(), t.a4)
		if err != nil {
			return err
		}
		t.hears, t.run, t.told = hears, s.Run, hear.Tuned{}
	}
	t.hears.Feed(s.Samples)
	return nil
}

// TunedString is how a string of an instrument stands.
type TunedString struct {
	Number int
	Heard  bool
	Cents  float64 // above its pitch
	Sounds bool    // it was plucked last
}

// Strings are the strings in tuning order.
func (t *Tuner) Strings() []TunedString {
	out := make([]TunedString, len(t.On.Strings))
	for i := range out {
		out[i].Number = t.On.StringNumber(i)
		if t.hears == nil {
			continue
		}
		tuned, heard := t.hears.Of(out[i].Number)
		now, _ := t.hears.Now()
		out[i].Heard, out[i].Cents, out[i].Sounds = heard, tuned.Cents, heard && tuned.At == now.At
	}
	return out
}

// Loudness returns how loud it is, and how loud the noise, both from 0, which is next to nothing, to 1, as loud as can be.
func (t *Tuner) Loudness() (now, noise float64) {
	if t.hears == nil {
		return 0, 0
	}
	const span = 70.0 // dB
	l := t.hears.Level()
	part := func(level float64) float64 { return max(0, min(1, 1+level/span)) }
	return part(l.Now), part(l.Floor)
}

// Words say how the string stands that was plucked last, or what to do.
func (t *Tuner) Words() say.Text {
	if t.hears == nil {
		return sayPluckOne
	}
	now, any := t.hears.Now()
	switch {
	case t.hears.Noisy():
		return sayTooLoud
	case !any:
		return sayPluckOne
	case now.Noise < hear.Clean:
		return sayNoiseBeside
	}
	whole, _ := t.hears.Whole()
	return sayTuned(t.On, now, whole)
}

// Whole says how the instrument as a whole stands; it is zero while that is not known.
func (t *Tuner) Whole() say.Text {
	if t.hears == nil {
		return say.Text{}
	}
	whole, agrees := t.hears.Whole()
	switch {
	case !agrees:
		return say.Text{}
	case math.Abs(whole) <= hear.InTune:
		return sayAllInTune
	}
	return say.Of("The strings agree: the instrument is in tune with itself, {} as a whole. It is heard as it is.", cents(whole))
}

// Off returns how many cents the instrument is off as a whole, and whether that is known.
func (t *Tuner) Off() (cents float64, known bool) {
	if t.hears == nil {
		return 0, false
	}
	return t.hears.Whole()
}

// How often it is told in lines how a string stands: when its note has been heard for a while, and again when it was turned.
const (
	tellAfter = 0.7 // seconds of the note
	tellAgain = 1.5 // seconds from word to word on one note
	turnedBy  = 3.0 // cents
)

// News says what is new since it was last asked; it is zero if nothing is.
func (t *Tuner) News() say.Text {
	if t.hears == nil {
		return say.Text{}
	}
	if t.hears.Noisy() {
		if t.noisy {
			return say.Text{}
		}
		t.noisy = true
		return sayTooLoud
	}
	now, any := t.hears.Now()
	if !any || now.Heard < tellAfter {
		return say.Text{}
	}
	same := now.At == t.told.At
	if same && (now.Heard < t.told.Heard+tellAgain || math.Abs(now.Cents-t.told.Cents) < turnedBy || now.Noise < hear.Clean) {
		return say.Text{}
	}
	t.told, t.noisy = now, false
	if whole := t.Whole(); !whole.IsZero() {
		return say.Of("{} {}", t.Words(), whole)
	}
	return t.Words()
}

// What is said while somebody tunes.
var (
	sayPluckOne    = say.Of("Pluck one string, and let it ring.")
	sayTooLoud     = say.Of("It is too loud here to hear a string: quiet, please, or nearer to the microphone.")
	sayNoiseBeside = say.Of("There is too much noise beside the string to tell: quiet, please, or nearer to the microphone.")
	sayAllInTune   = say.Of("All strings are in tune.")
)

// sayTuned says how a string stands, on an instrument that is so many cents off as a whole.
func sayTuned(on *fret.Tuning, now hear.Tuned, whole float64) say.Text {
	string := say.TheStrings(on, now.Numbers...)
	if len(now.Numbers) > 1 {
		string = say.Of("one of {}", string)
	}
	switch {
	case math.Abs(now.Cents) <= hear.InTune:
		return say.Sentence("{} is in tune.", string)
	case math.Abs(now.Cents-whole) <= hear.InTune:
		return say.Sentence("{} is {}, as the others are.", string, cents(now.Cents))
	case now.Cents < 0:
		return say.Sentence("{} is {}: tighten it.", string, cents(now.Cents))
	}
	return say.Sentence("{} is {}: loosen it.", string, cents(now.Cents))
}

// cents says how far off something is.
func cents(off float64) say.Text {
	n := int(math.Round(math.Abs(off)))
	how := say.Words("high")
	if off < 0 {
		how = "low"
	}
	return say.Of("{} {}", say.Count{N: n, One: "cent", Many: "cents"}, how)
}
