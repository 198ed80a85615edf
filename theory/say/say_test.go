package say_test

import (
	"fmt"
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

func chord(t *testing.T, symbol string) theory.Chord {
	t.Helper()
	c, err := read.Chord(symbol)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func key(t *testing.T, name string) theory.Key {
	t.Helper()
	k, err := read.Key(name)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func tuning(t *testing.T, name string) *fret.Tuning {
	t.Helper()
	tn, err := fret.ParseTuning(name)
	if err != nil {
		t.Fatal(err)
	}
	return tn
}

func note(t *testing.T, s string) say.Note {
	t.Helper()
	n, err := theory.ParseNote(s)
	if err != nil {
		t.Fatal(err)
	}
	return say.Note(n)
}

func pitch(t *testing.T, s string) say.Pitch {
	t.Helper()
	p, err := theory.ParsePitch(s)
	if err != nil {
		t.Fatal(err)
	}
	return say.Pitch(p)
}

// Each fact is written for the eye, for the ear and for paper.
func TestFacts(t *testing.T) {
	uke, guitar, flats := tuning(t, "ukulele"), tuning(t, "guitar"), tuning(t, "Eb4 Ab4 C5 Eb5")
	without := chord(t, "C7")
	without.Without = 1 << 1
	aMinor := key(t, "Am")
	for _, row := range []struct {
		fact          say.Fact
		screen, aloud string
	}{
		{note(t, "F#"), "F♯", "F sharp"},
		{note(t, "Ebb"), "E♭♭", "E double flat"},
		{note(t, "G"), "G", "G"},
		{pitch(t, "Bb3"), "B♭3", "B flat 3"},
		{pitch(t, "D4"), "D4", "D4"},
		{say.Chord(chord(t, "Fm")), "Fm", "F minor"},
		{say.Chord(chord(t, "C#m7b5")), "C♯m7♭5", "C sharp minor seventh flat five"},
		{say.Chord(chord(t, "C")), "C", "C"},
		{say.Chord(chord(t, "G7")), "G7", "G7"},
		{say.Chord(chord(t, "Ab7")), "A♭7", "A flat 7"},
		{say.Chord(chord(t, "Bbm7/Ab")), "B♭m7/A♭", "B flat minor seventh over A flat"},
		{say.Chord(without), "C7(no3)", "C7 without the major third"},
		{say.InFull(chord(t, "Eb")), "E♭", "E flat major"},
		{say.InFull(chord(t, "C7")), "C7", "C seventh"},
		{say.Titled(chord(t, "Am7")), "Am7, minor seventh", "A minor seventh"},
		{say.Titled(chord(t, "F7")), "F7", "F7"},
		{say.Titled(chord(t, "F")), "F", "F"},
		{say.Titled(chord(t, "Am")), "Am", "A minor"},
		{say.Titled(chord(t, "Bdim")), "Bdim", "B diminished"},
		{say.Kind{Kind: chord(t, "Am7").Kind}, "minor seventh", "minor seventh"},
		{say.Role(theory.MinorThird), "the minor third", "the minor third"},
		{say.Part(theory.MinorThird), "third", "third"},
		{say.Part(theory.DiminishedFifth), "flat fifth", "flat fifth"},
		{say.Part(theory.Unison), "root", "root"},
		{say.Ordinal(theory.MajorNinth), "ninth", "ninth"},
		{say.Interval(theory.MajorSixth), "major sixth", "major sixth"},
		{say.Degree(theory.MinorSeventh), "♭7", "flat 7"},
		{say.Degree(theory.Unison), "R", "R"},
		{say.Degree(theory.MajorNinth), "9", "9"},
		{say.Key(key(t, "Bbm")), "B♭ minor", "B flat minor"},
		{say.TypedKey(key(t, "Bbm")), "Bb minor", "B flat minor"},
		{say.Scale{Tonic: aMinor.Tonic, Name: "harmonic minor"}, "A harmonic minor", "A harmonic minor"},
		{say.Standing(theory.RaisedSeventh), "the raised seventh", "the raised seventh"},
		{say.Numeral{Key: aMinor, Chord: chord(t, "Am")}, "i", "one minor"},
		{say.Numeral{Key: aMinor, Chord: chord(t, "E7")}, "V7", "five 7"},
		{say.Numeral{Key: aMinor, Chord: chord(t, "G#dim")}, "vii°", "seven diminished"},
		{say.Numeral{Key: key(t, "C"), Chord: chord(t, "Bb")}, "♭VII", "flat seven"},
		{say.Numerals{Key: key(t, "C"), Chords: []theory.Chord{chord(t, "C"), chord(t, "Am")}}, "I vi", "one, six minor"},
		{say.Instrument{On: tuning(t, "ukulele-d")}, "ukulele in D, a D F♯ B", "ukulele in D, high a D F sharp B"},
		{say.String{On: uke, Number: 4}, "g", "g"},
		{say.String{On: guitar, Number: 6}, "low E", "low E"},
		{say.String{On: flats, Number: 3}, "A♭", "A flat"},
		{say.TheStrings(uke, 3), "the C string", "the C string"},
		{say.TheStrings(uke, 4, 1), "the g and A strings", "the g and A strings"},
		{say.TheStrings(flats, 4, 1), "the low E♭ and high E♭ strings", "the low E flat and high E flat strings"},
		{say.Shape{fret.Muted, 3, 2, 0, 1, 0}, "x32010", "x 3 2 0 1 0"},
		{say.Shape{10, 12, 12, 10}, "10,12,12,10", "10 12 12 10"},
		{say.Number(1000), "1000", "1000"},
		{say.Count{N: 1, One: "semitone", Many: "semitones"}, "1 semitone", "1 semitone"},
		{say.Count{N: 0, One: "semitone", Many: "semitones"}, "0 semitones", "0 semitones"},
		{say.Agree{N: 1, One: "is", Many: "are"}, "is", "is"},
		{say.Agree{N: 2, One: "is", Many: "are"}, "are", "are"},
		{say.Words("the ninth"), "the ninth", "the ninth"},
		{say.Ended(say.Words("done")), "done.", "done."},
		{say.Ended(say.Words("done.")), "done.", "done."},
		{say.A(say.Words("augmented")), "an augmented", "an augmented"},
		{say.A(say.Words("unison")), "a unison", "a unison"},
		{say.A(say.Chord(chord(t, "Eb"))), "an E♭", "an E flat"},
		{say.And(note(t, "C"), note(t, "Eb"), note(t, "G")), "C, E♭ and G", "C, E flat and G"},
		{say.And(note(t, "C"), note(t, "Eb")), "C and E♭", "C and E flat"},
		{say.And(note(t, "C")), "C", "C"},
		{say.And[say.Note](), "", ""},
		{say.Commas(note(t, "C"), note(t, "G")), "C, G", "C, G"},
		{say.Clauses(note(t, "C"), note(t, "G")), "C; G", "C; G"},
		{say.Row(note(t, "Bb"), note(t, "D")), "B♭ D", "B flat D"},
	} {
		text := say.Of("{}", row.fact)
		if text.Screen() != row.screen || text.Sheet() != row.screen || text.Aloud() != row.aloud {
			t.Errorf("%#v is written %q, said %q, on paper %q; want %q and %q", row.fact, text.Screen(), text.Aloud(), text.Sheet(), row.screen, row.aloud)
		}
	}
}

// A sentence is made once and printed three ways; a number in it is no shape, and an article no note.
func TestSentenceThreeWays(t *testing.T) {
	c := chord(t, "F#m")
	text := say.Sentence("{} was {} 1000 times: A B♭ I don't know, {}.", say.A(say.Words("evening")), say.Chord(c), say.Of("in {}", say.Key(key(t, "Ebm"))))
	if got, want := text.Screen(), "An evening was F♯m 1000 times: A B♭ I don't know, in E♭ minor."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := text.Aloud(), "An evening was F sharp minor 1000 times: A B♭ I don't know, in E flat minor."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := fmt.Sprint(text), text.Screen(); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if !text.Equal(text) || text.Equal(say.Of("Yes.")) || say.Of("B♭").Equal(say.Of("{}", note(t, "Bb"))) {
		t.Error("a text equals another than itself")
	}
	if (say.Text{}).Screen() != "" || !(say.Text{}).IsZero() || say.Of("Yes.").IsZero() {
		t.Error("the zero text says something, or another nothing")
	}
}

// The first letter is written large, whatever fact it is of; a figure has no larger form.
func TestSentencesBeginLarge(t *testing.T) {
	for _, row := range []struct {
		text say.Text
		want string
	}{
		{say.Sentence("{} and more", say.Role(theory.MajorThird)), "The major third and more"},
		{say.Sentence("{}", say.And(say.Words(""), say.Words("one"))), " and one"},
		{say.Sentence("{}{} and one", say.Words(""), say.Words("égal")), "Égal and one"},
		{say.Sentence("{} is C", say.Shape{0, 0, 0, 3}), "0003 is C"},
		{say.Of("in the second, {}", say.Of("{} is here", say.Words("no one"))), "in the second, no one is here"},
		{say.Sentence("{} and more", say.Numeral{Key: key(t, "C"), Chord: chord(t, "Dm")}), "ii and more"},
		{say.Sentence("{} sound", say.Strings(fret.Tunings()[0], 4, 1)), "g and A sound"},
		{say.Sentence("{} sound", say.Strings(fret.Tunings()[4], 6, 1)), "Low E and high E sound"},
	} {
		if got := row.text.Screen(); got != row.want {
			t.Errorf("%q, want %q", got, row.want)
		}
	}
}

// Where one of the alternatives is a list itself, semicolons stand between them: aloud, numerals are one.
func TestAlternatives(t *testing.T) {
	c := key(t, "C")
	row := func(symbols ...string) say.Text {
		var chords []theory.Chord
		for _, s := range symbols {
			chords = append(chords, chord(t, s))
		}
		return say.Of("{}", say.Numerals{Key: c, Chords: chords})
	}
	text := say.Of("one of: {}", say.Alternatives(row("C", "F"), row("Am", "G")))
	if got, want := text.Screen(), "one of: I IV, vi V"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := text.Aloud(), "one of: one, four; six minor, five"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	pairs := say.Of("one of: {}", say.Alternatives(say.Of("{}", say.And(say.Words("g"), say.Words("C"))), say.Of("{}", say.And(say.Words("A")))))
	if got, want := pairs.Screen(), "one of: g and C, A"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	for want, list := range map[string]say.Text{
		"a, b; none":    say.Of("{}", say.Commas(say.Words("a"), say.Words("b"))),
		"a, none":       say.Of("{}", say.Commas(say.Words("a"))),
		"a and b, none": say.Of("{}", say.And(say.Words("a"), say.Words("b"))),
		"a b, none":     say.Of("{}", say.Row(say.Words("a"), say.Words("b"))),
	} {
		if got := say.Of("{}", say.Alternatives(list, say.Of("none"))).Screen(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	lists := say.Of("{}", say.Alternatives(say.Of("with {}", say.Of("{}", say.And(say.Words("a"), say.Words("b"), say.Words("c")))), say.Of("none")))
	if got, want := lists.Screen(), "with a, b and c; none"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// What was typed and what a file says are printed as they are, without what moves a cursor; on paper the signs of
// Markdown are escaped.
func TestForeignText(t *testing.T) {
	text := say.Of("{}, {}", say.Typed("C*7\x1b[2J"), say.Foreign("my_song [1]\x07"))
	if got, want := text.Screen(), `"C*7[2J", my_song [1]`; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := text.Aloud(), text.Screen(); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := text.Sheet(), `"C\*7\[2J", my\_song \[1\]`; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := say.Of("{} * {}", say.Foreign("\\ ` * _ [ ] < # > . - !"), say.Words("a*b")).Sheet(), "\\\\ \\` \\* \\_ \\[ \\] \\< \\# > . - ! * a*b"; got != want {
		t.Errorf("%q, want %q: only what is not our own is escaped", got, want)
	}
	if long := say.Of("{}", say.Typed(strings.Repeat("x", 1000))).Screen(); len(long) > 100 {
		t.Errorf("%d bytes of what was typed are repeated", len(long))
	}
}

// Wording that has more places than facts, or fewer, is found by the first test that meets it.
func TestFactsFillPlaces(t *testing.T) {
	for _, make := range []func(){
		func() { say.Of("{} and {}", say.Number(1)) },
		func() { say.Of("none", say.Number(1)) },
		func() { say.Wrong("{}") },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Error("a text was made that has not as many facts as places")
				}
			}()
			make()
		}()
	}
}

// What comes for what in a swap, and which string goes where.
func TestSwapsInWords(t *testing.T) {
	uke, guitar := tuning(t, "ukulele"), tuning(t, "guitar")
	for _, row := range []struct {
		text say.Text
		want string
	}{
		{say.Trade(fret.Swap{Adds: theory.MajorNinth, GivesUp: theory.MajorThird, Spare: true}), "9 for the doubled third"},
		{say.Trade(fret.Swap{Adds: theory.PerfectFourth, GivesUp: theory.MajorThird}), "4 for 3: the third is gone"},
		{say.Trade(fret.Swap{Adds: theory.MinorSeventh, GivesUp: theory.Unison, Spare: true}), "♭7 for the doubled root"},
		{say.Move(uke, fret.Swap{String: 1, FromFret: 3, ToFret: 2}), "A string to fret 2"},
		{say.Move(uke, fret.Swap{String: 4, FromFret: 2}), "g string open"},
		{say.Move(guitar, fret.Swap{String: 6, FromFret: 3, ToFret: 1}), "low E string to fret 1"},
	} {
		if got := row.text.Screen(); got != row.want {
			t.Errorf("%q, want %q", got, row.want)
		}
	}
}

// An error keeps its facts; what wraps it has more to say and is printed as it is.
func TestErrors(t *testing.T) {
	err := say.Wrong("{} has no shape here", say.Chord(chord(t, "F#m")))
	if got := err.Error(); got != "F♯m has no shape here" {
		t.Error(got)
	}
	if got := say.Said(err).Aloud(); got != "F sharp minor has no shape here" {
		t.Error(got)
	}
	if got := say.Said(fmt.Errorf("no: %w", err)).Aloud(); got != "no: F♯m has no shape here" {
		t.Error(got)
	}
}

func BenchmarkSentence(b *testing.B) {
	k, _ := theory.KindByID("minor")
	c := theory.NewChord(theory.Note{Letter: theory.F, Alter: 1}, k)
	b.Run("make", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_ = say.Of("This is {}. What is each string?", say.Chord(c))
		}
	})
	b.Run("screen", func(b *testing.B) {
		b.ReportAllocs()
		text := say.Of("This is {}. What is each string?", say.Chord(c))
		for b.Loop() {
			_ = text.Screen()
		}
	})
}
