package fret

import (
	"slices"
	"strconv"
	"strings"

	"sparetone/theory"
)

// tunings is the table of tunings that have a name. To add one, add a row. Tunings and necks are
// common practice, no source; necks of one instrument differ, so Frets and Scale are ordinary ones. Scales are from memory.
var tunings = []*Tuning{
	{"ukulele", "ukulele, g C E A", open("G4 C4 E4 A4"), 15, 0, 380, 0},
	{"ukulele-low-g", "ukulele with a low fourth string, G C E A", open("G3 C4 E4 A4"), 15, 0, 430, 0},
	{"ukulele-d", "ukulele in D, a D F♯ B", open("A4 D4 F#4 B4"), 15, 0, 345, 0},
	{"baritone", "baritone ukulele, D G B E", open("D3 G3 B3 E4"), 18, 0, 510, 0},
	{"guitar", "guitar, E A D G B E", open("E2 A2 D3 G3 B3 E4"), 20, 0, 650, 0},
	{"guitar-drop-d", "guitar with a low D, D A D G B E", open("D2 A2 D3 G3 B3 E4"), 20, 0, 650, 0},
	{"guitar-dadgad", "guitar in DADGAD, D A D G A D", open("D2 A2 D3 G3 A3 D4"), 20, 0, 650, 0},
	{"guitar-open-g", "guitar in open G, D G D G B D", open("D2 G2 D3 G3 B3 D4"), 20, 0, 650, 0},
	{"tenor-guitar", "tenor guitar in fifths, C G D A", open("C3 G3 D4 A4"), 18, 0, 585, 0},
	{"mandolin", "mandolin or violin, G D A E", open("G3 D4 A4 E5"), 17, 0, 350, 0},
	{"mandola", "mandola or viola, C G D A", open("C3 G3 D4 A4"), 17, 0, 420, 0},
	{"octave-mandolin", "octave mandolin, G D A E", open("G2 D3 A3 E4"), 17, 0, 530, 0},
	{"mandocello", "mandocello or cello, C G D A", open("C2 G2 D3 A3"), 17, 0, 635, 0},
	{"tenor-banjo", "tenor banjo, C G D A", open("C3 G3 D4 A4"), 19, 0, 580, 0},
	{"irish-tenor-banjo", "Irish tenor banjo, G D A E", open("G2 D3 A3 E4"), 19, 0, 530, 0},
	{"plectrum-banjo", "plectrum banjo, C G B D", open("C3 G3 B3 D4"), 22, 0, 670, 0},
	{"banjo", "five-string banjo in open G, g D G B D", open("G4 D3 G3 B3 D4"), 22, 5, 670, 0},
	{"banjo-double-c", "five-string banjo in double C, g C G C D", open("G4 C3 G3 C4 D4"), 22, 5, 670, 0},
	{"cavaquinho", "cavaquinho, D G B D", open("D4 G4 B4 D5"), 17, 0, 340, 0},
	{"charango", "charango, G C E A E", open("G4 C5 E5 A4 E5"), 17, 0, 370, 0},
	{"bass", "bass guitar, E A D G", open("E1 A1 D2 G2"), 20, 0, 864, 0},
}

// titlesSpoken are the titles that say something by a sign or a small letter, as they are said, by the tunings' names.
var titlesSpoken = map[string]string{
	"ukulele":        "ukulele, high g C E A",
	"ukulele-d":      "ukulele in D, high a D F sharp B",
	"banjo":          "five-string banjo in open G, high g D G B D",
	"banjo-double-c": "five-string banjo in double C, high g C G C D",
}

// Called is what the tuning is of, without its strings: ukulele in D. A tuning that was typed is called by its title.
func (t *Tuning) Called() string {
	called, _, _ := strings.Cut(t.Title, ",")
	return called
}

// TitleSpoken is the tuning's title as it is said: signs in words.
func (t *Tuning) TitleSpoken() string {
	if said, ok := titlesSpoken[t.Name]; ok {
		return said
	}
	if slices.ContainsFunc(tunings, func(named *Tuning) bool { return named.Name == t.Name }) {
		return t.Title
	}
	out := "strings"
	for _, p := range t.Strings {
		out += " " + theory.Spoken(p.Note) + " " + strconv.Itoa(p.Octave)
	}
	return out
}

// alias is another way to type the name of a tuning in the table.
type alias struct{ typed, name string }

// otherNames are names of tunings that have another in the table.
var otherNames = []alias{{"uke", "ukulele"}, {"violin", "mandolin"}, {"viola", "mandola"}, {"cello", "mandocello"}}

// asStrings are strings without octaves that mean a tuning of the table. Typed in lower case throughout they mean
// the first that has these letters.
var asStrings = []alias{
	{"gCEA", "ukulele"}, {"GCEA", "ukulele-low-g"}, {"aDF#B", "ukulele-d"}, {"DGBE", "baritone"}, {"EADGBE", "guitar"},
	{"DADGBE", "guitar-drop-d"}, {"DADGAD", "guitar-dadgad"}, {"DGDGBD", "guitar-open-g"}, {"CGDA", "tenor-guitar"},
	{"GDAE", "mandolin"}, {"CGBD", "plectrum-banjo"}, {"gDGBD", "banjo"}, {"gCGCD", "banjo-double-c"},
	{"DGBD", "cavaquinho"}, {"GCEAE", "charango"}, {"EADG", "bass"},
}

// Tunings returns the table of named tunings, the ukulele first. It must not be changed.
func Tunings() []*Tuning { return tunings }

// open reads a row of pitches. It panics on one that is none: the table is ours.
func open(row string) []theory.Pitch {
	var out []theory.Pitch
	for _, f := range strings.Fields(row) {
		p, err := theory.ParsePitch(f)
		if err != nil {
			panic("fret: tunings: " + err.Error())
		}
		out = append(out, p)
	}
	return out
}
