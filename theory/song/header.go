package song

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// headerLine is a line of the header: its name, the other names that it goes by, what it takes, and what it says.
type headerLine struct {
	name  string
	also  []string
	wants string
	set   func(h *Header, value string) error // an error of no words is said as what the line wants
	write func(h Header) string               // empty if the header does not say it
}

// headerLines are the lines of the header in the order in which they are written.
var headerLines = []headerLine{
	{"title", nil, "a title is words", func(h *Header, v string) error {
		h.Title = v
		return nil
	}, func(h Header) string { return h.Title }},
	{"key", nil, "", func(h *Header, v string) error {
		k, err := read.Key(v)
		h.Key = &k
		return err
	}, func(h Header) string {
		if h.Key == nil {
			return ""
		}
		return h.Key.Symbol()
	}},
	{"tempo", []string{"bpm", "speed"}, "a tempo is a number of beats a minute from 30 to 300", func(h *Header, v string) error {
		v = strings.ToLower(strings.Join(strings.Fields(v), " "))
		for _, sign := range []string{"♩ = ", "♩=", "𝅘𝅥 = ", "𝅘𝅥="} {
			v = strings.TrimPrefix(v, sign)
		}
		v = strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(v, "bpm"), "beats a minute"))
		n, err := strconv.ParseFloat(v, 64)
		if err != nil || !(n >= LowestTempo && n <= HighestTempo) {
			return errWants
		}
		h.Tempo = math.Round(n*100) / 100
		return nil
	}, func(h Header) string {
		if h.Tempo == 0 {
			return ""
		}
		return strconv.FormatFloat(h.Tempo, 'f', -1, 64)
	}},
	{"meter", []string{"metre", "time"}, "a meter is beats and their unit, such as 4/4, 3/4 or 6/8", func(h *Header, v string) error {
		beats, unit, _ := strings.Cut(strings.ReplaceAll(v, " ", ""), "/")
		b, err := strconv.Atoi(beats)
		u, err2 := strconv.Atoi(unit)
		if err != nil || err2 != nil || b < 1 || b > MostBeats || !slices.Contains(MeterUnits, u) {
			return errWants
		}
		h.Meter = Meter{b, u}
		return nil
	}, func(h Header) string {
		if h.Meter == (Meter{}) {
			return ""
		}
		return strconv.Itoa(h.Meter.Beats) + "/" + strconv.Itoa(h.Meter.Unit)
	}},
	{"tuning", nil, "", func(h *Header, v string) (err error) {
		if strings.EqualFold(v, "standard") {
			return nil // of whatever it is played on
		}
		h.Tuning, err = fret.ParseTuning(v)
		return err
	}, func(h Header) string {
		if h.Tuning == nil {
			return ""
		}
		return h.Tuning.Name
	}},
	{"capo", nil, "a capo sits at a fret, such as 2; 0 is none", func(h *Header, v string) error {
		v = strings.TrimSpace(strings.TrimPrefix(strings.ToLower(v), "fret"))
		if v == "none" || v == "no" {
			return nil
		}
		for _, end := range []string{"st", "nd", "rd", "th", " fret"} {
			v = strings.TrimSuffix(v, end)
		}
		for _, end := range []string{"st", "nd", "rd", "th"} {
			v = strings.TrimSuffix(v, end)
		}
		n, err := strconv.Atoi(strings.TrimSpace(v))
		if err != nil || n < 0 || n > 12 {
			return errWants
		}
		h.Capo = n
		return nil
	}, func(h Header) string {
		if h.Capo == 0 {
			return ""
		}
		return strconv.Itoa(h.Capo)
	}},
	{"pick", []string{"picking"}, "", func(h *Header, v string) (err error) {
		h.Pick, err = ParsePick(v, mostStrings)
		return err
	}, func(h Header) string { return h.Pick.String() }},
	{"strum", []string{"strumming"}, "", func(h *Header, v string) (err error) {
		h.Strum, err = ParseStrum(v)
		return err
	}, func(h Header) string { return h.Strum.String() }},
}

// MostBeats is how many beats a bar has at the most.
const MostBeats = 16

// MeterUnits are the notes that a beat may be: a whole, a half and so on.
var MeterUnits = []int{1, 2, 4, 8, 16}

// mostStrings is how many strings an instrument has at the most: on which one a picking order is played, a chart need not say.
const mostStrings = 8

// errWants is the error of a line of the header that is said as what the line wants.
var errWants = errors.New("not what the line wants")

// headerOf finds a line of the header by its name, -1 if there is none.
func headerOf(name string) int {
	name = strings.ToLower(name)
	return slices.IndexFunc(headerLines, func(h headerLine) bool { return h.name == name || slices.Contains(h.also, name) })
}

// cutHeader divides a line at its first colon, if a word stands before it.
func cutHeader(w row) (name string, value []cell, ok bool) {
	colon := index(w.cells, ':')
	if colon <= 0 {
		return "", nil, false
	}
	name = text(trim(w.cells[:colon]))
	if strings.ContainsAny(name, " |[]") {
		return "", nil, false
	}
	return name, trim(w.cells[colon+1:]), true
}

// readHeader reads a line of the header, if the line is one.
func (r *reader) readHeader(w row) (bool, error) {
	name, value, ok := cutHeader(w)
	if !ok {
		return false, nil
	}
	n := headerOf(name)
	switch {
	case n < 0 && r.begun:
		return false, nil
	case n < 0 && len(value) > 0:
		if near := nearHeader(name); near != "" {
			return false, wrong(w.number, trim(w.cells), sayNearHeader(name, near))
		}
		return false, nil
	case n < 0:
		return false, nil
	}
	line := headerLines[n]
	switch {
	case len(value) == 0:
		return !r.begun, nil
	case r.begun:
		var late Header
		if line.set(&late, text(value)) != nil {
			return false, nil // words
		}
		if late.Key == nil {
			return false, wrong(w.number, trim(w.cells), lateHeader)
		}
		return true, r.laterKey(w, late.Key)
	case r.said[n]:
		return false, wrong(w.number, trim(w.cells), sayTwice(line.name+":"))
	}
	r.said[n] = true
	if err := line.set(&r.song.Header, text(value)); err == errWants {
		return false, wrong(w.number, value, sayHeader(line.name, text(value), line.wants))
	} else if err != nil {
		return false, wrong(w.number, value, say.Of("{}: {}", say.Words(line.name), say.Said(err)))
	}
	return true, nil
}

// laterKey takes a key that is said after the header: of the chords that follow, or of the song if none came before and none was said.
func (r *reader) laterKey(w row, k *theory.Key) error {
	if !r.hasChords && r.song.Header.Key == nil {
		r.song.Header.Key = k
		return nil
	}
	if r.key != nil {
		return r.keyAt
	}
	r.key, r.keyBefore, r.keyAt = k, len(r.song.Sections), wrong(w.number, trim(w.cells), keyAlone)
	return nil
}

// nearHeader returns the name of the line of the header that a mistyped one comes nearest to, empty if none is near.
func nearHeader(typed string) string {
	for _, h := range headerLines {
		if oneSlip(strings.ToLower(typed), h.name) {
			return h.name
		}
	}
	return ""
}

// oneSlip reports whether two words differ by one letter that is left out, too many, wrong, or swapped with the next.
func oneSlip(a, b string) bool {
	for a != "" && b != "" && a[0] == b[0] {
		a, b = a[1:], b[1:]
	}
	for a != "" && b != "" && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	return len(a) <= 1 && len(b) <= 1 || len(a) == 2 && len(b) == 2 && a[0] == b[1] && a[1] == b[0]
}
