// Package musicxml writes arranged songs as MusicXML, and reads the chords and words of such a file as a song.
package musicxml

import (
	"fmt"
	"slices"
	"strings"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/song/arrange"
)

// An arranged song is written as MusicXML 4.0 (W3C, 2021) as it is played, with its repeats written out: a part with a staff of notes
// and one of tablature. Over each chord stand its harmony and its frame, and under it what is sung. The names of elements and their order are those
// of the schema.

// xmlDivisions is how many parts a quarter has: enough for a chord of a 32nd.
const xmlDivisions = 8

// xmlKinds are the values of MusicXML's kind that are ids of ours. Its 13th chords with a major third hold an eleventh,
// which ours do not.
var xmlKinds = strings.Fields("major minor augmented diminished dominant major-seventh minor-seventh diminished-seventh augmented-seventh " +
	"half-diminished major-minor major-sixth minor-sixth dominant-ninth major-ninth minor-ninth dominant-11th major-11th minor-11th " +
	"dominant-13th major-13th minor-13th suspended-second suspended-fourth power")

// degree is a tone by which a chord differs from one of MusicXML's kinds.
type degree struct {
	Value int    `xml:"degree-value"`
	Alter int    `xml:"degree-alter"`
	Type  string `xml:"degree-type"`
}

// xmlKind writes a kind of chord as the kind of MusicXML from which it differs least, and in what.
func xmlKind(k *theory.Kind) (id string, degrees []degree) {
	best := 1 << 30
	for _, name := range xmlKinds {
		of, ok := theory.KindByID(name)
		if !ok {
			continue
		}
		if d := degreesFrom(of, k); len(d) < best {
			id, degrees, best = name, d, len(d)
		}
	}
	return id, degrees
}

// degreesFrom says in what a kind differs from another: what is altered, added and left out.
func degreesFrom(from, to *theory.Kind) (out []degree) {
	left := slices.Clone(from.Formula)
	var added []theory.Interval
	for _, tone := range to.Formula {
		if i := slices.Index(left, tone); i >= 0 {
			left = slices.Delete(left, i, i+1)
		} else {
			added = append(added, tone)
		}
	}
	for _, tone := range added {
		if i := slices.IndexFunc(left, func(l theory.Interval) bool { return l.Number == tone.Number }); i >= 0 {
			out = append(out, degree{tone.Number, tone.Semitones - left[i].Semitones, "alter"})
			left = slices.Delete(left, i, i+1)
			continue
		}
		out = append(out, degree{tone.Number, addedAlter(tone), "add"})
	}
	for _, tone := range left {
		out = append(out, degree{tone.Number, 0, "subtract"})
	}
	return out
}

// addedAlter is by how much an added tone is raised from the degree of a dominant chord, whose seventh is minor.
func addedAlter(tone theory.Interval) int {
	if tone.Number == 7 {
		return tone.Semitones - theory.MinorSeventh.Semitones
	}
	return tone.Alteration()
}

// xmlNoteOf writes a note's letter and alteration as elements with a prefix: root-step and root-alter.
func xmlNoteOf(prefix string, n theory.Note) string {
	out := fmt.Sprintf("<%sstep>%s</%sstep>", prefix, n.Letter, prefix)
	if n.Alter != 0 {
		out += fmt.Sprintf("<%salter>%d</%salter>", prefix, n.Alter, prefix)
	}
	return out
}

// Write writes an arranged song as MusicXML: the path that was asked for, or the plain one.
func Write(a arrange.Arrangement, plain bool) string {
	x := &xmlWriter{a: a, plain: plain, key: a.Key}
	x.line(`<?xml version="1.0" encoding="UTF-8"?>`)
	x.line(`<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">`)
	x.line(`<score-partwise version="4.0">`)
	if a.Song.Header.Title != "" {
		x.line("<work><work-title>%s</work-title></work>", xmlText(a.Song.Header.Title))
	}
	x.line("<part-list><score-part id=\"P1\"><part-name>%s</part-name></score-part></part-list>", xmlText(a.Tuning.Title))
	x.line(`<part id="P1">`)
	x.measures()
	x.line("</part>")
	x.line("</score-partwise>")
	return x.b.String()
}

// xmlWriter writes a part.
type xmlWriter struct {
	a     arrange.Arrangement
	plain bool
	key   theory.Key // of the bar that is written
	b     strings.Builder
}

func (x *xmlWriter) line(form string, args ...any) {
	fmt.Fprintf(&x.b, form, args...)
	x.b.WriteByte('\n')
}

// span is a chord, or a silence, within one bar.
type span struct {
	place       *arrange.Place
	from, units int  // in parts of a quarter
	tied        bool // it goes on from the bar before
	ties        bool // it goes on in the next
}

// perBeat is how many parts of a quarter a beat has.
func (x *xmlWriter) perBeat() float64 {
	return xmlDivisions * 4 / float64(x.a.Song.Meter().Unit)
}

// spans divides the places at the bar lines.
func (x *xmlWriter) spans() [][]span {
	bars := make([][]span, x.a.Bars)
	length := float64(x.a.Song.Meter().Beats)
	for i := range x.a.Places {
		p := &x.a.Places[i]
		bar, at, left := p.Bar-1, p.At-1, p.Beats
		for first := true; left > 1e-9 && bar < len(bars); first = false {
			part := min(left, length-at)
			left -= part
			from, to := int(at*x.perBeat()+0.5), int((at+part)*x.perBeat()+0.5)
			if to > from {
				bars[bar] = append(bars[bar], span{p, from, to - from, !first, left > 1e-9})
			}
			bar, at = bar+1, 0
		}
	}
	return bars
}

func (x *xmlWriter) measures() {
	for n, spans := range x.spans() {
		x.line(`<measure number="%d">`, n+1)
		if n == 0 {
			x.key = x.keyOf(spans)
			x.attributes()
			x.tempo()
		} else if k := x.keyOf(spans); k != x.key {
			x.key = k
			x.line("<attributes><key><fifths>%d</fifths><mode>%s</mode></key></attributes>", k.Signature(), k.Mode())
		}
		total := 0
		for _, s := range spans {
			switch {
			case s.tied:
			case s.place.Silent:
				x.line(`<harmony><root><root-step text="">C</root-step></root><kind text="N.C.">none</kind><staff>1</staff></harmony>`)
			default:
				x.harmony(x.held(s.place))
			}
			x.notes(s, 1)
			total += s.units
		}
		if total > 0 {
			x.line("<backup><duration>%d</duration></backup>", total)
		}
		for _, s := range spans {
			x.notes(s, 2)
		}
		if n == x.a.Bars-1 {
			x.line(`<barline location="right"><bar-style>light-heavy</bar-style></barline>`)
		}
		x.line("</measure>")
	}
}

// keyOf returns the key in which a bar begins, that of the bar before if nothing stands in it.
func (x *xmlWriter) keyOf(spans []span) theory.Key {
	if len(spans) == 0 {
		return x.key
	}
	return x.a.KeyOf(*spans[0].place)
}

// held returns the shape of a place that is written.
func (x *xmlWriter) held(p *arrange.Place) arrange.Held {
	if x.plain {
		return p.Plain
	}
	return p.Path
}

func (x *xmlWriter) attributes() {
	a, m := x.a, x.a.Song.Meter()
	x.line("<attributes>")
	x.line("<divisions>%d</divisions>", xmlDivisions)
	x.line("<key><fifths>%d</fifths><mode>%s</mode></key>", x.key.Signature(), x.key.Mode())
	x.line("<time><beats>%d</beats><beat-type>%d</beat-type></time>", m.Beats, m.Unit)
	x.line("<staves>2</staves>")
	x.line(`<clef number="1"><sign>G</sign><line>2</line>%s</clef>`, x.octaveLower())
	x.line(`<clef number="2"><sign>TAB</sign><line>%d</line></clef>`, min(5, len(a.Tuning.Strings)))
	x.line(`<staff-details number="2"><staff-lines>%d</staff-lines>`, len(a.Tuning.Strings))
	for i, p := range a.Tuning.Strings {
		x.line(`<staff-tuning line="%d">%s<tuning-octave>%d</tuning-octave></staff-tuning>`, i+1, xmlNoteOf("tuning-", p.Note), p.Octave)
	}
	if capo := a.Song.Header.Capo; capo > 0 && !a.Capoed {
		x.line("<capo>%d</capo>", capo)
	}
	x.line("</staff-details>")
	x.line("</attributes>")
}

// octaveLower is the sign by which an instrument with a bass is written an octave above its sound.
func (x *xmlWriter) octaveLower() string {
	if x.a.Tuning.HasBass() {
		return "<clef-octave-change>-1</clef-octave-change>"
	}
	return ""
}

// beatUnits are the names of notes by the unit of a meter.
var beatUnits = map[int]string{1: "whole", 2: "half", 4: "quarter", 8: "eighth", 16: "16th"}

func (x *xmlWriter) tempo() {
	tempo := x.a.Song.Header.Tempo
	if tempo == 0 {
		return
	}
	unit := x.a.Song.Meter().Unit
	x.line(`<direction placement="above"><direction-type><metronome><beat-unit>%s</beat-unit><per-minute>%g</per-minute></metronome></direction-type><staff>1</staff><sound tempo="%g"/></direction>`,
		beatUnits[unit], tempo, tempo*4/float64(unit))
}

// harmony writes a chord with its frame.
func (x *xmlWriter) harmony(h arrange.Held) {
	kind, degrees := xmlKind(h.Chord.Kind)
	x.line("<harmony>")
	x.line("<root>%s</root>", xmlNoteOf("root-", h.Chord.Root))
	suffix := strings.TrimPrefix(h.Chord.String(), h.Chord.Root.String())
	suffix, _, _ = strings.Cut(suffix, "/"+h.Chord.Bass.String())
	x.line(`<kind text="%s">%s</kind>`, xmlText(suffix), kind)
	if h.Chord.Bass != h.Chord.Root {
		x.line("<bass>%s</bass>", xmlNoteOf("bass-", h.Chord.Bass))
	}
	for _, d := range degrees {
		x.line(`<degree print-object="no"><degree-value>%d</degree-value><degree-alter>%d</degree-alter><degree-type>%s</degree-type></degree>`, d.Value, d.Alter, d.Type)
	}
	if h.Shape != nil {
		x.frame(h)
	}
	x.line("<staff>1</staff>")
	x.line("</harmony>")
}

// leastFrets is how many frets a frame shows at the least.
const leastFrets = 4

// frame writes a shape as a diagram.
func (x *xmlWriter) frame(h arrange.Held) {
	low, high := 0, 0
	for _, f := range h.Shape {
		if f > 0 && (low == 0 || f < low) {
			low = f
		}
		high = max(high, f)
	}
	first := 1
	if high > leastFrets {
		first = low
	}
	x.line("<frame><frame-strings>%d</frame-strings><frame-frets>%d</frame-frets>", len(h.Shape), max(leastFrets, high-first+1))
	if first > 1 {
		x.line("<first-fret>%d</first-fret>", first)
	}
	var across [arrange.FingersOnHand + 1][]int // the strings under each finger
	for i, finger := range h.Fingers {
		across[finger] = append(across[finger], i)
	}
	for i, f := range h.Shape {
		if f == fret.Muted {
			continue
		}
		more := ""
		if finger := h.Fingers[i]; finger > 0 {
			more = fmt.Sprintf("<fingering>%d</fingering>", finger)
			under := across[finger]
			switch {
			case len(under) < 2:
			case i == under[0]:
				more += `<barre type="start"/>`
			case i == under[len(under)-1]:
				more += `<barre type="stop"/>`
			}
		}
		x.line("<frame-note><string>%d</string><fret>%d</fret>%s</frame-note>", len(h.Shape)-i, f, more)
	}
	x.line("</frame>")
}

// xmlTypes are the lengths of notes, the longest first, in parts of a quarter.
var xmlTypes = []struct {
	units int
	name  string
	dots  int
}{
	{48, "whole", 1}, {32, "whole", 0}, {24, "half", 1}, {16, "half", 0}, {12, "quarter", 1}, {8, "quarter", 0}, {6, "eighth", 1},
	{4, "eighth", 0}, {3, "16th", 1}, {2, "16th", 0}, {1, "32nd", 0},
}

// notes writes a chord on a staff, as one note or as several that are tied.
func (x *xmlWriter) notes(s span, staff int) {
	tied, left := s.tied, s.units
	for left > 0 {
		i := slices.IndexFunc(xmlTypes, func(t struct {
			units int
			name  string
			dots  int
		}) bool {
			return t.units <= left
		})
		t := xmlTypes[i]
		left -= t.units
		length := fmt.Sprintf("<voice>%d</voice><type>%s</type>%s<staff>%d</staff>", staff, t.name, strings.Repeat("<dot/>", t.dots), staff)
		lyrics := ""
		if staff == 1 && !tied {
			lyrics = xmlLyrics(s.place.Sung)
		}
		if s.place.Rests() {
			x.line("<note><rest/><duration>%d</duration>%s%s</note>", t.units, length, lyrics)
		} else {
			x.chord(x.held(s.place), t.units, length, lyrics, tied, left > 0 || s.ties, staff)
		}
		tied = true
	}
}

// chord writes the notes of a shape that sound together, the first with what is sung.
func (x *xmlWriter) chord(h arrange.Held, units int, length, lyrics string, tied, ties bool, staff int) {
	v, err := fret.Voice(x.a.Tuning, h.Shape, h.Chord)
	if err != nil {
		return
	}
	var tie, sign string
	if tied {
		tie, sign = tie+`<tie type="stop"/>`, sign+`<tied type="stop"/>`
	}
	if ties {
		tie, sign = tie+`<tie type="start"/>`, sign+`<tied type="start"/>`
	}
	first := true
	for _, s := range v.Strings {
		if s.Fret == fret.Muted {
			continue
		}
		together := "<chord/>"
		if first {
			together, first = "", false
		}
		notation := sign
		if staff == 2 {
			notation += fmt.Sprintf("<technical><string>%d</string><fret>%d</fret></technical>", s.Number, s.Fret)
		}
		if notation != "" {
			notation = "<notations>" + notation + "</notations>"
		}
		pitch := xmlNoteOf("", s.Pitch.Note)
		x.line("<note>%s<pitch>%s<octave>%d</octave></pitch><duration>%d</duration>%s%s%s%s</note>",
			together, pitch, s.Pitch.Octave, units, tie, length, notation, lyrics)
		lyrics = ""
	}
}
