package main

import (
	"encoding/binary"
	"fmt"
	"math"
	"math/cmplx"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"gonum.org/v1/gonum/dsp/fourier"

	"sparetone/synth/measure"
	"sparetone/theory"
)

const recordedRate = 48000

// sink starts a PulseAudio server of the test's own with a null sink, and returns the environment that
// reaches it.
func sink(t *testing.T) []string {
	t.Helper()
	env, _ := soundServer(t)
	return env
}

// soundServer is a sink with what ends it at once, as if the device were pulled out.
func soundServer(t *testing.T) (env []string, end func()) {
	t.Helper()
	env = soundless(t)
	return env, serveSound(t, env)
}

// soundless is the environment of a program that finds no sound server until serveSound starts one there.
func soundless(t *testing.T) (env []string) {
	t.Helper()
	need(t, "pulseaudio", "parec", "pactl")
	dir := t.TempDir()
	return append(os.Environ(), "XDG_RUNTIME_DIR="+dir, "HOME="+dir, "PULSE_SERVER=unix:"+filepath.Join(dir, "pulse", "native"))
}

// serveSound starts a sound server in an environment; end stops it.
func serveSound(t *testing.T, env []string) (end func()) {
	t.Helper()
	server := measure.First("pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1", "-L", "module-native-protocol-unix",
		"-L", "module-null-sink sink_name=cap rate=48000")
	server.Env = env
	if err := server.Start(); err != nil {
		t.Fatal(err)
	}
	end = func() { server.Process.Kill(); server.Wait() }
	t.Cleanup(end)
	_, socket, _ := strings.Cut(env[len(env)-1], "unix:")
	for range 200 {
		if _, err := os.Stat(socket); err == nil {
			measure.PutFirst(server)
			return end
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatal("PulseAudio does not open its socket")
	return nil
}

// awaitStream waits until a program has opened the sink.
func awaitStream(t *testing.T, env []string) {
	t.Helper()
	for range 200 {
		list := exec.Command("pactl", "list", "short", "sink-inputs")
		list.Env = env
		if out, err := list.Output(); err == nil && len(out) > 0 {
			time.Sleep(time.Second) // until the program knows as well
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatal("no program opens the sink")
}

// recorder records what the sink is sent.
type recorder struct {
	cmd  *exec.Cmd
	path string
}

func record(t *testing.T, env []string) *recorder {
	t.Helper()
	r := &recorder{path: filepath.Join(t.TempDir(), "heard.raw")}
	out, err := os.Create(r.path)
	if err != nil {
		t.Fatal(err)
	}
	r.cmd = measure.First("parec", "-d", "cap.monitor", "--format=s16le", "--channels=1", fmt.Sprintf("--rate=%d", recordedRate), "--latency-msec=20")
	r.cmd.Env, r.cmd.Stdout = env, out
	if err := r.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	out.Close()
	t.Cleanup(func() { r.cmd.Process.Kill() })
	return r
}

// stop ends the recording and returns its samples, -1 to 1.
func (r *recorder) stop(t *testing.T) []float64 {
	t.Helper()
	r.cmd.Process.Signal(os.Interrupt)
	r.cmd.Wait()
	raw, err := os.ReadFile(r.path)
	if err != nil {
		t.Fatal(err)
	}
	out := make([]float64, len(raw)/2)
	for i := range out {
		out[i] = float64(int16(binary.LittleEndian.Uint16(raw[2*i:]))) / 32768
	}
	return out
}

// spectrum is how strong each frequency is in a recording as a whole.
type spectrum struct {
	level []float64 // amplitude of bin i
	bin   float64   // Hz a bin
}

func newSpectrum(samples []float64) spectrum {
	n := 1 << 16
	window := make([]float64, n)
	for i := range window {
		window[i] = 0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/float64(n))
	}
	fft := fourier.NewFFT(n)
	s := spectrum{level: make([]float64, n/2), bin: float64(recordedRate) / float64(n)}
	// The strongest a frequency ever is counts, so that notes heard in turn all do.
	for at := 0; at+n/4 <= len(samples); at += n / 4 {
		block := make([]float64, n)
		copy(block, samples[at:min(at+n, len(samples))])
		for i := range block {
			block[i] *= window[i]
		}
		for i, c := range fft.Coefficients(nil, block)[:n/2] {
			s.level[i] = max(s.level[i], cmplx.Abs(c))
		}
	}
	return s
}

// around returns the strongest level within some cents of a frequency.
func (s spectrum) around(f, cents float64) float64 {
	lo, hi := f*math.Exp2(-cents/1200), f*math.Exp2(cents/1200)
	best := 0.0
	for i := int(lo/s.bin) + 1; float64(i)*s.bin <= hi && i < len(s.level); i++ {
		best = max(best, s.level[i])
	}
	return best
}

// strongest returns the highest level there is.
func (s spectrum) strongest() float64 {
	best := 0.0
	for _, l := range s.level {
		best = max(best, l)
	}
	return best
}

// sounding returns the MIDI numbers, 48 to 96, whose fundamental is there: within 40 dB of the strongest
// frequency, stronger than a quarter tone to either side, and no partial of a lower note that sounds.
func (s spectrum) sounding() map[int]bool {
	floor := s.strongest() / 100
	out := map[int]bool{}
	for midi := 48; midi <= 96; midi++ {
		f := theory.MIDIFrequency(midi, theory.StandardA4)
		level := s.around(f, 12)
		beside := max(s.around(f*math.Exp2(-50.0/1200), 12), s.around(f*math.Exp2(50.0/1200), 12))
		out[midi] = level > floor && level > 3*beside
	}
	return out
}

// partial reports whether a note lies where a partial of one of others would.
func partial(midi int, others []int) bool {
	f := theory.MIDIFrequency(midi, theory.StandardA4)
	for _, o := range others {
		ratio := f / theory.MIDIFrequency(o, theory.StandardA4)
		if n := math.Round(ratio); n >= 2 && math.Abs(1200*math.Log2(ratio/n)) < 40 {
			return true
		}
	}
	return false
}

// claimed reads the pitches in a question as the file has it: after its prompt, a group for each sound.
func claimed(t *testing.T, question string) []int {
	t.Helper()
	_, notes, ok := strings.Cut(question, "? ")
	if !ok {
		t.Fatalf("no pitches in %q", question)
	}
	var out []int
	for _, word := range strings.Fields(strings.ReplaceAll(notes, "|", " ")) {
		p, err := theory.ParsePitch(strings.NewReplacer("♭", "b", "♯", "#").Replace(word))
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, p.MIDI())
	}
	return out
}

// A stranger's first run lets the open strings be heard, and goes on to a practice and its end.
func TestFirstRunIsHeard(t *testing.T) {
	t.Parallel()
	env := sink(t)
	cmd := measure.First(binaryPath(t), "--progress", filepath.Join(t.TempDir(), "p.db"))
	cmd.Env = env
	term := inTerminal(t, cmd)
	term.await("What do you play")
	awaitStream(t, env)
	rec := record(t, env)
	time.Sleep(300 * time.Millisecond)
	for _, asked := range []string{"", "Which hand"} {
		term.await(asked)
		term.press("\r")
	}
	term.await("Can you hear")
	time.Sleep(3 * time.Second)
	found := newSpectrum(rec.stop(t)).sounding()
	for _, midi := range []int{67, 60, 64, 69} { // g C E A
		if !found[midi] {
			t.Errorf("note %d of the open strings is not heard", midi)
		}
	}
	term.press("\r")
	term.await("How much do you know")
	term.press("\r")
	term.await("Before you begin")
	term.press("\r")
	term.await("by ear only")
	term.press("\r")
	for range 2 {
		term.answer()
	}
	term.leaves(2)
}

// differ says in what the notes that are heard differ from those that are claimed.
func differ(claimed []int, heard map[int]bool) []string {
	var out []string
	for _, midi := range claimed {
		if !heard[midi] {
			out = append(out, fmt.Sprintf("note %d is claimed and not heard", midi))
		}
	}
	for midi, there := range heard {
		if there && !slices.Contains(claimed, midi) && !partial(midi, claimed) {
			out = append(out, fmt.Sprintf("note %d is heard and not claimed", midi))
		}
	}
	return out
}

// What the sound server receives has the pitches that the question claims, and no others.
func TestWhatIsHeardIsWhatIsClaimed(t *testing.T) {
	for drill, asks := range map[string]string{
		// An octave or a fifth would lie on partials of the lower note and prove less.
		"interval-ear": `["M3", "m6", "m7"]`,
		"chord-ear":    `["minor-seventh", "dominant"]`,
		"added-ear":    `["added-ninth", "major-sixth"]`,
	} {
		t.Run(drill, func(t *testing.T) {
			t.Parallel()
			lesson := filepath.Join(t.TempDir(), "lesson.toml")
			text := fmt.Sprintf("[[step]]\nid = \"one\"\ndrill = %q\nasks = %s\n", drill, asks)
			if err := os.WriteFile(lesson, []byte(text), 0o600); err != nil {
				t.Fatal(err)
			}
			env := sink(t)
			file := filepath.Join(t.TempDir(), "p.db")
			cmd := measure.First(binaryPath(t), "practice", "--at-once", "--lesson", lesson, "--seed", "11", "--progress", file)
			cmd.Env = env
			term := inTerminal(t, cmd)
			term.await("begin")
			awaitStream(t, env)
			// Where the machine is busy the server may run dry, and a gap has all frequencies. So it may be heard
			// again; a wrong note would be there every time.
			var heard []map[int]bool
			for _, key := range []string{"\r", " "} {
				rec := record(t, env)
				time.Sleep(300 * time.Millisecond)
				term.press(key)
				time.Sleep(7 * time.Second) // two chords of three seconds, with a gap
				heard = append(heard, newSpectrum(rec.stop(t)).sounding())
			}
			term.await("answer")
			term.press("1")
			term.await("go on")
			term.press("qq")
			term.ended()

			all := answers(t, file)
			if len(all) != 1 || all[0].drill != drill {
				t.Fatalf("the file has %v", all)
			}
			want := claimed(t, all[0].question)
			var amiss []string
			for _, found := range heard {
				if amiss = differ(want, found); len(amiss) == 0 {
					break
				}
				t.Logf("%s: %s", all[0].question, strings.Join(amiss, ", "))
			}
			if len(amiss) > 0 {
				t.Errorf("%s: is not heard as claimed, and not when heard again", all[0].question)
			}
		})
	}
}
