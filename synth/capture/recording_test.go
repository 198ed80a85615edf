package capture

import (
	"bytes"
	"encoding/binary"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"
	"testing/iotest"

	"sparetone/synth"

	"github.com/gopxl/beep/v2"
)

// wavFile writes a WAV file with a chunk before its data that is none of ours.
func wavFile(kind, channels, bits uint16, rate uint32, data []byte) []byte {
	le := binary.LittleEndian
	b := append([]byte("RIFF\x00\x00\x00\x00WAVELIST\x03\x00\x00\x00abc\x00fmt "), 18, 0, 0, 0)
	b = le.AppendUint16(le.AppendUint16(b, kind), channels)
	b = le.AppendUint32(le.AppendUint32(b, rate), rate*uint32(channels)*uint32(bits)/8)
	b = le.AppendUint16(le.AppendUint16(le.AppendUint16(b, channels*bits/8), bits), 0)
	b = le.AppendUint32(append(b, "data"...), uint32(len(data)))
	return append(b, data...)
}

// all reads every sample.
func all(s *Samples) (out []float64, err error) {
	block := make([]float64, 7)
	for {
		n, err := s.Read(block)
		out = append(out, block[:n]...)
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return out, err
		}
	}
}

func TestReadWAV(t *testing.T) {
	float := binary.LittleEndian.AppendUint32(nil, math.Float32bits(-0.25))
	for _, c := range []struct {
		kind, channels, bits uint16
		data                 []byte
		want                 []float64
	}{
		{1, 1, 8, []byte{128, 192, 0}, []float64{0, 0.5, -1}},
		{1, 1, 16, []byte{0, 0, 0, 0x40, 0, 0x80}, []float64{0, 0.5, -1}},
		{1, 2, 16, []byte{0, 0x40, 0, 0, 0, 0x80, 0, 0x80}, []float64{0.25, -1}},
		{1, 1, 24, []byte{0, 0, 0x40, 0, 0, 0x80}, []float64{0.5, -1}},
		{1, 1, 32, []byte{0, 0, 0, 0x40, 0, 0, 0, 0x80}, []float64{0.5, -1}},
		{3, 1, 32, append(float, 0, 0, 0xC0, 0x7F), []float64{-0.25, 0}}, // the second is no number
		{1, 1, 16, []byte{0, 0x40, 7}, []float64{0.5}},                   // cut off within a sample
	} {
		for _, slow := range []bool{false, true} {
			var r io.Reader = bytes.NewReader(wavFile(c.kind, c.channels, c.bits, 44100, c.data))
			if slow {
				r = iotest.OneByteReader(r)
			}
			s, err := ReadWAV(r)
			if err != nil {
				t.Errorf("format %d, %d bits: %v", c.kind, c.bits, err)
				continue
			}
			got, err := all(s)
			if err != nil || s.Rate != 44100 || len(got) != len(c.want) {
				t.Errorf("format %d, %d bits: %v at %v, %v", c.kind, c.bits, got, s.Rate, err)
				continue
			}
			for i := range got {
				if math.Abs(got[i]-c.want[i]) > 1e-6 {
					t.Errorf("format %d, %d bits: %v, want %v", c.kind, c.bits, got, c.want)
				}
			}
		}
	}
}

// What WriteWAV writes is read again.
func TestWrittenWAVIsRead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x.wav")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	at := 0
	ramp := beep.StreamerFunc(func(out [][2]float64) (int, bool) {
		n := min(len(out), 1000-at)
		for i := range n {
			v := float64(at)/1000 - 0.5
			out[i] = [2]float64{v, v}
			at++
		}
		return n, n > 0
	})
	if err := synth.WriteWAV(f, ramp, 24); err != nil {
		t.Fatal(err)
	}
	if _, err := f.Seek(0, io.SeekStart); err != nil {
		t.Fatal(err)
	}
	s, err := ReadWAV(f)
	if err != nil {
		t.Fatal(err)
	}
	got, err := all(s)
	if err != nil || len(got) != 1000 || s.Rate != float64(synth.SampleRate) || math.Abs(got[250]+0.25) > 1e-6 {
		t.Errorf("%d samples at %v, %v", len(got), s.Rate, err)
	}
	f.Close()
}

// Whatever a file holds, it is read or refused in a line, and no room is made for what it only claims to hold.
func FuzzReadWAV(f *testing.F) {
	f.Add(wavFile(1, 1, 16, 48000, []byte{1, 2, 3, 4}))
	f.Add(wavFile(1, 2, 24, 44100, make([]byte, 30)))
	f.Add(wavFile(3, 1, 32, 8000, []byte{0, 0, 0x80, 0x7F}))
	f.Add(wavFile(0xFFFE, 1, 16, 48000, nil))
	f.Add([]byte("RIFF\xff\xff\xff\xffWAVEfmt \xff\xff\xff\x7f"))
	f.Fuzz(func(t *testing.T, b []byte) {
		s, err := ReadWAV(bytes.NewReader(b))
		if err != nil {
			if bytes.ContainsAny([]byte(err.Error()), "\n\x1b") {
				t.Errorf("%q", err)
			}
			return
		}
		got, err := all(s)
		if err != nil || len(got) > len(b) {
			t.Errorf("%d samples of %d bytes, %v", len(got), len(b), err)
		}
		for _, x := range got {
			if !(math.Abs(x) <= loudestFloat) {
				t.Fatalf("a sample of %v", x)
			}
		}
	})
}
