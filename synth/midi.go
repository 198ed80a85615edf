package synth

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"time"
)

// MIDI is what a Standard MIDI File says beside a score.
type MIDI struct {
	Title       string
	Tempo       float64 // beats a minute, above 3.6
	Beats, Unit int     // of the meter: 6 and 8 for six eighths; Unit is 1, 2, 4, 8 or 16
	Sharps      int     // of the key; flats below zero
	Minor       bool    // the key is minor
	Texts       []Text  // such as the names of chords
	Strings     []StringTrack
}

// Text is a text at a time.
type Text struct {
	At   time.Duration
	Text string
}

// StringTrack is the name of a string's track.
type StringTrack struct {
	Number int
	Name   string
}

// The figures of a Standard MIDI File, by the specification: Standard MIDI Files 1.0, MIDI Manufacturers Association, 1996.
const (
	ticksPerQuarter = 960
	guitarProgram   = 24 // the program of General MIDI 1, counted from 0
	drumChannel     = 9  // of General MIDI 1, counted from 0
	metaText        = 0x01
	metaName        = 0x03
	metaEnd         = 0x2F
	metaTempo       = 0x51
	metaMeter       = 0x58
	metaKey         = 0x59
	noteOff         = 0x80
	noteOn          = 0x90
	program         = 0xC0
)

// event is one event of a track.
type event struct {
	tick  int
	order int // of events at one tick: what ends comes before what begins
	data  []byte
}

// WriteMIDI writes a score as a Standard MIDI File of format 1: a track for tempo, meter, key and texts, and one for each string. A
// note ends as its string is stopped or plucked again; a slur is a note of its own. Plucks of strings without a name in m
// have no track.
func WriteMIDI(w io.Writer, s Score, m MIDI) error {
	if !(m.Tempo > 3.6) || m.Beats < 1 || !slices.Contains([]int{1, 2, 4, 8, 16}, m.Unit) {
		return fmt.Errorf("%v beats a minute in %d/%d: that is no tempo and meter", m.Tempo, m.Beats, m.Unit)
	}
	tick := func(at time.Duration) int {
		quarters := at.Minutes() * m.Tempo * 4 / float64(m.Unit)
		return int(math.Round(quarters * ticksPerQuarter))
	}
	tracks := [][]byte{m.conductor(tick)}
	for n, track := range m.Strings {
		channel := byte(n % 15)
		if channel >= drumChannel {
			channel++
		}
		tracks = append(tracks, stringTrack(s, track, channel, tick))
	}
	var out bytes.Buffer
	out.WriteString("MThd")
	for _, v := range []any{uint32(6), uint16(1), uint16(len(tracks)), uint16(ticksPerQuarter)} {
		if err := binary.Write(&out, binary.BigEndian, v); err != nil {
			return err
		}
	}
	for _, t := range tracks {
		out.WriteString("MTrk")
		if err := binary.Write(&out, binary.BigEndian, uint32(len(t))); err != nil {
			return err
		}
		out.Write(t)
	}
	_, err := w.Write(out.Bytes())
	return err
}

// conductor is the track of what holds for all.
func (m MIDI) conductor(tick func(time.Duration) int) []byte {
	perQuarter := uint32(math.Round(60e6 / (m.Tempo * 4 / float64(m.Unit))))
	minor := byte(0)
	if m.Minor {
		minor = 1
	}
	events := []event{
		{0, 0, meta(metaName, []byte(m.Title))},
		{0, 1, meta(metaTempo, []byte{byte(perQuarter >> 16), byte(perQuarter >> 8), byte(perQuarter)})},
		{0, 2, meta(metaMeter, []byte{byte(m.Beats), byte(math.Log2(float64(m.Unit))), byte(96 / m.Unit), 8})},
		{0, 3, meta(metaKey, []byte{byte(int8(m.Sharps)), minor})},
	}
	for _, t := range m.Texts {
		events = append(events, event{tick(t.At), 4, meta(metaText, []byte(t.Text))})
	}
	return track(events)
}

// stringTrack is the track of a string.
func stringTrack(s Score, t StringTrack, channel byte, tick func(time.Duration) int) []byte {
	name := t.Name
	if name == "" {
		name = strconv.Itoa(t.Number)
	}
	events := []event{{0, 0, meta(metaName, []byte(name))}, {0, 1, []byte{program | channel, guitarProgram}}}
	var plucks []Pluck
	for _, p := range s.InTime() {
		if p.String == t.Number {
			plucks = append(plucks, p)
		}
	}
	for n, p := range plucks {
		end := s.Length
		if n+1 < len(plucks) {
			end = plucks[n+1].At
		}
		if p.Damp > 0 {
			end = min(end, p.At+p.Damp)
		}
		from, to := tick(p.At), tick(end)
		if to <= from {
			continue // plucked again at once
		}
		note, velocity := byte(p.Pitch.MIDI()), byte(max(1, math.Round(127*p.Strength)))
		events = append(events, event{from, 3, []byte{noteOn | channel, note, velocity}}, event{to, 2, []byte{noteOff | channel, note, 64}})
	}
	return track(events)
}

// meta is a meta event.
func meta(kind byte, data []byte) []byte {
	return append(append([]byte{0xFF, kind}, length(len(data))...), data...)
}

// track writes events as a track.
func track(events []event) (out []byte) {
	slices.SortStableFunc(events, func(a, b event) int { return cmp.Or(cmp.Compare(a.tick, b.tick), cmp.Compare(a.order, b.order)) })
	at := 0
	for _, e := range events {
		out = append(append(out, length(e.tick-at)...), e.data...)
		at = e.tick
	}
	return append(append(out, length(0)...), meta(metaEnd, nil)...)
}

// length writes a number as the file has it: seven bits a byte, the highest first.
func length(n int) []byte {
	out := []byte{byte(n & 0x7F)}
	for n >>= 7; n > 0; n >>= 7 {
		out = append([]byte{byte(n&0x7F) | 0x80}, out...)
	}
	return out
}
