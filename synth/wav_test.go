package synth

import (
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

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
		if err := WriteWAV(path, s, bits); err != nil {
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
		r := record(back)
		if len(r.samples) != s.Len() {
			t.Fatalf("%d bits: %d samples, want %d", bits, len(r.samples), s.Len())
		}
		if err := s.Seek(0); err != nil {
			t.Fatal(err)
		}
		for i, x := range record(s).samples {
			if step := 2 / math.Exp2(float64(bits)); math.Abs(r.samples[i]-x) > 1.01*step {
				t.Fatalf("%d bits: sample %d is %v, want %v", bits, i, r.samples[i], x)
			}
		}
	}
}

func TestWAVThatCannotBeWritten(t *testing.T) {
	dir := t.TempDir()
	for path, want := range map[string]string{
		filepath.Join(dir, "no", "such", "folder.wav"): "no such file",
		dir:        "is not a file",
		os.DevNull: "is not a file",
	} {
		err := WriteWAV(path, chordSound(t), 16)
		if err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: want one line that says %q, got %v", path, want, err)
		}
	}
	if err := WriteWAV(filepath.Join(dir, "c.wav"), chordSound(t), 20); err == nil {
		t.Error("20 bits: want an error")
	}
	left, err := os.ReadDir(dir)
	if err != nil || len(left) != 0 {
		t.Errorf("left behind: %v, %v", left, err)
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

// A file that was there survives a write that fails.
func TestFailedWAVLeavesTheOldOne(t *testing.T) {
	path := filepath.Join(t.TempDir(), "c.wav")
	if err := os.WriteFile(path, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := WriteWAV(path, &brokenStreamer{left: 3}, 16); err == nil || !strings.Contains(err.Error(), "broke off") {
		t.Errorf("want the streamer's error, got %v", err)
	}
	if b, err := os.ReadFile(path); err != nil || string(b) != "old" {
		t.Errorf("the old file is %q, %v", b, err)
	}
}

// A full disk, played by a shell that lets no file grow beyond 64 KiB, leaves nothing behind.
func TestWAVOnAFullDisk(t *testing.T) {
	if dir := os.Getenv("SPARETONE_FULL_DISK"); dir != "" {
		err := WriteWAV(filepath.Join(dir, "c.wav"), chordSound(t), 16)
		if err == nil || strings.Contains(err.Error(), "\n") || !strings.Contains(err.Error(), "was not written") {
			t.Fatalf("want one line, got %v", err)
		}
		return
	}
	sh, err := exec.LookPath("sh")
	if err != nil {
		missing(t, "sh")
	}
	dir := t.TempDir()
	c := exec.Command(sh, "-c", `ulimit -f 128 && exec "$0" -test.run '^TestWAVOnAFullDisk$'`, os.Args[0])
	c.Env = append(os.Environ(), "SPARETONE_FULL_DISK="+dir)
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	if left, err := os.ReadDir(dir); err != nil || len(left) != 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}
