package tui

import (
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"
	"charm.land/lipgloss/v2"

	"sparetone/drills"
	"sparetone/progress"
	"sparetone/synth"
)

// clock is a clock that a test moves.
type clock struct{ at time.Time }

func (c *clock) now() time.Time { return c.at }

// practice is a session in memory on a fixed day. With silent it asks by eye only.
func practice(t testing.TB, silent bool) (Practice, *clock) {
	t.Helper()
	c := &clock{time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)}
	file, err := progress.InMemory(c.now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { file.Close() })
	speaker := synth.OpenSpeaker(0)
	t.Cleanup(speaker.Close)
	p := Practice{
		Setup:   drills.Setup{File: file, Course: drills.BuiltIn(), Length: 10 * time.Minute, Silent: silent, Seed: 7, Now: c.now},
		Speaker: speaker, Settings: ReadSettings(file),
	}
	if err := p.Plan(false); err != nil {
		t.Fatal(err)
	}
	return p, c
}

// drawn is the screen as it is drawn now.
func drawn(a *app) string {
	a.draw()
	return strings.Join(a.shown.lines, "\n")
}

// fits checks that a screen is no larger than the terminal.
func fits(t *testing.T, a *app) {
	t.Helper()
	text := drawn(a)
	if h := lipgloss.Height(text); h > a.height {
		t.Fatalf("%d lines at %d×%d:\n%s", h, a.width, a.height, plainText(text))
	}
	for _, line := range strings.Split(text, "\n") {
		if w := lipgloss.Width(line); w > a.width {
			t.Fatalf("a line of %d columns at %d×%d:\n%s", w, a.width, a.height, line)
		}
	}
}

func TestAnyKeyAtAnySize(t *testing.T) {
	names := []string{"enter", "space", "up", "down", "tab", "1", "2", "3", "4", "5", "o", "b", "y", "+", "-", "?", "x"}
	rng := rand.New(rand.NewPCG(1, 2))
	for _, silent := range []bool{true, false} {
		p, c := practice(t, silent)
		a := newApp(p)
		for range 1500 {
			c.at = c.at.Add(100 * time.Millisecond)
			switch rng.IntN(10) {
			case 0:
				a.Update(tea.WindowSizeMsg{Width: 20 + rng.IntN(281), Height: 5 + rng.IntN(96)})
			case 1:
				a.Update(tickMsg{})
			default:
				a.Update(pressed(names[rng.IntN(len(names))]))
			}
			fits(t, a)
		}
	}
}
