package tui

import (
	"context"
	"fmt"
	"io"
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
		shows("Not listening: the microphone is gone.  ctrl+l stops it.", true)
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
	say("", "Not listening: the microphone is gone.")
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
