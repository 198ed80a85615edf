package page

import (
	"errors"
	"slices"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/theory/say"
)

// Walk is somebody's way through the places: the practice, and what places have in common.
type Walk struct {
	practice.App
	Trouble   say.Text // what is wrong with sound or file; zero if all is well
	Cautioned bool     // how to begin without harm was said
	Straight  bool     // practice begins without today's page, once

	own  map[string]string // settings that were none of their choices, by id, to come back to
	home func() Place      // makes the page that everything leads back to
}

// NewWalk is at the beginning of a practice.
func NewWalk(p practice.App) *Walk {
	return &Walk{App: p, own: map[string]string{}, home: func() Place { return &Today{} }}
}

// Start is where a walk begins.
func (w *Walk) Start() Next {
	if w.New {
		return Next{To: newWelcome(w)}
	}
	return w.opening()
}

// opening is today's page, or the practice that was asked for when the program was called.
func (w *Walk) opening() Next {
	if w.Straight {
		w.Straight = false
		return w.begin(practice.Outlook(&w.App))
	}
	return w.today()
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

// begin begins today's practice, said first. One that was made and not yet begun is used as it is.
func (w *Walk) begin(said []say.Text) Next {
	if w.Fresh() {
		return w.ask(said)
	}
	return w.practise(w.Called, said)
}

// practise begins a practice, said first.
func (w *Walk) practise(way practice.Way, said []say.Text) Next {
	if err := w.Begin(way); err != nil {
		return refused(err)
	}
	return w.ask(said)
}

// part begins a part of practice, and says which.
func (w *Walk) part(way practice.Way) Next {
	return w.practise(way, []say.Text{say.Sentence("{}.", way.Title)})
}

// finish closes the session and sums it up, said first; failed is why it could not go on, nil if it simply ended.
func (w *Walk) finish(failed error, said ...Block) Next {
	w.end()
	return Next{To: newEnding(w, failed, said)}
}

// end closes the session in the file.
func (w *Walk) end() {
	if err := w.Session.End(); err != nil {
		w.Trouble = practice.SentenceOf(err)
	}
}

// Leave ends the program.
func (w *Walk) Leave() Next {
	w.end()
	return Next{Hush: true, Ends: true}
}

// hears reports whether there is a way to hear anything, now or later.
func (w *Walk) hears() bool { return !w.Setup.Silent }

// kept reports whether all of practice is kept in a file.
func (w *Walk) kept() bool { return w.File().Path() != "" && w.Unkept() == "" }

// Everywhere are the acts of all places; at is the one that they lead back to.
func (w *Walk) Everywhere(at Place) []Act {
	_, asks := at.(*Prompt)
	return only(
		called("louder", func(string) Next { return w.louder(1) }),
		called("softer", func(string) Next { return w.louder(-1) }),
		called("help", nil),
		called("save", func(path string) Next { return w.saves(at, path) }).where(!asks).off(w.kept(), sayAllKept(w.File().Path())),
		called("leave", func(string) Next { return w.Leave() }),
	)
}

// louder sets the volume some tenths up or down, and keeps it.
func (w *Walk) louder(tenths int) Next {
	n := min(10, max(0, int(10*w.Speaker.Volume()+0.5)+tenths))
	w.Settings.Volume = float64(n) / 10
	w.Speaker.SetVolume(w.Settings.Volume)
	if err := w.Keep("volume"); err != nil {
		return Next{Said: sayVolumeUnkept(n, err)}
	}
	return Next{Said: sayVolume(n)}
}

// hearing is a place that takes up that sound went or came.
type hearing interface{ soundChanged(w *Walk) Next }

// SoundChanged takes up, at a place, that the device opened, failed or came back.
func (w *Walk) SoundChanged(at Place) Next {
	if w.Setup.Silent {
		return Next{}
	}
	state, reason := w.Speaker.State()
	w.Deviceless = state == synth.NoDevice
	var err error
	if state != synth.Opening && !w.Way.Silent {
		err = w.Session.SetSilent(w.Deviceless)
	}
	switch {
	case errors.Is(err, drills.ErrNothing):
		w.Trouble = sayNoSound(reason, practice.NeedsSound) // a device may still come
	case err != nil:
		w.Trouble = practice.SentenceOf(err)
	case w.Deviceless:
		w.Trouble = sayNoSound(reason, byEyeOnly)
	case state == synth.Ready:
		w.Trouble = say.Text{}
	}
	if place, ok := at.(hearing); ok {
		return place.soundChanged(w)
	}
	return Next{}
}

// sample plays the open strings as the settings have them.
func (w *Walk) sample() Next {
	on, err := w.Settings.Instrument()
	if err != nil {
		return refused(err)
	}
	return Next{Voice: on.Voices[0], Sounds: drills.OpenStrings(on)}
}

// sounding lists acts that play sounds: all of them again, and slower, opened up and from the root where they have one.
// heard is told how, before they are played.
func sounding(v synth.Voice, sounds []drills.Sound, heard func(opened bool)) (again, open, slower, root Act) {
	plays := func(id string, opened bool, change func([]drills.Sound) []drills.Sound) Act {
		return called(id, func(string) Next {
			heard(opened)
			return Next{Voice: v, Sounds: change(sounds)}
		}).off(len(sounds) == 0, nothingToHear)
	}
	again = plays("again", false, slices.Clone)
	slower = plays("slower", false, practice.Slower)
	open = plays("open", true, func(s []drills.Sound) []drills.Sound { return practice.Each(s, drills.Sound.Opened) })
	root = plays("root", true, func(s []drills.Sound) []drills.Sound { return practice.Each(s, drills.Sound.OpenedFromRoot) }).where(practice.Rooted(sounds))
	return again, open, slower, root
}

// back is the act that leads back to today's page.
func (w *Walk) back() Act { return called("back", func(string) Next { return w.today() }) }
