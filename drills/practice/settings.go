package practice

import (
	"fmt"
	"time"

	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/progress/store"
	"sparetone/synth/playback"
	"sparetone/theory"
)

// Settings are what the student has chosen for good. They are kept in the progress file.
type Settings struct {
	Tuning  string  // a name, or strings
	Capo    int     // fret; 0 is none
	Left    bool    // necks drawn for left-handed players
	Voice   string  // name of a voice; empty picks one for each question
	Volume  float64 // 0 to 1
	A4      float64 // Hz
	Minutes int
	Typing  bool         // answers are typed, not chosen
	AtOnce  bool         // new things are asked without being shown first
	Part    string       // id of a choice of parts: what practice is of
	Onward  bool         // after a right answer it goes on by itself
	Key     string       // symbol of the key that the bench spells in and stays in, such as Bbm; empty is no key
	Still   bool         // no movement on the screen
	Colours string       // id of a choice of colours: auto, dark, light or none
	Level   course.Place // where the course begins
}

// Standard is what holds until something else is chosen.
var Standard = Settings{Tuning: "ukulele", Volume: playback.StartVolume, A4: theory.StandardA4, Minutes: 10, Part: AllParts, Colours: "auto"}

// ReadSettings returns the settings that a progress file keeps. What is not there, or makes no sense, is
// as it is from the beginning.
func ReadSettings(f *store.File) Settings {
	s := Standard
	for _, k := range AllSettings {
		if v, ok, err := f.Setting(k.ID); ok && err == nil {
			_ = k.Set(&s, v) // it then stays as it was
		}
	}
	return s
}

// Keep writes one setting to a progress file.
func (s Settings) Keep(f *store.File, id string) error {
	k := SettingByID(id)
	if k == nil {
		return fmt.Errorf("%q is no setting", id)
	}
	return f.SetSetting(id, k.Get(&s))
}

// Instrument is what the settings say is played.
func (s Settings) Instrument() (*neck.Instrument, error) {
	return neck.NewInstrument(s.Tuning, s.Capo, s.Voice)
}

// Length is how long a practice is.
func (s Settings) Length() time.Duration { return time.Duration(s.Minutes) * time.Minute }

// welcomed is the setting that says that somebody has begun here.
const welcomed = "welcomed"

// IsNew reports whether nobody has begun with a progress file yet.
func IsNew(f *store.File) bool {
	_, set, err := f.Setting(welcomed)
	if set || err != nil {
		return false
	}
	sessions, err := f.Sessions()
	return err == nil && len(sessions) == 0
}
