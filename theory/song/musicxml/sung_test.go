package musicxml

import (
	"encoding/xml"
	"strings"
	"testing"

	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
)

// words are the lines of words of a song, and its lines of bars as charts have them.
func linesOf(s song.Song) string {
	var out []string
	for _, section := range s.Sections {
		for _, l := range section.Lines {
			out = append(out, l.String())
		}
	}
	return strings.Join(out, "\n")
}

// Words that stand under chords are written under the notes of these chords, and read as lines under the bars.
func TestWordsInMusicXML(t *testing.T) {
	for _, row := range []struct{ chart, reads string }{
		{"[C]Mind the [G7]step and\n[Am]go [F]on", "| C | G7 |\nMind the step and\n| Am | F |\ngo on"},
		{"Oh [C]ev[G7]er[C]green\nand [F]so", "| C | G7 | C |\nOh evergreen\n| F |\nand so"}, // what stands before a chord has no time of its own
		{"C        G\nне́бо и     море\n\nAm\n ветер & <дождь>", "| C | G |\nне́бо и море\n| Am |\nветер & <дождь>"},
		{"[C]one [N.C.]two [F]three", "| C | N.C. | F |\none two three"},
		{"[C]long[F][G]er", "| C | F | G |\nlonger"},
		{"| C | G |\nfirst verse\nsecond verse\n| F | C |", "| C | G |\nfirst verse\nsecond verse\n| F | C |"},
		{"[C]la [G]la\nla la too", "| C | G |\nla la\nla la too"},
		{"[C]over [G]words [F]\n[C]and on", "| C | G | F |\nover words\n| C |\nand on"},
		{"[C] [G]\n| F | C | / |\nwords\n| % | G |", "| C | G | F | C |\nwords\n| / | / | G |"}, // a line ends under the last note that begins in it
		{"| C / G / | F |", "| C G | F |"},
		{"[Verse]\n[C]same [G]again\n\n[Bridge]\n[F]but\n\n[Verse]", "| C | G |\nsame again\n| F |\nbut\n| C | G |\nsame again"},
	} {
		a := arrangeChart(t, "key: C\n"+row.chart, arrange.Wishes{Tuning: tuning(t, "ukulele")})
		s, err := Read(Write(a, true))
		if err != nil {
			t.Errorf("%s: %v", row.chart, err)
			continue
		}
		if got := linesOf(s); got != row.reads {
			t.Errorf("%s\nis read as\n%s\nwant\n%s", row.chart, got, row.reads)
		}
		again, err := song.Read(song.Write(s))
		if err != nil || linesOf(again) != linesOf(s) {
			t.Errorf("%s\nis written and read as\n%s, %v", linesOf(s), linesOf(again), err)
		}
	}
}

// Each word is a syllable of its own under the first note of the chord that it begins with, once though the chord is tied.
func TestLyricsStandUnderTheirChords(t *testing.T) {
	a := arrangeChart(t, "tempo: 80\nmeter: 5/4\n[C]Go [G]ev|er[F]green", arrange.Wishes{})
	var f struct {
		Notes []struct {
			Step   string `xml:"pitch>step"`
			Staff  int    `xml:"staff"`
			Lyrics []struct {
				Number string   `xml:"number,attr"`
				Where  []string `xml:"syllabic"`
				Text   []string `xml:"text"`
				Ends   *string  `xml:"end-line"`
			} `xml:"lyric"`
		} `xml:"part>measure>note"`
	}
	if err := xml.Unmarshal([]byte(Write(a, true)), &f); err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, n := range f.Notes {
		for _, l := range n.Lyrics {
			ends := ""
			if l.Ends != nil {
				ends = " end"
			}
			if n.Staff != 1 {
				t.Error("lyrics on the tablature")
			}
			got = append(got, l.Number+" "+strings.Join(l.Text, "_")+" "+strings.Join(l.Where, "_")+ends)
		}
	}
	if want := "1 Go single; 1 ever begin; 1 green end end"; strings.Join(got, "; ") != want {
		t.Errorf("%s, want %s", strings.Join(got, "; "), want)
	}
}

func TestWordsInMusicXMLOfOthers(t *testing.T) {
	lyric := func(number, inside string) string { return `<lyric number="` + number + `">` + inside + `</lyric>` }
	note := func(lyrics string) string { return "<note><duration>1</duration>" + lyrics + "</note>" }
	syllable := func(where, text string) string { return "<syllabic>" + where + "</syllabic><text>" + text + "</text>" }
	for _, row := range []struct{ name, file, reads string }{
		{"a word on three notes, two verses", xmlOf(harmonyOf("C", "major", "") + note(lyric("1", syllable("begin", "Ev"))+lyric("2", "<text>Oh</text>")) +
			note(lyric("1", syllable("middle", "er"))) + note(lyric("1", syllable("end", "green"))+lyric("2", "<text>no</text>"))), "| C |\nEvergreen\nOh no"},
		{"two words on a note", xmlOf(harmonyOf("C", "major", "") + note(lyric("1", syllable("single", "go")+"<elision>‿</elision>"+syllable("begin", "o"))) + note(lyric("1", syllable("end", "ver")))), "| C |\ngo over"},
		{"lines end", xmlOf(harmonyOf("C", "major", "")+note(lyric("1", "<text>one</text><end-line/>")), harmonyOf("F", "major", "")+note(lyric("1", "<text>two</text><end-paragraph/>"))), "| C |\none\n| F |\ntwo"},
		{"control characters and a chord's sign", xmlOf(harmonyOf("C", "major", "") + note(lyric("1", "<text>a\u202eb\t[Am]</text>"))), "| C |\n\\ab [Am]"},
		{"in the part before that of the chords", `<score-partwise><part id="P1"><measure>` + note(lyric("1", "<text>sung</text>")) + `</measure></part><part id="P2"><measure>` + harmonyOf("C", "major", "") + `</measure></part></score-partwise>`, "| C |\nsung"},
		{"repeated", xmlOf(`<barline><repeat direction="forward"/></barline>`+harmonyOf("C", "major", "")+note(lyric("1", "<text>first</text>")+lyric("2", "<text>second</text>")), harmonyOf("G", "major", "")+`<barline><repeat direction="backward"/></barline>`), "|: C | G :|\nfirst\nsecond"},
		{"an extension and a laugh", xmlOf(harmonyOf("C", "major", "") + note(lyric("1", "<text>ah</text><extend/>")) + note(lyric("1", "<laughing/>"))), "| C |\nah"},
	} {
		s, err := Read(row.file)
		if err != nil {
			t.Errorf("%s: %v", row.name, err)
			continue
		}
		if got := linesOf(s); got != row.reads {
			t.Errorf("%s: is read as\n%s\nwant\n%s", row.name, got, row.reads)
		}
	}
	var many strings.Builder
	for n := range 20 {
		many.WriteString(lyric(strings.Repeat("v", n+1), "<text>x</text>"))
	}
	if s, err := Read(xmlOf(harmonyOf("C", "major", "") + note(many.String()))); err != nil || strings.Count(linesOf(s), "x") != mostVerses {
		t.Errorf("%d verses, %v", strings.Count(linesOf(s), "x"), err)
	}
}
