package measure

import (
	"bytes"
	"encoding/binary"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"
)

// SinkRate is the rate in Hz of what a NullSink is sent and recorded at.
const SinkRate = 48000

// NullSink is a PulseAudio server of a test's own whose only device is a null sink: what is played to it is recorded from outside
// the program.
type NullSink struct {
	server *exec.Cmd
	parec  *exec.Cmd
	mu     sync.Mutex
	bytes  bytes.Buffer
}

// StartNullSink starts a server that this process, and only it, plays to, until the test ends. Outside CI it skips the test; in CI
// it fails where Debian's pulseaudio is missing.
func StartNullSink(t testing.TB) *NullSink {
	t.Helper()
	if os.Getenv("CI") == "" {
		t.Skip("an end-to-end test, with Debian's pulseaudio: CI=true has it run")
	}
	for _, tool := range []string{"pulseaudio", "parec"} {
		if _, err := exec.LookPath(tool); err != nil {
			Missing(t, "Debian's "+tool)
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
	GoFirst(t) // it plays
	s := &NullSink{}
	s.Start(t)
	t.Cleanup(s.Stop)
	return s
}

// Start starts the server and the recording, also after Stop.
func (s *NullSink) Start(t testing.TB) {
	t.Helper()
	socket := filepath.Join(os.Getenv("XDG_RUNTIME_DIR"), "pulse", "native")
	s.server = First("pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1",
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
	PutFirst(s.server)
	s.parec = First("parec", "-d", "cap.monitor", "--format=float32le", "--rate=48000", "--channels=2", "--latency-msec=10")
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

// Stop ends the server, as when a device is pulled out.
func (s *NullSink) Stop() {
	for _, c := range []*exec.Cmd{s.parec, s.server} {
		_ = c.Process.Kill()
		_ = c.Wait()
	}
	os.Remove(filepath.Join(os.Getenv("XDG_RUNTIME_DIR"), "pulse", "native"))
	s.Take()
}

func (s *NullSink) recorded() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.bytes.Len()
}

// Take returns the left channel of what has been recorded since it was last called.
func (s *NullSink) Take() Recording {
	s.mu.Lock()
	defer s.mu.Unlock()
	r := Recording{Rate: SinkRate}
	for b := s.bytes.Next(s.bytes.Len() / frame * frame); len(b) > 0; b = b[frame:] {
		r.Samples = append(r.Samples, float64(math.Float32frombits(binary.LittleEndian.Uint32(b))))
	}
	return r
}

// frame is how many bytes a frame of two channels takes.
const frame = 8
