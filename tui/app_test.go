package tui

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/drills/course"
	"sparetone/drills/practice"
	"sparetone/drills/practice/session"
	"sparetone/drills/practice/setting"
	"sparetone/progress/store"
)

// clock is a clock that a test moves.
type clock struct{ at time.Time }

func (c *clock) now() time.Time { return c.at }

// atOnce are settings with which new things are asked without being shown first, in a file that has all words of the trade explained:
// for what is tested beside meetings and words.
func atOnce(f *store.File) setting.Values {
	p := practice.App{Setup: session.Setup{File: f}}
	for _, term := range termIDs {
		if err := p.Open(term); err != nil {
			panic(err)
		}
	}
	s := setting.Read(f)
	s.AtOnce = true
	return s
}

// termIDs are the ids of all words of the trade, read before a test goes to another folder.
var termIDs = func() (ids []string) {
	table, err := os.ReadFile(filepath.Join("..", "drills", "meet", "terms.toml"))
	if err != nil {
		panic(err)
	}
	for _, id := range regexp.MustCompile(`(?m)^id = "(.*)"`).FindAllSubmatch(table, -1) {
		ids = append(ids, string(id[1]))
	}
	return ids
}()

// practice is a session in memory on a fixed day. With silent it asks by eye only.
func practiceOf(t testing.TB, silent bool) (practice.App, *clock) {
	t.Helper()
	c := &clock{time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)}
	file, err := store.InMemory(c.now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { file.Close() })
	speaker := &fakeSpeaker{}
	p := practice.App{
		Setup:   session.Setup{File: file, Course: course.BuiltIn(), Length: 10 * time.Minute, Silent: silent, Seed: 7, Now: c.now},
		Speaker: speaker, Settings: atOnce(file),
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

// plainText is what was drawn, without colours and without the spaces at the ends of lines.
func plainText(s string) string {
	lines := strings.Split(ansi.Strip(s), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n")
}

// What a person may press, click, paste or do to the window.
func anything(rng *rand.Rand, a *app) tea.Msg {
	keys := []string{"enter", "enter", "space", "up", "down", "left", "right", "tab", "esc", "backspace", "pgup", "pgdown", "ctrl+u"}
	switch rng.IntN(12) {
	case 0:
		return tea.WindowSizeMsg{Width: 20 + rng.IntN(281), Height: 5 + rng.IntN(96)}
	case 1:
		return tickMsg{}
	case 2, 3:
		return tea.MouseClickMsg{X: rng.IntN(a.width + 1), Y: rng.IntN(a.height + 1), Button: tea.MouseLeft}
	case 4:
		return tea.MouseWheelMsg{Button: []tea.MouseButton{tea.MouseWheelUp, tea.MouseWheelDown}[rng.IntN(2)]}
	case 5:
		return tea.PasteMsg{Content: strings.Repeat("C7 \x1b[2J\x00é世", 1+rng.IntN(40))}
	case 6, 7:
		return pressed(keys[rng.IntN(len(keys))])
	default:
		return pressed(string(rune(' ' + 1 + rng.IntN('~'-' '))))
	}
}

// Whatever is pressed, clicked, pasted or resized on any screen, nothing breaks, no line is wider than
// the window, and the file is whole. SPARETONE_LONG=1 does it 10,000 times from every screen.
func TestAnythingOnAnyScreen(t *testing.T) {
	home := t.TempDir()
	t.Chdir(home)
	times := 60
	if os.Getenv("SPARETONE_LONG") != "" {
		times = 10_000
	}
	for n, s := range scenes() {
		rng := rand.New(rand.NewPCG(1, uint64(n)))
		a := s.set(t)
		t.Setenv("HOME", home) // what is saved by chance goes to a folder of the test's own
		c := time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)
		a.Setup.Now = func() time.Time { return c }
		for range times {
			c = c.Add(100 * time.Millisecond)
			a.Update(anything(rng, a))
			fits(t, a)
		}
		health, err := a.File().Check()
		if err != nil {
			t.Fatalf("%s: %v", s.name, err)
		}
		if len(health.Damaged) > 0 || health.Stale {
			t.Fatalf("%s: the file is damaged: %v", s.name, health)
		}
	}
}
