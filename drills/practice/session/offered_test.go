package session

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/trial"
	"sparetone/progress"
	"sparetone/progress/exchange"
)

// Whatever a drill offers can be written down with its choices told apart, and an answer is found among them however it is put.
func TestWhatIsOfferedCanBeRecorded(t *testing.T) {
	on := trial.Ukulele(t)
	choosable := func(ids string) []string { return progress.Answer{Offered: ids}.Choosable() }
	for _, d := range catalogue.All() {
		for _, target := range d.Targets(on)[:2] {
			q := trial.Ask(t, d, target.ID, on, 3)
			ids, chosen := offered(q, drills.Unknown)
			if n := len(q.Choices); chosen != 0 || len(choosable(ids)) != n {
				t.Errorf("%s: %d are chosen of %q, and there are %d", target.ID, chosen, ids, n)
			}
			met := map[string]bool{}
			for n, c := range q.Choices {
				for _, answer := range []string{c.Typed, c.Said.Screen(), fmt.Sprint(n + 1)} {
					all, chosen := offered(q, answer)
					if all != ids || chosen < 1 || choosable(all)[chosen-1] != c.ID || met[c.ID] {
						t.Errorf("%s: %q is number %d of %q", target.ID, answer, chosen, all)
					}
				}
				met[c.ID] = true
			}
		}
	}
}

// With an answer it is kept what there was to choose from, and which of it was chosen: nothing where it is not known, or answered freely.
func TestWhatWasOfferedIsKept(t *testing.T) {
	for _, c := range []struct {
		drill  string
		chosen bool
		answer func(*Asked) string
	}{
		{"chord-ear", true, func(asked *Asked) string { return asked.Choices[len(asked.Choices)-1].Typed }},
		{"chord-ear", false, func(*Asked) string { return drills.Unknown }},
		{"build", false, func(asked *Asked) string { return asked.Expected().Typed }},
	} {
		s, _ := sitting(t, Setup{Drills: []string{c.drill}, Seed: 6})
		asked, err := s.Next()
		if err != nil {
			t.Fatal(err)
		}
		if _, err := s.Answer(c.answer(asked)); err != nil {
			t.Fatal(err)
		}
		var ids []string
		for _, c := range asked.Choices {
			ids = append(ids, c.ID)
		}
		chosen := 0
		if c.chosen {
			chosen = len(ids)
		}
		var out bytes.Buffer
		if err := s.set.File.ExportJSON(&out); err != nil {
			t.Fatal(err)
		}
		if err := exchange.Read(&out, exchange.Reading{Answer: func(a exchange.Answer) error {
			if a.Offered != strings.Join(ids, "|") || a.Chosen != chosen {
				t.Errorf("%s: number %d of %q was kept of %q", c.drill, a.Chosen, a.Offered, ids)
			}
			return nil
		}}); err != nil {
			t.Fatal(err)
		}
	}
}
