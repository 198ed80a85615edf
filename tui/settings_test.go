package tui

import (
	"slices"
	"testing"

	"sparetone/drills/practice/setting"
)

// What was set and is none of the choices, such as a level in the course that was found, can be stepped away
// from and come back to, from either side.
func TestSettingsComeBackToWhatWasFound(t *testing.T) {
	for id, own := range map[string]string{"level": "ear=thirds,eye=", "a4": "442.5", "minutes": "12"} {
		a := atFirst(t, true)
		if err := a.Set(id, own); err != nil {
			t.Fatal(err)
		}
		keyed(a, "s")
		for range slices.IndexFunc(setting.All, func(k setting.Setting) bool { return k.ID == id }) {
			keyed(a, "down")
		}
		k := setting.ByID(id)
		for _, keys := range [][]string{{"right", "left"}, {"left", "right"}, {"right", "q", "s"}} {
			keyed(a, keys...)
			if keys[1] == "q" {
				for *choice(a).Mark = 0; setting.All[*choice(a).Mark].ID != id; {
					keyed(a, "down")
				}
				keyed(a, "left")
			}
			if got := k.Get(&a.Settings); got != own {
				t.Errorf("%s: %v from %q lead to %q", id, keys, own, got)
			}
		}
		keyed(a, "right")
		if got := k.Get(&a.Settings); got == own {
			t.Errorf("%s stays %q", id, got)
		}
	}
}
