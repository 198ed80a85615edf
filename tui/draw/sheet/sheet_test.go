package sheet

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"

	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
)

func arranged(t testing.TB, chart, tuning string, rich int) arrange.Arrangement {
	t.Helper()
	s, err := song.Read(chart)
	if err != nil {
		t.Fatal(err)
	}
	on, err := fret.ParseTuning(tuning)
	if err != nil {
		t.Fatal(err)
	}
	a, err := arrange.Arrange(s, arrange.Wishes{Tuning: on, Rich: rich})
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// charts are long and short, in several alphabets.
var charts = []string{
	"title: Wet socks\nkey: C\nstrum: D . D U\n| C | F |",
	"title: " + strings.Repeat("a long title ", 12) + "\nkey: Eb\n[Verse]\n" + strings.Repeat("[Eb]over and over the [Ab]river and under it [Bb7]again, and so [Cm]on until [Bbm7b5]night\n", 14),
	"Bm7b5   E7\nДождь идёт всю ночь\n\nAm  Dm\nβροχή\n\n[Coda]\n|: Am | Dm6 E7b9 | F#dim7 | Gmaj7 :| x3\n",
	"key: A\n" + strings.Repeat("| A | D6 | E9 | F#m7 | Bm7 | C#m | Dmaj7 | E7sus4 |\n", 4),
	"[C]" + strings.Repeat("longwordwithoutanyspace", 20),
}

// Nothing is clipped: whatever stands on a page stands within it, as wide as its font draws it.
func TestAllLiesOnThePages(t *testing.T) {
	for n, chart := range charts {
		for _, tuning := range []string{"ukulele", "guitar", "gCEAD"} {
			for _, o := range []Options{{}, {Paper: Letter, Left: true}, {Large: true}, {Paper: Letter, Large: true, Left: true}} {
				a := arranged(t, chart, tuning, 7)
				pdf := fpdf.New("P", "pt", "A4", "")
				for style, data := range fontData {
					pdf.AddUTF8FontFromBytes(fmt.Sprint(style[0]), map[bool]string{true: "B"}[style[1]], data)
				}
				pages := newSheet(a, o).pages()
				for i, p := range pages {
					for _, m := range p.marks {
						from, to, top, bottom := extent(pdf, m)
						if from < 0 || to > p.width || top < 0 || bottom > p.height {
							t.Fatalf("chart %d on %s, %+v, page %d: %+v lies at %.1f to %.1f, %.1f to %.1f", n, tuning, o, i+1, m, from, to, top, bottom)
						}
					}
				}
				if err := Printable(a, o); err != nil {
					t.Error(err)
				}
			}
		}
	}
}

// extent is where a mark lies.
func extent(pdf *fpdf.Fpdf, m mark) (from, to, top, bottom float64) {
	switch m.kind {
	case line:
		return min(m.x, m.x2), max(m.x, m.x2), min(m.y, m.y2), max(m.y, m.y2)
	case circle, disc:
		return m.x - m.r, m.x + m.r, m.y - m.r, m.y + m.r
	}
	pdf.SetFont(fmt.Sprint(m.mono), map[bool]string{true: "B"}[m.bold], m.size)
	width := pdf.GetStringWidth(m.text)
	from = m.x
	switch m.anchor {
	case middle:
		from -= width / 2
	case end:
		from -= width
	}
	return from, from + width, m.y - m.size, m.y + m.size/4
}

// A neck has a mark for each string, the notes and what they are, and joins the strings that are doubled.
func TestNeckOnPaper(t *testing.T) {
	a := arranged(t, "key: C\n| F | F |", "ukulele", 9)
	s := newSheet(a, Options{})
	if len(s.cards) != 1 || len(s.cards[0].necks) != 2 {
		t.Fatalf("%+v", s.cards)
	}
	if got, want := s.cards[0].trade.Screen(), "A on the g string becomes G: 3 → 9; goes on by a step"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	texts := func(p picture) (out []string) {
		for _, m := range p.marks {
			if m.kind == text {
				out = append(out, m.text)
			}
		}
		return out
	}
	plain := s.cards[0].necks[0].draw()
	if got, want := strings.Join(texts(plain), " "), "F 2 1 A 3 C 5 F R A 3"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	joined := func(p picture) (from, to float64) {
		m := p.marks[len(p.marks)-1]
		return m.x, m.x2
	}
	if from, to := joined(plain); from != sideMargin || to != sideMargin+3*stringGap {
		t.Errorf("the doubled strings are joined from %g to %g", from, to)
	}
	if got, want := s.words[0].Aloud(), "F: g fret 2, finger 2, A, third, doubled; C open, C, fifth; E fret 1, finger 1, F, root; A open, A, third, doubled"; got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
}

func TestLeftHandedNecksAreMirrored(t *testing.T) {
	a := arranged(t, "| C |", "ukulele", 0)
	x := func(left bool) float64 {
		for _, m := range newSheet(a, Options{Left: left}).cards[0].necks[0].draw().marks {
			if m.kind == disc {
				return m.x
			}
		}
		return 0
	}
	if x(false) != sideMargin+3*stringGap || x(true) != sideMargin {
		t.Errorf("the stop of 0003 lies at %g and %g", x(false), x(true))
	}
}

// SVG and HTML are well-formed, ask for nothing from outside, and have each chord before its words.
func TestPagesStandAlone(t *testing.T) {
	for _, chart := range charts {
		a := arranged(t, chart, "ukulele", 5)
		for _, of := range []string{SVG(a, Options{}), HTML(a, Options{Large: true})} {
			d := xml.NewDecoder(strings.NewReader(of))
			d.Strict = strings.HasPrefix(of, "<svg")
			d.AutoClose, d.Entity = xml.HTMLAutoClose, xml.HTMLEntity
			for {
				if _, err := d.Token(); err == io.EOF {
					break
				} else if err != nil {
					t.Fatalf("%v in\n%s", err, of)
				}
			}
			outside := regexp.MustCompile(`(?i)\bsrc=|\bhref=|url\(|@import|<script|<link|https?://`)
			if found := outside.FindAllString(strings.ReplaceAll(of, `xmlns="http://www.w3.org/2000/svg"`, ""), -1); found != nil {
				t.Errorf("%q", found)
			}
		}
	}
	page := HTML(arranged(t, "title: A & <b>\n[C]Mind the [G7]step", "ukulele", 5), Options{})
	last := -1
	for _, piece := range []string{"<h1>A &amp; &lt;b&gt;</h1>", `role="img" aria-label="C: g open, G, fifth`, "<b>C</b>Mind the", "<b>G7</b>step", "The shapes in words"} {
		at := strings.Index(page, piece)
		if at <= last {
			t.Errorf("%q at %d, after %d in\n%s", piece, at, last, page)
		}
		last = at
	}
}

// pdftotext, where it is installed, reads the signs of a PDF back. What its fonts do not have is told.
func TestPDF(t *testing.T) {
	a := arranged(t, "key: Eb\n| Bb | Ebmaj7 | F#m7b5 |\n\n[Bb]Дождь [Eb]идёт", "ukulele", 5)
	var one, two bytes.Buffer
	if err := PDF(&one, a, Options{}); err != nil {
		t.Fatal(err)
	}
	if err := PDF(&two, arranged(t, "[C]雨が降る", "ukulele", 5), Options{}); err == nil || !strings.Contains(err.Error(), "雨") {
		t.Errorf("characters that the fonts do not have: %v", err)
	}
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("pdftotext is not here")
	}
	path := filepath.Join(t.TempDir(), "s.pdf")
	if err := os.WriteFile(path, one.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", path, "-").CombinedOutput()
	for _, sign := range []string{"B♭", "♭7", "E♭ major", "F♯m7♭5", "Дождь идёт", "→"} {
		if err != nil || !strings.Contains(string(out), sign) {
			t.Errorf("%s is not in\n%s%v", sign, out, err)
		}
	}
}

func TestLinesAreBrokenBetweenChords(t *testing.T) {
	all := []segment{{"", "oh "}, {"C", "one two "}, {"Am7", "x"}, {"G", "three"}}
	for _, row := range []struct {
		columns int
		want    string
	}{
		{40, "   C       Am7 G|oh one two x   three"},
		{12, "   C|oh one two;Am7 G|x   three"},
	} {
		var got []string
		for _, l := range broken(all, row.columns) {
			got = append(got, l[0]+"|"+l[1])
		}
		if strings.Join(got, ";") != row.want {
			t.Errorf("%d columns: %q, want %q", row.columns, got, row.want)
		}
	}
	for _, l := range broken([]segment{{"C", strings.Repeat("word ", 30) + strings.Repeat("w", 70)}}, 20) {
		if columnsOf(l[1]) > 20 {
			t.Errorf("%q is too long", l[1])
		}
	}
}

// A sheet says where the song goes to another key, above its first line there and at the top.
func TestKeysOnASheet(t *testing.T) {
	s := newSheet(arranged(t, "key: E\n| E | B7 |\nkey: F\n| C7 | F |", "ukulele", 5), Options{})
	var lines []string
	for _, line := range s.parts[0].lines {
		lines = append(lines, strings.TrimSpace(line[0].above))
	}
	if got, want := s.key+"; "+strings.Join(lines, "; "), "E major, then F major, ukulele, g C E A; "; !strings.HasPrefix(got, want) || len(lines) != 3 || lines[1] != "In F major:" {
		t.Errorf("%s, want %s, and the second of three lines to be the key", got, want)
	}
}

// printed sets so many things in columns, each a line and two necks.
func printed(t *testing.T, things int, o Options) *Print {
	t.Helper()
	a := arranged(t, "key: C\n| F | C |", "guitar", 5)
	v, err := fret.Voice(a.Tuning, a.Places[0].Path.Shape, a.Places[0].Path.Chord)
	if err != nil {
		t.Fatal(err)
	}
	p := NewPrint("Twenty", o)
	p.Rule()
	p.InColumns()
	for n := range things {
		p.Together(func() {
			p.Bold(fmt.Sprintf("thing %d", n))
			p.Necks([]Neck{{Title: "F", Voicing: v, Named: true}, {Title: "F", Voicing: v}}, nil)
			p.Boxes([]string{strings.Repeat("word ", 14), fmt.Sprintf("end %d", n)})
		})
	}
	return p
}

// Two columns take half the pages; nothing lies in both or beyond the page, and nothing is parted. Large print has one.
func TestPrintInColumns(t *testing.T) {
	p := printed(t, 20, Options{})
	gap := margin + p.wide()
	for i, page := range p.pages {
		for _, m := range page.marks {
			if i == 0 && (m.text == "Twenty" || m.kind == line && m.x2-m.x > p.wide()+1) {
				continue // above the columns
			}
			from := min(m.x, m.x2)
			if m.kind != line {
				from = m.x
			}
			if m.y > page.height-margin+1 || m.y < margin || from < margin-1 || from > gap && from < gap+columnGap-1 || max(m.x, m.x2) > page.width-margin+1 {
				t.Errorf("page %d: %+v", i+1, m)
			}
		}
	}
	side := func(text string) (page int, left bool) {
		for i, pg := range p.pages {
			for _, m := range pg.marks {
				if m.text == text {
					return i, m.x < gap
				}
			}
		}
		return -1, false
	}
	turned := 0
	for n := range 20 {
		from, was := side(fmt.Sprintf("thing %d", n))
		if to, is := side(fmt.Sprintf("end %d", n)); from != to || was != is {
			t.Errorf("thing %d begins in another column than it ends", n)
		}
		page, left := side(fmt.Sprintf("thing %d", n))
		if page < 0 {
			t.Fatalf("thing %d is not there", n)
		}
		if n > 0 {
			if before, was := side(fmt.Sprintf("thing %d", n-1)); page < before || page == before && left && !was {
				t.Errorf("thing %d stands before thing %d", n, n-1)
			} else if page == before && was && !left {
				turned++
			}
		}
	}
	large := printed(t, 20, Options{Large: true})
	if one := len(large.pages); len(p.pages)*2 > one || turned == 0 || large.columns > 1 {
		t.Errorf("%d pages in two columns, %d in one; %d columns were turned", len(p.pages), one, turned)
	}
}

// The strings of a guitar stand apart under a neck that does not say its notes.
func TestStringsStandApart(t *testing.T) {
	a := arranged(t, "key: C\n| F |", "guitar", 0)
	v, err := fret.Voice(a.Tuning, a.Places[0].Plain.Shape, a.Places[0].Plain.Chord)
	if err != nil {
		t.Fatal(err)
	}
	names := ""
	for _, m := range (Neck{Voicing: v}).picture().marks {
		if m.kind == text && m.y > 60 {
			names += m.text + " "
		}
	}
	if names != "E A D G B E " {
		t.Errorf("%q", names)
	}
}

// The chords over a song have the signs of those beside their shapes; who writes a chord in another way keeps it.
func TestChordsOfASheetHaveTheirSigns(t *testing.T) {
	chart := "key: Bb\n| Bb | F#m7b5 Ebmaj7 | CMI7 H |\n[Bb]one [F/A]two [Ab]three\n"
	s, err := song.Read(chart)
	if err != nil {
		t.Fatal(err)
	}
	got := ""
	for _, line := range s.Sections[0].Lines {
		for _, one := range segments(line) {
			got += strings.TrimSpace(one.above+" "+one.below) + "; "
		}
	}
	if want := "| B♭; | F♯m7♭5 E♭maj7; | CMI7 H; |; B♭ one; F/A two; A♭ three; "; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if !strings.Contains(song.Write(s), "| Bb | F#m7b5") {
		t.Errorf("the song itself is now\n%s", song.Write(s))
	}
}

// In a narrow column pictures are made smaller so that they stand side by side, but not too small to be read.
func TestPicturesSideBySideInAColumn(t *testing.T) {
	for _, row := range []struct {
		widths []float64
		rows   int
	}{{[]float64{125, 125}, 1}, {[]float64{125, 125, 125}, 3}, {[]float64{91, 91}, 1}, {[]float64{60, 60, 60}, 1}} {
		l := newLayout(Options{})
		l.inColumns(2)
		var all []picture
		for _, w := range row.widths {
			p := picture{width: w, height: 50}
			p.line(0, 0, w, 0, 1)
			all = append(all, p)
		}
		l.row(all)
		at := map[float64]bool{}
		for _, m := range l.page().marks {
			at[m.y] = true
			if m.x2 > l.left()+l.wide()+1e-6 {
				t.Errorf("%v: %g lies beyond the column", row.widths, m.x2)
			}
		}
		if len(at) != row.rows {
			t.Errorf("%v stand in %d rows, want %d", row.widths, len(at), row.rows)
		}
	}
}

// Necks that stand side by side show the same frets where these are few, else each its own. One without a title takes no room for it.
func TestNecksSideBySide(t *testing.T) {
	on, err := fret.ParseTuning("guitar")
	if err != nil {
		t.Fatal(err)
	}
	neck := func(symbol, frets string) Neck {
		c, err := read.Chord(symbol)
		if err != nil {
			t.Fatal(err)
		}
		s, err := fret.ParseShape(frets)
		if err != nil {
			t.Fatal(err)
		}
		v, err := fret.Voice(on, s, c)
		if err != nil {
			t.Fatal(err)
		}
		return Neck{Voicing: v}
	}
	for _, row := range []struct {
		other Neck
		want  string // the first frets that are written
	}{{neck("F#m(add9)", "244224"), "2 2 "}, {neck("F#m", "9,9,11,11,10,9"), "2 9 "}} {
		p := NewPrint("x", Options{})
		p.Necks([]Neck{neck("F#m", "244225"), row.other}, nil)
		got := ""
		for _, m := range p.page().marks {
			if m.kind == text && m.anchor == end {
				got += m.text + " "
			}
		}
		if got != row.want {
			t.Errorf("%q, want %q", got, row.want)
		}
	}
	plain := neck("F#m", "244222")
	titled := plain
	titled.Title = "F#m"
	if a, b := plain.picture().height, titled.picture().height; b-a != titleSize {
		t.Errorf("%g high without a title, %g with one", a, b)
	}
}
