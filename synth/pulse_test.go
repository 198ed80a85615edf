package synth

import (
	"bytes"
	"encoding/binary"
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
	for ; len(b) >= frameBytes; b = b[frameBytes:] {
		r.samples = append(r.samples, float64(math.Float32frombits(binary.LittleEndian.Uint32(b))))
	}
	return r
}

// await waits until the speaker is in a state.
func await(t testing.TB, s *Speaker, want State, within time.Duration) {
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
	out := startSink(t)
	s := OpenSpeaker(1)
	defer s.Close()
	await(t, s, Ready, 2*time.Second)
	t.Run("in tune", func(t *testing.T) { heardInTune(t, out, s) })
	t.Run("no click", func(t *testing.T) { stopsAndSwaps(t, out, s) })
	t.Run("device vanishes and returns", func(t *testing.T) { vanishesAndReturns(t, out, s) })
}

// heardInTune: what is heard is in tune, also by another program's measure.
func heardInTune(t *testing.T, out *sink, s *Speaker) {
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
		want := midiPitch(n).Frequency(440)
		got := heard.frequency(want, 0.15, 0.75)
		if off := cents(got, want); !(math.Abs(off) <= 0.5) {
			t.Errorf("%v is heard at %.3f Hz, %.3f cents off", midiPitch(n), got, off)
		} else {
			t.Logf("%v is heard %.4f cents off", midiPitch(n), off)
		}
		if _, err := exec.LookPath("aubiopitch"); err != nil {
			missing(t, "Debian's aubio-tools")
		}
		path := filepath.Join(t.TempDir(), "heard.wav")
		if err := WriteWAV(path, heard.stream(), 24); err != nil {
			t.Fatal(err)
		}
		if off := cents(aubio(t, path), want); !(math.Abs(off) <= 0.5) {
			t.Errorf("%v is heard by aubio %.2f cents off", midiPitch(n), off)
		}
		if s.Playing() {
			t.Error("a sound that has ended still plays")
		}
	}
}
