package practice

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Settings are what the student has chosen for good. They are kept in the progress file.
type Settings struct {
	Tuning  string  // a name, or strings
	Capo    int     // fret; 0 is none
	Left    bool    // necks drawn for left-handed players
	Voice   string  // name of a voice; empty draws one for each question
	Volume  float64 // 0 to 1
	A4      float64 // Hz
	Minutes int
	Typing  bool         // answers are typed, not chosen
	Key     string       // what the bench spells in and stays in; empty is no key
	Still   bool         // no movement on the screen
	Colours string       // auto, dark, light or none
	Level   course.Place // where the course begins
}

// Standard is what holds until something else is chosen.
var Standard = Settings{Tuning: "ukulele", Volume: synth.StartVolume, A4: theory.StandardA4, Minutes: 10, Colours: "auto"}

// anyVoice is what the setting of the voice is called that draws one for each question.
const anyVoice = "another each time"

// Setting is one setting: how it reads, what it may be, and where it lies in Settings.
type Setting struct {
	ID, Title string
	About     string
	Choices   func() []string // in the order in which they are stepped through
	Get       func(s *Settings) string
	Set       func(s *Settings, value string) error
}

// AllSettings is the table of settings, in the order in which they are shown.
var AllSettings = []Setting{
	{"tuning", "Instrument", "what you play; shapes are for its strings", tuningNames,
		func(s *Settings) string { return s.Tuning },
		func(s *Settings, v string) error {
			on, err := drills.NewInstrument(v, 0, "")
			if err == nil {
				s.Tuning = on.Name()
			}
			return err
		}},
	{"capo", "Capo", "the fret it sits at, 0 for none; shapes are written from there", numbers(0, 7, 1),
		func(s *Settings) string { return strconv.Itoa(s.Capo) },
		func(s *Settings, v string) error { return wholeNumber(v, 0, 7, &s.Capo) }},
	{"hand", "Hand", "which way round necks are drawn", words("right-handed", "left-handed"),
		func(s *Settings) string { return yes(s.Left, "left-handed", "right-handed") },
		func(s *Settings, v string) error { return either(v, &s.Left, "left-handed", "right-handed") }},
	{"voice", "Voice", "what the strings sound like", voiceNames,
		func(s *Settings) string {
			if s.Voice == "" {
				return anyVoice
			}
			return s.Voice
		},
		func(s *Settings, v string) error {
			if v == anyVoice {
				s.Voice = ""
				return nil
			}
			_, err := synth.VoiceByName(v)
			if err == nil {
				s.Voice = v
			}
			return err
		}},
	{"volume", "Volume", "out of 10; begin quietly", numbers(0, 10, 1),
		func(s *Settings) string { return strconv.Itoa(int(10*s.Volume + 0.5)) },
		func(s *Settings, v string) error {
			n := 0
			err := wholeNumber(v, 0, 10, &n)
			if err == nil {
				s.Volume = float64(n) / 10
			}
			return err
		}},
	{"a4", "A4", "its pitch in Hz; 440 is the standard", numbers(415, 466, 1),
		func(s *Settings) string { return strconv.FormatFloat(s.A4, 'f', -1, 64) },
		func(s *Settings, v string) error {
			f, err := strconv.ParseFloat(v, 64)
			if err != nil || !(f >= 400 && f <= 480) {
				return fmt.Errorf("%q is no pitch of A4: it lies between 400 and 480 Hz", theory.Clip(v))
			}
			s.A4 = f
			return nil
		}},
	{"minutes", "Minutes", "how long a practice is", words("5", "10", "15", "20", "30", "45", "60"),
		func(s *Settings) string { return strconv.Itoa(s.Minutes) },
		func(s *Settings, v string) error { return wholeNumber(v, 1, 120, &s.Minutes) }},
	{"answer", "Answer", "by choosing from a few, or by typing without seeing them", words("one key", "typing"),
		func(s *Settings) string { return yes(s.Typing, "typing", "one key") },
		func(s *Settings, v string) error { return either(v, &s.Typing, "typing", "one key") }},
	{"key", "Key", "the bench spells notes as this key does, and lists what stays in it first", keyNames,
		func(s *Settings) string {
			if s.Key == "" {
				return "none"
			}
			return s.Key
		},
		func(s *Settings, v string) error {
			if v == "none" {
				s.Key = ""
				return nil
			}
			k, err := drills.ReadKeyName(v)
			if err == nil {
				s.Key = k
			}
			return err
		}},
	{"movement", "Movement", "strings tremble while they sound", words("on", "off"),
		func(s *Settings) string { return yes(s.Still, "off", "on") },
		func(s *Settings, v string) error { return either(v, &s.Still, "off", "on") }},
	{"colours", "Colours", "auto is as the terminal is, dark or light", words("auto", "dark", "light", "none"),
		func(s *Settings) string { return s.Colours },
		func(s *Settings, v string) error { return oneOf(v, &s.Colours, "auto", "dark", "light", "none") }},
	{"level", "Course", "where it begins; what comes before is taken as known", LevelNames,
		func(s *Settings) string { return LevelName(s.Level) },
		func(s *Settings, v string) error {
			at, err := levelNamed(v)
			if err == nil {
				s.Level = at
			}
			return err
		}},
}

// SettingByID finds a row of the table.
func SettingByID(id string) *Setting {
	i := slices.IndexFunc(AllSettings, func(k Setting) bool { return k.ID == id })
	if i < 0 {
		return nil
	}
	return &AllSettings[i]
}

// Own returns what is set if it is none of the choices, such as a place in the course that was found, and
// otherwise what was so before.
func (k *Setting) Own(s *Settings, before string) string {
	if v := k.Get(s); !slices.Contains(k.Choices(), v) {
		return v
	}
	return before
}

// Step returns the choice that lies so many steps from what is set, going round at the ends. What is the
// student's own, if it is not empty, comes after the other choices.
func (k *Setting) Step(s *Settings, own string, by int) string {
	all := k.Choices()
	if own != "" {
		all = append(slices.Clone(all), own)
	}
	i := slices.Index(all, k.Get(s))
	return all[(i+by+len(all))%len(all)]
}

// Meant is the one of the choices that begins with what was typed, in itself or in words; empty if there is none, or
// more than one.
func (k *Setting) Meant(typed string) string {
	if typed == "" || typed[0] >= '0' && typed[0] <= '9' {
		return "" // 4 is no beginning of 45
	}
	begins := func(s string) bool { return strings.HasPrefix(strings.ToLower(s), strings.ToLower(typed)) }
	var found []string
	for _, v := range k.Choices() {
		if begins(v) || begins(k.InWords(v).Screen()) {
			found = append(found, v)
		}
	}
	if len(found) != 1 {
		return ""
	}
	return found[0]
}

// InWords says a value of a setting: of a tuning what it is, and not only its name.
func (k *Setting) InWords(value string) say.Text {
	switch k.ID {
	case "tuning":
		if on, err := drills.NewInstrument(value, 0, ""); err == nil {
			return say.Of("{}", say.Instrument{On: on.Tuning})
		}
	case "key":
		if said, err := drills.SayKey(value); err == nil {
			return said
		}
	case "level":
		if at, err := levelNamed(value); err == nil && PlaceTold(at) != "" {
			return say.Of("the place that was found")
		}
	}
	return say.Of("{}", say.Words(value))
}

// May says what a setting may be.
func (k *Setting) May() string {
	all := k.Choices()
	last := all[len(all)-1]
	low, err1 := strconv.Atoi(all[0])
	high, err2 := strconv.Atoi(last)
	if err1 == nil && err2 == nil && high-low == len(all)-1 {
		return all[0] + " to " + last
	}
	return strings.Join(all, "; ")
}

// ReadSettings returns the settings that a progress file keeps. What is not there, or makes no sense, is
// as it is from the beginning.
func ReadSettings(f *progress.File) Settings {
	s := Standard
	for _, k := range AllSettings {
		if v, ok, err := f.Setting(k.ID); ok && err == nil {
			_ = k.Set(&s, v) // it then stays as it was
		}
	}
	return s
}

// Keep writes one setting to a progress file.
func (s Settings) Keep(f *progress.File, id string) error {
	k := SettingByID(id)
	if k == nil {
		return fmt.Errorf("%q is no setting", id)
	}
	return f.SetSetting(id, k.Get(&s))
}

// Instrument is what the settings say is played.
func (s Settings) Instrument() (*drills.Instrument, error) {
	return drills.NewInstrument(s.Tuning, s.Capo, s.Voice)
}

// Length is how long a practice is.
func (s Settings) Length() time.Duration { return time.Duration(s.Minutes) * time.Minute }

// welcomed is the setting that says that somebody has begun here.
const welcomed = "welcomed"

// IsNew reports whether nobody has begun with a progress file yet.
func IsNew(f *progress.File) bool {
	_, set, err := f.Setting(welcomed)
	if set || err != nil {
		return false
	}
	sessions, err := f.Sessions()
	return err == nil && len(sessions) == 0
}

func tuningNames() []string {
	var out []string
	for _, t := range fret.Tunings() {
		out = append(out, t.Name)
	}
	return out
}

func voiceNames() []string {
	out := []string{anyVoice}
	for _, v := range synth.Voices() {
		out = append(out, v.Name)
	}
	return out
}

func keyNames() []string { return append([]string{"none"}, drills.KeyNames()...) }

func words(w ...string) func() []string { return func() []string { return w } }

func numbers(from, to, by int) func() []string {
	return func() []string {
		var out []string
		for n := from; n <= to; n += by {
			out = append(out, strconv.Itoa(n))
		}
		return out
	}
}

func yes(is bool, one, other string) string {
	if is {
		return one
	}
	return other
}

func either(v string, is *bool, one, other string) error {
	word := yes(*is, one, other)
	err := oneOf(v, &word, one, other)
	*is = word == one
	return err
}

func oneOf(v string, to *string, all ...string) error {
	for _, w := range all {
		if strings.EqualFold(v, w) {
			*to = w
			return nil
		}
	}
	return fmt.Errorf("%q is not one of: %s", theory.Clip(v), strings.Join(all, ", "))
}

func wholeNumber(v string, least, most int, to *int) error {
	n, err := strconv.Atoi(v)
	if err != nil || n < least || n > most {
		return fmt.Errorf("%q is no whole number from %d to %d", theory.Clip(v), least, most)
	}
	*to = n
	return nil
}
