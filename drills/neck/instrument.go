// Package neck has what a student plays: an instrument, the shapes that are found on its neck, those that are met first, what they
// become by one string, and the chords that questions are held to.
package neck

import (
	"slices"
	"strings"

	"sparetone/synth"
	"sparetone/theory/fret"
)

// Instrument is what the student plays: where shapes come from and how they sound.
type Instrument struct {
	Tuning *fret.Tuning
	Voices []synth.Voice // one is picked for each question; the first is the instrument's own
	Hand   fret.Hand     // what the fretting hand can hold

	hold *Hold // what questions are held to; nil for nothing
	neck found // what was found on it
}

// Name is the instrument's part of an item id.
func (i *Instrument) Name() string { return i.Tuning.Name }

// NewInstrument is what is played: a tuning, by its name or its strings, with a capo at a fret, 0 for none, and a
// voice by its name; for any other voice, one is picked for each question. A capo changes what sounds, and
// not what is learned on the instrument, so it keeps its name. The errors say what no tuning or no place
// for a capo is.
func NewInstrument(tuning string, capo int, voice string) (*Instrument, error) {
	t, err := fret.ParseTuning(tuning)
	if err != nil {
		return nil, err
	}
	if capo > 0 {
		c, err := t.Capo(capo)
		if err != nil {
			return nil, err
		}
		c.Name = t.Name
		t = c
	}
	on := &Instrument{Tuning: t, Voices: synth.Voices(), Hand: fret.DefaultHand}
	own := OwnVoice(t)
	on.Voices = slices.Concat([]synth.Voice{own}, slices.DeleteFunc(slices.Clone(on.Voices), func(v synth.Voice) bool { return v == own }))
	if v, err := synth.VoiceByName(voice); err == nil {
		on.Voices = []synth.Voice{v}
	}
	return on, nil
}

// ownVoices are the voices that sound like the instruments of the table, by the tuning's name (from judgement: what most are strung
// with). What is not among them sounds like the first voice.
var ownVoices = map[string]string{
	"baritone": "tenor",
	"guitar":   "steel", "guitar-drop-d": "steel", "guitar-dadgad": "steel", "guitar-open-g": "steel", "tenor-guitar": "steel",
	"mandolin": "mandolin", "mandola": "mandolin", "octave-mandolin": "mandolin", "mandocello": "mandolin",
	"banjo": "steel", "banjo-double-c": "steel", "plectrum-banjo": "steel", "tenor-banjo": "steel", "irish-tenor-banjo": "steel",
	"cavaquinho": "steel", "bass": "steel",
}

// OwnVoice is the voice that sounds like the instrument of a tuning, with a capo or without: of strings that were typed the steel guitar's
// where there is a bass (fret.Tuning.HasBass), else the first voice.
func OwnVoice(t *fret.Tuning) synth.Voice {
	name, _, _ := strings.Cut(t.Name, " capo ")
	own, ok := ownVoices[name]
	if !ok && t.HasBass() {
		own = "steel"
	}
	if v, err := synth.VoiceByName(own); err == nil {
		return v
	}
	return synth.Voices()[0]
}

// ReadShape reads a fret for each of the instrument's strings, such as 0003, x32010, 10 12 12 10 or open open open 3. The
// error says which string is wrong.
func (i *Instrument) ReadShape(text string) (fret.Shape, error) {
	s, err := ReadSpoken(text)
	if err == nil {
		err = i.Tuning.Check(s)
	}
	return s, err
}
