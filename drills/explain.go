package drills

import (
	"fmt"
	"strings"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// differ explains, string by string, why a voicing is the chord it is and not another kind on the same
// root. Each tone it names is looked up on the strings.
func differ(v fret.Voicing, other *theory.Kind) []string {
	var lines []string
	want := v.Chord.Kind
	label := an(other.Name)
	paired := map[theory.Interval]bool{}
	for _, tone := range want.Formula {
		on := stringsWith(v, tone)
		if _, shared := other.Tone(tone); shared || len(on) == 0 {
			continue
		}
		here := fmt.Sprintf("%s, %s, is on %s", v.Chord.Root.Up(tone), tone.Role(), stringList(v.Tuning, on))
		instead, ok := sameNumber(other, tone)
		if ok {
			if _, shared := want.Tone(instead); !shared {
				paired[instead] = true
				lines = append(lines, fmt.Sprintf("%s; %s chord has %s, %s.", capital(here), label, v.Chord.Root.Up(instead), instead.Role()))
				continue
			}
		}
		role := tone.Role()
		lacks := "no " + role[strings.LastIndex(role, " ")+1:]
		if ok {
			lacks = "no such note" // it has another of that number
		}
		lines = append(lines, fmt.Sprintf("%s; %s chord has %s.", capital(here), label, lacks))
	}
	for _, tone := range other.Formula {
		if _, shared := want.Tone(tone); shared || paired[tone] {
			continue
		}
		lines = append(lines, fmt.Sprintf("%s chord would have %s, %s; no string sounds it.", capital(label), v.Chord.Root.Up(tone), tone.Role()))
	}
	return lines
}

// sameNumber finds the tone of a kind with the same simple number: its own third for another's third.
func sameNumber(k *theory.Kind, tone theory.Interval) (theory.Interval, bool) {
	for _, t := range k.Formula {
		if t.Simple().Number == tone.Simple().Number {
			return t, true
		}
	}
	return theory.Interval{}, false
}

// stringsWith lists the numbers of the strings that sound a tone of the chord.
func stringsWith(v fret.Voicing, tone theory.Interval) []int {
	var out []int
	for _, s := range v.Strings {
		if s.Fret != fret.Muted && !s.Foreign && s.Interval == tone {
			out = append(out, s.Number)
		}
	}
	return out
}

// stringList names strings as a picture of the neck does: "the C string", or "the g and A strings".
func stringList(t *fret.Tuning, numbers []int) string {
	if len(numbers) == 1 {
		return fmt.Sprintf("the %s string", t.StringCalled(numbers[0]))
	}
	return fmt.Sprintf("the %s strings", stringNames(t, numbers))
}

// stringNames names strings without saying that they are: "g and A".
func stringNames(t *fret.Tuning, numbers []int) string {
	words := make([]string, len(numbers))
	for i, n := range numbers {
		words[i] = t.StringCalled(n)
	}
	return andWords(words)
}

// tones says what each note that a voicing sounds is in its chord, from the root up.
func tones(v fret.Voicing) string {
	var roles []string
	for _, tone := range v.Chord.Kind.Formula {
		if len(stringsWith(v, tone)) > 0 {
			roles = append(roles, fmt.Sprintf("%s is %s", v.Chord.Root.Up(tone), tone.Role()))
		}
	}
	return andWords(roles) + "."
}

// andWords joins words as a sentence does: C, E and G.
func andWords(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// spares says which note of a voicing is doubled, and where.
func spares(v fret.Voicing) string {
	var parts []string
	for _, d := range v.Doubled() {
		parts = append(parts, fmt.Sprintf("%s, %s, sounds on %s", d.Note, d.Interval.Role(), stringList(v.Tuning, d.Strings)))
	}
	switch len(parts) {
	case 0:
		return "No note is doubled: every string has a note of its own."
	case 1:
		if len(v.Doubled()[0].Strings) > 2 {
			return parts[0] + ": all but one of them can be spared."
		}
		return parts[0] + ": one of them can be spared."
	}
	return strings.Join(parts, "; ") + "."
}

// leftOut says which tones of a chord no string sounds, and "" if all do.
func leftOut(v fret.Voicing) string {
	missing := v.Missing()
	if len(missing) == 0 {
		return ""
	}
	is := map[bool]string{true: "is", false: "are"}[len(missing) == 1]
	return fmt.Sprintf("%s %s left out.", capital(andWords(roles(missing))), is)
}

// roles says what each of some tones is in a chord.
func roles(tones []theory.Interval) []string {
	var out []string
	for _, t := range tones {
		out = append(out, t.Role())
	}
	return out
}

// an puts "a" or "an" before a word.
func an(word string) string {
	if strings.ContainsRune("aeio", rune(word[0])) {
		return "an " + word
	}
	return "a " + word
}

// titled writes a chord with the name of its kind where the symbol has that in short: Am7, minor seventh. A name of one
// word says no more than its symbol does: C, Am, Bdim, C7.
func titled(c theory.Chord) string {
	if !strings.Contains(c.Kind.Name, " ") {
		return c.String()
	}
	return c.String() + ", " + c.Kind.Name
}

// capital writes a sentence's first letter large.
func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
