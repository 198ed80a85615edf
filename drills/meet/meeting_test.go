package meet

import (
	"slices"
	"strings"
	"testing"
	"unicode"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/neck"
	"sparetone/drills/trial"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// instruments are the ones on which all is met: re-entrant and not, four strings, five and six, fourths and fifths.
var instruments = []string{"ukulele", "baritone", "guitar", "mandolin", "banjo", "ukulele-low-g"}

// all calls a function with the meeting of every target of every drill on every instrument.
func all(t *testing.T, with func(t *testing.T, m Meeting, target drills.Target)) {
	t.Helper()
	names := instruments
	if testing.Short() {
		names = names[:1]
	}
	for _, name := range names {
		on, err := neck.NewInstrument(name, 0, "")
		if err != nil {
			t.Fatal(err)
		}
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for _, d := range catalogue.All() {
				for _, target := range d.Targets(on) {
					t.Run(d.About().ID+"/"+target.ID, func(t *testing.T) {
						m, err := New(d, target.ID, on)
						if err != nil {
							t.Fatal(err)
						}
						with(t, m, target)
					})
				}
			}
		})
	}
}

// Every target of every drill is met: it has a name, a sentence, facts and sounds, and what is shown is true by the theory.
func TestEveryTargetIsMet(t *testing.T) {
	all(t, func(t *testing.T, m Meeting, target drills.Target) {
		own := m.Looks()[:len(m.Heard)]
		if shows := slices.ContainsFunc(own, func(l Look) bool { return l.Shape != nil }); shows && m.Looks()[m.First()].Shape == nil {
			t.Errorf("%s %s: what shows first is %q, without a shape", m.Drill, m.Target, m.Looks()[m.First()].Name.Screen())
		}
		for what, lacks := range map[string]bool{
			"target": m.Target != target.ID, "name": !m.Name.Equal(target.Name), "sentence": m.Like.IsZero(), "fact, a line of its verdict": len(m.Facts) == 0,
			"sound, Asked of its verdict": len(m.Heard) == 0, "voice": m.Voice == nil,
		} {
			if lacks {
				t.Fatalf("a meeting without its %s: %+v", what, m)
			}
		}
		sounds := m.Heard
		if m.Beside != nil {
			sounds = slices.Concat(sounds, m.Beside.Heard)
			if !slices.Contains(target.Near, m.Beside.Target) || m.Beside.Name.IsZero() || m.Beside.Name.Equal(m.Name) {
				t.Errorf("it is told from %q %s", m.Beside.Target, m.Beside.Name)
			}
			if slices.EqualFunc(m.Heard, m.Beside.Heard, sameNotes) {
				t.Error("it is told from itself")
			}
		}
		for _, h := range sounds {
			if h.Name.IsZero() || len(h.Sound.Notes) == 0 {
				t.Errorf("a sound without a name or without a note: %+v", h)
			}
			if h.Shape != nil {
				isShape(t, h)
			}
		}
		if check, ok := checks[target.Topic.Of]; ok {
			check(t, m, target.Topic.ID)
		} else {
			t.Errorf("what is true of a %s is not known here: add a row to checks", target.Topic.Of)
		}
	})
}

func sameNotes(a, b Heard) bool { return slices.Equal(a.Sound.Notes, b.Sound.Notes) }

// isShape checks that a shape sounds what is heard, and is called as the theory would call it.
func isShape(t *testing.T, h Heard) {
	t.Helper()
	var pitches []int
	for i, s := range h.Shape.Shape {
		if s != fret.Muted {
			pitches = append(pitches, h.Shape.Tuning.MIDI(i, s))
		}
	}
	var heard []int
	for _, n := range h.Sound.Notes {
		heard = append(heard, n.Pitch.MIDI())
	}
	if !slices.Equal(pitches, heard) {
		t.Errorf("%s: %s sounds %v, and %v is heard", h.Name, h.Shape.Shape, pitches, heard)
	}
	if h.Shape.Chord.Kind == nil {
		return // two notes are no chord
	}
	right := slices.ContainsFunc(theory.RightNames(h.Shape.Pitches()), func(n theory.Naming) bool {
		return n.Chord.Kind == h.Shape.Chord.Kind && n.Chord.Root.Same(h.Shape.Chord.Root)
	})
	if !right {
		t.Errorf("%s is no right name of %s", h.Shape.Chord, h.Shape.Shape)
	}
}

// kindsHeard are the ids of the kinds of chord that a meeting sounds, in turn.
func kindsHeard(heard []Heard) (ids []string) {
	for _, h := range heard {
		if h.Shape != nil && h.Shape.Chord.Kind != nil {
			ids = append(ids, h.Shape.Chord.Kind.ID)
		}
	}
	return ids
}

// checks are what is true of what is heard, by what a topic is one of.
var checks = map[string]func(t *testing.T, m Meeting, id string){
	"interval": func(t *testing.T, m Meeting, id string) {
		want, err := theory.ParseInterval(id)
		notes := m.Heard[0].Sound.Plucked()
		if err != nil || notes[1].Pitch.MIDI()-notes[0].Pitch.MIDI() != want.Semitones {
			t.Errorf("%v is heard, rising, for %v", notes, want)
		}
	},
	"notes": func(t *testing.T, m Meeting, id string) {
		if len(m.Heard) != 2 {
			t.Fatalf("%v is heard", m.Heard)
		}
		for _, h := range m.Heard {
			notes := h.Sound.Plucked()
			first, second := notes[0].Pitch.MIDI(), notes[1].Pitch.MIDI()
			if is := map[string]bool{"the first is higher": first > second, "the second is higher": second > first, "the same note": first == second, "two different notes": first != second}; !is[h.Name.Screen()] {
				t.Errorf("%d and then %d is called %s", first, second, h.Name)
			}
		}
	},
	"kind": func(t *testing.T, m Meeting, id string) {
		if kinds := kindsHeard(m.Heard); !slices.Equal(kinds, []string{id}) {
			t.Errorf("it sounds %v", kinds)
		}
		if m.Beside != nil && len(m.Beside.Seen) > 0 && !slices.Equal(kindsHeard(m.Beside.Heard), []string{m.Beside.Target}) {
			t.Errorf("beside it sounds %v, not %s", kindsHeard(m.Beside.Heard), m.Beside.Target)
		}
	},
	"addition": func(t *testing.T, m Meeting, id string) {
		plain := "major"
		if strings.HasPrefix(id, "minor-") {
			plain = "minor"
		}
		kinds := kindsHeard(m.Heard)
		both := len(kinds) == 2 && slices.Contains(kinds, plain) && slices.Contains(kinds, id)
		if alone := slices.Equal(kinds, []string{id}); !both && !alone {
			t.Errorf("it sounds %v", kinds)
		}
		if m.Drill == "same-or-not" {
			isSetApart(t, m, kinds, []string{plain, id})
		}
		if both && m.Drill != "same-or-not" {
			before, after := m.Heard[0].Shape, m.Heard[1].Shape
			moved := 0
			for i := range before.Shape {
				if before.Shape[i] != after.Shape[i] {
					moved++
				}
			}
			if kinds[0] != plain || moved != 1 {
				t.Errorf("from %s to %s %d strings move", before.Shape, after.Shape, moved)
			}
		}
	},
	"pair": func(t *testing.T, m Meeting, id string) {
		one, other, _ := strings.Cut(id, "-or-")
		isSetApart(t, m, kindsHeard(m.Heard), []string{one, other})
	},
	"doubled": func(t *testing.T, m Meeting, id string) {
		count := map[theory.Interval]int{}
		for _, s := range m.Heard[0].Shape.Strings {
			if s.Fret != fret.Muted {
				count[s.Interval]++
			}
		}
		number, is := map[string]int{"root": 1, "third": 3, "fifth": 5}[id]
		doubled := 0
		for tone, n := range count {
			if n > 1 {
				doubled++
				if is && tone.Number != number {
					t.Errorf("%v sounds %d times", tone, n)
				}
			}
		}
		if (doubled == 0) != (id == "none") {
			t.Errorf("%d notes are doubled", doubled)
		}
	},
	"tone": func(t *testing.T, m Meeting, id string) {
		chord, tone := m.Heard[0].Shape, m.Heard[1].Sound.Notes[0]
		number := map[string]int{"root": 1, "third": 3, "fifth": 5, "seventh": 7}[id]
		i := slices.IndexFunc(chord.Strings, func(s fret.StringTone) bool { return s.Number == tone.String })
		if got := chord.Strings[i]; got.Interval.Number != number || got.Pitch != tone.Pitch {
			t.Errorf("string %d sounds %v, the %v of %s", tone.String, tone.Pitch, got.Interval, chord.Chord)
		}
	},
	"resolution": func(t *testing.T, m Meeting, id string) {
		kind, _ := theory.KindByID(id)
		want, _ := theory.ResolutionOf(kind)
		from, to := m.Heard[1].Shape, m.Heard[2].Shape
		if from.Chord.Kind != kind || to.Chord.Kind != want.To || !to.Chord.Root.Same(want.Goal(from.Chord.Root).Root) {
			t.Errorf("%s goes to %s", from.Chord, to.Chord)
		}
	},
	"progression": func(t *testing.T, m Meeting, id string) {
		degrees, minor := strings.CutPrefix(id, "minor-")
		if strings.HasPrefix(id, "with-a-") {
			return // which of its chords is coloured is told by its shape, which was checked
		}
		steps := map[bool]string{false: "0 2 4 5 7 9 11", true: "0 2 3 5 7 8 10"}[minor]
		var want []int
		for _, d := range strings.Split(degrees, "-") {
			want = append(want, number(strings.Fields(steps)[number(d)-1]))
		}
		var got []int
		for _, h := range m.Heard[1:] {
			got = append(got, h.Shape.Chord.Root.Class())
		}
		tonic := m.Heard[0].Sound
		for i := range got {
			if (got[i]-got[0]-want[i]+want[0]+24)%12 != 0 {
				t.Errorf("the roots are %v, for %v above the tonic", got, want)
				break
			}
		}
		if root := tonic.Notes[slices.IndexFunc(tonic.Notes, func(n synth.Sounding) bool { return n.String == tonic.Root })].Pitch.MIDI(); (root+want[0]-got[0]+24)%12 != 0 {
			t.Errorf("it starts with a chord on %d, and the first root is %d", root%12, got[0])
		}
	},
	"key": func(t *testing.T, m Meeting, id string) {
		if id == "clash-with-minor-2" { // no chord has a name that is a diminished one with a flat ninth
			if kinds := kindsHeard(m.Heard); !slices.Equal(kinds, []string{"diminished"}) {
				t.Errorf("it sounds %v", kinds)
			}
			return
		}
		before, after := m.Heard[0].Shape, m.Heard[1].Shape
		var added []int
		for _, n := range after.Chord.Tones() {
			if !slices.ContainsFunc(before.Chord.Tones(), n.Same) {
				added = append(added, n.Class())
			}
		}
		rubs := len(added) == 1 && slices.ContainsFunc(before.Chord.Tones(), func(n theory.Note) bool { return (n.Class()+1)%12 == added[0] })
		if !after.Chord.Root.Same(before.Chord.Root) || len(added) != 1 || rubs != strings.HasPrefix(id, "clash") {
			t.Errorf("%s becomes %s, and rubs: %v", before.Chord, after.Chord, rubs)
		}
	},
}

// notByOneString are the pairs of kinds that differ by more than one string on some instruments, where both are low on one root.
var notByOneString = []string{"added-ninth-or-major-sixth", "major-or-suspended-fourth", "which-has-suspended-fourth", "minor-or-minor-seventh", "which-has-minor-seventh", "which-has-minor-sixth"}

// isSetApart checks that two chords that are told apart are met on one root, the plainer first, and that one string tells them.
func isSetApart(t *testing.T, m Meeting, kinds, want []string) {
	t.Helper()
	if !slices.Equal(kinds, want) {
		t.Errorf("it sounds %v, not %v", kinds, want)
		return
	}
	if a, b := m.Heard[0].Shape, m.Heard[1].Shape; !a.Chord.Root.Same(b.Chord.Root) || onlyMoved(a, b) == 0 && !slices.Contains(notByOneString, m.Target) {
		t.Errorf("%s as %s is set against %s as %s", a.Chord, a.Shape, b.Chord, b.Shape)
	}
}

// What sounds by itself says something: a note of a chord comes after the chord, where a chord goes comes after it, and so does where it
// would go by another answer, which is no example of what else is taught.
func TestLooksByThemselves(t *testing.T) {
	on, err := neck.NewInstrument("guitar", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []struct {
		drill, target string
		after         []int // for each look how many sounds come before its own
		answer        bool
	}{
		{"spell", "third-of-triad", []int{0, 1, 1}, false},
		{"resolve", "dominant", []int{0, 0, 1, 1}, true},
		{"added-ear", "added-ninth", []int{0, 0, 0}, false},
		{"chord-ear", "minor", []int{0, 0}, false},
	} {
		d, _ := catalogue.ByID(want.drill)
		m, err := New(d, want.target, on)
		if err != nil {
			t.Fatal(err)
		}
		var after []int
		for i, l := range m.Looks() {
			before := len(l.After)
			if after = append(after, before); len(l.ByItself()) != before+len(l.Sounds) {
				t.Errorf("%s: look %d sounds as %d", want.drill, i, len(l.ByItself()))
			}
			for _, s := range l.After {
				if len(s.Notes) < 2 || s.Label.IsZero() {
					t.Errorf("%s: look %d comes after %v", want.drill, i, s)
				}
			}
		}
		if !slices.Equal(after, want.after) || m.Beside.Answer != want.answer {
			t.Errorf("%s %s: %v, %v", want.drill, want.target, after, m.Beside.Answer)
		}
	}
}

func number(s string) (n int) {
	for _, r := range s {
		n = 10*n + int(r-'0')
	}
	return n
}

// Every topic has one plain sentence, short enough to hear before a sound, and no sentence is about nothing.
func TestSentences(t *testing.T) {
	met := map[drills.Topic]bool{}
	for _, name := range append(instruments, "E2 A2 D3 G3 B3 E4") {
		on, err := neck.NewInstrument(name, 0, "")
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range catalogue.All() {
			for _, target := range d.Targets(on) {
				met[target.Topic] = true
				if _, ok := likes[target.Topic]; !ok {
					t.Errorf("nothing is written about %v", target.Topic)
				}
			}
		}
	}
	met[anotherBassTopic] = true // held by TestAnotherBassIsMet
	for topic, like := range likes {
		s := like.Screen()
		if !met[topic] {
			t.Errorf("%v is nothing that is taught", topic)
		}
		if words := len(strings.Fields(s)); words > 26 || !strings.HasSuffix(s, ".") || !unicode.IsUpper(rune(s[0])) {
			t.Errorf("%v: %q is %d words", topic, s, words)
		}
		if i := strings.IndexFunc(s, func(r rune) bool { return r > unicode.MaxASCII || unicode.IsDigit(r) }); i >= 0 {
			t.Errorf("%v: %q has a sign that is not read aloud", topic, s)
		}
		if s != like.Aloud() {
			t.Errorf("%v is said as %q", topic, like.Aloud())
		}
	}
}

// The same thing is met in the same way each time.
func TestMetAlike(t *testing.T) {
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range catalogue.All() {
		target := d.Targets(on)[0].ID
		a, err := New(d, target, on)
		b, other := New(d, target, on)
		if err != nil || other != nil || !slices.EqualFunc(a.Heard, b.Heard, sameNotes) || !slices.EqualFunc(a.Facts, b.Facts, say.Text.Equal) {
			t.Errorf("%s %s: %v %v, then %v %v", d.About().ID, target, a.Facts, err, b.Facts, other)
		}
	}
	if _, err := New(catalogue.All()[0], "P99", on); err == nil {
		t.Error("what is not asked was met")
	}
}

// A beginner on the ukulele meets things low on the neck, on the shapes that everybody meets first.
func TestMetLow(t *testing.T) {
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []struct{ drill, target, shape string }{
		{"chord-ear", "major", "2220"},
		{"added-ear", "added-ninth", "0010"},
		{"shape-name", "major", "2100"},
		{"swap", "added-ninth", "0010"},
	} {
		d, _ := catalogue.ByID(want.drill)
		m, err := New(d, want.target, on)
		if err != nil {
			t.Fatal(err)
		}
		if got := m.Heard[len(m.Heard)-1].Shape.Shape.String(); got != want.shape {
			t.Errorf("%s %s is met as %s, not %s", want.drill, want.target, got, want.shape)
		}
	}
}

// The first that a beginner meets is two notes: they are open strings, for nothing else of a neck was explained yet.
func TestTwoNotesAreMetOnOpenStrings(t *testing.T) {
	for _, name := range []string{"ukulele", "guitar"} {
		d, _ := catalogue.ByID("same-or-not")
		m, err := New(d, "higher-note", trial.Played(t, name))
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range m.Seen {
			if slices.Max(r.Voicing.Shape) > 0 {
				t.Errorf("%s: %s is met at %s", name, r.Caption.Screen(), r.Voicing.Shape)
			}
		}
		if len(m.Seen) != 2 {
			t.Errorf("%s: %d shapes are met, not 2", name, len(m.Seen))
		}
	}
}

// What is said of how much rubs in a key is so.
func TestRubbingAsSaid(t *testing.T) {
	scales := map[bool][]int{false: {0, 2, 4, 5, 7, 9, 11}, true: {0, 2, 3, 5, 7, 8, 10}}
	for topic, like := range likes {
		said := -1
		switch s := like.Screen(); {
		case strings.Contains(s, "none rubs"):
			said = 0
		case strings.Contains(s, "two notes of the key rub"):
			said = 2
		case strings.HasPrefix(topic.ID, "clash"):
			said = 1
		default:
			continue
		}
		scale := scales[strings.Contains(topic.ID, "minor")]
		degree := number(topic.ID[len(topic.ID)-1:]) - 1
		at := func(n int) int { return scale[(degree+n)%7] }
		rubbing := 0
		for n := range 7 {
			if n == 0 || n == 2 || n == 4 {
				continue
			}
			for _, tone := range []int{0, 2, 4} {
				if (at(tone)+1)%12 == at(n) {
					rubbing++
					if said == 1 && !strings.Contains(like.Screen(), stepName((degree+n)%7)) {
						t.Errorf("%v: %q, and it is step %d", topic, like, (degree+n)%7+1)
					}
				}
			}
		}
		if rubbing != said {
			t.Errorf("%v: %d notes rub, and it says %q", topic, rubbing, like)
		}
	}
}

func stepName(n int) string {
	return []string{"home", "second step", "third step", "fourth step", "fifth step", "sixth step", "seventh step"}[n]
}

func BenchmarkMeeting(b *testing.B) {
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		b.Fatal(err)
	}
	for _, id := range []string{"chord-ear", "progression-ear", "shape-name"} {
		d, _ := catalogue.ByID(id)
		target := d.Targets(on)[0].ID
		b.Run(id, func(b *testing.B) {
			for b.Loop() {
				if _, err := New(d, target, on); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// What a chord is like is said of all its shapes: it places no note above another, for on four strings the note that was added is as often the
// lowest as the highest, as the ninth is in 0203.
func TestLikesPlaceNoNote(t *testing.T) {
	for topic, like := range likes {
		if !slices.Contains([]string{"kind", "addition", "pair"}, topic.Of) {
			continue
		}
		for _, place := range []string{"above", "below", "the top", "on top", "lowest", "highest"} {
			if strings.Contains(like.Screen(), place) {
				t.Errorf("%s %s is said to lie %s: %s", topic.Of, topic.ID, place, like.Screen())
			}
		}
	}
}

// On few strings what a target is mistaken for may need more of them; it is met beside something else then.
func TestMetOnFewStrings(t *testing.T) {
	for _, tuning := range []string{"D4 A4", "G3 D4 A4", "D3 A3 D4", "D4 F4 A4"} {
		on := trial.Instrument(t, tuning)
		for _, d := range catalogue.All() {
			targets := d.Targets(on)
			for _, target := range targets {
				m, err := New(d, target.ID, on)
				near := slices.ContainsFunc(target.Near, func(id string) bool { return drills.IsTarget(targets, id) })
				if err != nil {
					t.Errorf("%s, %s/%s: %v", tuning, d.About().ID, target.ID, err)
				} else if m.Beside == nil && near && d.About().ID == "shape-name" {
					t.Errorf("%s, %s/%s is told from nothing", tuning, d.About().ID, target.ID)
				} else if m.Beside != nil && !drills.IsTarget(targets, m.Beside.Target) {
					t.Errorf("%s, %s/%s is told from %s", tuning, d.About().ID, target.ID, m.Beside.Target)
				}
			}
		}
	}
}

// On five strings and more a chord is met where all that can sound does, and no string has to be kept silent after one that sounds.
func TestChordsAreMetUnmuted(t *testing.T) {
	for _, tuning := range []string{"charango", "guitar", "banjo"} {
		on := trial.Played(t, tuning)
		var silent []string
		for _, id := range []string{"chord-ear", "shape-name"} {
			d, _ := catalogue.ByID(id)
			for _, target := range d.Targets(on) {
				m, err := New(d, target.ID, on)
				if err != nil {
					t.Fatal(err)
				}
				for _, r := range m.Seen {
					if muted(r.Voicing.Shape) > 0 {
						silent = append(silent, r.Voicing.Shape.String())
					}
				}
			}
		}
		if len(silent) > 0 {
			t.Errorf("%s: met with silent strings: %v", tuning, silent)
		}
	}
}
