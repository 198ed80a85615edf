package tui

import (
	"context"
	"fmt"
	"io"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/synth/playback"
	"sparetone/tui/lines"
	"sparetone/tui/page/asking"
)

// handClock is a clock that a test moves, from whatever goroutine it is read.
type handClock struct {
	mu sync.Mutex
	at time.Time
}

func (c *handClock) now() time.Time { c.mu.Lock(); defer c.mu.Unlock(); return c.at }

func (c *handClock) pass(d time.Duration) { c.mu.Lock(); defer c.mu.Unlock(); c.at = c.at.Add(d) }

// face is one of the two ways to practise, as a person drives it. Whatever it is told is done when its method returns.
type face interface {
	begin()                       // goes to the first question
	sound(how string)             // again, slower, open or open root
	turn(state playback.State)    // the sound device goes or comes
	answer(typed string)          // answers as somebody would who types that in lines
	next()                        // goes on to the next question
	leaveUnanswered(typed string) // begins to answer so, and leaves the program instead
	leave()                       // leaves the program after an answer
}

// faces are both of them, by name.
var faces = map[string]func(t *testing.T, p practice.App) face{
	"the full screen": func(t *testing.T, p practice.App) face { return &screenFace{t: t, a: newApp(p)} },
	"lines":           func(t *testing.T, p practice.App) face { return newLinesFace(t, p) },
}

// screenFace drives the full screen by its keys.
type screenFace struct {
	t *testing.T
	a *app
}

// press presses keys, one after another, and does what comes of them.
func (f *screenFace) press(names ...string) {
	for _, n := range names {
		msg := pressed(n)
		if n == "space" {
			msg.Text = " " // as a keyboard sends it
		}
		_, cmd := f.a.Update(msg)
		run(f.a, cmd)
	}
}

func (f *screenFace) begin() { f.press("enter") }

func (f *screenFace) turn(state playback.State) {
	f.a.Speaker.(*fakeSpeaker).turn(state, "it is gone")
	run(f.a, f.a.soundChanged())
}

// asked is the question that shows.
func (f *screenFace) asked() *asking.Question {
	f.t.Helper()
	q, ok := f.a.place.(*asking.Question)
	if !ok {
		f.t.Fatalf("no question shows but %T", f.a.place)
	}
	return q
}

func (f *screenFace) sound(how string) {
	key := map[string]string{"again": "space", "slower": "s", "open": "o", "open root": "r"}[how]
	q, asks := f.a.place.(*asking.Question)
	switch {
	case !asks: // it is answered
		f.press(key)
	case f.a.typing && how != "again":
		f.press("esc", key, "t")
	case q.Asked.Form == drills.Tones && how == "open root": // there it is a degree
	default:
		f.press(key)
	}
}

// keysFor are the keys that enter what would be typed in lines. They do not finish it.
func (f *screenFace) keysFor(typed string) []string {
	q := f.asked()
	words := strings.Fields(typed)
	letters := func(s string) []string {
		out := strings.Split(s, "")
		for i, l := range out {
			if l == " " {
				out[i] = "space"
			}
		}
		return out
	}
	var out []string
	switch n, err := strconv.Atoi(typed); {
	case q.Asked.Form == drills.Choose && err == nil:
		for range n {
			out = append(out, "down")
		}
	case q.Asked.Form == drills.Choose || typed == drills.Unknown && !f.a.typing:
		out = append([]string{"t"}, letters(typed)...)
	case q.Asked.Form == drills.Notes:
		out = letters(typed)
	default:
		for _, w := range words {
			if w == "x" && q.Asked.Form == drills.Tones {
				continue // a muted string is passed over by itself
			}
			out = append(out, strings.Split(w, "")...)
		}
	}
	return out
}

func (f *screenFace) answer(typed string) {
	q := f.asked()
	_, err := strconv.Atoi(typed)
	switch {
	case typed == drills.Unknown && f.a.typing:
		f.press("esc", "d")
	case typed == drills.Unknown:
		f.press("d")
	case q.Asked.Form == drills.Choose && err == nil:
		f.press(typed)
	default:
		f.press(append(f.keysFor(typed), "enter")...)
	}
}

func (f *screenFace) next() { f.press("enter") }

func (f *screenFace) leaveUnanswered(typed string) {
	f.press(f.keysFor(typed)...)
	for f.a.typing {
		f.press("esc")
	}
	f.press("q", "q")
	f.away()
}

func (f *screenFace) leave() {
	f.press("q", "q")
	f.away()
}

// away fails unless the program ends.
func (f *screenFace) away() {
	f.t.Helper()
	if !f.a.away {
		f.t.Fatalf("it does not end but shows %T", f.a.place)
	}
}

// linesFace drives practice in lines by what is typed.
type linesFace struct {
	t       *testing.T
	speaker *fakeSpeaker
	typed   *io.PipeWriter
	read    *heardLines
	ended   chan error
}

func newLinesFace(t *testing.T, p practice.App) *linesFace {
	in, typed := io.Pipe()
	f := &linesFace{t: t, speaker: p.Speaker.(*fakeSpeaker), typed: typed, read: &heardLines{}, ended: make(chan error, 1)}
	f.speaker.Changed() // so that it is there for both
	go func() {
		err := lines.Run(context.Background(), p, in, f.read)
		in.Close()
		f.ended <- err
	}()
	return f
}

// settled waits until all that was typed and told is done: a line is only read when the one before it was taken, and
// only taken when nothing else is under way. Help changes nothing.
func (f *linesFace) settled() {
	for len(f.speaker.Changed()) > 0 {
		time.Sleep(20 * time.Microsecond)
	}
	fmt.Fprint(f.typed, "help\n")
	fmt.Fprint(f.typed, "help\n")
}

func (f *linesFace) line(typed string) {
	fmt.Fprintln(f.typed, typed)
	f.settled()
}

func (f *linesFace) begin()              { f.settled() }
func (f *linesFace) sound(how string)    { f.line(how) }
func (f *linesFace) next()               { f.line("") }
func (f *linesFace) answer(typed string) { f.line(typed) }

func (f *linesFace) turn(state playback.State) {
	f.speaker.turn(state, "it is gone")
	f.settled()
}

// leaveUnanswered hangs up in the middle of a line.
func (f *linesFace) leaveUnanswered(typed string) {
	fmt.Fprint(f.typed, typed)
	f.hangUp()
}

func (f *linesFace) leave() {
	fmt.Fprintln(f.typed, "leave")
	f.hangUp()
}

func (f *linesFace) hangUp() {
	f.t.Helper()
	f.typed.Close()
	if err := inMemory(<-f.ended); err != nil {
		f.t.Errorf("it ends with %v", err)
	}
}
