package playback

import (
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// deaf is an environment without any sound device.
var deaf = []string{"PULSE_SERVER=unix:/nonexistent", "ALSA_CONFIG_PATH=/dev/null"}

// Without a device the program knows so within a second and in one plain line, and nothing that looks
// for one writes to the terminal.
func TestNoDevice(t *testing.T) {
	if os.Getenv("SPARETONE_DEAF") != "" {
		s := Open(StartVolume)
		s.Play(chordSound(t))
		await(t, s, NoDevice, time.Second)
		_, reason := s.State()
		if reason == "" || strings.ContainsAny(reason, "\n:") || len(reason) > 60 {
			t.Errorf("the reason is %q", reason)
		}
		if s.Playing() || s.Levels() != nil {
			t.Error("without a device something plays")
		}
		select {
		case <-s.Changed():
		default:
			t.Error("the change was not told")
		}
		s.Stop()
		s.SetVolume(0.2)
		s.Close()
		return
	}
	c := exec.Command(os.Args[0], "-test.run", "^TestNoDevice$")
	c.Env = append(os.Environ(), append(deaf, "SPARETONE_DEAF=1")...)
	var errors strings.Builder
	c.Stderr = &errors
	if out, err := c.Output(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	if errors.Len() != 0 {
		t.Errorf("written to the terminal:\n%s", &errors)
	}
}

// A rendered sound reaches the device without allocating.
func TestMixingDoesNotAllocate(t *testing.T) {
	var m mixer
	m.play(chordSound(t))
	out := make([]float32, 1024)
	if n := testing.AllocsPerRun(100, func() { m.read(out) }); n != 0 {
		t.Errorf("mixer.read: %v allocations", n)
	}
}
