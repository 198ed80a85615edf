package musicxml

import (
	"errors"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"sparetone/theory"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
)

// readAgain are charts that are written as MusicXML and read again.
var readAgain = []string{
	"title: A & <B>\nkey: Bb\ntempo: 96\n| Bb F7 | Gm / / Eb | Cm7 | F |", "key: Am\nmeter: 3/4\n| Am | G/B Am F |\n| / Dm / |", "key: Em\nmeter: 6/8\ntempo: 180\n[Em]one [N.C.]two [D]three",
	"key: C\n| C G Am F C | Dm7b5 G7b9 | C6/9 Cadd9 Csus4 Caug | Cdim7 |", "key: F#m\n" + strings.Repeat("| F#m | C#7 | D | E |\n", 4),
	"key: E\n|: E | B7 :|\nkey: F\n| C7 | F |\nkey: Dm\n| Dm | A7 |",
}

// What is written as MusicXML is read as the same chords at the same beats.
func TestMusicXMLIsReadAsWritten(t *testing.T) {
	for n, chart := range readAgain {
		a := arrangeChart(t, chart, arrange.Wishes{Rich: 2 * n})
		if said, want := strings.Count(Write(a, false), "<fifths>"), len(a.Keys()); said != want {
			t.Errorf("%s: the key is said %d times, want %d", chart, said, want)
		}
		s, err := Read(Write(a, false))
		if err != nil {
			t.Fatal(err)
		}
		changes, bars, err := song.Played(s)
		if err != nil || bars != a.Bars || len(changes) != len(a.Places) {
			t.Fatalf("%s: %d bars, %d changes, %v", chart, bars, len(changes), err)
		}
		for i, p := range a.Places {
			c := changes[i]
			if c.Bar != p.Bar || c.At != p.At || c.Beats != p.Beats || c.Silent != p.Silent || !p.Silent && (c.Chord.Root != p.Path.Chord.Root || c.Chord.Kind != p.Path.Chord.Kind || c.Chord.Bass != p.Path.Chord.Bass) {
				t.Errorf("%+v, want %+v", c, p.Change)
			}
		}
		for i, p := range a.Places {
			in := *s.Header.Key
			if changes[i].Key != nil {
				in = *changes[i].Key
			}
			if in != a.KeyOf(p) {
				t.Errorf("bar %d is in %s, and read in %s", p.Bar, a.KeyOf(p), in)
			}
		}
		h := a.Song.Header
		if s.Header.Title != h.Title || *s.Header.Key != a.Key || s.Header.Tempo != h.Tempo || s.Meter() != a.Song.Meter() {
			t.Errorf("%+v, want %+v", s.Header, h)
		}
		if again, err := song.Read(song.Write(s)); err != nil || !cmp.Equal(typed(s), typed(again), byKind) {
			t.Errorf("%s: %v", song.Write(s), err)
		}
	}
}

// typed is a song whose chords are written by their symbols.
func typed(s song.Song) (out []song.Bar) {
	for _, section := range s.Sections {
		for _, l := range section.Lines {
			for _, b := range l.Bars {
				b.Entries = append([]song.Entry(nil), b.Entries...)
				for i := range b.Entries {
					b.Entries[i].Typed = ""
				}
				out = append(out, b)
			}
		}
	}
	return out
}

// measures is a part of measures.
func xmlOf(measures ...string) string {
	return `<?xml version="1.0"?><score-partwise><part-list/><part id="P1"><measure><note><duration>4</duration></note></measure></part><part id="P2"><measure>` +
		strings.Join(measures, "</measure><measure>") + `</measure></part></score-partwise>`
}

// harmonyOf is a harmony of MusicXML.
func harmonyOf(root, kind, more string) string {
	return "<harmony><root><root-step>" + root + "</root-step></root><kind>" + kind + "</kind>" + more + "</harmony>"
}

// changesOf returns what a song plays, but for where each chord is written.
func changesOf(t testing.TB, s song.Song) []song.Change {
	t.Helper()
	changes, _, err := song.Played(s)
	if err != nil {
		t.Fatal(err)
	}
	for i := range changes {
		changes[i].Written, changes[i].Section = 0, 0
	}
	return changes
}

// byKind compares kinds of chords as what they are: one of each.
var byKind = cmp.Comparer(func(a, b *theory.Kind) bool { return a == b })

// Files as others write them play what a chart plays.
func TestMusicXMLOfOthers(t *testing.T) {
	quarter := "<note><duration>2</duration></note>"
	attributes := "<attributes><divisions>2</divisions><key><fifths>-3</fifths><mode>minor</mode></key><time><beats>4</beats><beat-type>4</beat-type></time></attributes>"
	for _, row := range []struct{ name, file, plays string }{
		{"among notes", xmlOf(attributes+harmonyOf("C", "minor", "")+quarter+quarter+harmonyOf("G", "dominant", "")+quarter+quarter, harmonyOf("A", "major", "<offset>2</offset>")), "| Cm / G7 / | / A / / |"},
		{"after a backup", xmlOf(attributes + quarter + quarter + "<backup><duration>4</duration></backup>" + harmonyOf("C", "major", "")), "| C |"},
		{"notes together count once", xmlOf(attributes + quarter + "<note><chord/><duration>2</duration></note><note><grace/></note>" + harmonyOf("C", "major", "") + quarter), "| N.C. C / / |"},
		{"repeats and endings", xmlOf(`<barline><repeat direction="forward"/></barline>`+harmonyOf("C", "major", ""), `<barline><ending number="1" type="start"/></barline>`+harmonyOf("G", "major", "")+`<barline><repeat direction="backward"/></barline>`, `<barline><ending number="2" type="start"/></barline>`+harmonyOf("F", "major", "")), "| C | G | C | F |"},
		{"three times", xmlOf(harmonyOf("C", "major", "") + `<barline><repeat direction="backward" times="3"/></barline>`), "| C | C | C |"},
		{"degrees", xmlOf(harmonyOf("C", "dominant", "<degree><degree-value>9</degree-value><degree-alter>-1</degree-alter><degree-type>add</degree-type></degree><degree><degree-value>5</degree-value><degree-alter>1</degree-alter><degree-type>alter</degree-type></degree>")), "| C7#5b9 |"},
		{"a bass", xmlOf(harmonyOf("C", "major", "<bass><bass-step>B</bass-step><bass-alter>-1</bass-alter></bass>")), "| C/Bb |"},
		{"no chord", xmlOf(harmonyOf("C", "major", ""), "<harmony><kind>none</kind></harmony>", harmonyOf("F", "major", "")), "| C | N.C. | F |"},
		{"nothing new", xmlOf(harmonyOf("C", "major", ""), quarter), "| C | / |"},
	} {
		s, err := Read(row.file)
		chart, wrong := song.Read(row.plays)
		if err != nil || wrong != nil {
			t.Errorf("%s: %v, %v", row.name, err, wrong)
			continue
		}
		if got, want := changesOf(t, s), changesOf(t, chart); !cmp.Equal(got, want, byKind) {
			t.Errorf("%s: %+v, want %+v", row.name, got, want)
		}
	}
	s, err := Read(xmlOf(attributes+harmonyOf("C", "minor", "")) + " ")
	if err != nil || s.Header.Key == nil || s.Header.Key.String() != "C minor" {
		t.Errorf("%+v, %v", s.Header, err)
	}
}

func TestMusicXMLThatIsWrong(t *testing.T) {
	for file, says := range map[string]string{
		xmlOf(harmonyOf("H", "major", "")):                    `"H" is not the letter of a root`,
		xmlOf(harmonyOf("C", "Italian", "")):                  `"Italian" is no kind of chord we know`,
		xmlOf("<note/>"):                                      "has no harmony",
		"<?xml version=\"1.0\"?><score-timewise/>":            "save it by parts",
		"<?xml version=\"1.0\"?><score-partwise><part>":       "this is no MusicXML that can be read",
		xmlOf("<harmony><function>I</function></harmony>"):    "without a root",
		"<?xml version=\"1.0\" encoding=\"UTF-16\"?><score/>": "this is no MusicXML that can be read",
	} {
		var e *song.ChartError
		if _, err := Read(file); !errors.As(err, &e) || !strings.Contains(err.Error(), says) || e.Line < 1 || theory.Clean(err.Error()) != err.Error() {
			t.Errorf("%.80s: %v, want %s", file, err, says)
		}
	}
	if !Is("\uFEFF\n<?xml version") || !Is("<score-partwise>") || Is("| C |") || Is("<b>") {
		t.Error("what is MusicXML")
	}
}

// Mutated files are refused in one line or read; SPARETONE_STUDY=1 mutates 20,000.
func TestMutatedMusicXML(t *testing.T) {
	count := 500
	if os.Getenv("SPARETONE_STUDY") != "" {
		count = 20_000
	}
	rnd := rand.New(rand.NewPCG(18, 1))
	file := Write(arrangeChart(t, "key: Bb\n| Bb F7 | Gm / / Eb | Cm7 | F |", arrange.Wishes{Rich: 5}), false)
	pieces := []string{"<", ">", "</measure>", "<measure>", "<harmony>", "9", "-1", "1e999", "\x00", "\xff", "&amp;", "&x;", "<!--", "]]>", " number=\"1\""}
	for range count {
		text := file
		for range 1 + rnd.IntN(3) {
			at := rnd.IntN(len(text))
			text = text[:at] + pieces[rnd.IntN(len(pieces))] + text[min(len(text), at+rnd.IntN(6)):]
		}
		s, err := Read(text)
		var e *song.ChartError
		if err != nil && (!errors.As(err, &e) || theory.Clean(err.Error()) != err.Error()) {
			t.Fatalf("%v", err)
		}
		if err == nil {
			if _, err := song.Read(song.Write(s)); err != nil {
				t.Fatalf("%s: %v", song.Write(s), err)
			}
		}
	}
}
