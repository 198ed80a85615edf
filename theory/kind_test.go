package theory

import "testing"

func TestTheTableIsSound(t *testing.T) {
	symbols := map[string]string{}
	for _, k := range kinds {
		if k.Formula[0] != Unison {
			t.Errorf("%s does not start on its root", k.ID)
		}
		if other, ok := KindByFormula(k.Formula); !ok || other != k {
			t.Errorf("%s has the same tones as %s", k.ID, other.ID)
		}
		if other, _ := KindByID(k.ID); other != k {
			t.Errorf("two kinds have the ID %s", k.ID)
		}
		for _, s := range k.Symbols {
			if symbols[s] != "" {
				t.Errorf("%q means %s and %s", s, symbols[s], k.ID)
			}
			symbols[s] = k.ID
		}
		for _, tone := range k.Omit {
			altered := tone != MinorThird && tone.Alteration() != 0
			if _, ok := k.Tone(tone); !ok || altered {
				t.Errorf("%s may lose %s, which is altered or not its own", k.ID, tone)
			}
		}
		for class, root := range k.rootAs {
			if root.Class() != class {
				t.Errorf("%s on %s is written for the pitch class %d", k.ID, root, class)
			}
		}
	}
}

func TestWhatMayBeLeftOut(t *testing.T) {
	for id, want := range map[string]string{
		"major":                          "P5",
		"dominant":                       "P5",
		"diminished-seventh":             "",
		"half-diminished":                "",
		"dominant-ninth":                 "P5 P1",
		"minor-ninth-flat-five":          "P1",
		"dominant-11th":                  "P5 P1 M3",
		"dominant-13th":                  "P5 P1 M9",
		"thirteenth-flat-five-flat-nine": "P1 M3",
	} {
		k, _ := KindByID(id)
		got := ""
		for n, i := range k.Omit {
			if n > 0 {
				got += " "
			}
			got += i.String()
		}
		if got != want {
			t.Errorf("%s may lose %q, want %q", id, got, want)
		}
	}
}
