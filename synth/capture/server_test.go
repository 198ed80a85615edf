//go:build unix && !darwin

package capture

import (
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"sparetone/synth/measure"
)

// soundServer is a sound server of its own for a test, with a null sink whose monitor is the microphone.
type soundServer struct {
	kind    string // pulseaudio or pipewire
	dir     string
	running []*exec.Cmd // the last one is what programs talk to
	player  *exec.Cmd
	into    io.WriteCloser
}

// needs are the Debian programs that each kind needs.
var needs = map[string][]string{
	"pulseaudio": {"pulseaudio", "pactl", "pacat"},
	"pipewire":   {"pipewire", "wireplumber", "pipewire-pulse", "dbus-daemon", "pactl", "pacat"},
}

// startServer starts a server, and stops it when the test ends.
func startServer(t *testing.T, kind string) *soundServer {
	t.Helper()
	if os.Getenv("CI") == "" {
		t.Skip("an end-to-end test, with Debian's pulseaudio and pipewire: CI=true has it run")
	}
	for _, tool := range needs[kind] {
		if _, err := exec.LookPath(tool); err != nil {
			t.Fatalf("this needs Debian's %s", tool)
		}
	}
	dir, err := os.MkdirTemp("", "ear") // a socket's path must be short
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	for name, value := range map[string]string{
		"XDG_RUNTIME_DIR": dir, "HOME": dir, "PULSE_SERVER": "unix:" + filepath.Join(dir, "pulse", "native"), "PULSE_SOURCE": "cap.monitor",
		"DBUS_SESSION_BUS_ADDRESS": "unix:path=" + filepath.Join(dir, "bus"), "ALSA_CONFIG_PATH": "/dev/null", "XDG_CONFIG_HOME": "",
	} {
		t.Setenv(name, value)
	}
	measure.GoFirst(t) // it listens
	s := &soundServer{kind: kind, dir: dir}
	t.Cleanup(s.kill)
	s.start(t)
	return s
}

// start starts the programs, and the sink.
func (s *soundServer) start(t *testing.T) {
	t.Helper()
	if s.kind == "pulseaudio" {
		s.run(t, filepath.Join("pulse", "native"), "pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1", "-L", "module-native-protocol-unix")
	} else {
		s.run(t, "bus", "dbus-daemon", "--session", "--address="+os.Getenv("DBUS_SESSION_BUS_ADDRESS"), "--nofork", "--nopidfile")
		s.run(t, "pipewire-0", "pipewire")
		s.run(t, "", "wireplumber")
		s.run(t, filepath.Join("pulse", "native"), "pipewire-pulse")
	}
	s.addSink(t)
}

func (s *soundServer) run(t *testing.T, socket, name string, args ...string) {
	t.Helper()
	c := measure.First(name, args...)
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	s.running = append(s.running, c)
	for range 100 {
		if _, err := os.Stat(filepath.Join(s.dir, socket)); err == nil {
			measure.PutFirst(c)
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatalf("%s does not start", name)
}

// addSink makes the null sink, as soon as the server lets it.
func (s *soundServer) addSink(t *testing.T) {
	t.Helper()
	for range 50 {
		if exec.Command("pactl", "load-module", "module-null-sink", "sink_name=cap", "rate=48000").Run() == nil {
			break
		}
		time.Sleep(100 * time.Millisecond)
	}
	for range 50 {
		if out, err := exec.Command("pactl", "list", "short", "sources").Output(); err == nil && strings.Contains(string(out), "cap.monitor") {
			return
		}
		time.Sleep(100 * time.Millisecond)
	}
	t.Fatal("there is no null sink")
}

// kill ends all programs at once, as a crash does.
func (s *soundServer) kill() {
	s.quiet()
	for i := len(s.running) - 1; i >= 0; i-- {
		s.running[i].Process.Kill()
		s.running[i].Wait()
	}
	s.running = nil
	for _, socket := range []string{"bus", "pipewire-0", filepath.Join("pulse", "native"), filepath.Join("pulse", "pid")} {
		os.Remove(filepath.Join(s.dir, socket))
	}
}

// signal signals the program that others talk to.
func (s *soundServer) signal(sig syscall.Signal) { s.running[len(s.running)-1].Process.Signal(sig) }

// noise plays soft noise into the sink until quiet is called.
func (s *soundServer) noise(t *testing.T) {
	t.Helper()
	r := rand.New(rand.NewPCG(1, 1))
	s.play(t, func(b []byte) {
		for i := 0; i+1 < len(b); i += 2 {
			x := int16(r.IntN(200) - 100)
			b[i], b[i+1] = byte(x), byte(uint16(x)>>8)
		}
	})
}

// play plays raw samples of 16 bits, one channel, 48000 a second, into the sink, until quiet is called.
func (s *soundServer) play(t *testing.T, fill func([]byte)) {
	t.Helper()
	s.quiet()
	s.player = measure.First("pacat", "--raw", "-d", "cap", "--format=s16le", "--rate=48000", "--channels=1", "--latency-msec=20")
	into, err := s.player.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := s.player.Start(); err != nil {
		t.Fatal(err)
	}
	s.into = into
	go func() {
		block := make([]byte, 960)
		for {
			fill(block)
			if _, err := into.Write(block); err != nil {
				return
			}
		}
	}()
}

func (s *soundServer) quiet() {
	if s.player != nil {
		s.player.Process.Kill()
		s.player.Wait()
		s.player = nil
	}
}
