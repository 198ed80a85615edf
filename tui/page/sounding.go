package page

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/inturn"
	"sparetone/synth"
)

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
	slower = plays("slower", false, inturn.Slower)
	open = plays("open", true, func(s []drills.Sound) []drills.Sound { return inturn.Each(s, drills.Sound.Opened) })
	root = plays("root", true, func(s []drills.Sound) []drills.Sound { return inturn.Each(s, drills.Sound.OpenedFromRoot) }).where(inturn.Rooted(sounds))
	return again, open, slower, root
}
