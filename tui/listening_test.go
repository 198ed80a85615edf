package tui

import (
	"context"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"sparetone/synth/capture"
	"sparetone/tui/lines"
)

// withMicrophone is today's page of somebody with a microphone, and the line behind it.
func withMicrophone(t testing.TB) (*app, *capture.Line) {
	p, _ := practiceOf(t, false)
	line := capture.NewLine(8000)
	p.Microphone = capture.NewMicrophone(line)
	t.Cleanup(p.Microphone.Off)
	return newApp(p), line
}

// tuning is the tuner of somebody who has plucked some strings of an ukulele, so many cents off; the microphone is off again.
func tuning(t testing.TB, off ...float64) *app {
	a, line := withMicrophone(t)
	keyed(a, "u")
	for a.Microphone.Take(); ; time.Sleep(time.Millisecond) {
		line.Put([]float64{1e-9})
		if s, _ := a.Microphone.State(); s == capture.Listening {
			break
		}
	}
	const last = 2e-9
	for line.Put([]float64{last}); ; time.Sleep(time.Millisecond) { // what is shown is of the strings alone
		if came := a.Microphone.Take().Samples; len(came) > 0 && came[len(came)-1] == last {
			break
		}
	}
	for n, cents := range off {
		sound := pluckedString([]int{67, 60, 64, 69}[n], cents)
		began := time.Now()
		for line.Put(sound); ; time.Sleep(time.Millisecond) {
			a.Update(heardMsg{})
			if text := plainText(drawn(sized(a, 80, 24))); strings.Contains(text, heardOf(n, cents)) {
				break
			} else if time.Since(began) > time.Minute {
				t.Fatalf("%q is not shown:\n%s", heardOf(n, cents), text)
			}
		}
	}
	line.Fail(io.EOF) // when all was heard
	for s, _ := a.Microphone.State(); s == capture.Listening; s, _ = a.Microphone.State() {
		time.Sleep(time.Millisecond)
	}
	a.Update(heardMsg{})
	a.Microphone.Off()
	a.made = nil
	return a
}

// heardOf is what is shown of a string, by its place, that is so many cents off.
func heardOf(nth int, cents float64) string {
	how := "is in tune."
	if cents > 4 {
		how = fmt.Sprintf("is %.0f cents high", cents)
	} else if cents < -4 {
		how = fmt.Sprintf("is %.0f cents low", -cents)
	}
	return "The " + []string{"g", "C", "E", "A"}[nth] + " string " + how
}

// pluckedString is a second and a half of a string, so many cents above a pitch, at 8000 samples a second.
func pluckedString(midi int, cents float64) []float64 {
	hz := 440 * math.Exp2((float64(midi-69)+cents/100)/12)
	out := make([]float64, 12000)
	for i := range out {
		at := float64(i) / 8000
		for n := 1.0; n <= 4; n++ {
			out[i] += 0.2 / n * math.Exp(-n*at) * math.Sin(2*math.Pi*hz*n*at)
		}
		out[i] += 1e-5 * float64(i*7919%13-6)
	}
	return out
}

// The tuner listens while one is there, and no longer; it shows and says which string is plucked and how far off it is.
func TestTheTunerListens(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		a, line := withMicrophone(t)
		sized(a, 80, 24)
		keyed(a, "u")
		synctest.Wait()
		for n, cents := range []float64{-20, 12, 0, 2} {
			line.Put(pluckedString([]int{67, 60, 64, 69}[n], cents))
			synctest.Wait()
			a.Update(heardMsg{})
			if text := plainText(drawn(a)); !strings.Contains(text, heardOf(n, cents)) || !strings.Contains(text, "Listening.  ctrl+l stops it.") {
				t.Errorf("it shows\n%s", text)
			}
		}
		if keyed(a, "esc"); a.Listens() {
			t.Error("it listens on behind the tuner")
		}
		keyed(a, "ctrl+l", "u", "esc")
		if !a.Listens() {
			t.Error("it was on before the tuner, and is off behind it")
		}
		a.Microphone.Off()
	})
}

// The microphone is off until a key switches it on, the screen says so on every page for as long as it is on, and the same key, or
// leaving, switches it off; what is heard where no place listens is dropped.
func TestTheScreenSaysThatItListens(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		a, line := withMicrophone(t)
		sized(a, 80, 24)
		shows := func(what string, is bool) {
			t.Helper()
			synctest.Wait()
			if text := plainText(drawn(a)); strings.Contains(text, what) != is {
				t.Errorf("the screen shows %q: %v; want %v\n%s", what, !is, is, text)
			}
		}
		shows("istening", false)
		keyed(a, "ctrl+l")
		shows("The microphone opens.  ctrl+l stops it.", true)
		line.Put([]float64{0.5})
		shows("Listening.  ctrl+l stops it.", true)
		a.Update(heardMsg{})
		if s := a.Microphone.Take(); len(s.Samples) != 0 {
			t.Errorf("%d samples are kept where nothing listens", len(s.Samples))
		}
		keyed(a, "s", "?")
		shows("Listening.  ctrl+l stops it.", true)
		shows("stop listening", true)
		line.Fail(&capture.Fault{Kind: capture.Gone})
		shows("Not listening: the microphone is gone. It tries again.  ctrl+l stops it.", true)
		keyed(a, "esc", "ctrl+l")
		shows("ctrl+l stops it", false)
		shows("The microphone is switched off.", true)
		keyed(a, "ctrl+l")
		if !a.Listens() {
			t.Error("it is not switched on again")
		}
		if keyed(a, "ctrl+c"); a.Listens() {
			t.Error("it listens after the program was left")
		}
	})
}

// In lines it is said whenever it changes.
func TestLinesSayThatTheyListen(t *testing.T) {
	p, _ := practiceOf(t, false)
	line := capture.NewLine(8000)
	p.Microphone = capture.NewMicrophone(line)
	typed, typing := io.Pipe()
	out := &heardLines{}
	ended := make(chan error, 1)
	go func() { ended <- inMemory(lines.Run(context.Background(), p, typed, out)) }()
	say := func(text, want string) {
		t.Helper()
		if text != "" {
			fmt.Fprintln(typing, text)
		}
		out.await(t, want, 1)
	}
	say("listen", "The microphone is switched on. Nothing of it is kept. Stop listening switches it off.")
	say("", "The microphone opens.")
	go func() {
		for len(ended) == 0 {
			line.Put([]float64{0.5})
			time.Sleep(10 * time.Millisecond)
		}
	}()
	say("", "Listening.")
	line.Fail(&capture.Fault{Kind: capture.Gone})
	say("", "Not listening: the microphone is gone. It tries again.")
	say("help", "stop listening, to switch the microphone off")
	say("stop listening", "The microphone is switched off.")
	if s, _ := p.Microphone.State(); s != capture.Off {
		t.Error("it listens on")
	}
	fmt.Fprintln(typing, "leave")
	typing.Close()
	for len(ended) == 0 {
		time.Sleep(time.Millisecond)
	}
	if err := <-ended; err != nil {
		t.Error(err)
	}
}

// In lines each string is said once it was heard.
func TestLinesTune(t *testing.T) {
	p, _ := practiceOf(t, false)
	line := capture.NewLine(8000)
	p.Microphone = capture.NewMicrophone(line)
	typed, typing := io.Pipe()
	out := &heardLines{}
	ended := make(chan error, 1)
	go func() { ended <- inMemory(lines.Run(context.Background(), p, typed, out)) }()
	fmt.Fprintln(typing, "tune")
	out.await(t, "Pluck one string after another: each is said when it was heard.", 1)
	for s, _ := p.Microphone.State(); s != capture.Listening; s, _ = p.Microphone.State() {
		line.Put([]float64{1e-9})
		time.Sleep(time.Millisecond)
	}
	line.Put(pluckedString(60, -20))
	out.await(t, "The C string is 20 cents low: tighten it.", 1)
	line.Put(pluckedString(67, 0))
	out.await(t, "The g string is in tune.", 1)
	fmt.Fprintln(typing, "")
	out.await(t, "An empty line begins", 2)
	if s, _ := p.Microphone.State(); s != capture.Off {
		t.Error("it listens on behind the tuner")
	}
	fmt.Fprintln(typing, "leave")
	if err := <-ended; err != nil {
		t.Error(err)
	}
}
