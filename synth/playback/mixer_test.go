package playback

import (
	"errors"
	"math"
	"os"
	"runtime"
	"testing"
	"time"

	"sparetone/synth"
	"sparetone/synth/measure"

	"github.com/gopxl/beep/v2"
)

// steady is a sound of ones that never ends.
type steady struct{}

func (steady) Stream(samples [][2]float64) (int, bool) {
	for i := range samples {
		samples[i] = [2]float64{1, 1}
	}
	return len(samples), true
}

func (steady) Err() error { return nil }

// second is a second of silence that lies in memory.
type second struct {
	samples []float32
	at      int
}

func (s *second) Stream(frames [][2]float64) (int, bool) {
	n := min(len(frames), len(s.samples)-s.at)
	for i := range n {
		x := float64(s.samples[s.at+i])
		frames[i] = [2]float64{x, x}
	}
	s.at += n
	return n, n > 0
}

func (s *second) Err() error { return nil }

// heardOf returns the left channel of the next frames of a mixer.
func heardOf(m *mixer, frames int) []float64 {
	out := make([]float32, 2*frames)
	m.read(out)
	left := make([]float64, frames)
	for i := range left {
		left[i] = float64(out[2*i])
	}
	return left
}

// A sound begins at once at the gain that is set; a change of gain, a stop and another sound take 8 ms and make no
// step larger than a 300th.
func TestMixerFades(t *testing.T) {
	var m mixer
	m.setGain(0.5)
	if x := heardOf(&m, 10); x[9] != 0 || m.playing() || !m.quiet() {
		t.Errorf("before anything plays: %v", x)
	}
	m.play(steady{})
	if x := heardOf(&m, 10); x[0] != 0.5 || x[9] != 0.5 || m.heard() != 10 || m.progress() != 20 {
		t.Errorf("a sound begins with %v; %d and %d frames were taken", x, m.heard(), m.progress())
	}
	m.setGain(0)
	x := heardOf(&m, 1000)
	if step := measure.HighestStep(x, 0, len(x)); step > 1.0/300 || x[999] != 0 {
		t.Errorf("the gain goes down by steps of %v, to %v", step, x[999])
	}
	m.setGain(1)
	x = heardOf(&m, 1000)
	m.stop()
	if m.playing() || m.quiet() {
		t.Error("a stopped sound plays, or does not fade")
	}
	x = append(x[999:], heardOf(&m, fadeFrames+1)...)
	if step := measure.HighestStep(x, 0, len(x)); step > 1.0/300 || x[len(x)-1] != 0 || !m.quiet() {
		t.Errorf("a stop goes down by steps of %v, to %v", step, x[len(x)-1])
	}
	if m.read(make([]float32, 200)) != 100 {
		t.Error("silence is not counted")
	}
}

// Whatever takes the place of a sound, and however often, the ends of all are heard, and the sound itself is not read
// again.
func TestMixerSwaps(t *testing.T) {
	var m mixer
	m.setGain(1)
	m.play(steady{})
	heardOf(&m, 100)
	m.play(beep.Silence(-1))
	heardOf(&m, 100)
	m.play(steady{})
	m.stop()
	x := heardOf(&m, fadeFrames)
	want := 1 - float64(101)/float64(fadeFrames) + 1 - 1/float64(fadeFrames)
	if math.Abs(x[0]-want) > 1e-6 || x[fadeFrames-1] != 0 {
		t.Errorf("two ends at once begin with %v, not %v, and end with %v", x[0], want, x[fadeFrames-1])
	}
	m.play(steady{})
	m.drop()
	if x := heardOf(&m, 10); x[0] != 0 || !m.quiet() {
		t.Errorf("of what was dropped is heard %v", x)
	}
}

// bench is a device that takes what is played as fast as it is made.
type bench struct {
	mix   *mixer
	ended chan struct{}
}

func (b *bench) wake()      {}
func (b *bench) rest()      {}
func (b *bench) err() error { return nil }
func (b *bench) close()     { close(b.ended) }

func newBench(mix *mixer) (device, error) {
	b := &bench{mix, make(chan struct{})}
	go func() {
		out := make([]float32, 4096)
		for {
			select {
			case <-b.ended:
				return
			default:
				b.mix.read(out)
				time.Sleep(100 * time.Microsecond)
			}
		}
	}()
	return b, nil
}

// However many sounds are played, to their ends or stopped or replaced, nothing is left of them: no memory and no
// goroutine. Ten thousand with SPARETONE_STUDY=1.
func TestSoundsAreNotKept(t *testing.T) {
	times := 400
	if os.Getenv("SPARETONE_STUDY") != "" {
		times = 10_000
	}
	s := openSpeaker(1, deviceBuffer, newBench)
	defer s.Close()
	await(t, s, Ready, 5*time.Second)
	live := func() (heap int64, goroutines int) {
		runtime.GC()
		runtime.GC() // what a pool keeps outlives one
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return int64(m.HeapAlloc), runtime.NumGoroutine()
	}
	freed := make(chan struct{}, times)
	short := note(t, "A4", 100*time.Millisecond)
	asItSounds := func() *synth.Sound { // a note of a second, made while it is heard
		sound, err := synth.RenderLive(func(n int) (synth.Score, []synth.Stilled) {
			if n > 0 {
				return synth.Score{}, nil
			}
			return note(t, "A4", time.Second), nil
		}, synth.Voices()[0], synth.Options{}, short)
		if err != nil {
			t.Fatal(err)
		}
		return sound
	}
	play := func(n int) {
		var sound beep.Streamer
		if n%2 == 1 {
			s := asItSounds()
			runtime.AddCleanup(s, func(c chan struct{}) { c <- struct{}{} }, freed)
			sound = s
		} else {
			s := &second{samples: make([]float32, 48_000)} // 192 kB
			runtime.AddCleanup(s, func(c chan struct{}) { c <- struct{}{} }, freed)
			sound = s
		}
		s.Play(sound)
		switch n % 3 {
		case 0:
			for s.Playing() {
				runtime.Gosched()
			}
		case 1:
			s.Stop()
		}
	}
	var heap int64
	var goroutines int
	for n := range times {
		if n == 100 {
			heap, goroutines = live()
		}
		play(n)
	}
	s.Stop()
	after, running := live()
	t.Logf("after 100 sounds the heap has %d kB, after %d %d kB", heap/1000, times, after/1000)
	if after-heap > 8<<20 {
		t.Errorf("the heap grew by %d bytes", after-heap)
	}
	if running > goroutines+2 {
		t.Errorf("%d goroutines after 100 sounds, %d after %d", goroutines, running, times)
	}
	for n := range times {
		select {
		case <-freed:
		case <-time.After(5 * time.Second):
			t.Fatalf("%d of %d sounds were freed", n, times)
		}
	}
}

// A speaker whose device does not open, is lost and comes back says so each time, once, and then plays.
func TestDevicesComeAndGo(t *testing.T) {
	t.Parallel()
	there := make(chan bool, 1)
	there <- false
	failing := make(chan error, 1)
	find := func(mix *mixer) (device, error) {
		is := <-there
		there <- is
		if !is {
			return nil, errors.New("none")
		}
		d, err := newBench(mix)
		return &broken{d.(*bench), failing}, err
	}
	s := openSpeaker(1, deviceBuffer, find)
	defer s.Close()
	await(t, s, NoDevice, time.Second)
	if _, reason := s.State(); reason != "no device opens" {
		t.Errorf("the reason is %q", reason)
	}
	<-s.Changed()
	time.Sleep(lookEvery + 500*time.Millisecond)
	select {
	case <-s.Changed():
		t.Error("looking in vain is told")
	default:
	}
	<-there
	there <- true
	await(t, s, Ready, 2*lookEvery) // nobody asked
	<-s.Changed()
	s.Play(chordSound(t))
	if !s.Playing() {
		t.Error("nothing plays")
	}
	failing <- errors.New("the sound device is gone")
	await(t, s, NoDevice, time.Second)
	if _, reason := s.State(); reason != "the sound device is gone" || s.Playing() {
		t.Errorf("the reason is %q, playing %v", reason, s.Playing())
	}
	s.Play(chordSound(t)) // it is asked for at once
	await(t, s, Ready, time.Second)
}

// broken is a bench that fails when it is told to.
type broken struct {
	*bench
	failing chan error
}

func (b *broken) err() error {
	select {
	case err := <-b.failing:
		return err
	default:
		return nil
	}
}
