package home

import (
	"sparetone/drills"
	"sparetone/tui/page"
)

// sample plays the open strings as the settings have them.
func sample(w *page.Walk) page.Next {
	on, err := w.Settings.Instrument()
	if err != nil {
		return page.Refused(err)
	}
	return page.Next{Voice: on.Voices[0], Sounds: drills.OpenStrings(on)}
}
