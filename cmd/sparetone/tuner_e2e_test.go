//go:build unix && !darwin

package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"sparetone/synth"
	"sparetone/synth/measure"
	"sparetone/theory"
)

// shared is what a program has written so far.
type shared struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (s *shared) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.Write(p)
}

func (s *shared) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.String()
}

// rawOf is a string of a voice of ours, so many cents off, as raw samples of 16 bits.
func rawOf(t *testing.T, pitch string, cents float64) (out []byte) {
	t.Helper()
	p, err := theory.ParsePitch(pitch)
	if err != nil {
		t.Fatal(err)
	}
	voice, err := synth.VoiceByName("ukulele")
	if err != nil {
		t.Fatal(err)
	}
	score := synth.Score{Length: 2 * time.Second, Plucks: []synth.Pluck{{String: 1, Pitch: p, Strength: 0.6}}}
	sound, err := synth.Render(score, voice, synth.Options{A4: 440 * math.Exp2(cents/1200)})
	if err != nil {
		t.Fatal(err)
	}
	var block [512][2]float64
	for {
		n, ok := sound.Stream(block[:])
		for i, frame := range block[:n] {
			out = binary.LittleEndian.AppendUint16(out, uint16(int16(math.MaxInt16*frame[0])+int16(i%5-2))) // with a little hiss
		}
		if !ok {
			return out
		}
	}
}

// Somebody tunes in lines, heard through a null sink's monitor: each string that sounds is told as it is, and nothing is written elsewhere.
func TestTuningThroughASink(t *testing.T) {
	need(t, "pulseaudio", "pacat")
	dir, err := os.MkdirTemp("", "tune") // a socket's path must be short
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	socket := filepath.Join(dir, "pulse", "native")
	env := append(os.Environ(), "XDG_RUNTIME_DIR="+dir, "HOME="+dir, "PULSE_SERVER=unix:"+socket, "PULSE_SOURCE=cap.monitor")
	server := measure.First("pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1", "-L", "module-null-sink sink_name=cap rate=48000", "-L", "module-native-protocol-unix")
	server.Env = env
	if err := server.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { server.Process.Kill(); server.Wait() })
	for range 100 {
		if _, err := os.Stat(socket); err == nil {
			break
		}
		time.Sleep(50 * time.Millisecond)
	}
	measure.PutFirst(server)
	program := measure.First(binaryPath(t), "practice", "--plain", "--progress", filepath.Join(dir, "p.db"), "--tuning", "ukulele", "--silent")
	program.Env = env
	var out, errs shared
	program.Stdout, program.Stderr = &out, &errs
	typed, err := program.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := program.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { program.Process.Kill() })
	says := func(want string, within time.Duration) bool {
		for until := time.Now().Add(within); time.Now().Before(until); time.Sleep(50 * time.Millisecond) {
			if strings.Contains(out.String(), want) {
				return true
			}
		}
		return false
	}
	await := func(want string) {
		t.Helper()
		if !says(want, patience) {
			t.Fatalf("it does not say %q:\n%s\n%s", want, &out, &errs)
		}
	}
	for range 5 {
		fmt.Fprintln(typed) // the first questions
	}
	await("An empty line begins")
	fmt.Fprintln(typed, "tune")
	await("Pluck one string after another")
	player := measure.First("pacat", "--raw", "-d", "cap", "--format=s16le", "--rate=48000", "--channels=1", "--latency-msec=20")
	player.Env = env
	into, err := player.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := player.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { player.Process.Kill(); player.Wait() })
	hiss := make([]byte, 2*recordedRate/10)
	for i := 0; i < len(hiss); i += 2 {
		x := int16(i*7919%13 - 6)
		binary.LittleEndian.PutUint16(hiss[i:], uint16(x))
	}
	plucked := make(chan []byte)
	go func() {
		defer into.Close()
		for sound, more := hiss, true; more; {
			if _, err := into.Write(sound); err != nil {
				for range plucked { // nobody is left waiting
				}
				return
			}
			select {
			case sound, more = <-plucked:
			default:
				sound = hiss
			}
		}
	}()
	defer close(plucked)
	await("Listening.")
	for _, s := range []struct {
		pitch string
		cents float64
		want  string
	}{
		{"G4", -20, "The g string is 20 cents low: tighten it."}, {"C4", 0, "The C string is in tune."},
		{"E4", 15, "The E string is 15 cents high: loosen it."}, {"A4", 0, "The A string is in tune."},
	} {
		sound := rawOf(t, s.pitch, s.cents)
		// A busy machine may break a sound up, so it may be plucked again; what is heard wrong by ourselves is so each time.
		heard := false
		for try := 0; try < 3 && !heard; try++ {
			plucked <- sound
			heard = says(s.want, 10*time.Second)
		}
		if !heard {
			await(s.want)
		}
	}
	fmt.Fprintln(typed)
	fmt.Fprintln(typed, "leave")
	if err := program.Wait(); err != nil || errs.String() != "" {
		t.Errorf("it ends with %v and %s", err, &errs)
	}
}
