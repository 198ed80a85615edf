package tui

import (
	"context"
	"fmt"
	"io"
	"slices"
	"sync"
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"

	"sparetone/drills/practice"
	"sparetone/synth/playback"
	"sparetone/tui/lines"
	"sparetone/tui/page"
	"sparetone/tui/page/asking"
)

// byEarOnly is a practice of one drill that needs ears.
func byEarOnly(t *testing.T) (practice.App, *clock) {
	t.Helper()
	p, c := practiceOf(t, false)
	p.Setup.Drills, p.Named = []string{"chord-ear"}, true
	if err := p.Plan(false); err != nil {
		t.Fatal(err)
	}
	return p, c
}

// Where all that was chosen needs sound, practice in lines waits for it and says so, goes on by itself, and has lost
// neither an answer nor time.
func TestPlainWaitsForSound(t *testing.T) {
	p, _ := byEarOnly(t)
	var mu sync.Mutex
	at := time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)
	p.Setup.Now = func() time.Time { mu.Lock(); defer mu.Unlock(); return at }
	if err := p.Plan(false); err != nil {
		t.Fatal(err)
	}
	speaker := p.Speaker.(*fakeSpeaker)
	speaker.turn(playback.NoDevice, "none opens")
	in, typed := io.Pipe()
	out := &heardLines{}
	ended := make(chan error, 1)
	go func() { ended <- lines.Run(context.Background(), p, in, out) }()
	out.await(t, `No sound \(none opens\): what was chosen needs it`, 1)
	out.await(t, "Waiting for sound", 1)
	fmt.Fprintln(typed, "1")
	out.await(t, "Still waiting for sound", 1)
	if n := speaker.played(); n != 0 {
		t.Errorf("%d sounds were played without a device", n)
	}
	speaker.turn(playback.Opening, "")
	speaker.turn(playback.Ready, "")
	out.await(t, `Question 1\.`, 1)
	for speaker.played() == 0 {
		time.Sleep(time.Millisecond)
	}
	speaker.turn(playback.NoDevice, "it is gone")
	out.await(t, `No sound \(it is gone\)`, 1)
	out.await(t, "Waiting for sound", 2)
	mu.Lock()
	at = at.Add(time.Hour)
	mu.Unlock()
	speaker.turn(playback.Ready, "")
	out.await(t, `Question 1\.`, 2)
	for speaker.played() < 2 {
		time.Sleep(time.Millisecond)
	}
	if n := speaker.played(); n != 2 { // before the answer, which sounds as well
		t.Errorf("%d sounds were played, not one for each question", n)
	}
	fmt.Fprintln(typed, "1")
	out.await(t, "It needs practice", 1)
	speaker.turn(playback.NoDevice, "it is gone")
	out.await(t, `No sound \(it is gone\)`, 2)
	fmt.Fprintln(typed, "")
	out.await(t, "Waiting for sound", 3)
	fmt.Fprintln(typed, "leave")
	out.await(t, "leave once more", 1)
	fmt.Fprintln(typed, "leave")
	if err := inMemory(<-ended); err != nil {
		t.Error(err)
	}
	if health, err := p.File().Check(); err != nil || health.Answers != 1 {
		t.Errorf("%d answers, %v", health.Answers, err)
	}
	says(t, out.String(), "Waiting for sound", "There is sound.", "Question 1.", "Waiting for sound", "There is sound.")
}

// run does what a command says, and what comes of it.
func run(a *app, cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	switch msg := cmd().(type) {
	case nil:
	case tea.BatchMsg:
		for _, c := range msg {
			run(a, c)
		}
	default:
		_, next := a.Update(msg)
		run(a, next)
	}
}

// The full screen does the same: the question waits, and is heard when there is sound again.
func TestQuestionWaitsForSound(t *testing.T) {
	p, c := byEarOnly(t)
	speaker := p.Speaker.(*fakeSpeaker)
	a := newApp(p)
	sound := func(state playback.State) {
		speaker.turn(state, "it is gone")
		run(a, a.soundChanged())
	}
	a.Update(pressed("enter"))
	q := a.place.(*asking.Question)
	left := a.Session.Left()
	sound(playback.NoDevice)
	if a.place != page.Place(q) || !q.Waits || a.Trouble.Screen() != "No sound (it is gone): "+practice.NeedsSound {
		t.Errorf("held %v, said %q", q.Waits, a.Trouble)
	}
	c.at = c.at.Add(time.Hour)
	sound(playback.NoDevice) // it was looked for once more
	c.at = c.at.Add(time.Hour)
	before := speaker.played()
	sound(playback.Ready)
	if q.Waits || !a.Trouble.IsZero() || speaker.played() != before+1 {
		t.Errorf("held %v, said %q, %d sounds played", q.Waits, a.Trouble, speaker.played()-before)
	}
	if a.Session.Left() != left {
		t.Errorf("%v of %v are left", a.Session.Left(), left)
	}
}

// A session may begin while there is no device, if all that it has needs one.
func TestSessionBeginsWithoutDevice(t *testing.T) {
	p, _ := byEarOnly(t)
	p.Deviceless = true
	if err := p.Begin(p.Called); err != nil || p.Session.Silent() {
		t.Errorf("%v, silent %v", err, p.Session.Silent())
	}
	p.Setup.Silent = true
	if p.Begin(p.Called) == nil {
		t.Error("without ears a practice of ears begins")
	}
	p.Setup.Silent, p.Setup.Drills = false, slices.Concat(p.Setup.Drills, []string{"spell"})
	if err := p.Begin(p.Called); err != nil || !p.Session.Silent() {
		t.Errorf("%v, silent %v", err, p.Session.Silent())
	}
}
