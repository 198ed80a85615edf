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

// Walk is somebody's way through the places: the practice, and what is true wherever one is.
type Walk struct {
	practice.App
	Trouble     say.Text          // what is wrong with sound or file; zero if all is well
	Cautioned   bool              // it was said today how to begin without harm
	Fingers     bool              // necks tell which finger stops what
	BeginAtOnce bool              // the walk begins with a question and not with today's page; false again once it has
	Sounding    *drills.Sound     // the sound that sounds now, of those that are played in turn; nil if none does
	Spoken      bool              // the face is lines of text, which say shapes in words
	HasMet      bool              // something new was shown since the program began
	OffList     map[string]string // values of settings that are none of their choices, by the setting's id, so that stepping comes back to them
	BegunFrom   Place             // the place that the practice was begun from and leads back to, such as a song; nil is today's page

	places      Places
	playing     played.Attempt  // the attempt that the microphone listens for; nil if none was yet
	explainedAt Place           // the last place with a page that explains
	opened      []meet.Term     // words that were explained there for the first time
	knownTerms  map[string]bool // words that were explained, by id, as far as that was looked up
}

// Places make the places that this room and those below the places lead to without knowing them.
type Places struct {
	Today  func() Place                                    // today's page
	Ending func(w *Walk, failed error, said []Block) Place // the end of a session that is closed; Finish says of what
}

// NewWalk returns a walk of a practice, before its first place.
func NewWalk(p practice.App, places Places) *Walk {
	return &Walk{App: p, Cautioned: p.Cautioned(), OffList: map[string]string{}, knownTerms: map[string]bool{}, places: places}
}

// Caution keeps that the cautions were seen, for the day. Where it cannot be kept they are only seen once more.
func (w *Walk) Caution() {
	w.Cautioned = true
	_ = w.App.KeepCautioned()
}

// GoToToday goes to today's page, of a session that is still to begin.
func (w *Walk) GoToToday() Next {
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

// Finish closes the session and goes to its end. failed is why it could not go on, nil where it simply ended; said is said before all else.
func (w *Walk) Finish(failed error, said ...Block) Next {
	w.end()
	return Next{To: w.places.Ending(w, failed, said)}
}

// MayHear reports whether there is a way to hear anything, now or later.
func (w *Walk) MayHear() bool { return !w.Setup.Silent }

// allKept reports whether all of practice is kept in a file.
func (w *Walk) allKept() bool { return w.File().Path() != "" && w.Unkept() == "" }

// takesSoundChange is a place that takes up that sound went or came.
type takesSoundChange interface{ SoundChanged(w *Walk) Next }

// sayDevice takes up that there is a device, or none and why, and says it.
func (w *Walk) sayDevice(state playback.State, reason string) {
	w.Deviceless = state == playback.NoDevice
	var err error
	if !w.Way.Silent {
		err = w.Session.SetSilent(w.Deviceless)
	}
	switch {
	case errors.Is(err, drills.ErrNothing):
		w.Trouble = sayNoSound(reason, practice.NeedsSound) // a device may still come
	case err != nil:
		w.Trouble = practice.SentenceOf(err)
	case w.Deviceless:
		w.Trouble = sayNoSound(reason, byEyeOnly)
	default:
		w.Trouble = say.Text{}
	}
}

// SoundChanged takes up, at a place, that the device opened, failed or came back.
func (w *Walk) SoundChanged(at Place) Next {
	if w.Setup.Silent {
		return Next{}
	}
	if state, reason := w.Speaker.State(); state != playback.Opening { // while one is opened, what was known before stands, and what was said of it
		w.sayDevice(state, reason)
	}
	if place, ok := at.(takesSoundChange); ok {
		return place.SoundChanged(w)
	}
	return Next{}
}

// listener is a place that takes up what the microphone heard.
type listener interface {
	Heard(w *Walk, sound capture.Sound) Next
}

// ToPlay says what is to be played at a place now; zero if nothing is, or nothing listens.
func (w *Walk) ToPlay(at Place) say.Text {
	place, plays := at.(interface{ ToPlay(w *Walk) say.Text })
	if !plays || w.Microphone == nil {
		return say.Text{}
	}
	if state, _ := w.Microphone.State(); state != capture.Listening {
		return say.Text{}
	}
	return place.ToPlay(w)
}

// Heard gives a place what the microphone heard since it was last asked, and reports whether it took it up. Where a place does not
// listen, it is dropped.
func (w *Walk) Heard(at Place) (next Next, taken bool) {
	if !w.Listens() {
		return Next{}, false
	}
	sound := w.Microphone.Take()
	if place, ok := at.(listener); ok && len(sound.Samples) > 0 {
		return place.Heard(w, sound), true
	}
	return Next{}, false
}

// BackToToday is the act that leads back to today's page.
func (w *Walk) BackToToday() Act { return Called("back", func(string) Next { return w.GoToToday() }) }
