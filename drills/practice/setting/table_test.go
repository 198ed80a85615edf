package setting

import (
	"reflect"
	"regexp"
	"slices"
	"testing"

	"sparetone/drills/course"
)

// Every setting can be stepped through, once round and back to where it was: each choice reads back as
// itself.
func TestSettingsStepRound(t *testing.T) {
	for _, k := range All {
		s := Standard
		first := k.Get(&s)
		all := k.Choices()
		seen := map[string]bool{}
		for range all {
			if err := k.Set(&s, k.Step(&s, "", 1)); err != nil {
				t.Fatalf("%s: %v", k.ID, err)
			}
			seen[k.Get(&s)] = true
		}
		if len(seen) != len(all) || k.Get(&s) != first {
			t.Errorf("%s: %d of %d choices in one round, which ends on %s and not on %s", k.ID, len(seen), len(all), k.Get(&s), first)
		}
	}
}

// What is kept of a setting is an id: letters, digits and signs, and no words with spaces between them.
func TestSettingsAreKeptAsIDs(t *testing.T) {
	id := regexp.MustCompile(`^[A-Za-z0-9#.=,-]+$`)
	for _, k := range All {
		for _, v := range k.Choices() {
			if !id.MatchString(v) {
				t.Errorf("%s is kept as %q", k.ID, v)
			}
		}
	}
	s := Standard
	s.Level, s.A4 = course.Level{Ear: "thirds"}, 442.5
	for _, k := range All {
		if v := k.Get(&s); !id.MatchString(v) {
			t.Errorf("%s is kept as %q", k.ID, v)
		}
	}
}

// These ids lie in progress files, and stay as they are.
func TestIDsOfSettingsStay(t *testing.T) {
	ids := map[string][]string{
		"hand":     {"right", "left"},
		"part":     {"all", "ear", "eye"},
		"answer":   {"choose", "type"},
		"meet":     {"on", "off"},
		"onward":   {"key", "itself"},
		"movement": {"on", "off"},
		"colours":  {"auto", "dark", "light", "none"},
		"voice":    {"any", "ukulele", "tenor", "guitar", "steel", "mandolin", "tone"},
		"level":    {"ear=,eye=", "ear=thirds,eye=thirds", "ear=soft-sevenths,eye=soft-sevenths", "ear=added-heard,eye=added-heard"},
		"key": {"none", "C", "G", "D", "A", "E", "B", "F#", "Gb", "Db", "Ab", "Eb", "Bb", "F",
			"Am", "Em", "Bm", "F#m", "C#m", "G#m", "Ebm", "Bbm", "Fm", "Cm", "Gm", "Dm"},
	}
	for _, k := range All { // tunings are named by their table, and the others are figures
		if got, want := k.Choices(), ids[k.ID]; !slices.Contains([]string{"tuning", "capo", "volume", "a4", "minutes"}, k.ID) && !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", k.ID, got, want)
		}
	}
	s := Standard
	for id, want := range map[string]string{"tuning": "ukulele", "capo": "0", "hand": "right", "voice": "any", "volume": "5", "a4": "440", "minutes": "10", "part": "all",
		"answer": "choose", "meet": "on", "onward": "key", "key": "none", "movement": "on", "colours": "auto", "level": "ear=,eye="} {
		if got := ByID(id).Get(&s); got != want {
			t.Errorf("%s is %q to begin with, want %q", id, got, want)
		}
	}
	for id, value := range map[string]string{"hand": "left", "answer": "type", "key": "Bbm", "movement": "off", "voice": "tenor", "level": "ear=thirds,eye="} {
		if err := ByID(id).Set(&s, value); err != nil {
			t.Errorf("%s: %v", id, err)
		}
	}
	if !s.Left || !s.Typing || s.Key != "Bbm" || !s.Still || s.Voice != "tenor" || s.Level != (course.Level{Ear: "thirds"}) {
		t.Errorf("%+v", s)
	}
}

// Every value is chosen by a setting, each by another.
func TestEveryValueHasASetting(t *testing.T) {
	chosenBy := map[string]string{}
	for _, k := range All {
		s := Standard
		if err := k.Set(&s, k.Step(&s, "", 1)); err != nil {
			t.Fatal(err)
		}
		for n := range reflect.TypeFor[Values]().NumField() {
			if field := reflect.TypeFor[Values]().Field(n).Name; !reflect.ValueOf(s).Field(n).Equal(reflect.ValueOf(Standard).Field(n)) {
				if by, already := chosenBy[field]; already {
					t.Errorf("%s is chosen by %s and by %s", field, by, k.ID)
				}
				chosenBy[field] = k.ID
			}
		}
	}
	for n := range reflect.TypeFor[Values]().NumField() {
		if field := reflect.TypeFor[Values]().Field(n).Name; chosenBy[field] == "" {
			t.Errorf("%s is chosen by no setting", field)
		}
	}
	if len(chosenBy) != len(All) {
		t.Errorf("%d settings choose %d values: %v", len(All), len(chosenBy), chosenBy)
	}
}

// Somebody may type a choice by its id or as it is said, or begin it.
func TestSettingsAreTyped(t *testing.T) {
	for _, row := range []struct{ id, typed, want string }{
		{"hand", "left", "left"}, {"hand", "Left-handed", "left"}, {"hand", "r", "right"}, {"hand", "x", ""},
		{"answer", "one", "choose"}, {"answer", "typ", "type"}, {"voice", "another", "any"}, {"voice", "t", ""},
		{"tuning", "guitar with", "guitar-drop-d"}, {"level", "sev", "ear=soft-sevenths,eye=soft-sevenths"}, {"minutes", "4", ""}, {"key", "f sharp mi", "F#m"},
	} {
		if got := ByID(row.id).Typed(row.typed); got != row.want {
			t.Errorf("%s %s: %q, want %q", row.id, row.typed, got, row.want)
		}
	}
}

// What is wrong with a value is said in the words of the choices.
func TestWrongSettingsAreTold(t *testing.T) {
	s := Standard
	for _, row := range []struct{ id, typed, want string }{
		{"hand", "both", `"both" is not one of: right-handed; left-handed`},
		{"level", "ear=nowhere,eye=", `"ear=nowhere,eye=" is not one of: from the beginning; major, minor and plain shapes are known; sevenths and ninths are known; suspended and added notes are known`},
		{"capo", "8", `"8" is no whole number from 0 to 7`},
		{"a4", "414", `"414" is no pitch of A4: it lies between 415 and 466 Hz`}, // beyond which nothing sounds
		{"a4", "467", `"467" is no pitch of A4: it lies between 415 and 466 Hz`},
		{"colours", "red", `"red" is not one of: auto; dark; light; none`},
	} {
		if err := ByID(row.id).Set(&s, row.typed); err == nil || err.Error() != row.want {
			t.Errorf("%s %s: %v, want %s", row.id, row.typed, err, row.want)
		}
	}
}
