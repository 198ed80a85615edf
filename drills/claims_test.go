package drills

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// Every sentence that places a tone on a string is read back and looked for on the shapes that the verdict shows.
var (
	onStrings   = regexp.MustCompile(`([A-G][♯♭]*), (the [a-z ]+?), (?:is|sounds) on strings? ([0-9, and]*[0-9])`)
	ofString    = regexp.MustCompile(`[Ss]tring (\d+) (?:sounds|is) ([A-G][♯♭]*)[:,] (the [a-z ]+?)[,.]`)
	wentFrom    = regexp.MustCompile(`String (\d+) went from ([A-G][♯♭]*), (the [a-z ]+?) \(.*\), to ([A-G][♯♭]*), (the [a-z ]+?): `)
	noteWas     = regexp.MustCompile(`The note was ([A-G][♯♭]*) on string (\d+): (the [a-z ]+?) of`)
	soundsNot   = regexp.MustCompile(`would have ([A-G][♯♭]*), the [a-z ]+; no string sounds it`)
	soundsAlone = regexp.MustCompile(`([A-G][♯♭]*), (the [a-z ]+?), sounds on string (\d+) alone`)
)

var (
	fromTo    = regexp.MustCompile(`^([A-G][♯♭]*\d) (up|down) to ([A-G][♯♭]*\d) is an? [a-z ]+: (\d+) semitones?\.`)
	moves     = regexp.MustCompile(`([A-G][♯♭]*), (the [a-z ]+?), (rises|falls) to ([A-G][♯♭]*)`)
	sits      = regexp.MustCompile(`^([A-G][♯♭]*), the [a-z ]+ of the chord ([^,]+), is a note of [^:]+: it sits without rubbing`)
	notIn     = regexp.MustCompile(`^([A-G][♯♭]*) is (in|not in) the chord (\S+?)( already)?\.`)
	liesAbove = regexp.MustCompile(`([A-G][♯♭]*), the [a-z ]+, lies a semitone above ([A-G][♯♭]*), the`)
)

// typed writes a note or pitch that was printed as it is typed.
func typed(s string) string { return strings.NewReplacer("♯", "#", "♭", "b").Replace(s) }

// holds reports whether a string of some shape sounds a note that is a tone of its chord.
func holds(shapes []Reveal, number, note, role string) bool {
	n, err := strconv.Atoi(number)
	if err != nil {
		return false
	}
	return slices.ContainsFunc(shapes, func(r Reveal) bool {
		s := tone(r.Voicing, n)
		return s.Fret != fret.Muted && s.Pitch.Note.String() == note && s.Interval.Role() == role
	})
}

// readClaims checks every claim of a verdict and returns how many there were.
func readClaims(t *testing.T, q *Question, v Verdict) int {
	t.Helper()
	count := 0
	claim := func(line string, ok bool) {
		count++
		if !ok {
			t.Errorf("%s, answered %s: %q is not what the shapes show: %v", q.text(), v.Given, line, v.Shapes)
		}
	}
	for _, r := range v.Shapes {
		if r.Mark != 0 && tone(r.Voicing, r.Mark).Fret == fret.Muted {
			t.Errorf("%s, answered %s: %s: string %d is marked and does not sound", q.text(), v.Given, r.Caption, r.Mark)
		}
	}
	for _, line := range v.Lines {
		for _, m := range onStrings.FindAllStringSubmatch(line, -1) {
			all := strings.FieldsFunc(m[3], func(r rune) bool { return r < '0' || r > '9' })
			claim(line, slices.ContainsFunc(v.Shapes, func(r Reveal) bool {
				// All strings that are named, and no other.
				var on []string
				for _, s := range r.Voicing.Strings {
					if s.Fret != fret.Muted && s.Pitch.Note.String() == m[1] && s.Interval.Role() == m[2] {
						on = append(on, strconv.Itoa(s.Number))
					}
				}
				return slices.Equal(on, all)
			}))
		}
		for _, m := range ofString.FindAllStringSubmatch(line, -1) {
			claim(line, holds(v.Shapes, m[1], m[2], m[3]))
		}
		for _, m := range wentFrom.FindAllStringSubmatch(line, -1) {
			claim(line, holds(v.Shapes, m[1], m[2], m[3]) && holds(v.Shapes, m[1], m[4], m[5]))
		}
		for _, m := range noteWas.FindAllStringSubmatch(line, -1) {
			claim(line, holds(v.Shapes, m[2], m[1], m[3]))
		}
		for _, m := range soundsAlone.FindAllStringSubmatch(line, -1) {
			claim(line, holds(v.Shapes, m[3], m[1], m[2]))
		}
		for _, m := range fromTo.FindAllStringSubmatch(line, -1) {
			low, err1 := theory.ParsePitch(typed(m[1]))
			high, err2 := theory.ParsePitch(typed(m[3]))
			size, err3 := strconv.Atoi(m[4])
			falls := m[2] == "down"
			claim(line, falls == strings.Contains(q.Prompt, "going down"))
			if falls {
				low, high = high, low
			}
			sound := pitches(q.Sounds[0])
			claim(line, err1 == nil && err2 == nil && err3 == nil && high.MIDI()-low.MIDI() == size && slices.Contains(sound, low) && slices.Contains(sound, high))
		}
		for _, m := range moves.FindAllStringSubmatch(line, -1) {
			from, to := notes(typed(m[1]))[0], notes(typed(m[4]))[0]
			up := 1
			if m[3] == "falls" {
				up = -1
			}
			// Every string that sounds the note moves by a step, to that pitch on one string or another.
			sounding := 0
			for _, s := range v.Shapes[0].Voicing.Strings {
				if s.Fret == fret.Muted || s.Pitch.Note != from || s.Interval.Role() != m[2] {
					continue
				}
				sounding++
				claim(line, slices.ContainsFunc(v.Shapes[1].Voicing.Pitches(), func(p theory.Pitch) bool {
					step := up * (p.MIDI() - s.Pitch.MIDI())
					return p.Note == to && step >= 1 && step <= 2
				}))
			}
			claim(line, sounding > 0)
		}
		for _, m := range liesAbove.FindAllStringSubmatch(line, -1) {
			claim(line, (notes(typed(m[1]))[0].Class()-notes(typed(m[2]))[0].Class()+12)%12 == 1)
		}
		for _, m := range sits.FindAllStringSubmatch(line, -1) {
			c, err := read.Chord(typed(m[2]))
			claim(line, err == nil && !slices.ContainsFunc(c.Tones(), func(n theory.Note) bool {
				above := (notes(typed(m[1]))[0].Class() - n.Class() + 12) % 12
				return above < 2
			}))
		}
		for _, m := range notIn.FindAllStringSubmatch(line, -1) {
			c, err := read.Chord(typed(m[3]))
			claim(line, err == nil && slices.ContainsFunc(c.Tones(), notes(typed(m[1]))[0].Same) == (m[2] == "in"))
		}
		for _, m := range soundsNot.FindAllStringSubmatch(line, -1) {
			claim(line, slices.ContainsFunc(v.Shapes, func(r Reveal) bool {
				note := notes(typed(m[1]))[0]
				return !slices.ContainsFunc(r.Voicing.Strings, func(s fret.StringTone) bool { return s.Fret != fret.Muted && s.Pitch.Same(note) })
			}))
		}
	}
	return count
}

// An explanation never contradicts theory: each tone it names is at that string.
func TestStudyOfExplanations(t *testing.T) {
	for _, name := range []string{"ukulele", "guitar"} {
		claims := map[string]int{}
		t.Run(name, func(t *testing.T) {
			eachQuestion(t, instrument(t, name), studyOf(40, 2000), func(t *testing.T, r Request, q *Question) {
				said := []string{q.Expected().Typed}
				for _, c := range q.Choices {
					said = append(said, c.Typed)
				}
				switch q.Form {
				case Tones:
					said = append(said, strings.TrimSpace(strings.Repeat("R ", len(q.Shown.Pitches()))), strings.TrimSpace(strings.Repeat("b3 ", len(q.Shown.Pitches()))))
				case Frets:
					s := make([]string, len(r.On.Tuning.Strings))
					for i := range s {
						s[i] = strconv.Itoa(r.Rand.IntN(6))
					}
					said = append(said, strings.Join(s, " "))
				case Notes:
					said = append(said, "C E G A#", "Db F Ab")
				}
				for _, text := range said {
					v, err := q.Mark(text)
					if err != nil {
						t.Errorf("%s: %q: %v", q.text(), text, err)
					}
					claims[q.Drill] += readClaims(t, q, v)
				}
			})
		})
		t.Logf("%s: claims read back: %v", name, claims)
		for _, id := range slices.DeleteFunc(IDs(), func(id string) bool { return id == "progression-ear" }) {
			if claims[id] == 0 {
				t.Errorf("%s: no claim of %s was read", name, id)
			}
		}
	}
}
