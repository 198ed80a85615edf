package playback

import (
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/gopxl/beep/v2"

	"sparetone/synth"
	"sparetone/synth/measure"
)

// await waits until the speaker is in a state.
func await(t testing.TB, s Speaker, want State, within time.Duration) {
	t.Helper()
	for end := time.Now().Add(within); time.Now().Before(end); time.Sleep(time.Millisecond) {
		if state, _ := s.State(); state == want {
			return
		}
	}
	state, reason := s.State()
	t.Fatalf("after %v the speaker is in state %v (%s), want %v", within, state, reason, want)
}

// The speaker, heard from outside the program.
func TestThroughPulseAudio(t *testing.T) {
	if _, err := exec.LookPath("aubiopitch"); err != nil {
		measure.Missing(t, "Debian's aubio-tools")
	}
	out := measure.StartNullSink(t)
	s := Open(1)
	defer s.Close()
	await(t, s, Ready, 5*time.Second)
	for name, check := range map[string]func(testing.TB, *measure.NullSink, Speaker) error{
		"in tune":         heardInTune,
		"stop and swap":   stopAndSwap,
		"strings tremble": stringsTremble,
	} {
		t.Run(name, func(t *testing.T) {
			// A machine that is busy elsewhere may break a sound up. What is our fault happens every time.
			err := check(t, out, s)
			for try := 0; err != nil && try < 3; try++ {
				t.Log(err)
				err = check(t, out, s)
			}
			if err != nil {
				t.Error(err)
			}
		})
	}
	t.Run("device vanishes and returns", func(t *testing.T) { vanishAndReturn(t, out, s) })
}

// heardInTune reports whether what is heard is off pitch, by our own measure or another program's.
func heardInTune(t testing.TB, out *measure.NullSink, s Speaker) error {
	for _, name := range []string{"C4", "A4"} {
		sound := rendered(t, note(t, name, time.Second), synth.Options{})
		out.Take()
		s.Play(sound)
		time.Sleep(1100 * time.Millisecond)
		heard := out.Take()
		heard.Samples = heard.Samples[heard.Onset():]
		path := filepath.Join(t.TempDir(), "heard.wav")
		if err := writeWAV(path, heard.Stream()); err != nil {
			t.Fatal(err)
		}
		want := pitch(t, name).Frequency(440)
		ours, theirs := measure.Cents(heard.Frequency(want, 0.15, 0.75), want), measure.Cents(measure.Aubio(t, path), want)
		if !(math.Abs(ours) <= 0.5 && math.Abs(theirs) <= 0.5) {
			return fmt.Errorf("%v is heard %.3f cents off, by aubio %.3f", name, ours, theirs)
		}
		t.Logf("%v is heard %.4f cents off, by aubio %.3f", name, ours, theirs)
	}
	return nil
}

// stopAndSwap reports whether Stop, or another sound instead of one, clicks or leaves something sounding.
func stopAndSwap(t testing.TB, out *measure.NullSink, s Speaker) error {
	out.Take()
	s.Play(chordSound(t))
	time.Sleep(500 * time.Millisecond)
	own := out.Take()
	usual := measure.HighestStep(own.Samples, len(own.Samples)-9600, len(own.Samples)) // what the strings make

	s.Stop()
	if s.Playing() {
		t.Error("it plays on after Stop")
	}
	time.Sleep(300 * time.Millisecond)
	stopped := out.Take()
	if step := measure.HighestStep(stopped.Samples, 0, len(stopped.Samples)); step > usual*1.05 {
		return fmt.Errorf("stopping makes a step of %.5f, the strings %.5f", step, usual)
	}
	if rest := measure.HighestStep(stopped.Samples, len(stopped.Samples)-4800, len(stopped.Samples)); rest > 0 {
		return fmt.Errorf("after Stop something sounds on: steps of %.6f", rest)
	}

	quiet := rendered(t, note(t, "A4", time.Second), synth.Options{Gain: -60})
	s.Play(chordSound(t))
	time.Sleep(500 * time.Millisecond)
	out.Take()
	s.Play(quiet)
	time.Sleep(300 * time.Millisecond)
	swapped := out.Take()
	if step := measure.HighestStep(swapped.Samples, 0, len(swapped.Samples)); step > usual*1.05 {
		return fmt.Errorf("swapping makes a step of %.5f, the strings %.5f", step, usual)
	}
	if rest := measure.HighestStep(swapped.Samples, len(swapped.Samples)-4800, len(swapped.Samples)); rest > 0.01*usual {
		return fmt.Errorf("the first sound is still heard below the second: steps of %.6f", rest)
	}
	return nil
}

// stringsTremble reports whether Levels shows other strings than those that sound, or shows them when none
// does.
func stringsTremble(t testing.TB, _ *measure.NullSink, s Speaker) error {
	s.Play(chordSound(t))
	time.Sleep(300 * time.Millisecond)
	early := s.Levels()
	time.Sleep(300 * time.Millisecond)
	late := s.Levels()
	s.Stop()
	if len(early) != 4 || len(late) != 4 || s.Levels() != nil {
		return fmt.Errorf("four strings sound, then none: levels %v, %v, then %v", early, late, s.Levels())
	}
	for n, level := range late {
		if level <= 0 || level >= early[n] {
			return fmt.Errorf("string %d goes from %v to %v", n, early[n], level)
		}
	}
	return nil
}

// vanishAndReturn: a device that vanishes is noticed; when it is back, the next sound plays on it.
func vanishAndReturn(t *testing.T, out *measure.NullSink, s Speaker) {
	s.Play(chordSound(t))
	time.Sleep(200 * time.Millisecond)
	if !s.Playing() {
		t.Error("nothing plays")
	}
	out.Stop()
	await(t, s, NoDevice, 3*time.Second)
	if s.Playing() {
		t.Error("without a device something plays")
	}
	out.Start(t)
	s.Play(chordSound(t))
	await(t, s, Ready, 5*time.Second)
	time.Sleep(400 * time.Millisecond)
	if heard := out.Take(); measure.HighestStep(heard.Samples, 0, len(heard.Samples)) == 0 {
		t.Error("nothing is heard on the device that is back")
	}
}

// writeWAV writes a sound to a new file.
func writeWAV(path string, s beep.Streamer) error {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	return errors.Join(synth.WriteWAV(f, s, 24), f.Close())
}
