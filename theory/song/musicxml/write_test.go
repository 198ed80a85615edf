package musicxml

import (
	"encoding/xml"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
)

// xmlNote is a note of a MusicXML file as a reader sees it.
type xmlNote struct {
	Chord *struct{} `xml:"chord"`
	Rest  *struct{} `xml:"rest"`
	Pitch struct {
		Step   string `xml:"step"`
		Alter  int    `xml:"alter"`
		Octave int    `xml:"octave"`
	} `xml:"pitch"`
	Duration int    `xml:"duration"`
	Type     string `xml:"type"`
	Staff    int    `xml:"staff"`
	String   int    `xml:"notations>technical>string"`
	Fret     int    `xml:"notations>technical>fret"`
	Tied     []struct {
		Type string `xml:"type,attr"`
	} `xml:"notations>tied"`
}

// xmlFile is a MusicXML file as a reader sees it.
type xmlFile struct {
	Title    string `xml:"work>work-title"`
	Measures []struct {
		Harmony []struct {
			Root    string   `xml:"root>root-step"`
			Kind    string   `xml:"kind"`
			Degrees []degree `xml:"degree"`
			Bass    string   `xml:"bass>bass-step"`
			Frame   []struct {
				String    int `xml:"string"`
				Fret      int `xml:"fret"`
				Fingering int `xml:"fingering"`
				Barre     *struct {
					Type string `xml:"type,attr"`
				} `xml:"barre"`
			} `xml:"frame>frame-note"`
			First int `xml:"frame>first-fret"`
		} `xml:"harmony"`
		Notes []xmlNote `xml:"note"`
	} `xml:"part>measure"`
}

func readXML(t *testing.T, text string) (f xmlFile) {
	t.Helper()
	if err := xml.Unmarshal([]byte(text), &f); err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	return f
}

// played are charts whose notes are compared, as written, with what the shapes sound.
var played = []string{
	"title: A & <B>\nkey: Bb\n| Bb F7 | Gm / / Eb | Cm7 | F |", "meter: 3/4\n| C | G/B Am F |\n| / Dm / |", "meter: 6/8\n[Em]one [N.C.]two [D]three",
	"| C G Am F C | Dm7b5 G7b9 |",
}

// What is written as MusicXML sounds what the shapes sound, for as long as they last, on both staves.
func TestMusicXMLSaysWhatIsPlayed(t *testing.T) {
	for _, chart := range played {
		for _, name := range []string{"ukulele", "guitar"} {
			a := arrangeChart(t, chart, arrange.Wishes{Tuning: tuning(t, name), Rich: 7})
			f := readXML(t, Write(a, false))
			if f.Title != a.Song.Header.Title || len(f.Measures) != a.Bars {
				t.Errorf("%q, %d measures", f.Title, len(f.Measures))
			}
			checkNotes(t, a, f)
			harmonies := 0
			for _, m := range f.Measures {
				for _, h := range m.Harmony {
					if silent := a.Places[harmonies].Silent; silent != (h.Kind == "none") {
						t.Errorf("%s where it is silent: %v", h.Kind, silent)
					} else if silent {
						harmonies++
						continue
					}
					held := a.Places[harmonies].Path
					checkHarmony(t, held, h.Root, h.Kind, h.Degrees)
					for _, n := range h.Frame {
						if i := len(held.Shape) - n.String; held.Shape[i] != n.Fret || held.Fingers[i] != n.Fingering {
							t.Errorf("%s: a frame with %+v", held.Shape, n)
						}
					}
					harmonies++
				}
			}
		}
	}
}

// checkNotes adds up what sounds at each place on each staff.
func checkNotes(t *testing.T, a arrange.Arrangement, f xmlFile) {
	t.Helper()
	perBeat := 32 / a.Song.Meter().Unit
	for staff := 1; staff <= 2; staff++ {
		var heard, wanted []string
		for n, m := range f.Measures {
			at, last := 0, 0
			for _, note := range m.Notes {
				if note.Staff != staff {
					continue
				}
				if note.Chord == nil {
					at += last
					last = note.Duration
				}
				tied := len(note.Tied) > 0 && note.Tied[0].Type == "stop"
				if note.Rest == nil && !tied {
					letter := strings.Index("C D EF G A B", note.Pitch.Step)
					heard = append(heard, fmt.Sprintf("%d+%d:%d", n+1, at, 12*(note.Pitch.Octave+1)+letter+note.Pitch.Alter))
				}
				if staff == 2 && note.Rest == nil {
					letter := strings.Index("C D EF G A B", note.Pitch.Step)
					if midi := a.Tuning.MIDI(len(a.Tuning.Strings)-note.String, note.Fret); midi != 12*(note.Pitch.Octave+1)+letter+note.Pitch.Alter {
						t.Errorf("string %d at %d is not %+v", note.String, note.Fret, note.Pitch)
					}
				}
			}
			if at+last != a.Song.Meter().Beats*perBeat {
				t.Errorf("measure %d lasts %d", n+1, at+last)
			}
		}
		for _, p := range a.Places {
			for i, at := range p.Path.Shape {
				if at >= 0 && !p.Silent {
					wanted = append(wanted, fmt.Sprintf("%d+%d:%d", p.Bar, int((p.At-1)*float64(perBeat)+0.5), a.Tuning.MIDI(i, at)))
				}
			}
		}
		if strings.Join(heard, " ") != strings.Join(wanted, " ") {
			t.Errorf("staff %d:\n%v, want\n%v", staff, heard, wanted)
		}
	}
}

// checkHarmony makes a chord of a kind and its degrees by the rules of MusicXML and compares its tones.
func checkHarmony(t *testing.T, h arrange.Held, root, kind string, degrees []degree) {
	t.Helper()
	k, ok := theory.KindByID(kind)
	if !ok || root != h.Chord.Root.Letter.String() {
		t.Errorf("%s: root %s, kind %s", h.Chord, root, kind)
		return
	}
	tones := map[int]theory.Interval{}
	for _, tone := range k.Formula {
		tones[tone.Number] = tone
	}
	for _, d := range degrees {
		switch d.Type {
		case "alter":
			tone := tones[d.Value]
			tone.Semitones += d.Alter
			tones[d.Value] = tone
		case "subtract":
			delete(tones, d.Value)
		default:
			tone := theory.Plain(d.Value)
			if d.Value == 7 {
				tone = theory.MinorSeventh
			}
			tone.Semitones += d.Alter
			tones[d.Value] = tone
		}
	}
	var formula []theory.Interval
	for _, tone := range tones {
		formula = append(formula, tone)
	}
	if got, ok := theory.KindByFormula(formula); !ok || got != h.Chord.Kind {
		t.Errorf("%s is written as %s with %v", h.Chord, kind, degrees)
	}
}

// Every kind of chord of the table can be written, but for those that have two tones of one number.
func TestEveryKindIsWrittenAsMusicXML(t *testing.T) {
	checked := 0
	for _, k := range theory.Kinds() {
		numbers := map[int]int{}
		twice := false
		for _, tone := range k.Formula {
			numbers[tone.Number]++
			twice = twice || numbers[tone.Number] > 1
		}
		if twice {
			continue
		}
		checked++
		id, degrees := xmlKind(k)
		checkHarmony(t, arrange.Held{Chord: theory.NewChord(theory.Note{}, k)}, "C", id, degrees)
	}
	if checked < 100 {
		t.Errorf("only %d kinds", checked)
	}
}

// SPARETONE_MUSICXML_XSD names the W3C's schema, musicxml.xsd of version 4.0, with xlink.xsd and xml.xsd beside it.
func TestMusicXMLIsValid(t *testing.T) {
	schema := os.Getenv("SPARETONE_MUSICXML_XSD")
	if _, err := exec.LookPath("xmllint"); schema == "" || err != nil {
		t.Skip("SPARETONE_MUSICXML_XSD does not name the schema, or xmllint is not here")
	}
	for _, chart := range slices.Concat(played, readAgain) {
		for n := range 44 {
			a := arrangeChart(t, chart, arrange.Wishes{Tuning: tuning(t, []string{"ukulele", "guitar", "banjo", "mandolin"}[n%4]), Rich: n % 11})
			cmd := exec.Command("xmllint", "--noout", "--nonet", "--schema", schema, "-")
			cmd.Stdin = strings.NewReader(Write(a, n%2 == 0))
			if out, err := cmd.CombinedOutput(); err != nil {
				t.Errorf("%s: %s", chart, out)
			}
		}
	}
}

// A chord without a shape is written without a frame, and its staff rests.
func TestChordsWithoutAShapeRest(t *testing.T) {
	a := arrangeChart(t, "key: C\n| C | Fm9b5/Db | G | C |", arrange.Wishes{Rich: 5})
	if xml := Write(a, false); strings.Count(xml, "<frame>") != 3 || strings.Count(xml, "<rest/>") != 2 || strings.Count(xml, "<root-step>F") != 1 {
		t.Error(xml)
	}
}

// arrangeChart reads a chart and arranges it.
func arrangeChart(t testing.TB, chart string, w arrange.Wishes) arrange.Arrangement {
	t.Helper()
	s, err := song.Read(chart)
	if err != nil {
		t.Fatal(err)
	}
	a, err := arrange.Arrange(s, w)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// tuning is a tuning by its name.
func tuning(t testing.TB, name string) *fret.Tuning {
	t.Helper()
	on, err := fret.ParseTuning(name)
	if err != nil {
		t.Fatal(err)
	}
	return on
}
