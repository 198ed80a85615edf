package harmony

import (
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/trial"
	"sparetone/progress"
	"sparetone/theory"
	"sparetone/theory/read"
)

// keyOf reads the key, whether its seventh is raised, and the chord from a prompt of key-add.
func keyOf(t *testing.T, q *drills.Question) (k theory.Key, raised bool, c theory.Chord) {
	t.Helper()
	head, chord, _ := strings.Cut(q.Prompt.Screen(), ", on the chord ")
	chord, _, _ = strings.Cut(chord, ":")
	scale := strings.TrimPrefix(head, "In ")
	name := strings.NewReplacer(" natural", "", " harmonic", "").Replace(trial.Typed(scale))
	k, err := read.Key(name)
	if err != nil {
		t.Fatal(err)
	}
	if k.Minor == (name == trial.Typed(scale)) {
		t.Errorf("%s: which minor scale is meant is not said", q.Prompt)
	}
	c, err = read.Chord(trial.Typed(chord))
	if err != nil {
		t.Fatal(err)
	}
	return k, strings.Contains(scale, "harmonic"), c
}

// What is right sits without rubbing, or rubs, as asked; and nothing else that is offered does. The raised sixth and
// seventh of a minor key are not offered as wrong, and typed they are told for what they are and not marked wrong.
func TestStudyOfKeys(t *testing.T) {
	on, asked, raisedTyped := trial.Ukulele(t), map[string]bool{}, 0
	trial.AskAll(t, KeyAdd{}, on, uint64(trial.StudyOf(12, 400)), func(q *drills.Question) {
		k, raised, c := keyOf(t, q)
		scale := k.Notes()
		if raised {
			scale[6] = k.Tonic.Up(theory.MajorSeventh)
		}
		right := func(n theory.Note) bool {
			rubs := false
			for _, tone := range c.Tones() {
				if tone == n {
					return false
				}
				rubs = rubs || (n.Class()-tone.Class()+12)%12 == 1
			}
			return slices.Contains(scale, n) && rubs == strings.HasPrefix(q.Target, "clash-with-")
		}
		for _, choice := range q.Choices {
			n := chord.MustNotes(choice.Typed)[0]
			if is := choice.ID == q.Expected().ID; right(n) != is {
				t.Errorf("%s: %s is right: %v", q.Prompt, n, is)
			}
			for _, up := range []theory.Interval{theory.MajorSixth, theory.MajorSeventh} {
				if k.Minor && n.Same(k.Tonic.Up(up)) && !right(n) {
					t.Errorf("%s: %s of %s is offered as wrong", q.Prompt, n, k)
				}
			}
		}
		if !k.Minor {
			return
		}
		asked[q.Target] = true
		for says, n := range map[string]theory.Note{"the raised sixth": k.Tonic.Up(theory.MajorSixth), "the raised seventh": k.Tonic.Up(theory.MajorSeventh)} {
			if slices.Contains(c.Tones(), n) || raised && n == scale[6] {
				continue
			}
			v, err := q.Mark(n.ASCII())
			if err != nil || v.Result != progress.Partly || !strings.Contains(v.Lines[0].Screen(), says) || strings.Contains(v.Lines[0].Screen(), "is not a note of") {
				t.Errorf("%s, answered %s: %v, %q", q.Prompt, n, v.Result, v.Lines)
			}
			raisedTyped++
		}
	})
	for _, id := range []string{"add-to-minor-5-raised", "add-to-minor-2", "add-to-minor-5"} {
		if !asked[id] {
			t.Errorf("%s is not asked", id)
		}
	}
	if raisedTyped < 100 {
		t.Errorf("%d raised notes were typed", raisedTyped)
	}
}

// No note stands among the choices that the key would write otherwise: no A♭ in E major, and no flat where there are sharps. Of the chord
// itself hardly ever more than one does.
func TestNotesOfferedAreOfTheKeysSide(t *testing.T) {
	foreign, asked, twoHeld := 0, 0, 0
	trial.AskAll(t, KeyAdd{}, trial.Ukulele(t), 40, func(q *drills.Question) {
		k, raised, c := keyOf(t, q)
		held := 0
		scale := k.Notes()
		side := 0
		for _, n := range scale {
			side += int(n.Alter)
		}
		if raised {
			scale[6] = k.Tonic.Up(theory.MajorSeventh)
		}
		if len(q.Choices) != notesOffered {
			t.Errorf("%s has %d choices", q.Prompt, len(q.Choices))
		}
		for _, choice := range q.Choices {
			n := chord.MustNotes(choice.Typed)[0]
			if slices.Contains(c.Tones(), n) {
				held++
			}
			if slices.Contains(scale, n) {
				continue
			}
			foreign++
			if slices.ContainsFunc(scale, n.Same) || side*int(n.Alter) < 0 {
				t.Errorf("%s: %s is offered", q.Prompt, n)
			}
		}
		if asked++; held > 1 {
			twoHeld++
		}
	})
	if foreign == 0 {
		t.Error("no note that is not of the key was offered")
	}
	if 20*twoHeld > asked {
		t.Errorf("of %d questions %d offer two notes that the chord has", asked, twoHeld)
	}
}

// What is said of a note beside a chord, read aloud.
func TestBesideAChord(t *testing.T) {
	for _, row := range []struct{ key, on, note, says string }{
		{"G", "1", "C", "C, the fourth, lies a semitone above B, the major third: it rubs, and players add it for that."},
		{"G", "1", "A", "A, the ninth of the chord G, is a note of G major, and no note of the chord lies a semitone below it: it sits without rubbing."},
		{"G", "1", "D", "D is already in the chord G."},
		{"G", "1", "F", "F is not a note of G major."},
		{"C", "6", "F", "F, the flat sixth, lies a semitone above E, the fifth: it rubs, and it is seldom added."},
		{"Bbm", "1", "A", "A is a note of B♭ minor, but not of B♭ natural minor: it is the raised seventh."},
		{"Am", "5-raised", "G", "G is a note of A minor, but not of A harmonic minor: it is the natural seventh."},
		{"Am", "5-raised", "F#", "F♯ is a note of A minor, but not of A harmonic minor: it is the raised sixth."},
		{"Am", "2", "C", "C, the flat ninth, lies a semitone above B, the root: it rubs, and it is seldom added."},
	} {
		k, err := read.Key(row.key)
		if err != nil {
			t.Fatal(err)
		}
		n := slices.IndexFunc(keyChords, func(a keyChord) bool { return a.id() == k.Mode()+"-"+row.on })
		all := chordsInKeys(keyTask{keyChord: keyChords[n]}, mostSigns)
		p := all[slices.IndexFunc(all, func(p chordInKey) bool { return p.key == k })]
		if got := p.fits(chord.MustNotes(row.note)[0]).Screen(); got != row.says {
			t.Errorf("%q, want %q", got, row.says)
		}
	}
	k := theory.Key{Tonic: chord.MustNotes("A")[0], Minor: true}
	for a, want := range map[keyChord]string{
		{true, 1, false}: "In A natural minor the chord Am takes B, D and G without rubbing; F rubs. A minor also has F♯, the raised sixth, and G♯, the raised seventh.",
		{true, 5, true}:  "In A harmonic minor the chord E takes D without rubbing; F, A and C rub. A minor also has F♯, the raised sixth.",
	} {
		all := chordsInKeys(keyTask{keyChord: a}, mostSigns)
		if got := all[slices.IndexFunc(all, func(p chordInKey) bool { return p.key == k })].summing().Screen(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
