package catalogue

import (
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/ear"
	"sparetone/drills/harmony"
	"sparetone/drills/trial"
)

func TestCompleteChord(t *testing.T) {
	for begun, want := range map[string][]string{
		"":       nil,
		"H":      nil,
		"x":      nil,
		"Cadd":   {"Cadd9", "Cadd4", "Caddb9", "Cadd#9"},
		"cadd":   {"Cadd9", "Cadd4"},
		"F#m7":   {"F#m7b5"},
		"F♯m7":   {"F♯m7b5"},
		"Bbm":    {"Bbm", "Bbm7", "Bbm6"},
		"bbm":    {"Bbm7"},
		"CM":     {"CM7", "CM9"},
		"Cmin":   {"Cmin7", "Cmin6"},
		"Csus":   {"Csus4", "Csus2"},
		"Cadd9z": nil,
	} {
		got := CompleteChord(begun)
		for _, w := range want {
			if w != begun && !slices.Contains(got, w) {
				t.Errorf("%q becomes %v, want %s among them", begun, got, w)
			}
		}
		if want == nil && got != nil {
			t.Errorf("%q becomes %v", begun, got)
		}
	}
	if got := CompleteChord("D"); got[0] != "Dm" || got[1] != "D7" || got[2] != "Dm7" {
		t.Errorf("the plainest chords on D are %v", got[:3])
	}
}

// An answer in words is found by typing its beginning, and whatever is offered is understood.
func TestAnswersAreCompleted(t *testing.T) {
	on := trial.Ukulele(t)
	found := map[string]int{}
	for _, d := range All() {
		for _, target := range d.Targets(on) {
			q := trial.Ask(t, d, target.ID, on, 1)
			right := q.Expected()
			letters := []rune(right.Said.Screen())
			got := Complete(q, string(letters[:1]))
			for _, w := range got {
				if _, err := q.Mark(w); err != nil {
					t.Errorf("%s %s: %q is offered: %v", q.Drill, q.Target, w, err)
				}
			}
			if q.Form != drills.Choose && got != nil {
				t.Errorf("%s: %q is offered for an answer that is no word", q.Drill, got)
			}
			if slices.Contains(got, right.Said.Screen()) || slices.Contains(got, right.Typed) {
				found[q.Drill]++
			}
		}
	}
	t.Log(found)
	for _, drill := range []string{"interval-ear", "chord-ear", "added-ear", "same-or-not", "resolve"} {
		d, _ := ByID(drill)
		if n := len(d.Targets(on)); found[drill] != n {
			t.Errorf("%s: the answers to %d of %d questions are found", drill, found[drill], n)
		}
	}
}

// What is offered does not tell what is asked: it is the same for every question that is put the same way.
func TestCompletionTellsNothing(t *testing.T) {
	on := trial.Ukulele(t)
	compared := 0
	for _, d := range All() {
		offered := map[string]string{}
		for _, target := range d.Targets(on) {
			for seed := range uint64(2) {
				q := trial.Ask(t, d, target.ID, on, seed)
				put := q.Prompt.Screen()
				if _, asks, named := strings.Cut(q.Prompt.Screen(), ". "); named && strings.HasPrefix(q.Prompt.Screen(), "This is ") {
					put = asks
				}
				// Which triad is the plain one is heard, and not asked.
				if a, ok := chord.AdditionTo(strings.TrimSuffix(target.ID, "-alone")); d == (ear.AddedNote{}) && ok {
					put += a.Plain
				}
				// Which two ways are offered is seen.
				for _, c := range q.Choices {
					if d == (harmony.Resolve{}) {
						put += c.Said.Screen()
					}
				}
				for _, begun := range []string{"m", "s", "t", "f", "a", "th", "i", "I ", "C", "n"} {
					got := strings.Join(Complete(q, begun), ", ")
					key := put + begun
					if was, ok := offered[key]; ok {
						compared++
						if was != got {
							t.Errorf("%s %s: %q becomes %s, and for another question %s", q.Drill, q.Prompt, begun, got, was)
						}
					}
					offered[key] = got
				}
			}
		}
	}
	if compared < 1000 {
		t.Errorf("%d compared", compared)
	}
}
