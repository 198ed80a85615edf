package catalogue

import (
	"regexp"
	"slices"
	"strconv"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/neck"
	"sparetone/drills/trial"
	"sparetone/drills/wording"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// What is said at once is read back as well: which notes a chord is, where a string went, and where it has to go.
const place = `(open|muted|at fret \d+)`

var (
	isNotes     = regexp.MustCompile(`^([A-G]\S*) (is|sounds as) ((?:[A-G][♯♭x]*(?:, | and |\.))+)(?:with (the [a-z ]+) in the bass\.)?$`)
	went        = regexp.MustCompile(`^The ` + called1 + ` string went from ([A-G][♯♭x]*) to ([A-G][♯♭x]*): (\S+) becomes (\S+)\.$`)
	otherFret   = regexp.MustCompile(`^For (\S+), the ` + called1 + ` string is ` + place + `, not ` + place + `\.$`)
	otherString = regexp.MustCompile(`^Leave the ` + called1 + ` string where it was: for (\S+), the ` + called1 + ` string is ` + place + `\.$`)
	moveTo      = regexp.MustCompile(`^For (\S+), the ` + called1 + ` string is ` + place + `; all others stay\.$`)
	twoFrets    = regexp.MustCompile(`^For (\S+), the ` + called1 + ` string is ` + place + ` and the ` + called1 + ` string ` + place + `\.$`)
	rubsBriefly = regexp.MustCompile(`^([A-G][♯♭]*) lies a semitone above ([A-G][♯♭]*), (the [a-z ]+): it rubs\.$`)
	sitsBriefly = regexp.MustCompile(`^([A-G][♯♭]*) is a note of .*, and no note of the chord (\S+) lies a semitone below it\.$`)
	noteOnly    = regexp.MustCompile(`[A-G][♯♭x]*`)
)

// stoppedAt reports whether some shape that a verdict shows has a string stopped where it is said to be; of a chord by its symbol, or
// of any if that is "".
func stoppedAt(v drills.Verdict, chord, called, where string) bool {
	at := map[string]int{"open": 0, "muted": fret.Muted}
	return slices.ContainsFunc(v.Shapes, func(r drills.Reveal) bool {
		n := numberOf(r.Voicing, called)
		if n == 0 || chord != "" && r.Voicing.Chord.String() != chord {
			return false
		}
		want, named := at[where]
		if !named {
			want, _ = strconv.Atoi(where[len("at fret "):])
		}
		return wording.ToneOn(r.Voicing, n).Fret == want
	})
}

// readBriefClaims checks the claims of a sentence that is said at once.
func readBriefClaims(v drills.Verdict, line string, claim func(line string, ok bool)) {
	if m := isNotes.FindStringSubmatch(line); m != nil {
		claim(line, slices.ContainsFunc(v.Shapes, func(r drills.Reveal) bool {
			bass := r.Voicing.Chord.Root.To(r.Voicing.Chord.Bass)
			if bass != theory.Unison && bass.Role() != m[4] || bass == theory.Unison && m[4] != "" || neck.Lowest(r.Voicing.Tuning, r.Voicing.Shape)%12 != r.Voicing.Chord.Bass.Class() && m[4] != "" {
				return false
			}
			if r.Voicing.Chord.String() != m[1] || (len(r.Voicing.Missing()) > 0) != (m[2] == "sounds as") {
				return false
			}
			named := noteOnly.FindAllString(m[3], -1)
			for _, s := range r.Voicing.Strings {
				if s.Fret != fret.Muted && !slices.Contains(named, s.Pitch.Note.String()) {
					return false
				}
			}
			return !slices.ContainsFunc(named, func(n string) bool { return soundingOn(r.Voicing, n, "") == "" })
		}))
	}
	if m := went.FindStringSubmatch(line); m != nil {
		from, to := v.Shapes[0].Voicing, v.Shapes[1].Voicing
		n := numberOf(from, m[1])
		claim(line, wording.ToneOn(from, n).Pitch.Note.String() == m[2] && wording.ToneOn(to, n).Pitch.Note.String() == m[3] &&
			from.Chord.String() == m[4] && to.Chord.String() == m[5] && neck.StringsMoved(from.Shape, to.Shape) == 1)
	}
	if m := otherFret.FindStringSubmatch(line); m != nil {
		claim(line, stoppedAt(v, m[1], m[2], m[3]) && stoppedAt(v, "", m[2], m[4]) && m[3] != m[4])
	}
	if m := otherString.FindStringSubmatch(line); m != nil {
		claim(line, stoppedAt(v, m[2], m[3], m[4]) && m[1] != m[3])
	}
	if m := moveTo.FindStringSubmatch(line); m != nil {
		claim(line, stoppedAt(v, m[1], m[2], m[3]))
	}
	if m := twoFrets.FindStringSubmatch(line); m != nil {
		claim(line, stoppedAt(v, m[1], m[2], m[3]) && stoppedAt(v, m[1], m[4], m[5]))
	}
	if m := rubsBriefly.FindStringSubmatch(line); m != nil {
		claim(line, (chord.MustNotes(trial.Typed(m[1]))[0].Class()-chord.MustNotes(trial.Typed(m[2]))[0].Class()+12)%12 == 1)
	}
	if m := sitsBriefly.FindStringSubmatch(line); m != nil {
		c, err := read.Chord(trial.Typed(m[2]))
		claim(line, err == nil && !slices.ContainsFunc(c.Tones(), func(n theory.Note) bool {
			return (chord.MustNotes(trial.Typed(m[1]))[0].Class()-n.Class()+12)%12 < 2
		}))
	}
}

// Every drill says one sentence at once, or its verdict says it all; that it is true is read back with all that is explained.
func TestOneSentenceAtOnce(t *testing.T) {
	on := trial.Ukulele(t)
	for _, d := range All() {
		trial.AskAll(t, d, on, 4, func(q *drills.Question) {
			for _, text := range answersTo(q) {
				v, err := q.Mark(text)
				if err != nil {
					t.Fatal(err)
				}
				if v.Short.IsZero() {
					t.Errorf("%s, answered %q: nothing is said at once", q.Text(), text)
				}
				if n := v.Short.Words(); n > mostAtOnce {
					t.Errorf("%s, answered %q: %d words at once: %s", q.Text(), text, n, v.Short.Aloud())
				}
			}
		})
	}
}

// mostAtOnce is how many words the one sentence may have, said aloud.
const mostAtOnce = 45
