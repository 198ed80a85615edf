package tui

import (
	"slices"
	"testing"
)

// Every setting can be stepped through, once round and back to where it was: each choice reads back as
// itself.
func TestSettingsStepRound(t *testing.T) {
	for _, k := range settings {
		s := standard
		first := k.get(&s)
		all := k.choices()
		seen := map[string]bool{}
		for range all {
			if err := k.set(&s, k.step(&s, "", 1)); err != nil {
				t.Fatalf("%s: %v", k.id, err)
			}
			seen[k.get(&s)] = true
		}
		if len(seen) != len(all) || k.get(&s) != first {
			t.Errorf("%s: %d of %d choices in one round, which ends on %s and not on %s", k.id, len(seen), len(all), k.get(&s), first)
		}
	}
}

// What was set and is none of the choices, such as a place in the course that was found, can be stepped away
// from and come back to, from either side.
func TestSettingsComeBackToWhatWasFound(t *testing.T) {
	for id, own := range map[string]string{"level": "by ear from thirds, by eye from the beginning", "a4": "442.5", "minutes": "12"} {
		a := atFirst(t, true)
		if err := a.set(id, own); err != nil {
			t.Fatal(err)
		}
		keyed(a, "s")
		for range slices.IndexFunc(settings, func(k kept) bool { return k.id == id }) {
			keyed(a, "down")
		}
		k := settingByID(id)
		for _, keys := range [][]string{{"right", "left"}, {"left", "right"}, {"right", "q", "s"}} {
			keyed(a, keys...)
			if keys[1] == "q" {
				for a.screen.(*settingsScreen).at = 0; settings[a.screen.(*settingsScreen).at].id != id; {
					keyed(a, "down")
				}
				keyed(a, "left")
			}
			if got := k.get(&a.Settings); got != own {
				t.Errorf("%s: %v from %q lead to %q", id, keys, own, got)
			}
		}
		keyed(a, "right")
		if got := k.get(&a.Settings); got == own {
			t.Errorf("%s stays %q", id, got)
		}
	}
}
