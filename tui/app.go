// Package tui is the full screen: it draws the pages of tui/page, a block a file, and finds their acts by keys and clicks.
// It holds no musical knowledge, and no way from one place to another.
package tui

import (
	"github.com/charmbracelet/colorprofile"

	"sparetone/drills"
	"sparetone/synth"
	"sparetone/theory/say"
	"sparetone/tui/draw"
	"sparetone/tui/page"
)

// app is the root model: the place that shows, and how it is seen.
type app struct {
	*page.Walk
	sight
	dark          bool
	coloured      string // the setting of colours as it was applied last
	profile       colorprofile.Profile
	width, height int
	place         page.Place
	made          *page.Page // the place's page; nil if it has to be made anew
	field         field      // what is typed
	typing        bool       // letters go to the field: they are no keys
	wrong         say.Text   // what is wrong with what was typed
	note          say.Text   // a word that stays as long as the place does
	said          say.Text   // a word on the last key; gone with the next
	help          bool
	away          bool // the program ends or is paused: nothing stays on the screen
	scroll        int  // lines of the screen that have gone up out of sight
	turned        bool // the last key has scrolled: what else has to be in sight need not be
	calls         int  // to play, so far
	moving        bool // a tick is under way
	shown         laid // as it was drawn last
}

// applyTheme chooses the colours for the terminal and the student.
func (a *app) applyTheme() {
	dark, profile := a.dark, a.profile
	a.coloured = a.Settings.Colours
	switch a.Settings.Colours {
	case "dark", "light":
		dark = a.Settings.Colours == "dark"
	case "none":
		profile = colorprofile.Ascii
	}
	a.theme = draw.NewTheme(dark, profile)
}

// The messages of the program's own.
type (
	leaveMsg struct{} // the program is to end
	tickMsg  struct{} // something may have moved
	soundMsg struct{} // the speaker's state has changed
	heardMsg struct{} // the microphone has heard something, or stands another way
	readyMsg struct { // a sound can be played
		call   int // to play that it comes of
		sound  *synth.Sound
		sounds []drills.Sound // that it is made of, in turn
		err    error
	}
	partMsg struct { // of sounds in turn another one begins
		call   int // to play that they come of
		sounds []drills.Sound
		begins int // which of them; as many as there are if the last one has ended
	}
	onwardMsg struct{ place page.Place } // a place may go on by itself
)

// page is the page of the place as it is now.
func (a *app) page() *page.Page {
	if a.made == nil {
		p := a.PageOf(a.place)
		a.made = &p
	}
	return a.made
}
