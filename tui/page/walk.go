package page

import (
	"errors"

	"sparetone/drills"
	"sparetone/drills/meet"
	"sparetone/drills/played"
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

	playing    played.Attempt  // is listened for; nil if nothing was yet
	explains   Place           // where words of the trade were explained last
	opened     []meet.Term     // were explained there for the first time
	knownTerms map[string]bool // words that were explained, as far as it was looked up
	HasMet     bool            // something new was shown since the program began

	OffList map[string]string // settings that were none of their choices, by id, to come back to
	places  Places
	From    Place // the place that a practice was begun from and leads back to, such as a song; nil is today's page
}

// Places make the places that rooms lead to which do not know them.
type Places struct {
	Today  func() Place
	Ending func(w *Walk, failed error, said []Block) Place // of a session that is closed: failed is why it could not go on, nil if it simply ended; said comes first
}

// NewWalk is at the beginning of a practice.
func NewWalk(p practice.App, places Places) *Walk {
	return &Walk{App: p, Cautioned: p.Cautioned(), OffList: map[string]string{}, knownTerms: map[string]bool{}, places: places}
}

// Caution keeps that the cautions were seen, for the day. Where it cannot be kept they are only seen once more.
func (w *Walk) Caution() {
	w.Cautioned = true
	_ = w.App.KeepCautioned()
}

// Today goes to today's page, of a session that is still to begin.
func (w *Walk) Today() Next {
	next := Next{To: w.places.Today()}
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

// Finish closes the session and goes to its end, where said comes first; failed is why it could not go on, nil if it simply ended.
func (w *Walk) Finish(failed error, said ...Block) Next {
	w.end()
	return Next{To: w.places.Ending(w, failed, said)}
}

// MayHear reports whether there is a way to hear anything, now or later.
func (w *Walk) MayHear() bool { return !w.Setup.Silent }

// kept reports whether all of practice is kept in a file.
func (w *Walk) kept() bool { return w.File().Path() != "" && w.Unkept() == "" }

// hearing is a place that takes up that sound went or came.
type hearing interface{ SoundChanged(w *Walk) Next }

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
		return place.SoundChanged(w)
	}
	return Next{}
}

// ear is a place that takes up what the microphone heard.
type ear interface {
	Heard(w *Walk, sound capture.Sound) Next
}

// Heard gives a place what the microphone heard since it was last asked, and reports whether it took it up. Where a place does not
// listen, it is dropped.
func (w *Walk) Heard(at Place) (next Next, taken bool) {
	if !w.Listens() {
		return Next{}, false
	}
	sound := w.Microphone.Take()
	if place, ok := at.(ear); ok && len(sound.Samples) > 0 {
		return place.Heard(w, sound), true
	}
	return Next{}, false
}

// BackToToday is the act that leads back to today's page.
func (w *Walk) BackToToday() Act { return Called("back", func(string) Next { return w.Today() }) }
