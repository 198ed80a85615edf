// Package player is somebody who plays at the pages of the program, for tests.
package player

import (
	"slices"
	"testing"
	"time"

	"github.com/gopxl/beep/v2"

	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/drills/played/student"
	"sparetone/drills/practice"
	"sparetone/drills/practice/session"
	"sparetone/drills/practice/setting"
	"sparetone/progress/store"
	"sparetone/synth/capture"
	"sparetone/synth/playback"
	"sparetone/tui/page"
)

// mute is a speaker that is ready and plays nothing.
type mute struct{ playback.Speaker }

func (mute) State() (playback.State, string) { return playback.Ready, "" }
func (mute) Play(beep.Streamer)              {}

// Player walks through questions of one drill, and plays what is to be played.
type Player struct {
	*page.Walk
	Student *student.Student
	At      page.Place
	Said    []string // since it was last emptied, as the screen has it

	now time.Time
}

// Practising is a practice of one drill, all of it, of which nothing sounds and nothing is shown before; it is still to be planned.
func Practising(t *testing.T, drill, tuning string, seed uint64, now func() time.Time) practice.App {
	t.Helper()
	file, err := store.InMemory(now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { file.Close() })
	d, _ := catalogue.ByID(drill)
	on, err := neck.NewInstrument(tuning, 0, "")
	if err != nil {
		t.Fatal(err)
	}
	step := course.Step{ID: "all", Drill: drill}
	for _, target := range d.Targets(on) {
		step.Asks = append(step.Asks, target.ID)
	}
	app := practice.App{
		Setup:   session.Setup{File: file, On: on, Course: course.Course{step}, Length: time.Hour, Seed: seed, Now: now},
		Speaker: mute{playback.None(playback.StartVolume)}, Settings: setting.Standard,
	}
	app.Settings.Tuning, app.Settings.AtOnce = tuning, true
	return app
}

// New is before the first question of a practice of one drill, with a microphone that is switched on.
func New(t *testing.T, drill, tuning string, seed uint64) *Player {
	t.Helper()
	p := &Player{now: time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)}
	app := Practising(t, drill, tuning, seed, func() time.Time { return p.now })
	microphone := capture.NewMicrophone(capture.NewLine(student.Rate))
	microphone.On()
	t.Cleanup(microphone.Off)
	app.Microphone = microphone
	if err := app.Plan(false); err != nil {
		t.Fatal(err)
	}
	p.Walk = page.NewWalk(app, page.Places{})
	p.Student = student.New(app.Setup.On.Tuning, app.Setup.On.Voices[0], seed)
	p.Cautioned = true
	return p
}

// Apply goes where an act leads.
func (p *Player) Apply(next page.Next) {
	if next.To != nil {
		p.At = next.To
	}
	if !next.Said.IsZero() {
		p.Said = append(p.Said, next.Said.Screen())
	}
}

// Does does an act of the place.
func (p *Player) Does(t *testing.T, id string) {
	t.Helper()
	acts := p.PageOf(p.At).Acts
	i := slices.IndexFunc(acts, func(a page.Act) bool { return a.ID == id })
	if i < 0 {
		t.Fatalf("%T has no act %q", p.At, id)
	}
	p.Apply(acts[i].Do(""))
}

// Hears lets the microphone hear something, until it leads somewhere else.
func (p *Player) Hears(sound []float64) {
	from := p.At
	for block := range slices.Chunk(sound, student.Rate/10) {
		p.now = p.now.Add(100 * time.Millisecond)
		p.HearAll()
		if next := p.At.(interface {
			Heard(w *page.Walk, sound capture.Sound) page.Next
		}).Heard(p.Walk, capture.Sound{Samples: block, Rate: student.Rate, Run: 1}); next.To != nil || !next.Said.IsZero() {
			p.Apply(next)
		}
		if p.At != from {
			return
		}
	}
}

// Passes lets some time pass.
func (p *Player) Passes(time time.Duration) { p.now = p.now.Add(time) }
