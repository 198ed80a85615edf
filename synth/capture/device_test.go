//go:build unix && !darwin

package capture

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"golang.org/x/sys/unix"

	"sparetone/synth"
	"sparetone/synth/playback"
	"sparetone/theory"
)

// becomes waits until a microphone stands in a way, and returns how long that took.
func becomes(t *testing.T, m *Microphone, within time.Duration, want State, kinds ...FaultKind) time.Duration {
	t.Helper()
	began := time.Now()
	for {
		s, f := m.State()
		if s == want && (f == nil) == (kinds == nil) {
			for _, k := range kinds {
				if f.Kind == k {
					return time.Since(began)
				}
			}
			if f == nil {
				return time.Since(began)
			}
		}
		if time.Since(began) > within {
			t.Fatalf("after %v it stands at %d with %v; want %d with %v", within, s, f, want, kinds)
		}
		time.Sleep(5 * time.Millisecond)
	}
}

// aWord is how long it may take until something is said.
const aWord = 2 * time.Second

// backWithin is how long it may take until a device that has come back is heard: until it is looked for again, and it begins.
const backWithin = 8 * time.Second

func TestFaultsOfServers(t *testing.T) {
	for _, kind := range []string{"pulseaudio", "pipewire"} {
		t.Run(kind, func(t *testing.T) {
			s := startServer(t, kind)
			s.noise(t)
			written := divertOutput(t)
			m := NewMicrophone(Device())
			m.On()
			defer m.Off()
			var log strings.Builder // written when the screen is the screen again
			told := func(what string, within time.Duration, do func(), state State, kinds ...FaultKind) {
				began := time.Now()
				do()
				becomes(t, m, within-time.Since(began), state, kinds...)
				fmt.Fprintf(&log, "\n%s after %v", what, time.Since(began).Round(time.Millisecond))
			}
			deaf := func(what string, do func(), kinds ...FaultKind) { told(what, aWord, do, Deaf, kinds...) }
			back := func(do func()) { told("back", backWithin, do, Listening) }
			back(func() {})

			deaf("zeros", s.quiet, Refused)
			back(func() { s.noise(t) })

			deaf("hung", func() { s.signal(syscall.SIGSTOP) }, Hung)
			back(func() { s.signal(syscall.SIGCONT) })

			deaf("suspended", func() { pactl(t, "suspend-sink", "cap", "1") }, Hung, Refused)
			back(func() { pactl(t, "suspend-sink", "cap", "0"); s.noise(t) })

			deaf("removed", func() { pactl(t, "unload-module", "module-null-sink") }, Gone)
			back(func() { s.addSink(t); s.noise(t) })

			deaf("killed", s.kill, Gone)
			back(func() { s.start(t); s.noise(t) })
			if text := written(); text != "" {
				t.Errorf("written to the screen: %q", text)
			}
			t.Log(log.String())
		})
	}
}

func pactl(t *testing.T, args ...string) {
	t.Helper()
	if out, err := exec.Command("pactl", args...).CombinedOutput(); err != nil {
		t.Fatalf("pactl %s: %v\n%s", strings.Join(args, " "), err, out)
	}
}

func TestNoServerIsSaid(t *testing.T) {
	t.Setenv("PULSE_SERVER", "unix:/nonexistent")
	t.Setenv("ALSA_CONFIG_PATH", "/dev/null")
	m := NewMicrophone(Device())
	m.On()
	defer m.Off()
	becomes(t, m, aWord, Deaf, NoServer)
}

// divertOutput leads standard output and error to a file, and returns what leads them back and returns what was written.
func divertOutput(t *testing.T) func() string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "written")
	file, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	var kept [2]int
	for i := range kept {
		if kept[i], err = unix.Dup(i + 1); err == nil {
			err = unix.Dup2(int(file.Fd()), i+1)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	written := func() string {
		for i, was := range kept {
			if was >= 0 {
				unix.Dup2(was, i+1)
				unix.Close(was)
				kept[i] = -1
			}
		}
		b, err := os.ReadFile(path)
		if err != nil {
			t.Error(err)
		}
		return string(b)
	}
	t.Cleanup(func() { written() })
	return written
}

// TestLatency measures how long it takes from a sound's being played by the program until it is heard by it.
func TestLatency(t *testing.T) {
	const longest = 120 * time.Millisecond // of which the player takes 16 ms and more
	for _, kind := range []string{"pulseaudio", "pipewire"} {
		t.Run(kind, func(t *testing.T) {
			s := startServer(t, kind)
			s.noise(t)
			m := NewMicrophone(Device())
			m.On()
			defer m.Off()
			becomes(t, m, 6*time.Second, Listening)
			speaker := playback.Open(1)
			defer speaker.Close()
			click, err := synth.Render(synth.Hand{Ring: 100 * time.Millisecond}.Strum([]synth.Sounding{{String: 1, Pitch: theory.Pitch{Octave: 5}}}), synth.Voices()[0], synth.Options{A4: 440})
			if err != nil {
				t.Fatal(err)
			}
			var took []time.Duration
			for range 12 {
				time.Sleep(300 * time.Millisecond)
				m.Take()
				played := time.Now()
				speaker.Play(click)
				for heard := false; !heard; {
					select {
					case <-m.Came():
					case <-time.After(3 * time.Second):
						t.Fatal("it is not heard")
					}
					for _, x := range m.Take().Samples {
						heard = heard || x > 0.02 || x < -0.02
					}
				}
				took = append(took, time.Since(played))
			}
			slices.Sort(took)
			t.Logf("from a sound's being played until it is heard: %v in the middle, %v at most", took[len(took)/2], took[len(took)-1])
			if took[len(took)/2] > longest {
				t.Errorf("it takes %v; want %v or less", took[len(took)/2], longest)
			}
		})
	}
}
