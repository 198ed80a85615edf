package tui

import (
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"sparetone/tui/draw"

	tea "charm.land/bubbletea/v2"
)

// Within a session the line of time never gets shorter, whatever is pressed, clicked or pasted, and whatever the
// screen.
func TestTheLineOfTimeOnlyGrows(t *testing.T) {
	t.Chdir(t.TempDir())
	t.Setenv("HOME", t.TempDir())
	rng := rand.New(rand.NewPCG(6, 66))
	grown := 0
	for range 2 {
		a, c := begun(t)
		session, was := a.Session, 0
		for range 1000 {
			c.at = c.at.Add(400 * time.Millisecond)
			msg := anything(rng, a)
			if _, resized := msg.(tea.WindowSizeMsg); resized {
				continue
			}
			a.Update(msg)
			a.draw()
			if !a.said.IsZero() {
				continue // that stands in its place
			}
			now := strings.Count(plainText(a.shown.lines[0]), "─")
			if a.Session != session {
				session, was = a.Session, 0
			}
			if now < was {
				t.Fatalf("%d cells after %d on %T", now, was, a.place)
			}
			if now > was {
				grown++
			}
			was = now
		}
	}
	if grown < 40 {
		t.Fatalf("it grew %d times only", grown)
	}
}

// The line is full where half a cell of it or more is.
func TestTheLineOfTimeRounds(t *testing.T) {
	const width = 72
	for cells, want := range map[float64]int{0: 0, 0.47: 0, 0.5: 1, 1.47: 1, 35.5: 36, 71.47: 71, 72: 72, 80: 72} {
		line := plainText(timeline(draw.Theme{}, width, cells/width))
		if got := strings.Count(line, "─"); got != want || len([]rune(line)) != width {
			t.Errorf("%.2f cells of %d: %d full, in %q", cells, width, got, line)
		}
	}
}
