package read_test

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"sparetone/theory"
	"sparetone/theory/drawn"
	"sparetone/theory/read"
)

func TestSymbols(t *testing.T) {
	for written, want := range map[string]string{
		"C":            "C E G",
		"Cm":           "C E♭ G",
		"C-":           "C E♭ G",
		"C−":           "C E♭ G",
		"Cmin":         "C E♭ G",
		"CM7":          "C E G B",
		"Cmaj7":        "C E G B",
		"CΔ":           "C E G B",
		"C7M":          "C E G B",
		"C7":           "C E G B♭",
		"Cm7b5":        "C E♭ G♭ B♭",
		"Cø":           "C E♭ G♭ B♭",
		"CØ7":          "C E♭ G♭ B♭",
		"C°7":          "C E♭ G♭ B♭♭",
		"Co7":          "C E♭ G♭ B♭♭",
		"Cdim":         "C E♭ G♭",
		"C+":           "C E G♯",
		"C7+":          "C E G♯ B♭",
		"C7+5":         "C E G♯ B♭",
		"C7-9":         "C E G B♭ D♭",
		"C7#9":         "C E G B♭ D♯",
		"C7♯9":         "C E G B♭ D♯",
		"C7(b9,#11)":   "C E G B♭ D♭ F♯",
		"C7 (b9 #11)":  "C E G B♭ D♭ F♯",
		"C7#11b9":      "C E G B♭ D♭ F♯",
		"Cadd9":        "C E G D",
		"C(add9)":      "C E G D",
		"Cadd2":        "C E G D",
		"C2":           "C E G D",
		"Cadd4":        "C E F G",
		"Cadd11":       "C E F G",
		"Cmadd9":       "C E♭ G D",
		"Cm(add9)":     "C E♭ G D",
		"C6/9":         "C E G A D",
		"C69":          "C E G A D",
		"C6(add9)":     "C E G A D",
		"Cm6/9":        "C E♭ G A D",
		"Csus":         "C F G",
		"Csus2":        "C D G",
		"C7sus4":       "C F G B♭",
		"Csus7":        "C F G B♭",
		"C9sus":        "C F G B♭ D",
		"Cmaj9#11":     "C E G B D F♯",
		"CmMaj7":       "C E♭ G B",
		"Cm(maj7)":     "C E♭ G B",
		"Cm/maj7":      "C E♭ G B",
		"C-Δ7":         "C E♭ G B",
		"C+maj7":       "C E G♯ B",
		"C5":           "C G",
		"C13":          "C E G B♭ D A",
		"C11":          "C E G B♭ D F",
		"C/E":          "C E G",
		"C / E":        "C E G",
		"C6/9/E":       "C E G A D",
		"Cm/Bb":        "C E♭ G",
		"C/D":          "C E G",
		"B♭":           "B♭ D F",
		"Bb":           "B♭ D F",
		"F♯":           "F♯ A♯ C♯",
		"Cbb":          "C♭♭ E♭♭ G♭♭",
		"C𝄫":           "C♭♭ E♭♭ G♭♭",
		"G##7":         "Gx Bx Dx Fx",
		"D#maj7":       "D♯ Fx A♯ Cx",
		" F# m7b5 ":    "F♯ A C E",
		"f#m":          "F♯ A C♯",
		"C(b5)":        "C E G♭",
		"C7(no5)":      "C E B♭",
		"C7no5":        "C E B♭",
		"C(no3)":       "C G",
		"C13(no5,no9)": "C E B♭ A",
		"C major":      "C E G",
		"C minor 7":    "C E♭ G B♭",
		"Cmaj7(9)":     "C E G B D",
		"Calt":         "C E G♯ B♭ D♯",
		"Cmaj(7)":      "C E G B",
		"CM(b5)":       "C E G♭",
		"CM6":          "C E G A",
		"C7(alt)":      "C E G♯ B♭ D♯",
		"C7/9":         "C E G B♭ D",
		"C7M/9":        "C E G B D",
		"C7(13)":       "C E G B♭ A",
		"C/9":          "C E G D",
		"Cj7":          "C E G B",
		"Cm#7":         "C E♭ G B",
		"C–7":          "C E♭ G B♭",
		"Cm7(11)":      "C E♭ G B♭ F",
	} {
		c, err := read.Chord(written)
		if err != nil {
			t.Errorf("%s: %v", written, err)
		} else if got := notes(c.Tones()); got != want {
			t.Errorf("%s: %s, want %s", written, got, want)
		}
	}
}

func TestBasses(t *testing.T) {
	for written, want := range map[string]string{
		"C": "C", "C/E": "E", "C / E": "E", "C6/9/E": "E", "Cm/Bb": "B♭", "C/D": "D", "C6/9": "C", "Cm/maj7": "C", "C/b": "B",
	} {
		c, err := read.Chord(written)
		if err != nil || c.Bass.String() != want {
			t.Errorf("%s has %s in the bass (%v), want %s", written, c.Bass, err, want)
		}
	}
}

// An error says in one line what is wrong, where, and which symbol that is read comes nearest.
func TestWrongSymbols(t *testing.T) {
	for written, want := range map[string]string{
		"":                       `"": character 1: empty; a chord symbol starts with its root, such as C or F#`,
		"X7":                     `"X7": character 1: a chord symbol starts with its root, a letter from A to G, such as C or F#`,
		"Cq":                     `"Cq": character 2: 'q' says nothing in a chord symbol here; the nearest we know is C`,
		"F♯m7♭5?":                `"F♯m7♭5?": character 7: '?' says nothing in a chord symbol here; the nearest we know is F#m7b5`,
		"Cmja7":                  `"Cmja7": character 3: maj should stand right after the root or before 7, 9, 11 or 13; the nearest we know is Cmaj7`,
		"C7b":                    `"C7b": character 3: an alteration is b5, #5, b9, #9, #11, b13 or the like; the nearest we know is C7`,
		"C7b7":                   `"C7b7": character 3: an alteration is b5, #5, b9, #9, #11, b13 or the like; the nearest we know is C7`,
		"C8":                     `"C8": character 2: 8: the number of a chord is 5, 6, 7, 9, 11, 13 or 6/9; the nearest we know is C`,
		"C0":                     `"C0": character 2: 0 is no number of a chord: for a diminished chord write dim, o or °; the nearest we know is C`,
		"C/":                     `"C/": character 2: a bass note or a number should follow the slash, as in C/E or C6/9`,
		"C(add9":                 `"C(add9": character 7: the bracket is not closed; the nearest we know is Cadd9`,
		"Cadd9)":                 `"Cadd9)": character 6: a closing bracket without an opening one; the nearest we know is Cadd9`,
		"C()":                    `"C()": character 3: nothing stands before the closing bracket; the nearest we know is C`,
		"C7/,":                   `"C7/,": character 4: nothing stands before the ,; the nearest we know is C7`,
		"Cadd":                   `"Cadd": character 2: a number should follow add, as in add9; the nearest we know is C`,
		"Cadd7":                  `"Cadd7": character 2: add7 could be either seventh: write 7 for the minor one, maj7 for the major one; the nearest we know is C`,
		"Cmmaj":                  `"Cmmaj": character 3: maj should stand right after the root or before 7, 9, 11 or 13; the nearest we know is Cmaj`,
		"C7addm":                 `"C7addm": character 3: a number should follow add, as in add9; the nearest we know is C7`,
		"C7no":                   `"C7no": character 3: the number of the tone left out should follow, as in no5; the nearest we know is C7`,
		"C7sus24sus":             `"C7sus24sus": character 8: a chord is suspended once; the nearest we know is C9sus4`,
		"Cmdim":                  `"Cmdim": character 3: the quality of the triad stands once, right after the root; the nearest we know is Cdim`,
		"C+7b5":                  `"C+7b5": character 2: augmented raises the fifth and b5 lowers it: write b5#5 if both sound, or one of them; the nearest we know is C7#5`,
		"Caugb5":                 `"Caugb5": character 2: augmented raises the fifth and b5 lowers it: write b5#5 if both sound, or one of them; the nearest we know is Caug`,
		"Cdim#5":                 `"Cdim#5": character 2: diminished lowers the fifth and #5 raises it: write m with the fifth that is meant, such as mb5 or m#5; the nearest we know is Cdim`,
		"Cm+7":                   `"Cm+7": character 3: +7 after m could raise the fifth or the seventh: write m7#5 or m(maj7); the nearest we know is Cm#5`,
		"C\x00":                  `"C": character 2: a control character`,
		"C\u202e7":               `"C7": character 2: an invisible character`,
		"C\u200b7":               `"C\u200b7": character 2: an invisible character`,
		"C\xff":                  `"C": character 2: not valid UTF-8`,
		"Csus4(no3)":             `"Csus4(no3)": character 2: sus4(no3): there is no such tone to leave out; the nearest we know is Csus4`,
		"C(no1,no3)":             `"C(no1,no3)": character 2: (no1,no3) leaves one tone, and a chord has two or more; the nearest we know is C`,
		"C7b5#5b9#9":             `"C7b5#5b9#9": character 2: 7b5#5b9#9 has the tones R 3 ♭7 ♭5 ♯5 ♭9 ♯9, which are no kind of chord we know; the nearest we know is C7b5#5`,
		"N.C.":                   `"N.C.": character 1: this says that no chord is played`,
		strings.Repeat("C", 200): `"CCCCCCCCCCCCCCCCCCCCCCCCCCCCCCC…": character 81: too long for a chord symbol`,
	} {
		_, err := read.Chord(written)
		var symbol *read.SymbolError
		if err == nil || err.Error() != want {
			t.Errorf("%q: %v, want %s", written, err, want)
		} else if !errors.As(err, &symbol) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: %#v", written, err)
		}
	}
}

// What could be two chords is asked about.
func TestDoubtfulChords(t *testing.T) {
	for written, want := range map[string]string{
		"Do":     "Do could be C or Ddim: write one of these",
		"do":     "do could be C or Ddim: write one of these",
		"Dob5":   "Dob5 could be Cb5 or Ddim: write one of these",
		"Do7":    "Do7 could be C7 or Ddim7: write one of these",
		"Do/E":   "Do/E could be C/E or Ddim/E: write one of these",
		"B-Dur":  "B beside dur could be B flat or B natural: write Bb, or H",
		"B/Fis":  "B beside fis could be B flat or B natural: write Bb, or H",
		"b moll": "b beside moll could be B flat or B natural: write Bb, or H",
	} {
		if _, err := read.Chord(written); err == nil || err.Error() != want {
			t.Errorf("%q: %v; want %s", written, err, want)
		}
	}
}

// A chord is named by its symbol or in words, its root in any usual spelling.
func TestChordsInManyWords(t *testing.T) {
	for want, texts := range map[string][]string{
		"Bb":       {"B flat", "b flat major", "Bflat", "B♭ major", "Si bémol", "sib", "Hb", "Bes"},
		"Bbm":      {"B flat minor", "B-flat minor", "sib mineur"},
		"F#m":      {"F sharp minor", "F♯ minor", "Fis m", "Fism", "fis moll", "fis-Moll", "fa dièse mineur", "fa dièse m", "F-sharp minor", "an F sharp minor chord"},
		"Ebm7":     {"E flat m7", "E flat minor seventh", "Esm7", "mi♭ minor 7th", "E flat, minor seventh"},
		"B":        {"H", "si", "B major", "H-Dur"},
		"B7":       {"H7", "si7", "B seven"},
		"Eb":       {"Es-Dur", "mi bémol majeur", "Es Dur"},
		"Am":       {"A minor", "a minor", "a minor chord", "Lam"},
		"Cdim":     {"C diminished", "Cdim", "C diminished triad"},
		"D7":       {"D seventh", "D dominant seventh", "D 7th", "re7"},
		"Abadd9":   {"A flat added ninth", "Asadd9", "A flat add 9"},
		"C/E":      {"C/E", "C major/E", "C over E", "Do/Mi"},
		"F#/A#":    {"Fis/Ais", "F sharp/A sharp"},
		"Cmaj7":    {"Domaj7", "DoM7", "DoΔ", "Do7M", "C major seven"},
		"Cm7":      {"Dom7", "Do-7", "do mineur 7", "Dom7"},
		"C#":       {"Do#", "do dièse", "Cis"},
		"G#7":      {"sol#7", "Gis7"},
		"C7b5":     {"C seven flat five", "C dominant seven flat five"},
		"Cm7b5":    {"C minor seven flat five", "C half diminished", "C half-diminished seventh"},
		"C7#9":     {"C seven sharp nine"},
		"C#9":      {"C sharp nine"},
		"C6/9":     {"C six nine"},
		"Csus4":    {"C suspended", "C suspended fourth", "C sus four"},
		"Gbmaj7":   {"Ges maj7", "Gesmaj7", "solb maj7"},
		"F7":       {"Fa7"},
		"Esus4":    {"Misus4"},
		"C7(no3)":  {"C seven without third", "C7 no 3rd"},
		"Cm(maj7)": {"C minor major seven"},
	} {
		for _, text := range texts {
			if c, err := read.Chord(text); err != nil {
				t.Errorf("%q: %v; want %s", text, err, want)
			} else if c.FullSymbol() != want {
				t.Errorf("%q is read as %s; want %s", text, c.FullSymbol(), want)
			}
		}
	}
	for _, text := range []string{"", "flat", "purple", "B flat purple", "X minor", "an", "C//E", "C sharp sharp flat"} {
		if c, err := read.Chord(text); err == nil {
			t.Errorf("%q is read as %s", text, c)
		}
	}
}

// alt is one of several chords, and that is said.
func TestAlteredIsOneOfSeveral(t *testing.T) {
	for text, want := range map[string]bool{"C7alt": true, "Calt": true, "C7alt.": true, "C7 (alt)": true, "C altered": true, "C7#5#9": false, "C7": false} {
		if _, alt, err := read.ChordOrAlt(text); err != nil || alt != want {
			t.Errorf("%s: %v, %v", text, alt, err)
		}
	}
}

func TestSymbolsAreReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawn.Chord(t)
		if got, err := read.Chord(c.FullSymbol()); err != nil || got != c {
			t.Errorf("%s is read back as %s: %v", c.FullSymbol(), got.FullSymbol(), err)
		}
		c.Without = 0
		for _, written := range []string{c.Symbol(), c.String()} {
			if got, err := read.Chord(written); err != nil || got != c {
				t.Errorf("%s is read back as %s: %v", written, got.FullSymbol(), err)
			}
		}
	})
}

func FuzzChord(f *testing.F) {
	for _, k := range theory.Kinds() {
		for _, symbol := range k.Symbols {
			f.Add("F#" + symbol + "/C")
		}
	}
	for _, s := range []string{"", "C(", "C7(b9,#11)", "B♭", "C𝄫", "C\xff", "C7no", "C//E", "C6/9/Bb", "Cmmmm", "Do7", "Fism", "B flat minor", "C7(9-)", "Cmja7", "C\u202e7", "C⁷", "C+++", "C\u0300", "A##x"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		c, err := read.Chord(s)
		if err != nil {
			if message := err.Error(); strings.ContainsFunc(message, theory.Moves) || !utf8.ValidString(message) {
				t.Errorf("the error for %q is no clear line: %q", s, message)
			}
			return
		}
		if again, err := read.Chord(c.FullSymbol()); err != nil || again != c {
			t.Errorf("%q is %s, read back as %s: %v", s, c.FullSymbol(), again.FullSymbol(), err)
		}
	})
}

func BenchmarkChord(b *testing.B) {
	for b.Loop() {
		if _, err := read.Chord("F#7(b9,#11)/C#"); err != nil {
			b.Fatal(err)
		}
	}
}
