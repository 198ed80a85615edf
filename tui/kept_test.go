package tui

import "testing"

// Every setting can be stepped through, once round and back to where it was: each choice reads back as
// itself.
func TestSettingsStepRound(t *testing.T) {
	for _, k := range settings {
		s := standard
		first := k.get(&s)
		all := k.choices()
		seen := map[string]bool{}
		for range all {
			if err := k.set(&s, k.step(&s, 1)); err != nil {
				t.Fatalf("%s: %v", k.id, err)
			}
			seen[k.get(&s)] = true
		}
		if len(seen) != len(all) || k.get(&s) != first {
			t.Errorf("%s: %d of %d choices in one round, which ends on %s and not on %s", k.id, len(seen), len(all), k.get(&s), first)
		}
	}
}
