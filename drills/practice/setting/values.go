package setting

import (
	"time"

	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/synth/playback"
	"sparetone/theory"
)

// Values are what the student has chosen for good, setting by setting. They are kept in the progress file.
type Values struct {
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
	Level   course.Level // where the course begins
}

// AllParts is the choice of parts that leaves none out.
const AllParts = "all"

// Standard is what holds until something else is chosen.
var Standard = Values{Tuning: "ukulele", Volume: playback.StartVolume, A4: theory.StandardA4, Minutes: 10, Part: AllParts, Colours: "auto"}

// Instrument returns what the settings say is played. The error says which of them makes no instrument.
func (s Values) Instrument() (*neck.Instrument, error) {
	return neck.NewInstrument(s.Tuning, s.Capo, s.Voice)
}

// Length returns how long a practice is.
func (s Values) Length() time.Duration { return time.Duration(s.Minutes) * time.Minute }
