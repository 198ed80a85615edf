package synth

import (
	"math"
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
		begun := time.Now()
		s := OpenSpeaker(StartVolume)
		if took := time.Since(begun); took > 50*time.Millisecond {
			t.Errorf("opening held the caller up for %v", took)
		}
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

// vanishesAndReturns: a device that vanishes is noticed within two seconds; when it is back, the next sound plays on it.
func vanishesAndReturns(t *testing.T, out *sink, s *Speaker) {
	s.Play(chordSound(t))
	time.Sleep(200 * time.Millisecond)
	if !s.Playing() || len(s.Levels()) != 4 {
		t.Errorf("playing is %v, levels are %v", s.Playing(), s.Levels())
	}

	out.stop()
	await(t, s, NoDevice, 2*time.Second)
	if s.Playing() {
		t.Error("without a device something plays")
	}

	out.start(t)
	out.take()
	s.Play(chordSound(t))
	await(t, s, Ready, 2*time.Second)
	time.Sleep(400 * time.Millisecond)
	if heard := out.take(); highestStep(heard.samples, 0, len(heard.samples)) == 0 {
		t.Error("nothing is heard on the device that is back")
	}
}

// stopsAndSwaps: Stop, and another sound instead of one, are immediate and do not click.
func stopsAndSwaps(t *testing.T, out *sink, s *Speaker) {
	out.take()
	s.Play(chordSound(t))
	time.Sleep(500 * time.Millisecond)
	own := out.take()
	from := len(own.samples) - 9600
	usual := highestStep(own.samples, from, len(own.samples)) // what they make themselves

	s.Stop()
	if s.Playing() {
		t.Error("it plays on after Stop")
	}
	time.Sleep(300 * time.Millisecond)
	after := out.take()
	if step := highestStep(after.samples, 0, len(after.samples)); step > usual*1.05 {
		t.Errorf("stopping makes a step of %.5f, usually %.5f", step, usual)
	}
	last := 0
	for i, x := range after.samples {
		if math.Abs(x) > 1e-4 {
			last = i
		}
	}
	if took := SampleRate.D(last); took > 150*time.Millisecond {
		t.Errorf("it is heard for %v after Stop", took)
	} else {
		t.Logf("it is heard for %v after Stop, the device's and the recorder's own delay included", took)
	}

	quiet, err := Render(Hand{}.Block(sounding(t, "1:A4")), voices[0], Options{Gain: -60})
	if err != nil {
		t.Fatal(err)
	}
	s.Play(chordSound(t))
	time.Sleep(500 * time.Millisecond)
	out.take()
	s.Play(quiet)
	time.Sleep(300 * time.Millisecond)
	swapped := out.take()
	if step := highestStep(swapped.samples, 0, len(swapped.samples)); step > usual*1.1 {
		t.Errorf("swapping makes a step of %.5f, usually %.5f", step, usual)
	}
	if rest := highestStep(swapped.samples, len(swapped.samples)-4800, len(swapped.samples)); rest > 0.01*usual {
		t.Errorf("the first sound is still heard below the second: steps of %.6f", rest)
	}
}

// A rendered sound streams, and reaches the device, without allocating.
func TestStreamingDoesNotAllocate(t *testing.T) {
	s := chordSound(t)
	var frames [256][2]float64
	if n := testing.AllocsPerRun(100, func() { s.Stream(frames[:]) }); n != 0 {
		t.Errorf("Sound.Stream: %v allocations", n)
	}
	p := newPlaying(Hand{Ring: time.Minute}.Strum(sounding(t, "4:G4 3:C4 2:E4 1:C5")), voices[4], 440)
	var mix [block]float64
	if n := testing.AllocsPerRun(1000, func() { p.next(mix[:]) }); n != 0 {
		t.Errorf("playing.next: %v allocations", n)
	}
	tr := &track{sound: s}
	b := make([]byte, 512*frameBytes)
	if n := testing.AllocsPerRun(100, func() { _, _ = tr.Read(b) }); n != 0 {
		t.Errorf("track.Read: %v allocations", n)
	}
}
