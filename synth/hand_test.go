package synth

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// orderOf returns the string numbers of a score in the order they sound.
func orderOf(s Score) (order []int) {
	for _, p := range s.InTime() {
		order = append(order, p.String)
	}
	return order
}

func TestWhichStringComesWhen(t *testing.T) {
	c := sounding(t, "4:G4 3:C4 2:E4 1:C5")
	for _, tt := range []struct {
		name  string
		score Score
		want  []int
	}{
		{"down", Hand{}.Strum(c), []int{4, 3, 2, 1}},
		{"up", Hand{}.Up(c), []int{1, 2, 3, 4}},
		{"even order", Hand{}.Pick(c), []int{4, 2, 3, 1}},
		{"given order", Hand{Order: []int{4, 3, 2, 1, 2, 3}}.Pick(c), []int{4, 3, 2, 1, 2, 3}},
		{"rising", Hand{}.Rising(c), []int{3, 2, 4, 1}},
		{"falling", Hand{}.Falling(c), []int{1, 4, 2, 3}},
		{"opened up", Hand{}.OpenUp(c), []int{4, 3, 2, 1}},
	} {
		if diff := cmp.Diff(tt.want, orderOf(tt.score)); diff != "" {
			t.Errorf("%s: strings in turn (-want +got):\n%s", tt.name, diff)
		}
	}
}

func TestEveryWayToPlayIsRead(t *testing.T) {
	for _, how := range Hows() {
		if got, err := ParseHow(string(how)); got != how || err != nil {
			t.Errorf("%s: got %v, %v", how, got, err)
		}
		if s := (Hand{}).Play(how, sounding(t, "4:G4 3:C4")); len(s.Plucks) != 2 {
			t.Errorf("%s: %d plucks of two notes", how, len(s.Plucks))
		}
	}
	if _, err := ParseHow("loud"); err == nil {
		t.Error(`"loud": want an error`)
	}
}

// What a hand wavers by must not say which notes it plays.
func TestWaverIsTheSameWhateverIsPlayed(t *testing.T) {
	play := func(notes string) (at []time.Duration, force []float64) {
		h := Hand{Rand: rand.New(rand.NewPCG(1, 2))}
		for _, p := range h.Strum(sounding(t, notes)).Plucks {
			at, force = append(at, p.At), append(force, p.Strength)
		}
		return at, force
	}
	at1, force1 := play("4:G4 3:C4 2:E4 1:C5")
	at2, force2 := play("4:A4 3:D4 2:F#4 1:A4")
	if !slices.Equal(at1, at2) || !slices.Equal(force1, force2) {
		t.Errorf("two chords waver differently: %v %v, %v %v", at1, force1, at2, force2)
	}
	even := Hand{}.Strum(sounding(t, "4:G4 3:C4 2:E4 1:C5"))
	if slices.Equal(at1, []time.Duration{even.Plucks[0].At, even.Plucks[1].At, even.Plucks[2].At, even.Plucks[3].At}) {
		t.Error("a hand with a seed plays like a machine")
	}
}
