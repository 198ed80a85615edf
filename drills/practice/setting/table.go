package setting

import (
	"slices"
	"strconv"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/synth"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Ids of values that stand for the zero value of their field in Values.
const (
	anyVoice = "any"
	noKey    = "none"
)

// The choices that are said in other words than their ids.
var (
	hands     = choices{{"right", "right-handed"}, {"left", "left-handed"}}
	answering = choices{{"choose", "one key"}, {"type", "typing"}}
	parts     = choices{{AllParts, "by ear and eye"}, {"ear", "by ear only"}, {"eye", "by eye only"}}
	onwards   = choices{{"key", "with a key"}, {"itself", "by itself"}}
	switches  = choices{{"on", "on"}, {"off", "off"}}
	colours   = choices{{"auto", "auto"}, {"dark", "dark"}, {"light", "light"}, {"none", "none"}}
)

// All is the table of settings, in the order in which they are shown.
var All = []Setting{
	{"tuning", "Instrument", "what you play; shapes are for its strings", tuningNames, tuningWording{},
		func(s *Values) string { return s.Tuning },
		func(s *Values, v string) error {
			on, err := neck.NewInstrument(v, 0, "")
			if err == nil {
				s.Tuning = on.Name()
			}
			return err
		}},
	{"capo", "Capo", "the fret it sits at, 0 for none; shapes are written from there", numbers(0, 7), nil,
		func(s *Values) string { return strconv.Itoa(s.Capo) },
		func(s *Values, v string) error { return wholeNumber(v, 0, 7, &s.Capo) }},
	{"hand", "Hand", "which way round necks are drawn", hands.ids, hands,
		func(s *Values) string { return hands.of(s.Left) },
		func(s *Values, v string) error { return hands.set(v, &s.Left) }},
	{"voice", "Voice", "what the strings sound like", voiceNames, voiceWording{},
		func(s *Values) string {
			if s.Voice == "" {
				return anyVoice
			}
			return s.Voice
		},
		func(s *Values, v string) error {
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
	{"volume", "Volume", "out of 10; begin quietly", numbers(0, 10), nil,
		func(s *Values) string { return strconv.Itoa(int(10*s.Volume + 0.5)) },
		func(s *Values, v string) error {
			n := 0
			err := wholeNumber(v, 0, 10, &n)
			if err == nil {
				s.Volume = float64(n) / 10
			}
			return err
		}},
	{"a4", "A4", "the pitch of the A that is tuned to, in Hz; 440 is the standard", numbers(synth.LowestA4, synth.HighestA4), nil,
		func(s *Values) string { return strconv.FormatFloat(s.A4, 'f', -1, 64) },
		func(s *Values, v string) error {
			f, err := strconv.ParseFloat(v, 64)
			if err != nil || !(f >= synth.LowestA4 && f <= synth.HighestA4) {
				return noA4(v)
			}
			s.A4 = f
			return nil
		}},
	{"minutes", "Minutes", "how long a practice is", func() []string { return []string{"5", "10", "15", "20", "30", "45", "60"} }, nil,
		func(s *Values) string { return strconv.Itoa(s.Minutes) },
		func(s *Values, v string) error { return wholeNumber(v, 1, 120, &s.Minutes) }},
	{"part", "Part", "what practice is of", parts.ids, parts,
		func(s *Values) string { return s.Part },
		func(s *Values, v string) (err error) {
			if err = parts.check(v); err == nil {
				s.Part = v
			}
			return err
		}},
	{"answer", "Answer", "by choosing from a few, or by typing without seeing them", answering.ids, answering,
		func(s *Values) string { return answering.of(s.Typing) },
		func(s *Values, v string) error { return answering.set(v, &s.Typing) }},
	{"meet", "Meet new things", "what is new is shown and heard before it is first asked; off asks at once", switches.ids, switches,
		func(s *Values) string { return switches.of(s.AtOnce) },
		func(s *Values, v string) error { return switches.set(v, &s.AtOnce) }},
	{"onward", "Onward", "how it goes on after a right answer: with a key, or by itself once it has sounded", onwards.ids, onwards,
		func(s *Values) string { return onwards.of(s.Onward) },
		func(s *Values, v string) error { return onwards.set(v, &s.Onward) }},
	{"key", "Key", "for trying things: notes are spelled as in this key, and what stays in it comes first", keySymbols, keyWording{},
		func(s *Values) string {
			if s.Key == "" {
				return noKey
			}
			return s.Key
		},
		func(s *Values, v string) error {
			if v == noKey {
				s.Key = ""
				return nil
			}
			k, err := drills.ReadKeySymbol(v)
			if err == nil {
				s.Key = k
			}
			return err
		}},
	{"movement", "Movement", "strings tremble while they sound", switches.ids, switches,
		func(s *Values) string { return switches.of(s.Still) },
		func(s *Values, v string) error { return switches.set(v, &s.Still) }},
	{"colours", "Colours", "auto is as the terminal is, dark or light", colours.ids, colours,
		func(s *Values) string { return s.Colours },
		func(s *Values, v string) (err error) {
			if err = colours.check(v); err == nil {
				s.Colours = v
			}
			return err
		}},
	{"level", "Course", "where it begins; what comes before is taken as known", levels.ids, levelWording{},
		func(s *Values) string { return s.Level.ID() },
		func(s *Values, v string) error {
			at, ok := course.LevelByID(v)
			if !ok {
				return levels.check(v)
			}
			s.Level = at
			return nil
		}},
}

// tuningWording says tunings: by what they are called in a list, with their strings in a sentence.
type tuningWording struct{}

func (tuningWording) more(string) say.Text { return say.Text{} }

func (tuningWording) short(id string) say.Text {
	on, err := neck.NewInstrument(id, 0, "")
	if err != nil {
		return say.Of("{}", say.Foreign(id))
	}
	return say.Of("{}", say.Foreign(on.Tuning.Called()))
}

func (w tuningWording) long(id string) say.Text {
	on, err := neck.NewInstrument(id, 0, "")
	if err != nil {
		return w.short(id)
	}
	return say.Of("{}", say.Instrument{On: on.Tuning})
}

func tuningNames() []string {
	var out []string
	for _, t := range fret.Tunings() {
		out = append(out, t.Name)
	}
	return out
}

// voiceWording says voices, which people know by their names.
type voiceWording struct{}

func (voiceWording) long(id string) say.Text { return voiceWording{}.short(id) }
func (voiceWording) more(string) say.Text    { return say.Text{} }

func (voiceWording) short(id string) say.Text {
	if id == anyVoice {
		return sayAnyVoice
	}
	return say.Of("{}", say.Foreign(id))
}

func voiceNames() []string {
	out := []string{anyVoice}
	for _, v := range synth.Voices() {
		out = append(out, v.Name())
	}
	return out
}

// keyWording says keys, as they are typed in full.
type keyWording struct{}

func (keyWording) long(id string) say.Text { return keyWording{}.short(id) }
func (keyWording) more(string) say.Text    { return say.Text{} }

func (keyWording) short(id string) say.Text {
	if said, err := drills.SayKey(id); err == nil {
		return said
	}
	return say.Of("{}", say.Foreign(id))
}

func keySymbols() []string { return append([]string{noKey}, drills.KeySymbols()...) }

// numbers lists the whole numbers from one to another.
func numbers(from, to int) func() []string {
	return func() []string {
		var out []string
		for n := from; n <= to; n++ {
			out = append(out, strconv.Itoa(n))
		}
		return out
	}
}

// wholeNumber reads a whole number; the error says between which it lies.
func wholeNumber(v string, least, most int, to *int) error {
	n, err := strconv.Atoi(v)
	if err != nil || n < least || n > most {
		return notWhole(v, least, most)
	}
	*to = n
	return nil
}

// ByID returns a row of the table of settings, nil if there is none of that id.
func ByID(id string) *Setting {
	i := slices.IndexFunc(All, func(k Setting) bool { return k.ID == id })
	if i < 0 {
		return nil
	}
	return &All[i]
}
