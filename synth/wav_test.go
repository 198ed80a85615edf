package synth

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/synth/measure"

	"github.com/gopxl/beep/v2"
	"github.com/gopxl/beep/v2/wav"
)

func chordSound(t testing.TB) *Sound {
	t.Helper()
	s, err := Render(Hand{}.Strum(sounding(t, "4:G4 3:C4 2:E4 1:C5")), voices[0], Options{})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// What is written is what was rendered, to within a step of 16 or 24 bits.
func TestWAVHoldsTheSound(t *testing.T) {
	for _, bits := range []int{16, 24} {
		path := filepath.Join(t.TempDir(), "c.wav")
		s := chordSound(t)
		if err := writeWAV(path, s, bits); err != nil {
			t.Fatal(err)
		}
		f, err := os.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		back, format, err := wav.Decode(f)
		if err != nil {
			t.Fatal(err)
		}
		if want := (beep.Format{SampleRate: 48000, NumChannels: 2, Precision: bits / 8}); format != want {
			t.Errorf("%d bits: format %+v, want %+v", bits, format, want)
		}
		r := measure.Record(back, SampleRate)
		if len(r.Samples) != s.Len() {
			t.Fatalf("%d bits: %d samples, want %d", bits, len(r.Samples), s.Len())
		}
		if err := s.Seek(0); err != nil {
			t.Fatal(err)
		}
		for i, x := range measure.Record(s, SampleRate).Samples {
			if step := 2 / math.Exp2(float64(bits)); math.Abs(r.Samples[i]-x) > 1.01*step {
				t.Fatalf("%d bits: sample %d is %v, want %v", bits, i, r.Samples[i], x)
			}
		}
	}
}

func TestWAVOfOtherBits(t *testing.T) {
	if err := writeWAV(filepath.Join(t.TempDir(), "c.wav"), chordSound(t), 20); err == nil || !strings.Contains(err.Error(), "16 or 24") {
		t.Errorf("20 bits: %v", err)
	}
}

// brokenStreamer fails after a while.
type brokenStreamer struct{ left int }

func (b *brokenStreamer) Stream(samples [][2]float64) (int, bool) {
	if b.left == 0 {
		return 0, false
	}
	b.left--
	return len(samples), true
}

func (b *brokenStreamer) Err() error {
	if b.left == 0 {
		return errors.New("the sound broke off")
	}
	return nil
}

func TestWAVOfASoundThatBreaksOff(t *testing.T) {
	if err := writeWAV(filepath.Join(t.TempDir(), "c.wav"), &brokenStreamer{left: 3}, 16); err == nil || !strings.Contains(err.Error(), "broke off") {
		t.Errorf("want the streamer's error, got %v", err)
	}
}

// writeWAV writes a sound to a new file.
func writeWAV(path string, s beep.Streamer, bits int) error {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	return errors.Join(WriteWAV(f, s, bits), f.Close())
}
