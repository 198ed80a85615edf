package musicxml

import (
	"encoding/xml"
	"fmt"
	"slices"
	"strings"

	"sparetone/theory"
	"sparetone/theory/song"
)

// Words are written as MusicXML's lyrics under the note with which they begin: each word as a syllable of its own, those under one
// note joined by elisions, and end-line where a line of the chart ends. They are read the same way, from the first part that has
// any; the words of each line of bars then stand on lines of their own under it, a line a verse.

// xmlLyrics writes what is sung from a note on.
func xmlLyrics(s song.Sung) string {
	var b strings.Builder
	if s.Ends && strings.Join(s.Verses, "") == "" {
		return `<lyric number="1"><extend type="stop"/><end-line/></lyric>`
	}
	for n, verse := range s.Verses {
		words := strings.Fields(verse)
		if len(words) == 0 {
			continue
		}
		fmt.Fprintf(&b, `<lyric number="%d">`, n+1)
		for i, word := range words {
			if i > 0 {
				b.WriteString("<elision> </elision>")
			}
			begun, goesOn := n == 0 && i == 0 && s.Inside[0], n == 0 && i == len(words)-1 && s.Inside[1]
			fmt.Fprintf(&b, "<syllabic>%s</syllabic><text>%s</text>", syllabics[[2]bool{begun, goesOn}], xmlText(word))
		}
		if s.Ends {
			b.WriteString("<end-line/>")
		}
		b.WriteString("</lyric>")
	}
	return b.String()
}

// syllabics are the names of where in its word a syllable stands, by whether the word has begun before it and goes on after it.
var syllabics = map[[2]bool]string{{false, false}: "single", {false, true}: "begin", {true, true}: "middle", {true, false}: "end"}

// xmlLyric is what is sung in a verse from a note on.
type xmlLyric struct {
	Number string `xml:"number,attr"`
	Parts  []struct {
		XMLName xml.Name
		Text    string `xml:",chardata"`
	} `xml:",any"`
}

// syllable is a syllable as it is read.
type syllable struct {
	verse  string
	text   string
	goesOn bool // the next one is of the same word
}

// xmlSung is what is read of what is sung.
type xmlSung struct {
	part    int // that it is of, counted from 1; 0 if nothing is sung yet
	measure int // of its part, that is read, from 0
	in      map[int][]syllable
	verses  []string     // their numbers, in the order in which they first come
	ends    map[int]bool // measures with which a line of words ends
}

// mostVerses is how many verses are read.
const mostVerses = 9

// take takes up the lyrics of a note.
func (s *xmlSung) take(part int, lyrics []xmlLyric) {
	if len(lyrics) == 0 || s.part != 0 && s.part != part {
		return
	}
	s.part = part
	for _, l := range lyrics {
		if !slices.Contains(s.verses, l.Number) {
			if len(s.verses) == mostVerses {
				continue
			}
			s.verses = append(s.verses, l.Number)
		}
		goesOn := false
		for _, p := range l.Parts {
			switch p.XMLName.Local {
			case "syllabic":
				where := strings.TrimSpace(p.Text)
				goesOn = where == syllabics[[2]bool{false, true}] || where == syllabics[[2]bool{true, true}]
			case "text":
				if text := strings.Join(strings.Fields(theory.Clean(p.Text)), " "); text != "" {
					s.in[s.measure] = append(s.in[s.measure], syllable{l.Number, text, goesOn})
				}
			case "end-line", "end-paragraph":
				s.ends[s.measure] = true
			}
		}
	}
}

// lines are the words of some measures in turn, a line a verse; a verse without words there has none.
func (s *xmlSung) lines(from, to int) (lines []song.Line) {
	for _, verse := range s.verses {
		var b strings.Builder
		apart := ""
		for measure := from; measure < to; measure++ {
			for _, one := range s.in[measure] {
				if one.verse != verse {
					continue
				}
				b.WriteString(apart + one.text)
				if apart = " "; one.goesOn {
					apart = ""
				}
			}
		}
		if b.Len() > 0 {
			lines = append(lines, song.Line{Words: b.String()})
		}
	}
	return lines
}

// breaks reports whether a line of bars ends with a measure: with the words, or where a file does not say after barsInLine.
func (s *xmlSung) breaks(measure, inLine int) bool {
	if len(s.ends) > 0 {
		return s.ends[measure] || inLine == mostInLine
	}
	return inLine == barsInLine
}

// How many bars a line has where a file does not say, and at the most.
const (
	barsInLine = 4
	mostInLine = 16
)
