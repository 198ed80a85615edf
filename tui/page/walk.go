package page

import (
	"errors"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/synth/capture"
	"sparetone/synth/playback"
	"sparetone/theory/say"
)

// Walk is somebody's way through the places: the practice, and what places have in common.
type Walk struct {
	practice.App
	Trouble   say.Text      // what is wrong with sound or file; zero if all is well
	Cautioned bool          // how to begin without harm was said today
	Fingers   bool          // necks tell which finger stops what
	Straight  bool          // practice begins without today's page, once
	Sounding  *drills.Sound // of sounds that are played in turn the one that sounds now; nil if none does
	Spoken    bool          // pages are said aloud: what is said of shapes explains words as well

	playing    *attempt // that is listened for; nil if nothing was yet
	terms      terms
	knownTerms map[string]bool // words that were explained, as far as it was looked up
	hasMet     bool            // something new was shown since the program began

	own  map[string]string // settings that were none of their choices, by id, to come back to
	home func() Place      // makes the page that everything leads back to
	song *Song             // the song that is practised, to which the practice leads back; nil if none is
}

// NewWalk is at the beginning of a practice.
func NewWalk(p practice.App) *Walk {
	return &Walk{App: p, Cautioned: p.Cautioned(), own: map[string]string{}, knownTerms: map[string]bool{}, home: func() Place { return &Today{} }}
}

// Caution keeps that the cautions were seen, for the day. Where it cannot be kept they are only seen once more.
func (w *Walk) Caution() {
	w.Cautioned = true
	_ = w.App.KeepCautioned()
}

// today goes to today's page, of a session that is still to begin.
func (w *Walk) today() Next {
	next := Next{To: w.home()}
	if !w.Fresh() {
		if err := w.Begin(w.Called); err != nil {
			next.Said = practice.SentenceOf(err)
		}
	}
	return next
}

// end closes the session in the file.
func (w *Walk) end() {
	if err := w.Session.End(); err != nil {
		w.Trouble = practice.SentenceOf(err)
	}
}

// hears reports whether there is a way to hear anything, now or later.
func (w *Walk) hears() bool { return !w.Setup.Silent }

// kept reports whether all of practice is kept in a file.
func (w *Walk) kept() bool { return w.File().Path() != "" && w.Unkept() == "" }

// hearing is a place that takes up that sound went or came.
type hearing interface{ soundChanged(w *Walk) Next }

// SoundChanged takes up, at a place, that the device opened, failed or came back.
func (w *Walk) SoundChanged(at Place) Next {
	if w.Setup.Silent {
		return Next{}
	}
	state, reason := w.Speaker.State()
	w.Deviceless = state == playback.NoDevice
	var err error
	if state != playback.Opening && !w.Way.Silent {
		err = w.Session.SetSilent(w.Deviceless)
	}
	switch {
	case errors.Is(err, drills.ErrNothing):
		w.Trouble = sayNoSound(reason, practice.NeedsSound) // a device may still come
	case err != nil:
		w.Trouble = practice.SentenceOf(err)
	case w.Deviceless:
		w.Trouble = sayNoSound(reason, byEyeOnly)
	case state == playback.Ready:
		w.Trouble = say.Text{}
	}
	if place, ok := at.(hearing); ok {
		return place.soundChanged(w)
	}
	return Next{}
}

// ear is a place that takes up what the microphone heard.
type ear interface {
	heard(w *Walk, sound capture.Sound) Next
}

// Heard gives a place what the microphone heard since it was last asked, and reports whether it took it up. Where a place does not
// listen, it is dropped.
func (w *Walk) Heard(at Place) (next Next, taken bool) {
	if !w.Listens() {
		return Next{}, false
	}
	sound := w.Microphone.Take()
	if place, ok := at.(ear); ok && len(sound.Samples) > 0 {
		return place.heard(w, sound), true
	}
	return Next{}, false
}

// back is the act that leads back to today's page.
func (w *Walk) back() Act { return called("back", func(string) Next { return w.today() }) }
