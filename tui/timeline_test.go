package tui

import (
	"math/rand/v2"
	"strings"
	"testing"
	"time"

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
			if a.said != "" {
				continue // that stands in its place
			}
			now := strings.Count(plainText(a.shown.lines[0]), "─")
			if a.Session != session {
				session, was = a.Session, 0
			}
			if now < was {
				t.Fatalf("%d cells after %d on %T", now, was, a.screen)
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
