package song

import (
	_ "embed"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"sparetone/theory"
)

//go:embed testdata/charts.txt
var chartsByHand string

// chartRow is a chart and what it plays.
type chartRow struct{ name, chart, plays string }

// byHand reads the charts that were written by hand.
func byHand(t testing.TB) (rows []chartRow) {
	t.Helper()
	for _, entry := range strings.Split(chartsByHand, "\n== ")[1:] {
		name, rest, _ := strings.Cut(entry, "\n")
		chart, plays, ok := strings.Cut(rest, "\n-- ")
		if !ok {
			t.Fatalf("%s: nothing said of what it plays", name)
		}
		rows = append(rows, chartRow{name, chart, strings.TrimSpace(plays)})
	}
	return rows
}

// plays writes what a song plays as testdata/charts.txt does.
func plays(t testing.TB, s Song) string {
	t.Helper()
	changes, _, err := Played(s)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for n, c := range changes {
		if n > 0 {
			sep := " "
			if c.Bar != changes[n-1].Bar {
				sep = " | "
			}
			b.WriteString(sep)
		}
		if c.Silent {
			b.WriteString("~")
		} else {
			b.WriteString(c.Chord.FullSymbol())
		}
		if c.Beats != float64(s.Meter().Beats) {
			fmt.Fprintf(&b, ":%g", c.Beats)
		}
	}
	return b.String()
}

// written reads a chart again that was written from a song, and checks that it is the same song.
func checkWritten(t testing.TB, name string, s Song) {
	t.Helper()
	again, err := Read(Write(s))
	if err != nil {
		t.Errorf("%s, written as\n%s\nis not read: %v", name, Write(s), err)
	} else if diff := cmp.Diff(s, again, byKind); diff != "" {
		t.Errorf("%s, written as\n%s\nis read as another: %s", name, Write(s), diff)
	}
}

// byKind compares kinds of chords as what they are: one of each.
var byKind = cmp.Comparer(func(a, b *theory.Kind) bool { return a == b })

func TestChartsByHand(t *testing.T) {
	for _, row := range byHand(t) {
		s, err := Read(row.chart)
		if where, wrong := strings.CutPrefix(row.plays, "error "); wrong {
			var e *ChartError
			if !errors.As(err, &e) {
				t.Errorf("%s: no error, but %v", row.name, s)
			} else if got := fmt.Sprintf("%d:%d", e.Line, e.Column); got != where {
				t.Errorf("%s: error at %s, want %s: %v", row.name, got, where, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", row.name, err)
			continue
		}
		if got := plays(t, s); got != row.plays {
			t.Errorf("%s plays\n%s, want\n%s", row.name, got, row.plays)
		}
		checkWritten(t, row.name, s)
	}
}

// progressions are in many keys and of many kinds; each with words of as many lines as it has pairs of chords.
var progressions = []string{
	"C G7 Am F", "D A Bm G", "Em C G D", "F#m B7 E A", "Bbmaj7 Gm7 Cm7 F7", "Am E7 Dm Am", "G/B C6 Dsus4 D7", "Eb Ab Bb7 Eb",
	"Bm7b5 E7b9 Am6 Am", "C#m A6/9 Emaj7 Badd9", "Ddim7 Caug Fmaj9 G13",
}

var wordings = []string{
	"rain on the window again", "дождь стучит в окно опять", "η βροχή στο παράθυρο", "窓の外は雨", "pluie sur l’été",
	"sonnenschein überm dach", "الشمس فوق البيت",
}

// ways are the ways to write four chords over words.
var ways = []struct {
	name  string
	write func(chords []string, words string) string
}{
	{"bars", func(c []string, _ string) string { return "| " + strings.Join(c, " | ") + " |\n" }},
	{"bars, tight", func(c []string, _ string) string { return "|" + strings.Join(c, "|") + "|" }},
	{"bars, loose", func(c []string, _ string) string { return "  |   " + strings.Join(c, "\t|  ") + "   ||\r\n" }},
	{"bars by two lines", func(c []string, w string) string {
		return "[" + "Verse" + "]\r\n| " + c[0] + " | " + c[1] + " |\r\n" + w + "\r\n| " + c[2] + " | " + c[3] + " |\r\n"
	}},
	{"signs", func(c []string, _ string) string {
		return strings.NewReplacer("#", "♯", "Bb", "B♭", "Eb", "E♭", "Ab", "A♭", "7b", "7♭", "dim", "°", "aug", "+", "maj", "Δ").Replace("𝄀 " + strings.Join(c, " 𝄀 ") + " 𝄂")
	}},
	{"brackets", func(c []string, w string) string {
		r := []rune(w)
		n := len(r) / 4
		var b strings.Builder
		for i := range 4 {
			end := (i + 1) * n
			if i == 3 {
				end = len(r)
			}
			b.WriteString("[" + c[i] + "]" + string(r[i*n:end]))
		}
		return b.String()
	}},
	{"above", func(c []string, w string) string { return strings.Join(c, "   ") + "\n" + w + "\n" }},
	{"above, with tabs and a name", func(c []string, w string) string {
		return "Chorus:\n" + strings.Join(c, "\t") + "\r\n" + w + "\r\n"
	}},
	{"above by halves", func(c []string, w string) string {
		return "A title\n\n  " + c[0] + "  " + c[1] + "\n" + w + "\n\n " + c[2] + "         " + c[3] + "\n" + w
	}},
}

// drawn are the charts of every progression in every way of writing, the words in turn.
func drawnCharts() (rows []chartRow) {
	for n, p := range progressions {
		for m, way := range ways {
			words := wordings[(n+m)%len(wordings)]
			rows = append(rows, chartRow{way.name + " of " + p, way.write(strings.Fields(p), words), strings.ReplaceAll(p, " ", " | ")})
		}
	}
	return rows
}

func TestChartsInAllWaysOfWriting(t *testing.T) {
	for _, row := range drawnCharts() {
		s, err := Read(row.chart)
		if err != nil {
			t.Errorf("%s: %v\n%s", row.name, err, row.chart)
			continue
		}
		if got := plays(t, s); got != row.plays {
			t.Errorf("%s:\n%s\nplays %s", row.name, row.chart, got)
		}
		checkWritten(t, row.name, s)
	}
	if n := len(drawnCharts()) + len(byHand(t)); n < 150 {
		t.Errorf("%d charts, want 150 at least", n)
	}
}

func TestWhereChordsStandOverWords(t *testing.T) {
	for _, row := range []struct{ chart, over string }{
		{"C    G\nRain falls", "C over R, G over f"},
		{"[C]Rain [G]falls", "C over R, G over f"},
		{"C   G\n雨が降る夜", "C over 雨, G over 降"},
		{"C G\ne\u0301te\u0301", "C over e, G over e"},
		{"\tC\n\tRain", "C over R"},
		{"C     G\nRain", "C over R, G at 6"},
	} {
		s, err := Read(row.chart)
		if err != nil {
			t.Fatal(err)
		}
		line := s.Sections[0].Lines[0]
		words := []rune(strings.TrimRight(line.Words, " "))
		var over []string
		for _, o := range line.Over {
			if o.At < len(words) {
				over = append(over, fmt.Sprintf("%s over %c", o.Chord, words[o.At]))
			} else {
				over = append(over, fmt.Sprintf("%s at %d", o.Chord, o.At))
			}
		}
		if got := strings.Join(over, ", "); got != row.over {
			t.Errorf("%q: %s, want %s", row.chart, got, row.over)
		}
	}
}

func TestHeaderIsRead(t *testing.T) {
	for _, row := range byHand(t) {
		if row.name != "header" {
			continue
		}
		s, err := Read(row.chart)
		if err != nil {
			t.Fatal(err)
		}
		h := s.Header
		got := fmt.Sprint(h.Title, " ", h.Key.ASCII(), " ", h.Tempo, " ", h.Meter, " ", h.Tuning.Name, " ", h.Capo, " ", h.Strum, " ", h.Pick)
		if want := "Wet socks Bb major 96 {6 8} baritone 2 D . D U . U 4 2 3 1"; got != want {
			t.Errorf("%s, want %s", got, want)
		}
		return
	}
	t.Error("no chart named header")
}

// A chord stands in the key in which it is written, also where its section comes again.
func TestKeysOfChords(t *testing.T) {
	s, err := Read("key: C\n[Verse]\n| C |\nkey: D\n[Chorus]\n|: D | A :|\n| D |\nkey: Em\n| Em |\n[Verse]\n[Chorus]\n")
	if err != nil {
		t.Fatal(err)
	}
	changes, _, err := Played(s)
	if err != nil {
		t.Fatal(err)
	}
	got := ""
	for _, c := range changes {
		k := "own"
		if c.Key != nil {
			k = c.Key.Symbol()
		}
		got += c.Chord.Symbol() + " in " + k + ", "
	}
	if within, err := Read("[Verse]\nkey: Eb\n| Eb |"); err != nil || within.Header.Key == nil || within.Sections[0].Lines[0].Key != nil {
		t.Errorf("the first key, in a section, is not the song's: %+v, %v", within, err)
	}
	if want := "C in own, D in D, A in D, D in D, A in D, D in D, Em in Em, C in own, D in D, A in D, D in D, A in D, D in D, Em in Em, "; got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
}

func TestErrorsOfCharts(t *testing.T) {
	for _, row := range []struct{ chart, says string }{
		{"| C | Gmjaor |", `line 1, column 7: "Gmjaor": character 3: maj should stand right after the root or before 7, 9, 11 or 13; the nearest we know is Gm`},
		{"title: x\n\nC   G   Amm  F\nla", `line 3, column 9: "Amm": character 3: the quality of the triad stands once, right after the root; the nearest we know is Am`},
		{"tempo: fast\n| C |", `line 1, column 8: tempo: "fast": a tempo is a number of beats a minute from 30 to 300`},
		{"pick: 4 2 9\n| C |", `line 1, column 7: pick: "9": an order is the numbers of strings from 1 to 8, . for a rest, - to ring on, (41) for two together, 4h to hammer on, such as 4 2 3 1`},
		{"capoo: 2\n| C |", `line 1, column 1: "capoo:" is no line of the header; the nearest we know is capo:`},
		{"\xff", "line 1, column 1: not valid UTF-8: save the file as text in UTF-8"},
		{"| B | H |", `line 1, column 3: beside an H this could be B flat or B natural: write Bb for B flat, or B for each H`},
		{"| C |\nkey: D", `line 2, column 1: a key stands before the lines that are in it, and none follows`},
	} {
		if _, err := Read(row.chart); err == nil || err.Error() != row.says {
			t.Errorf("%q: %v\nwant %s", row.chart, err, row.says)
		}
	}
}

func TestPatternsAreReadAndWritten(t *testing.T) {
	for typed, want := range map[string]string{"D . D U . U D U": "D . D U . U D U", "d u - ↓": "D U . D", "D-DU-UDU": "D . D U . U D U", "D DU UDU": "D D U U D U"} {
		if p, err := ParseStrum(typed); err != nil || p.String() != want {
			t.Errorf("%s: %s, %v", typed, p, err)
		}
	}
	for typed, want := range map[string]string{"4 2 3 1": "4 2 3 1", "(41) . - 4h": "(41) . - 4h", "4,2": "4 2"} {
		if p, err := ParsePick(typed, 4); err != nil || p.String() != want {
			t.Errorf("%s: %s, %v", typed, p, err)
		}
	}
	for _, typed := range []string{"", "5", "41", "(44)", "(41", "h", "0", "(41)h", "D"} {
		if p, err := ParsePick(typed, 4); err == nil {
			t.Errorf("%q is read as %s", typed, p)
		}
	}
	p, _ := ParseStrum("D . D U . U D U")
	if p.PerBeat(4) != 2 || p.PerBeat(3) != 2 {
		t.Error("eight strokes are two a beat")
	}
	if p, _ := ParsePick("4 2 3 1", 4); p.PerBeat(4) != 1 {
		t.Error("four plucks in four beats are one a beat")
	}
}

// mutated changes a chart in a few places.
func mutated(rnd *rand.Rand, chart string) string {
	pieces := []string{"|", ":", "[", "]", "%", "x3", "1.", " ", "\n", "\t", "\r\n", "C", "Am7", "♭", "(", ")", "/", "\\", "key: G\n", "A", "雨", "\u0301", "\u200f", "\x00", "\xff", "Verse:", "N.C."}
	for range 1 + rnd.IntN(4) {
		at := rnd.IntN(len(chart) + 1)
		end := min(len(chart), at+rnd.IntN(4))
		chart = chart[:at] + pieces[rnd.IntN(len(pieces))] + chart[end:]
	}
	return chart
}

// checkAny checks that any text is refused in one clean line or is a song that is written and read again as the same.
func checkAny(t testing.TB, chart string) {
	t.Helper()
	s, err := Read(chart)
	if err != nil {
		var e *ChartError
		if !errors.As(err, &e) || e.Line < 1 || e.Column < 1 || theory.Clean(err.Error()) != err.Error() || !utf8.ValidString(err.Error()) {
			t.Errorf("%q: no clean error: %q", chart, err)
		}
		return
	}
	if _, _, err := Played(s); err != nil && err.Error() == "" {
		t.Errorf("%q: an error that says nothing", chart)
	}
	again, err := Read(Write(s))
	if err != nil || !cmp.Equal(s, again, byKind) {
		t.Errorf("%q is written as %q and read as another: %v %s", chart, Write(s), err, cmp.Diff(s, again, byKind))
	}
}

// A section may be called by a backslash alone.
func TestSectionsOfAnyName(t *testing.T) {
	for _, name := range []string{`\`, `\ \`, "-", "1", "Am", "é"} {
		s, err := Read("[" + name + "]\n| C |\n")
		if err != nil {
			t.Errorf("%q: %v", name, err)
			continue
		}
		if again, err := Read(Write(s)); err != nil || !cmp.Equal(s, again, byKind) || s.Sections[0].Name != name {
			t.Errorf("%q is written as %q, %v", name, Write(s), err)
		}
	}
}

// How often a line is played, and what stands between its chords, may stand anywhere after the first chord.
func TestChordsAfterTimesAndSigns(t *testing.T) {
	s, err := Read("C x2 G - Am / F\nla la")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, o := range s.Sections[0].Lines[0].Over {
		got = append(got, o.Written())
	}
	if strings.Join(got, " ") != "C G Am F" || s.Sections[0].Lines[0].Times != 2 {
		t.Errorf("%v, played %d times", got, s.Sections[0].Lines[0].Times)
	}
}

// Chords on a line with signs between them, and chords on the next: both are chords, also when they were written and read again.
func TestChordsUnderChordsWithSignsBetween(t *testing.T) {
	for _, chart := range []string{"C - G – Am /\nF\n  \nla la", "C / / G\nF\n\nla", "C - G\nla"} {
		s, err := Read(chart)
		if err != nil {
			t.Fatal(err)
		}
		again, err := Read(Write(s))
		if err != nil || !cmp.Equal(s, again, byKind) {
			t.Errorf("%q is written as %q, %v", chart, Write(s), err)
		}
	}
}

// SPARETONE_STUDY=1 mutates 100,000 charts.
func TestMutatedCharts(t *testing.T) {
	count := 3000
	if os.Getenv("SPARETONE_STUDY") != "" {
		count = 100_000
	}
	rows := append(drawnCharts(), byHand(t)...)
	rnd := rand.New(rand.NewPCG(17, 1))
	read := 0
	for range count {
		chart := mutated(rnd, rows[rnd.IntN(len(rows))].chart)
		checkAny(t, chart)
		if _, err := Read(chart); err == nil {
			read++
		}
		if t.Failed() {
			return
		}
	}
	t.Logf("%d charts, %d of them read", count, read)
	if read < count/5 {
		t.Errorf("only %d of %d were read", read, count)
	}
}

func FuzzRead(f *testing.F) {
	for _, row := range append(drawnCharts(), byHand(f)...) {
		f.Add(row.chart)
	}
	f.Fuzz(func(t *testing.T, chart string) { checkAny(t, chart) })
}

// What says nothing between chords may follow one that is written in an odd way, too: so a line of chords without words is read as it is written
// before another one.
func TestBetweenFollowsAnOddChord(t *testing.T) {
	checkAny(t, "Aj2\tA A\nA\né")
	got, err := Read("Aj2 - - A A\nA\né\n")
	if err != nil || got.Sections[0].Lines[0].Form != Above || len(got.Sections[0].Lines[0].Over) != 3 {
		t.Errorf("%v, %+v", err, got)
	}
}

// Of lines of chords without words only the first can have the next one read as its words, so only that is filled in: a line without gaps below
// one with gaps would be words itself.
func TestLinesOfChordsBelowEachOther(t *testing.T) {
	checkAny(t, "A2  A A\nA A \tA A\nA")
	got, err := Read("A2  A A\nA A     A A\nA")
	if err != nil {
		t.Fatal(err)
	}
	if want := "A2  A A\nA A     A A\nA\n"; Write(got) != want || len(got.Sections[0].Lines) != 3 {
		t.Errorf("%q, want %q", Write(got), want)
	}
}
