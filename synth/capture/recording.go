package capture

import (
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
)

// Samples reads samples one after another, its channels as one: their mean. What it reads from may be as long as it likes.
type Samples struct {
	Rate     float64 // samples a second
	from     *bufio.Reader
	channels int
	width    int // bytes of a sample
	value    func([]byte) float64
	left     int64 // bytes; below zero if there is no end but that of what is read from
}

// The formats of a WAV file that are read: Multimedia Programming Interface and Data Specifications 1.0, IBM and Microsoft, 1991, and
// mmreg.h for those that came later.
const (
	formatPCM        = 1
	formatFloat      = 3
	formatExtensible = 0xFFFE
	mostChannels     = 32
	lowestRate       = 8000
	highestRate      = 192000
)

// ReadWAV begins to read a WAV file of whole numbers of 8, 16, 24 or 32 bits, or of 32-bit floating-point numbers. The error says in a
// line what is wrong with it.
//
// It is not beep's decoder, which takes the sizes that a file states for room that it has to make.
func ReadWAV(r io.Reader) (*Samples, error) {
	s := &Samples{from: bufio.NewReader(r)}
	var head [12]byte
	if _, err := io.ReadFull(s.from, head[:]); err != nil || string(head[:4]) != "RIFF" || string(head[8:]) != "WAVE" {
		return nil, errors.New("it is no WAV file: one begins with RIFF, its size, and WAVE")
	}
	for {
		var chunk [8]byte
		if _, err := io.ReadFull(s.from, chunk[:]); err != nil {
			return nil, errors.New("a WAV file without sound: it ends before its data")
		}
		name, size := string(chunk[:4]), int64(binary.LittleEndian.Uint32(chunk[4:]))
		switch {
		case name == "data" && s.value == nil:
			return nil, errors.New("a WAV file that does not say what its data is: its format comes first")
		case name == "data":
			if s.left = size; size == math.MaxUint32 || size == 0 {
				s.left = -1 // written by what could not go back to say so
			}
			return s, nil
		case name == "fmt " && size >= 16 && size < 1<<10:
			format := make([]byte, size)
			if _, err := io.ReadFull(s.from, format); err != nil {
				return nil, errors.New("a WAV file that is cut off in its format")
			}
			if err := s.format(format); err != nil {
				return nil, err
			}
			size &= 1
		case name == "fmt ":
			return nil, fmt.Errorf("a WAV file whose format takes %d bytes: it must be 16 or some more", size)
		default:
			size += size & 1
		}
		if _, err := io.CopyN(io.Discard, s.from, size); err != nil {
			return nil, errors.New("a WAV file without sound: it ends before its data")
		}
	}
}

// format reads what the samples are.
func (s *Samples) format(b []byte) error {
	kind, bits := binary.LittleEndian.Uint16(b), int(binary.LittleEndian.Uint16(b[14:]))
	s.channels, s.Rate = int(binary.LittleEndian.Uint16(b[2:])), float64(binary.LittleEndian.Uint32(b[4:]))
	if kind == formatExtensible && len(b) >= 26 {
		kind = binary.LittleEndian.Uint16(b[24:])
	}
	if s.channels < 1 || s.channels > mostChannels {
		return fmt.Errorf("a WAV file of %d channels: it must be 1 to %d", s.channels, mostChannels)
	}
	if s.Rate < lowestRate || s.Rate > highestRate {
		return fmt.Errorf("a WAV file of %v samples a second: it must be %d to %d", s.Rate, lowestRate, highestRate)
	}
	for _, v := range values {
		if v.kind == kind && v.bits == bits {
			s.width, s.value = bits/8, v.value
			return nil
		}
	}
	return fmt.Errorf("a WAV file of format %d with %d bits a sample: it must be of whole numbers (format 1) with 8, 16, 24 or 32 bits, or floating (3) with 32", kind, bits)
}

// values are the samples that are read, each as a number from -1 to 1.
var values = []struct {
	kind  uint16
	bits  int
	value func([]byte) float64
}{
	{formatPCM, 8, func(b []byte) float64 { return (float64(b[0]) - 128) / (1 << 7) }},
	{formatPCM, 16, int16Value},
	{formatPCM, 24, func(b []byte) float64 {
		return float64(int32(uint32(b[0])<<8|uint32(b[1])<<16|uint32(b[2])<<24)) / (1 << 31)
	}},
	{formatPCM, 32, func(b []byte) float64 { return float64(int32(binary.LittleEndian.Uint32(b))) / (1 << 31) }},
	{formatFloat, 32, func(b []byte) float64 {
		x := float64(math.Float32frombits(binary.LittleEndian.Uint32(b)))
		if !(x >= -loudestFloat && x <= loudestFloat) {
			return 0 // no number, or none that a sound has
		}
		return x
	}},
}

// loudestFloat is what floating samples may reach: more than 1 is allowed in files, and is no sound.
const loudestFloat = 16

func int16Value(b []byte) float64 { return float64(int16(binary.LittleEndian.Uint16(b))) / (1 << 15) }

// ReadRaw begins to read raw samples, signed whole numbers of 16 bits, little-endian, one channel, so many a second. The error says what is
// wrong with the rate.
func ReadRaw(r io.Reader, rate float64) (*Samples, error) {
	if !(rate >= lowestRate && rate <= highestRate) {
		return nil, fmt.Errorf("a rate of %v samples a second: it must be %d to %d", rate, lowestRate, highestRate)
	}
	return &Samples{Rate: rate, from: bufio.NewReader(r), channels: 1, width: 2, value: int16Value, left: -1}, nil
}

// Begins reports whether what comes next begins with a text, without reading it.
func (s *Samples) Begins(text string) bool {
	b, _ := s.from.Peek(len(text))
	return string(b) == text
}

// Read reads the next samples, at least one, and returns how many; none and io.EOF at the end. A sound that is cut off is as long as what
// is there of it.
func (s *Samples) Read(out []float64) (int, error) {
	frame := make([]byte, s.channels*s.width)
	for n := range out {
		if n > 0 && s.from.Buffered() < len(frame) {
			return n, nil
		}
		if s.left >= 0 && s.left < int64(len(frame)) {
			return n, endAfter(n, io.EOF)
		}
		if _, err := io.ReadFull(s.from, frame); err != nil {
			if errors.Is(err, io.ErrUnexpectedEOF) {
				err = io.EOF
			}
			return n, endAfter(n, err)
		}
		if s.left >= 0 {
			s.left -= int64(len(frame))
		}
		var sum float64
		for c := range s.channels {
			sum += s.value(frame[c*s.width:])
		}
		out[n] = sum / float64(s.channels)
	}
	return len(out), nil
}

// endAfter returns an error that comes after some samples only when those are done with.
func endAfter(n int, err error) error {
	if n > 0 {
		return nil
	}
	return err
}
