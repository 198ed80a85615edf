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
	"sparetone/theory"
	"sparetone/theory/fret"
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
	session, err := drills.NewSession(drills.Setup{
		File:   file,
		On:     &drills.Instrument{Tuning: fret.Tunings()[0], Voices: synth.Voices(), Hand: fret.DefaultHand},
		Course: drills.BuiltIn(), Length: 10 * time.Minute, Silent: silent, Seed: 7, Now: c.now,
	})
	if err != nil {
		t.Fatal(err)
	}
	speaker := synth.OpenSpeaker(0)
	t.Cleanup(speaker.Close)
	return Practice{Session: session, Speaker: speaker, Silent: silent, A4: theory.StandardA4}, c
}

// key is the message of a key that is pressed.
func keyPress(name string) tea.KeyPressMsg {
	special := map[string]rune{"enter": tea.KeyEnter, "space": tea.KeySpace, "up": tea.KeyUp, "down": tea.KeyDown, "tab": tea.KeyTab, "esc": tea.KeyEscape}
	if code, ok := special[name]; ok {
		return tea.KeyPressMsg{Code: code}
	}
	r := []rune(name)[0]
	return tea.KeyPressMsg{Code: r, Text: name}
}

// fits checks that a screen is no larger than the terminal.
func fits(t *testing.T, a *app) {
	t.Helper()
	text := a.text()
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
				a.Update(keyPress(names[rng.IntN(len(names))]))
			}
			fits(t, a)
		}
	}
}
