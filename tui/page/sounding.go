package page

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/inturn"
	"sparetone/synth"
)

// SoundActs lists acts that play sounds: all of them again, and slower, opened up and from the root where they have one.
// heard is told how, before they are played.
func SoundActs(v synth.Voice, sounds []drills.Sound, heard func(opened bool)) (again, open, slower, root Act) {
	plays := func(id string, opened bool, change func([]drills.Sound) []drills.Sound) Act {
		return Called(id, func(string) Next {
			heard(opened)
			return Next{Voice: v, Sounds: change(sounds)}
		}).OffIf(len(sounds) == 0, NothingToHear)
	}
	again = plays("again", false, slices.Clone)
	slower = plays("slower", false, inturn.Slower)
	open = plays("open", true, func(s []drills.Sound) []drills.Sound { return inturn.Each(s, drills.Sound.Opened) })
	root = plays("root", true, func(s []drills.Sound) []drills.Sound { return inturn.Each(s, drills.Sound.OpenedFromRoot) }).If(inturn.Rooted(sounds))
	return again, open, slower, root
}
