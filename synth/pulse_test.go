package synth

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"
)

// sink is a PulseAudio server whose only device is a null sink: what is played to it can be recorded
// from outside the program.
type sink struct {
	server *exec.Cmd
	parec  *exec.Cmd
	mu     sync.Mutex
	bytes  bytes.Buffer
}

// startSink starts a server that this process, and only it, plays to.
func startSink(t testing.TB) *sink {
	t.Helper()
	if os.Getenv("CI") == "" {
		t.Skip("an end-to-end test, with Debian's pulseaudio: CI=true has it run")
	}
	for _, tool := range []string{"pulseaudio", "parec"} {
		if _, err := exec.LookPath(tool); err != nil {
			missing(t, "Debian's "+tool)
		}
	}
	dir, err := os.MkdirTemp("", "sink") // a socket's path must be short
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	t.Setenv("XDG_RUNTIME_DIR", dir)
	t.Setenv("HOME", dir)
	t.Setenv("PULSE_SERVER", "unix:"+filepath.Join(dir, "pulse", "native"))
	s := &sink{}
	s.start(t)
	t.Cleanup(func() { s.stop() })
	return s
}

// start starts the server and the recording.
func (s *sink) start(t testing.TB) {
	t.Helper()
	socket := filepath.Join(os.Getenv("XDG_RUNTIME_DIR"), "pulse", "native")
	s.server = exec.Command("pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1",
		"-L", "module-null-sink sink_name=cap rate=48000", "-L", "module-native-protocol-unix")
	if err := s.server.Start(); err != nil {
		t.Fatal(err)
	}
	for range 100 { // the sink is loaded before the socket is there
		if _, err := os.Stat(socket); err == nil {
			break
		}
		time.Sleep(50 * time.Millisecond)
	}
	s.parec = exec.Command("parec", "-d", "cap.monitor", "--format=float32le", "--rate=48000", "--channels=2", "--latency-msec=10")
	out, err := s.parec.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := s.parec.Start(); err != nil {
		t.Fatal(err)
	}
	go func() {
		var b [4096]byte
		for {
			n, err := out.Read(b[:])
			s.mu.Lock()
			s.bytes.Write(b[:n])
			s.mu.Unlock()
			if err != nil {
				return
			}
		}
	}()
	for range 100 { // the recording is on when there is something in it
		if s.recorded() > 0 {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatal("nothing is recorded from PulseAudio")
}

// stop ends the server, as when a device is pulled out.
func (s *sink) stop() {
	for _, c := range []*exec.Cmd{s.parec, s.server} {
		_ = c.Process.Kill()
		_ = c.Wait()
	}
	os.Remove(filepath.Join(os.Getenv("XDG_RUNTIME_DIR"), "pulse", "native"))
	s.take()
}

func (s *sink) recorded() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.bytes.Len()
}

// take returns the left channel of what has been recorded since it was last called.
func (s *sink) take() recording {
	s.mu.Lock()
	defer s.mu.Unlock()
	r := recording{rate: 48000}
	b, _ := io.ReadAll(&s.bytes)
	for ; len(b) >= 8; b = b[8:] {
		r.samples = append(r.samples, float64(math.Float32frombits(binary.LittleEndian.Uint32(b))))
	}
	return r
}

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
		missing(t, "Debian's aubio-tools")
	}
	out := startSink(t)
	s := OpenSpeaker(1)
	defer s.Close()
	await(t, s, Ready, 5*time.Second)
	for name, check := range map[string]func(testing.TB, *sink, Speaker) error{
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
func heardInTune(t testing.TB, out *sink, s Speaker) error {
	for _, n := range []int{60, 69} {
		sound, err := Render(Score{Plucks: []Pluck{{String: 1, Pitch: midiPitch(n), Strength: 0.7}}, Length: time.Second}, voices[0], Options{})
		if err != nil {
			t.Fatal(err)
		}
		out.take()
		s.Play(sound)
		time.Sleep(1100 * time.Millisecond)
		heard := out.take()
		heard.samples = heard.samples[heard.onset():]
		path := filepath.Join(t.TempDir(), "heard.wav")
		if err := writeWAV(path, heard.stream(), 24); err != nil {
			t.Fatal(err)
		}
		want := midiPitch(n).Frequency(440)
		ours, theirs := cents(heard.frequency(want, 0.15, 0.75), want), cents(aubio(t, path), want)
		if !(math.Abs(ours) <= 0.5 && math.Abs(theirs) <= 0.5) {
			return fmt.Errorf("%v is heard %.3f cents off, by aubio %.3f", midiPitch(n), ours, theirs)
		}
		t.Logf("%v is heard %.4f cents off, by aubio %.3f", midiPitch(n), ours, theirs)
	}
	return nil
}

// stopAndSwap reports whether Stop, or another sound instead of one, clicks or leaves something sounding.
func stopAndSwap(t testing.TB, out *sink, s Speaker) error {
	out.take()
	s.Play(chordSound(t))
	time.Sleep(500 * time.Millisecond)
	own := out.take()
	usual := highestStep(own.samples, len(own.samples)-9600, len(own.samples)) // what the strings make

	s.Stop()
	if s.Playing() {
		t.Error("it plays on after Stop")
	}
	time.Sleep(300 * time.Millisecond)
	stopped := out.take()
	if step := highestStep(stopped.samples, 0, len(stopped.samples)); step > usual*1.05 {
		return fmt.Errorf("stopping makes a step of %.5f, the strings %.5f", step, usual)
	}
	if rest := highestStep(stopped.samples, len(stopped.samples)-4800, len(stopped.samples)); rest > 0 {
		return fmt.Errorf("after Stop something sounds on: steps of %.6f", rest)
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
	if step := highestStep(swapped.samples, 0, len(swapped.samples)); step > usual*1.05 {
		return fmt.Errorf("swapping makes a step of %.5f, the strings %.5f", step, usual)
	}
	if rest := highestStep(swapped.samples, len(swapped.samples)-4800, len(swapped.samples)); rest > 0.01*usual {
		return fmt.Errorf("the first sound is still heard below the second: steps of %.6f", rest)
	}
	return nil
}

// stringsTremble reports whether Levels shows other strings than those that sound, or shows them when none
// does.
func stringsTremble(t testing.TB, _ *sink, s Speaker) error {
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
func vanishAndReturn(t *testing.T, out *sink, s Speaker) {
	s.Play(chordSound(t))
	time.Sleep(200 * time.Millisecond)
	if !s.Playing() {
		t.Error("nothing plays")
	}
	out.stop()
	await(t, s, NoDevice, 3*time.Second)
	if s.Playing() {
		t.Error("without a device something plays")
	}
	out.start(t)
	s.Play(chordSound(t))
	await(t, s, Ready, 5*time.Second)
	time.Sleep(400 * time.Millisecond)
	if heard := out.take(); highestStep(heard.samples, 0, len(heard.samples)) == 0 {
		t.Error("nothing is heard on the device that is back")
	}
}
