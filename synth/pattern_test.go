package synth

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"
)

// written writes a score down as string:pitch@ms, with the ms after which it is stilled, if it is.
func written(s Score) string {
	var all []string
	for _, p := range s.InTime() {
		one := fmt.Sprintf("%d:%v@%d", p.String, p.Pitch, p.At.Milliseconds())
		if p.Damp > 0 {
			one += fmt.Sprintf("-%d", p.Damp.Milliseconds())
		}
		all = append(all, one)
	}
	return strings.Join(all, " ")
}

func TestPlayingAlong(t *testing.T) {
	c, am := sounding(t, "4:G4 3:C4 2:E4 1:C5"), sounding(t, "4:A4 3:C4 2:E4 1:A4")
	three := sounding(t, "4:A4 3:C4 2:E4") // the first string is muted
	pick := func(numbers ...int) (steps []Step) {
		for _, n := range numbers {
			steps = append(steps, Step{Strings: []int{n}})
		}
		return steps
	}
	down, up, on := Step{Stroke: Strum}, Step{Stroke: Up}, Step{}
	for _, tt := range []struct {
		name string
		p    Pattern
		held []Held
		want string
	}{
		{"string after string, two to a beat", Pattern{pick(4, 2, 3, 1), 2}, []Held{{c, 2, nil}},
			"4:G4@0 2:E4@250 3:C4@500 1:C5@750"},
		{"over again", Pattern{pick(3, 1), 1}, []Held{{c, 3, nil}},
			"3:C4@0 1:C5@500 3:C4@1000"},
		{"on over a change: what keeps its pitch rings on, the rest is stilled", Pattern{pick(4, 3, 1), 1}, []Held{{c, 3, nil}, {am, 3, nil}},
			"4:G4@0-1500 3:C4@500 1:C5@1000-500 4:A4@1500 3:C4@2000 1:A4@2500"},
		{"the pattern does not begin anew with a change", Pattern{pick(4, 3, 1), 1}, []Held{{c, 2, nil}, {am, 1, nil}},
			"4:G4@0-1000 3:C4@500 1:A4@1000"},
		{"a change between two steps", Pattern{pick(1), 1}, []Held{{c, 1.5, nil}, {am, 1.5, nil}},
			"1:C5@0 1:C5@500-250 1:A4@1000"},
		{"a string that no longer sounds", Pattern{pick(1, 2), 1}, []Held{{c, 1, nil}, {three, 3, nil}},
			"1:C5@0-500 2:E4@500 2:E4@1500"},
		{"two at once", Pattern{[]Step{{Strings: []int{4, 1}}, on}, 1}, []Held{{c, 2, nil}},
			"4:G4@0 1:C5@0"},
		{"strokes", Pattern{[]Step{down, on, up}, 1}, []Held{{c, 3, nil}},
			"4:G4@0 3:C4@16 2:E4@32 1:C5@48 1:C5@1000 2:E4@1012 3:C4@1024 4:G4@1036"},
		{"a stroke is quicker where steps are short", Pattern{[]Step{down}, 15}, []Held{{c, 2.0 / 15, nil}},
			"4:G4@0 3:C4@8 2:E4@16 1:C5@24 4:G4@33 3:C4@41 2:E4@49 1:C5@58"},
		{"stilled by the hand", Pattern{[]Step{down, {Still: true}}, 1}, []Held{{c, 2, nil}},
			"4:G4@0-500 3:C4@16-484 2:E4@32-468 1:C5@48-452"},
		{"stilled and plucked", Pattern{[]Step{{Strings: []int{4}}, {Strings: []int{1}, Still: true}}, 1}, []Held{{c, 2, nil}},
			"4:G4@0-500 1:C5@500"},
		{"hammered from what it was", Pattern{[]Step{{Strings: []int{4}, Hammer: true}, {Strings: []int{3}, Hammer: true}}, 1}, []Held{{am, 2, c}},
			"4:G4@0 4:A4@250 3:C4@500"},
		{"hammered from nothing", Pattern{[]Step{{Strings: []int{4}, Hammer: true}}, 1}, []Held{{c, 1, nil}},
			"4:G4@0"},
		{"without steps", Pattern{nil, 1}, []Held{{c, 2, nil}}, ""},
		{"without a beat", Pattern{pick(1), 0}, []Held{{c, 2, nil}}, ""},
	} {
		s := Hand{}.Along(tt.p, tt.held...) // 120 beats a minute
		if got := written(s); got != tt.want {
			t.Errorf("%s:\n%s, want\n%s", tt.name, got, tt.want)
		}
		beats := 0.0
		for _, h := range tt.held {
			beats += h.Beats
		}
		if want := time.Duration(beats*float64(500*time.Millisecond)) + ring; tt.want != "" && (s.Length-want).Abs() > time.Microsecond {
			t.Errorf("%s: %v long, want %v", tt.name, s.Length, want)
		}
	}
}

// A whole song is played along without drift: the last of 600 bars begins where 599 bars end, to the microsecond, at any tempo, and
// every step is there. It is a score that can be rendered.
func TestPlayingAlongDoesNotDrift(t *testing.T) {
	c := sounding(t, "4:G4 3:C4 2:E4 1:C5")
	for _, tempo := range []float64{61, 97.3, 120, 299} {
		var all []Held
		for range 600 {
			all = append(all, Held{c, 1.0 / 3, nil}, Held{c, 2.0 / 3, nil})
		}
		s := Hand{Tempo: tempo, Ring: time.Second}.Along(Pattern{[]Step{{Strings: []int{4}}, {Strings: []int{3}}, {Strings: []int{1}}}, 3}, all...)
		if len(s.Plucks) != 1800 {
			t.Errorf("%v: %d steps of 1800", tempo, len(s.Plucks))
		}
		want := time.Duration(599 * float64(time.Minute) / tempo)
		if off := (s.Plucks[len(s.Plucks)-3].At - want).Abs(); off > time.Microsecond {
			t.Errorf("%v: the last bar begins %v beside its place", tempo, off)
		}
	}
	s := Hand{Rand: rand.New(rand.NewPCG(2, 2))}.Along(Pattern{[]Step{{Stroke: Strum}, {Stroke: Up}}, 2}, Held{c, 4, nil}, Held{sounding(t, "4:A4 3:C4 2:F4 1:A4"), 4, nil})
	sound, err := Render(s, voices[0], Options{})
	if err != nil {
		t.Fatal(err)
	}
	if got := sound.Levels(1990 * time.Millisecond); len(got) != 4 {
		t.Errorf("before the change %v ring", got)
	}
	if !slices.Equal(s.Strings(), []int{4, 3, 2, 1}) {
		t.Errorf("first plucked in the order %v", s.Strings())
	}
}
