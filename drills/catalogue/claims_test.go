package catalogue

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/trial"
	"sparetone/drills/wording"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// Every sentence that places a tone on a string is read back and looked for on the shapes that the verdict shows.
// called is what a string is called, and several are.
const (
	called1 = `((?:low |middle |high )?[A-Ga-g][♯♭]*(?: \(\d\))?)`
	calledN = `(the (?:[A-Ga-g]|low|middle|high)[A-Za-z♯♭, ()0-9]*?) strings?`
)

var (
	onStrings   = regexp.MustCompile(`([A-G][♯♭x]*), (the [a-z ]+?), (?:is|sounds) on ` + calledN)
	ofString    = regexp.MustCompile(`[Tt]he ` + called1 + ` string sounds ([A-G][♯♭x]*)[:,] (the [a-z ]+?)[,.]`)
	wentFrom    = regexp.MustCompile(`The ` + called1 + ` string went from ([A-G][♯♭x]*), (the [a-z ]+?), to ([A-G][♯♭x]*), (the [a-z ]+?): .*\. ([A-G][♯♭x]* still sounds on .*|No other string sounds [A-G][♯♭x]*)\.`)
	stillOn     = regexp.MustCompile(`([A-G][♯♭x]*) still sounds on ` + calledN)
	noOther     = regexp.MustCompile(`No other string sounds ([A-G][♯♭x]*)\.`)
	noteWas     = regexp.MustCompile(`The note was ([A-G][♯♭x]*), on the ` + called1 + ` string: (the [a-z ]+?) of`)
	roleOn      = regexp.MustCompile(`(The [a-z ]+?) is ([A-G][♯♭x]*), on the ` + called1 + ` string\.`)
	soundsNot   = regexp.MustCompile(`would have ([A-G][♯♭x]*), the [a-z ]+; no string sounds it`)
	soundsAlone = regexp.MustCompile(`([A-G][♯♭x]*), (the [a-z ]+?), sounds on the ` + called1 + ` string alone`)
	needs       = regexp.MustCompile(`needs (.*); no string sounds (?:it|them)\.`)
	needed      = regexp.MustCompile(`([A-G][♯♭x]*) \((the [a-z ]+)\)`)
	isRole      = regexp.MustCompile(`([A-G][♯♭x]*) is (the [a-z ]+?)(?:,| and|\.)`)
	muteString  = regexp.MustCompile(`[Tt]he ` + called1 + ` string does not sound`)
)

var (
	fromTo    = regexp.MustCompile(`^([A-G][♯♭]*) (up|down) to ([A-G][♯♭]*) is an? [a-z ]+: (\d+) semitones?\.`)
	moves     = regexp.MustCompile(`([A-G][♯♭]*), (the [a-z ]+?), (rises|falls) to ([A-G][♯♭]*)`)
	sits      = regexp.MustCompile(`^([A-G][♯♭]*), the [a-z ]+ of the chord ([^,]+), is a note of [^:]+, and no note of the chord lies a semitone below it: it sits without rubbing`)
	notIn     = regexp.MustCompile(`((?:[A-G][♯♭x]*(?:, | and )?)+) (?:is|are) (already|not) in the chord (\S+?)\.`)
	liesAbove = regexp.MustCompile(`([A-G][♯♭]*), the [a-z ]+, lies a semitone above ([A-G][♯♭]*), the`)
)

// numberOf returns the number of the string of a voicing that is called so; 0 if none is.
func numberOf(v fret.Voicing, called string) int {
	for _, s := range v.Strings {
		if v.Tuning.StringCalled(s.Number) == called {
			return s.Number
		}
	}
	return 0
}

// holds reports whether a string of some shape sounds a note that is a tone of its chord.
func holds(shapes []drills.Reveal, called, note, role string) bool {
	return slices.ContainsFunc(shapes, func(r drills.Reveal) bool {
		n := numberOf(r.Voicing, called)
		if n == 0 {
			return false
		}
		s := wording.ToneOn(r.Voicing, n)
		return s.Fret != fret.Muted && s.Pitch.Note.String() == note && s.Interval.Role() == role
	})
}

// soundingOn lists what the strings of a voicing are called that sound a note; of any role if that is "".
func soundingOn(v fret.Voicing, note, role string) string {
	var on []int
	for _, s := range v.Strings {
		if s.Fret != fret.Muted && s.Pitch.Note.String() == note && (role == "" || s.Interval.Role() == role) {
			on = append(on, s.Number)
		}
	}
	if len(on) == 0 {
		return ""
	}
	return "the " + say.Of("{}", say.Strings(v.Tuning, on...)).Screen()
}

// toneOfRole returns the tone of a chord that has a role, the root if none has.
func toneOfRole(c theory.Chord, role string) theory.Interval {
	for _, t := range c.Kind.Formula {
		if t.Role() == role {
			return t
		}
	}
	return theory.Unison
}

// readClaims checks every claim of a verdict and returns how many there were.
func readClaims(t *testing.T, q *drills.Question, v drills.Verdict) int {
	t.Helper()
	count := 0
	claim := func(line string, ok bool) {
		count++
		if !ok {
			t.Errorf("%s, answered %s: %q is not what the shapes show: %v", q.Text(), v.Given, line, v.Shapes)
		}
	}
	for _, r := range v.Shapes {
		if r.Mark != 0 && wording.ToneOn(r.Voicing, r.Mark).Fret == fret.Muted {
			t.Errorf("%s, answered %s: %s: string %d is marked and does not sound", q.Text(), v.Given, r.Caption, r.Mark)
		}
	}
	for _, text := range append(slices.Clone(v.Lines), v.Short) {
		line := text.Screen()
		for _, m := range onStrings.FindAllStringSubmatch(line, -1) {
			// All strings that are named, and no other.
			claim(line, slices.ContainsFunc(v.Shapes, func(r drills.Reveal) bool { return soundingOn(r.Voicing, m[1], m[2]) == m[3] }))
		}
		for _, m := range ofString.FindAllStringSubmatch(line, -1) {
			claim(line, holds(v.Shapes, m[1], m[2], m[3]))
		}
		for _, m := range wentFrom.FindAllStringSubmatch(line, -1) {
			claim(line, holds(v.Shapes, m[1], m[2], m[3]) && holds(v.Shapes, m[1], m[4], m[5]))
			after := v.Shapes[1].Voicing
			on := ""
			for _, m := range stillOn.FindAllStringSubmatch(m[6], -1) {
				on = m[2]
			}
			claim(line, soundingOn(after, m[2], "") == on)
		}
		if strings.Contains(line, " went from ") {
			claim(line, wentFrom.MatchString(line) || went.MatchString(line))
		}
		if strings.Contains(line, " semitone below it") {
			claim(line, sits.MatchString(line) || sitsBriefly.MatchString(line))
		}
		readBriefClaims(v, line, claim)
		for _, m := range noOther.FindAllStringSubmatch(line, -1) {
			claim(line, strings.Contains(line, "from "+m[1]+","))
		}
		for _, m := range noteWas.FindAllStringSubmatch(line, -1) {
			claim(line, holds(v.Shapes, m[2], m[1], m[3]))
		}
		for _, m := range roleOn.FindAllStringSubmatch(line, -1) {
			claim(line, holds(v.Shapes, m[3], m[2], "t"+m[1][1:]))
		}
		for _, m := range soundsAlone.FindAllStringSubmatch(line, -1) {
			claim(line, slices.ContainsFunc(v.Shapes, func(r drills.Reveal) bool { return soundingOn(r.Voicing, m[1], m[2]) == "the "+m[3] }))
		}
		for _, m := range muteString.FindAllStringSubmatch(line, -1) {
			claim(line, slices.ContainsFunc(v.Shapes, func(r drills.Reveal) bool {
				return wording.ToneOn(r.Voicing, numberOf(r.Voicing, m[1])).Fret == fret.Muted
			}))
		}
		for _, m := range needs.FindAllStringSubmatch(line, -1) {
			for _, n := range needed.FindAllStringSubmatch(m[1], -1) {
				note := chord.MustNotes(trial.Typed(n[1]))[0]
				claim(line, slices.ContainsFunc(v.Shapes, func(r drills.Reveal) bool {
					return !slices.ContainsFunc(r.Voicing.Strings, func(s fret.StringTone) bool { return s.Fret != fret.Muted && s.Pitch.Same(note) })
				}))
			}
		}
		for _, m := range isRole.FindAllStringSubmatch(line, -1) {
			if q.Drill == "key-add" {
				break // it is of a key there
			}
			claim(line, slices.ContainsFunc(v.Shapes, func(r drills.Reveal) bool {
				n, of := chord.MustNotes(trial.Typed(m[1]))[0], r.Voicing.Chord
				return slices.Contains(of.Tones(), n) && of.Root.To(n).Simple().Semitones == toneOfRole(of, m[2]).Simple().Semitones &&
					(q.Drill == "spell" || soundingOn(r.Voicing, m[1], m[2]) != "")
			}))
		}
		for _, m := range fromTo.FindAllStringSubmatch(line, -1) {
			low, high := chord.MustNotes(trial.Typed(m[1]))[0], chord.MustNotes(trial.Typed(m[3]))[0]
			size, err := strconv.Atoi(m[4])
			falls := m[2] == "down"
			claim(line, falls == strings.Contains(q.Prompt.Screen(), "going down"))
			if falls {
				low, high = high, low
			}
			sound := trial.Pitches(q.Sounds[0])
			slices.SortFunc(sound, func(a, b theory.Pitch) int { return a.MIDI() - b.MIDI() })
			claim(line, err == nil && len(sound) == 2 && sound[0].Note == low && sound[1].Note == high && sound[1].MIDI()-sound[0].MIDI() == size)
		}
		for _, m := range moves.FindAllStringSubmatch(line, -1) {
			from, to := chord.MustNotes(trial.Typed(m[1]))[0], chord.MustNotes(trial.Typed(m[4]))[0]
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
			claim(line, (chord.MustNotes(trial.Typed(m[1]))[0].Class()-chord.MustNotes(trial.Typed(m[2]))[0].Class()+12)%12 == 1)
		}
		for _, m := range sits.FindAllStringSubmatch(line, -1) {
			c, err := read.Chord(trial.Typed(m[2]))
			claim(line, err == nil && !slices.ContainsFunc(c.Tones(), func(n theory.Note) bool {
				above := (chord.MustNotes(trial.Typed(m[1]))[0].Class() - n.Class() + 12) % 12
				return above < 2
			}))
		}
		for _, m := range notIn.FindAllStringSubmatch(line, -1) {
			c, err := read.Chord(trial.Typed(m[3]))
			for _, note := range strings.FieldsFunc(m[1], func(r rune) bool { return r == ' ' || r == ',' }) {
				if note != "and" {
					claim(line, err == nil && slices.ContainsFunc(c.Tones(), chord.MustNotes(trial.Typed(note))[0].Same) == (m[2] == "already"))
				}
			}
		}
		for _, m := range soundsNot.FindAllStringSubmatch(line, -1) {
			claim(line, slices.ContainsFunc(v.Shapes, func(r drills.Reveal) bool {
				note := chord.MustNotes(trial.Typed(m[1]))[0]
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
			eachQuestion(t, trial.Instrument(t, name), trial.StudyOf(40, 2000), func(t *testing.T, r drills.Request, q *drills.Question) {
				said := []string{q.Expected().Typed}
				for _, c := range q.Choices {
					said = append(said, c.Typed)
				}
				switch q.Form {
				case drills.Tones:
					said = append(said, strings.TrimSpace(strings.Repeat("R ", len(q.Shown.Pitches()))), strings.TrimSpace(strings.Repeat("b3 ", len(q.Shown.Pitches()))))
				case drills.Frets:
					s := make([]string, len(r.On.Tuning.Strings))
					for i := range s {
						s[i] = strconv.Itoa(r.Rand.IntN(6))
					}
					said = append(said, strings.Join(s, " "))
				case drills.Notes:
					said = append(said, "C E G A#", "Db F Ab")
				}
				for _, text := range said {
					v, err := q.Mark(text)
					if err != nil {
						t.Errorf("%s: %q: %v", q.Text(), text, err)
					}
					claims[q.Drill] += readClaims(t, q, v)
				}
			})
		})
		t.Logf("%s: claims read back: %v", name, claims)
		for _, id := range slices.DeleteFunc(IDs(), func(id string) bool { return id == "progression-ear" }) {
			if claims[id] == 0 {
				t.Errorf("%s: no claim of %s was read: add its sentences to readClaims", name, id)
			}
		}
	}
}
