package theory_test

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"sparetone/theory"
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
		"G##7":         "G♯♯ B♯♯ D♯♯ F♯♯",
		"D#maj7":       "D♯ F♯♯ A♯ C♯♯",
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
		c, err := theory.ParseChord(written)
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
		c, err := theory.ParseChord(written)
		if err != nil || c.Bass.String() != want {
			t.Errorf("%s has %s in the bass (%v), want %s", written, c.Bass, err, want)
		}
	}
}

func TestWrongSymbols(t *testing.T) {
	for written, want := range map[string]string{
		"":                       `"": character 1: empty; a chord symbol starts with its root, such as C or F#`,
		"H7":                     `"H7": character 1: a chord symbol starts with its root, a letter from A to G, such as C or F#`,
		"Cq":                     `"Cq": character 2: 'q' says nothing in a chord symbol here`,
		"F♯m7♭5!":                `"F♯m7♭5!": character 7: '!' says nothing in a chord symbol here`,
		"C7b":                    `"C7b": character 3: an alteration is b5, #5, b9, #9, #11, b13 or the like`,
		"C7b7":                   `"C7b7": character 3: an alteration is b5, #5, b9, #9, #11, b13 or the like`,
		"C8":                     `"C8": character 2: 8: the number of a chord is 5, 6, 7, 9, 11, 13 or 6/9`,
		"C/":                     `"C/": character 2: a bass note or a number should follow the slash, as in C/E or C6/9`,
		"C(add9":                 `"C(add9": character 7: the bracket is not closed`,
		"Cadd9)":                 `"Cadd9)": character 6: a closing bracket without an opening one`,
		"C()":                    `"C()": character 3: nothing stands before the closing bracket`,
		"C7,":                    `"C7,": character 4: something should follow`,
		"Cadd":                   `"Cadd": character 2: a number should follow add, as in add9`,
		"Cmmaj":                  `"Cmmaj": character 3: maj should stand right after the root or before 7, 9, 11 or 13`,
		"C7addm":                 `"C7addm": character 3: a number should follow add, as in add9`,
		"C7no":                   `"C7no": character 3: the number of the tone left out should follow, as in no5`,
		"C7sus24sus":             `"C7sus24sus": character 8: a chord is suspended once`,
		"Cmdim":                  `"Cmdim": character 3: the quality of the triad stands once, right after the root`,
		"C\x00":                  `"C\x00": character 2: a control character`,
		"C\xff":                  `"C\xff": character 2: not valid UTF-8`,
		"Csus4(no3)":             `"Csus4(no3)": character 2: sus4(no3): there is no such tone to leave out`,
		"C7b5#5b9#9":             `"C7b5#5b9#9": character 2: 7b5#5b9#9 has the tones R 3 ♭7 ♭5 ♯5 ♭9 ♯9, which are no kind of chord we know`,
		strings.Repeat("C", 200): `"CCCCCCCCCCCCCCCCCCCCCCC…": character 81: too long for a chord symbol`,
	} {
		_, err := theory.ParseChord(written)
		var symbol *theory.SymbolError
		if err == nil || err.Error() != want {
			t.Errorf("%q: %v, want %s", written, err, want)
		} else if !errors.As(err, &symbol) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: %#v", written, err)
		}
	}
}

// anyNote draws a note with up to two accidentals.
func anyNote(t *rapid.T, label string) theory.Note {
	return theory.Note{
		Letter: theory.Letter(rapid.IntRange(0, 6).Draw(t, label+" letter")),
		Alter:  int8(rapid.IntRange(-2, 2).Draw(t, label+" alteration")),
	}
}

// anyChord draws a chord of any kind, with any tones left out that its kind allows.
func anyChord(t *rapid.T) theory.Chord {
	c := theory.NewChord(anyNote(t, "root"), rapid.SampledFrom(theory.Kinds()).Draw(t, "kind"))
	if rapid.Bool().Draw(t, "slash") {
		c.Bass = anyNote(t, "bass")
	}
	for n, tone := range c.Kind.Formula {
		for _, may := range c.Kind.Omit {
			if may == tone && rapid.Bool().Draw(t, "without "+tone.String()) {
				c.Without |= 1 << n
			}
		}
	}
	return c
}

func TestSymbolsAreReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyChord(t)
		if got, err := theory.ParseChord(c.FullSymbol()); err != nil || got != c {
			t.Errorf("%s is read back as %s: %v", c.FullSymbol(), got.FullSymbol(), err)
		}
		c.Without = 0
		for _, written := range []string{c.Symbol(), c.String()} {
			if got, err := theory.ParseChord(written); err != nil || got != c {
				t.Errorf("%s is read back as %s: %v", written, got.FullSymbol(), err)
			}
		}
	})
}

func FuzzParseChord(f *testing.F) {
	for _, k := range theory.Kinds() {
		for _, symbol := range k.Symbols {
			f.Add("F#" + symbol + "/C")
		}
	}
	for _, s := range []string{"", "C(", "C7(b9,#11)", "B♭", "C𝄫", "C\xff", "C7no", "C//E", "C6/9/Bb", "Cmmmm", "C+++", "C\u0300", "A##x"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		c, err := theory.ParseChord(s)
		if err != nil {
			if message := err.Error(); strings.ContainsAny(message, "\n\r\x00\x1b") || !utf8.ValidString(message) {
				t.Errorf("the error for %q is no clear line: %q", s, message)
			}
			return
		}
		if again, err := theory.ParseChord(c.FullSymbol()); err != nil || again != c {
			t.Errorf("%q is %s, read back as %s: %v", s, c.FullSymbol(), again.FullSymbol(), err)
		}
	})
}

func BenchmarkParseChord(b *testing.B) {
	for b.Loop() {
		if _, err := theory.ParseChord("F#7(b9,#11)/C#"); err != nil {
			b.Fatal(err)
		}
	}
}
