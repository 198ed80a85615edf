package theory_test

import (
	"testing"

	"sparetone/theory"
)

// Over its third no chord is suspended or bare: what sounds beside the third is added. All pairs of a kind without a third
// and a third under it, and what two of them are called instead.
func TestNothingIsSuspendedOverItsThird(t *testing.T) {
	at := func(midi int) theory.Pitch { // how it is spelled is not asked
		return theory.Pitch{Note: theory.Note{Letter: theory.C, Alter: int8(midi % 12)}, Octave: midi/12 - 1}
	}
	for _, k := range theory.Kinds() {
		if k.Numbered(3) >= 0 || k.Numbered(10) >= 0 {
			continue
		}
		for root := range 12 {
			for third := theory.MinorThird.Semitones; third <= theory.MajorThird.Semitones; third++ {
				sounds := []theory.Pitch{at(40 + root + third)}
				for _, tone := range k.Formula {
					sounds = append(sounds, at(64+root+tone.Semitones))
				}
				for _, n := range theory.Name(sounds, theory.Context{All: true}) {
					above := (n.Chord.Bass.Class() - n.Chord.Root.Class() + 12) % 12
					if n.Chord.Kind.Numbered(3) < 0 && n.Chord.Kind.Numbered(10) < 0 && (above == theory.MinorThird.Semitones || above == theory.MajorThird.Semitones) {
						t.Errorf("%v is called %s", sounds, n.Chord.FullSymbol())
					}
				}
			}
		}
	}
	for _, row := range []struct{ sound, want string }{
		{"B D G C", "Gadd4/B Csus2/B Bmb6b9(no5) Cmaj9(no3)/B Cmaj7sus2/B"}, {"E G D C", "Cadd9/E Gsus4/E Em7b13(no5)"}, {"B D G", "G/B"}, {"C F G", "Csus4"},
	} {
		if got := symbols(theory.Name(pitches(t, row.sound), theory.Context{})); got != row.want {
			t.Errorf("%s is %s, want %s", row.sound, got, row.want)
		}
	}
}
