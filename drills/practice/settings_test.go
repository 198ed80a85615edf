package practice

import "testing"

// Every setting can be stepped through, once round and back to where it was: each choice reads back as
// itself.
func TestSettingsStepRound(t *testing.T) {
	for _, k := range AllSettings {
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
