package musicxml

import (
	"encoding/xml"
	"slices"
	"strconv"
	"strings"

	"sparetone/theory"
	"sparetone/theory/say"
	"sparetone/theory/song"
)

// What is read of a MusicXML file (W3C, MusicXML 4.0; earlier versions have the same here): title, key, meter and tempo as
// the first measures say them, and of the first part that has any its harmonies, repeats and endings. Where a harmony stands among the notes is
// when it comes, and what is sung (musicxml_sung.go). Notes and frames are passed over.

// Is reports whether a text is meant as MusicXML and not as a chart.
func Is(text string) bool {
	text = strings.TrimLeft(strings.TrimPrefix(text, "\uFEFF"), " \t\r\n")
	return strings.HasPrefix(text, "<?xml") || strings.HasPrefix(text, "<!DOCTYPE") || strings.HasPrefix(text, "<score-")
}

// xmlNumber is a number as MusicXML writes it. What is none is 0.
type xmlNumber float64

// UnmarshalText reads a number.
func (n *xmlNumber) UnmarshalText(text []byte) error {
	f, err := strconv.ParseFloat(strings.TrimSpace(string(text)), 64)
	if err != nil || f < -1e6 || f > 1e6 {
		f = 0
	}
	*n = xmlNumber(f)
	return nil
}

// Int returns the number as a whole one.
func (n xmlNumber) Int() int { return int(n) }

// xmlTone is a letter and its alteration.
type xmlTone struct {
	Step  string    `xml:"root-step"`
	Alter xmlNumber `xml:"root-alter"`
}

type xmlHarmony struct {
	Root *xmlTone `xml:"root"`
	Kind string   `xml:"kind"`
	Bass *struct {
		Step  string    `xml:"bass-step"`
		Alter xmlNumber `xml:"bass-alter"`
	} `xml:"bass"`
	Degrees []struct {
		Value xmlNumber `xml:"degree-value"`
		Alter xmlNumber `xml:"degree-alter"`
		Type  string    `xml:"degree-type"`
	} `xml:"degree"`
	Offset xmlNumber `xml:"offset"`
}

type xmlAttributes struct {
	Divisions xmlNumber `xml:"divisions"`
	Key       []struct {
		Fifths xmlNumber `xml:"fifths"`
		Mode   string    `xml:"mode"`
	} `xml:"key"`
	Time []struct {
		Beats    string    `xml:"beats"`
		BeatType xmlNumber `xml:"beat-type"`
	} `xml:"time"`
}

// xmlAny is anything in a measure of which only a few things are looked at.
type xmlAny struct {
	XMLName  xml.Name
	Duration xmlNumber  `xml:"duration"`
	Lyrics   []xmlLyric `xml:"lyric"`
	Chord    *struct{}  `xml:"chord"`
	Grace    *struct{}  `xml:"grace"`
	Tempo    string     `xml:"tempo,attr"`
	Sound    *struct {
		Tempo string `xml:"tempo,attr"`
	} `xml:"sound"`
	Repeat *struct {
		Direction string `xml:"direction,attr"`
		Times     string `xml:"times,attr"`
	} `xml:"repeat"`
	Ending *struct {
		Number string `xml:"number,attr"`
		Type   string `xml:"type,attr"`
	} `xml:"ending"`
}

// xmlReader reads a part.
type xmlReader struct {
	d         *xml.Decoder
	song      song.Song
	divisions float64 // of a quarter
	bars      []song.Bar
	chords    int
	keys      map[int]theory.Key // where the key changes, by the bar, counted from 0
	partOf    int                // the part that the bars are of, counted from 1
	bar       song.Bar
	at        float64 // in divisions, from the start of the measure
	come      []coming
	sung      xmlSung
}

// coming is an entry and when it comes.
type coming struct {
	at    float64
	entry song.Entry
}

// Read reads the chords of a MusicXML file, not compressed. The error is a *ChartError.
func Read(text string) (song.Song, error) {
	r := &xmlReader{d: xml.NewDecoder(strings.NewReader(strings.TrimPrefix(text, "\uFEFF"))), divisions: 1, keys: map[int]theory.Key{}, sung: xmlSung{in: map[int][]syllable{}, ends: map[int]bool{}}}
	if err := r.file(); err != nil {
		return song.Song{}, err
	}
	if r.chords == 0 {
		return song.Song{}, &song.ChartError{Line: 1, Column: 1, Problem: say.Of("this MusicXML file has no harmony, which is a chord over the notes")}
	}
	var section song.Section
	from := 0
	var key theory.Key     // so far
	var begins *theory.Key // with the bars from there on; nil if it goes on
	if r.song.Header.Key != nil {
		key = *r.song.Header.Key
	}
	for n := range r.bars {
		next, changes := r.keys[n+1]
		if changes = changes && next != key; n+1 == len(r.bars) || changes || r.sung.breaks(n, n+1-from) {
			section.Lines = append(append(section.Lines, song.Line{Form: song.Bars, Bars: r.bars[from : n+1], Key: begins}), r.sung.lines(from, n+1)...)
			from, begins = n+1, nil
		}
		if changes {
			key, begins = next, &next
		}
	}
	r.song.Sections = []song.Section{section}
	return r.song, nil
}

// fail is an error where the reader is.
func (r *xmlReader) fail(problem say.Text) error {
	line, column := r.d.InputPos()
	return &song.ChartError{Line: max(1, line), Column: max(1, column), Problem: problem}
}

// file reads all elements, and the first part that has chords.
func (r *xmlReader) file() error {
	for parts := 0; ; {
		token, err := r.d.Token()
		if err != nil {
			if parts == 0 && r.chords == 0 || !ended(err) {
				return r.fail(say.Of("this is no MusicXML that can be read: {}", say.Foreign(err.Error())))
			}
			return nil
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		switch start.Name.Local {
		case "score-timewise":
			return r.fail(say.Of("this MusicXML file is written by measures: save it by parts, as score-partwise"))
		case "work-title", "movement-title":
			var title string
			if err := r.d.DecodeElement(&title, &start); err == nil && r.song.Header.Title == "" {
				r.song.Header.Title = strings.Join(strings.Fields(theory.Clean(title)), " ")
			}
		case "part":
			parts++
			r.divisions, r.sung.measure = 1, 0
		case "measure":
			switch {
			case r.partOf == parts:
			case r.chords > 0:
				continue
			default:
				r.bars, r.partOf, r.keys = nil, parts, map[int]theory.Key{}
			}
			if err := r.measure(); err != nil {
				return err
			}
			r.sung.measure++
		}
	}
}

// ended reports whether an error is the end of the file.
func ended(err error) bool { return err.Error() == "EOF" }

// measure reads a measure.
func (r *xmlReader) measure() error {
	r.bar, r.at, r.come = song.Bar{}, 0, nil
	for {
		token, err := r.d.Token()
		if err != nil {
			return r.fail(say.Of("this is no MusicXML that can be read: {}", say.Foreign(err.Error())))
		}
		switch token := token.(type) {
		case xml.EndElement:
			if token.Name.Local == "measure" {
				if len(r.bars) == song.MostBars {
					return r.fail(say.Of("a song has at most {} bars", say.Number(song.MostBars)))
				}
				r.bars = append(r.bars, r.close())
				return nil
			}
		case xml.StartElement:
			if err := r.element(token); err != nil {
				return err
			}
		}
	}
}

// element reads what stands in a measure.
func (r *xmlReader) element(start xml.StartElement) error {
	broken := func(err error) error {
		return r.fail(say.Of("this is no MusicXML that can be read: {}", say.Foreign(err.Error())))
	}
	switch start.Name.Local {
	case "attributes":
		var a xmlAttributes
		if err := r.d.DecodeElement(&a, &start); err != nil {
			return broken(err)
		}
		r.attributes(a)
	case "harmony":
		var h xmlHarmony
		if err := r.d.DecodeElement(&h, &start); err != nil {
			return broken(err)
		}
		return r.harmony(h)
	default:
		var any xmlAny
		if err := r.d.DecodeElement(&any, &start); err != nil {
			return broken(err)
		}
		r.other(start.Name.Local, any)
	}
	return nil
}

// attributes reads divisions, keys and meter, of which the first counts.
func (r *xmlReader) attributes(a xmlAttributes) {
	if a.Divisions > 0 {
		r.divisions = float64(a.Divisions)
	}
	h := &r.song.Header
	if len(a.Key) > 0 && a.Key[0].Fifths >= -song.MostSharps && a.Key[0].Fifths <= song.MostSharps && (a.Key[0].Mode == "major" || a.Key[0].Mode == "minor") {
		k := keyOf(a.Key[0].Fifths.Int(), a.Key[0].Mode == "minor")
		if h.Key == nil {
			h.Key = &k
		} else {
			r.keys[len(r.bars)] = k
		}
	}
	if len(a.Time) > 0 && h.Meter == (song.Meter{}) {
		beats, err := strconv.Atoi(strings.TrimSpace(a.Time[0].Beats))
		unit := a.Time[0].BeatType.Int()
		if err == nil && beats >= 1 && beats <= song.MostBeats && slices.Contains(song.MeterUnits, unit) {
			h.Meter = song.Meter{Beats: beats, Unit: unit}
		}
	}
}

// keyOf returns the key with so many sharps, or flats below zero.
func keyOf(sharps int, minor bool) theory.Key {
	if minor {
		sharps += 3
	}
	tonic := theory.Note{}
	for ; sharps > 0; sharps-- {
		tonic = tonic.Up(theory.PerfectFifth)
	}
	for ; sharps < 0; sharps++ {
		tonic = tonic.Down(theory.PerfectFifth)
	}
	return theory.Key{Tonic: tonic, Minor: minor}
}

// other reads what moves on in time, tempo, repeats and endings.
func (r *xmlReader) other(name string, e xmlAny) {
	switch name {
	case "note":
		r.sung.take(r.partOf, e.Lyrics)
		if e.Chord == nil && e.Grace == nil {
			r.at += float64(e.Duration)
		}
	case "forward":
		r.at += float64(e.Duration)
	case "backup":
		r.at = max(0, r.at-float64(e.Duration))
	case "direction":
		if e.Sound != nil {
			r.tempo(e.Sound.Tempo)
		}
	case "sound":
		r.tempo(e.Tempo)
	case "barline":
		r.barline(e)
	}
}

// tempo takes the first tempo, in quarters a minute, if it is one that charts have.
func (r *xmlReader) tempo(quarters string) {
	n, err := strconv.ParseFloat(strings.TrimSpace(quarters), 64)
	n = n * float64(r.song.Meter().Unit) / 4
	if err == nil && r.song.Header.Tempo == 0 && n >= song.LowestTempo && n <= song.HighestTempo {
		r.song.Header.Tempo = n
	}
}

func (r *xmlReader) barline(e xmlAny) {
	if e.Repeat != nil && e.Repeat.Direction == "forward" {
		r.bar.Start = true
	}
	if e.Repeat != nil && e.Repeat.Direction == "backward" {
		r.bar.End = true
		if n, err := strconv.Atoi(e.Repeat.Times); err == nil && n > 2 && n <= song.MostTimes {
			r.bar.Times = n
		}
	}
	if e.Ending != nil && e.Ending.Type == "start" {
		if numbers, ok := song.EndingNumbers(strings.ReplaceAll(e.Ending.Number, " ", "")); ok {
			r.bar.Endings = numbers
		}
	}
}

// harmony reads a chord where it comes.
func (r *xmlReader) harmony(h xmlHarmony) error {
	at := max(0, r.at+float64(h.Offset))
	kind := strings.TrimSpace(h.Kind)
	if kind == "none" {
		r.come = append(r.come, coming{at, song.Entry{What: song.Silent}})
		return nil
	}
	if h.Root == nil {
		return r.fail(say.Of("a harmony without a root: chords written as functions or numerals are not read"))
	}
	root, ok := noteOfXML(h.Root.Step, h.Root.Alter)
	if !ok {
		return r.fail(say.Of("{} is not the letter of a root", say.Typed(h.Root.Step)))
	}
	degrees := make([]degree, len(h.Degrees))
	for i, d := range h.Degrees {
		degrees[i] = degree{d.Value.Int(), d.Alter.Int(), strings.TrimSpace(d.Type)}
	}
	k, ok := kindOfXML(kind, degrees)
	if !ok {
		return r.fail(say.Of("{} is no kind of chord we know, with its degrees", say.Typed(kind)))
	}
	c := theory.NewChord(root, k)
	if h.Bass != nil {
		if c.Bass, ok = noteOfXML(h.Bass.Step, h.Bass.Alter); !ok {
			return r.fail(say.Of("{} is not the letter of a bass", say.Typed(h.Bass.Step)))
		}
	}
	r.chords++
	r.come = append(r.come, coming{at, song.Entry{Chord: c}})
	return nil
}

// noteOfXML reads a letter and its alteration.
func noteOfXML(step string, alter xmlNumber) (theory.Note, bool) {
	letter := strings.Index("CDEFGAB", strings.TrimSpace(step))
	return theory.Note{Letter: theory.Letter(max(0, letter)), Alter: int8(alter.Int())}, letter >= 0 && len(strings.TrimSpace(step)) == 1 && alter >= -2 && alter <= 2
}

// kindOfXML returns the kind of chord that a kind of MusicXML is with its degrees.
func kindOfXML(name string, degrees []degree) (*theory.Kind, bool) {
	of, ok := theory.KindByID(name)
	if !ok || !slices.Contains(xmlKinds, name) {
		return nil, false
	}
	formula := slices.Clone(of.Formula)
	for _, d := range degrees {
		i := slices.IndexFunc(formula, func(tone theory.Interval) bool { return tone.Number == d.Value })
		switch {
		case d.Value < 1 || d.Value > 13 || d.Alter < -2 || d.Alter > 2:
			return nil, false
		case d.Type == "alter" && i >= 0:
			formula[i].Semitones += d.Alter
		case d.Type == "subtract" && i >= 0:
			formula = slices.Delete(formula, i, i+1)
		case d.Type == "add":
			tone := theory.Plain(d.Value)
			if d.Value == theory.MinorSeventh.Number {
				tone = theory.MinorSeventh
			}
			tone.Semitones += d.Alter
			formula = append(formula, tone)
		default:
			return nil, false
		}
	}
	return theory.KindByFormula(formula)
}

// close makes a bar of what came in a measure: as many entries as it takes to say when each comes, of those numbers that divide its beats
// evenly, or halve them, and so on. What lies between goes to the nearest.
func (r *xmlReader) close() song.Bar {
	b := r.bar
	meter := r.song.Meter()
	length := float64(meter.Beats) * 4 / float64(meter.Unit) * r.divisions
	slices.SortStableFunc(r.come, func(a, b coming) int {
		switch {
		case a.at < b.at:
			return -1
		case a.at > b.at:
			return 1
		}
		return 0
	})
	var counts []int
	for n := 1; n <= meter.Beats; n++ {
		if meter.Beats%n == 0 {
			counts = append(counts, n)
		}
	}
	for n := 2 * meter.Beats; n <= mostEntries*meter.Beats; n *= 2 {
		counts = append(counts, n)
	}
	best := counts[len(counts)-1]
	for _, n := range counts {
		if !slices.ContainsFunc(r.come, func(c coming) bool {
			place := c.at * float64(n) / length
			return place-float64(int(place+0.5)) > 1e-6 || float64(int(place+0.5))-place > 1e-6
		}) {
			best = n
			break
		}
	}
	b.Entries = make([]song.Entry, best)
	for i := range b.Entries {
		b.Entries[i] = song.Entry{What: song.Hold}
	}
	for _, c := range r.come {
		i := min(best-1, int(c.at*float64(best)/length+0.5))
		b.Entries[i] = c.entry
	}
	return b
}

// mostEntries is into how many parts a beat is divided at the most.
const mostEntries = 8
