package drills

import (
	"slices"
	"testing"

	"sparetone/theory/read"
)

// Every key that is offered is one, has no more than six signs, and is written as it is read.
func TestKeySymbols(t *testing.T) {
	for _, name := range KeySymbols() {
		if got, err := ReadKeySymbol(name); err != nil || got != name {
			t.Errorf("%s is read as %s, %v", name, got, err)
		}
		k, _ := read.Key(name)
		signs := 0
		for _, n := range k.Notes() {
			signs += max(int(n.Alter), -int(n.Alter))
		}
		if signs > 6 {
			t.Errorf("%s has %d signs", name, signs)
		}
	}
	if got, err := ReadKeySymbol("B♭ minor"); got != "Bbm" || err != nil || !slices.Contains(KeySymbols(), got) {
		t.Errorf("B♭ minor is read as %s, %v", got, err)
	}
	if got, err := ReadKeySymbol("X"); err == nil {
		t.Errorf("X is read as %s", got)
	}
}
