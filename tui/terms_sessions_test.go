package tui

import (
	"strings"
	"testing"
	"time"

	"sparetone/drills/meet"
	"sparetone/drills/practice/setting"
	"sparetone/progress/store"
	"sparetone/theory/say"
	"sparetone/tui/page/asking"
	"sparetone/tui/page/home"
	"sparetone/tui/page/player"
)

// No screen of a beginner's first sessions uses a word of the trade that was not explained: before, or on the same page. The names of
// keys at the bottom are read as well.
func TestNoScreenUsesAWordBeforeItIsExplained(t *testing.T) {
	t.Parallel()
	for _, instrument := range player.InstrumentsRead() {
		p, c := practiceOf(t, false)
		file, err := store.InMemory(c.now)
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		p.Setup.File, p.Settings = file, setting.Read(file)
		p.Settings.Tuning = instrument
		explained := map[string]bool{}
		for n := range player.SessionsRead(2) {
			p.Setup.Seed = uint64(n)
			if err := p.Plan(false); err != nil {
				t.Fatal(err)
			}
			f := &screenFace{t: t, a: sized(newApp(p), 200, 60)}
			f.press("enter")
			for asked := 0; ; {
				readScreen(t, instrument, drawn(f.a), explained)
				if _, ends := f.a.place.(*home.Ending); ends {
					break
				}
				switch f.a.place.(type) {
				case *asking.Question:
					asked++
					answered(f.a, c, asked%5 != 0)
				default:
					c.at = c.at.Add(4 * time.Second)
					f.press("y")
					readScreen(t, instrument, drawn(f.a), explained)
					f.press("enter")
				}
			}
			c.at = c.at.Add(23 * time.Hour)
		}
		if len(explained) < 15 {
			t.Errorf("%s: only %v were explained", instrument, explained)
		}
	}
}

// readScreen reads a screen: it explains words, and uses no others but those.
func readScreen(t *testing.T, instrument, screen string, explained map[string]bool) {
	t.Helper()
	text := strings.Join(strings.Fields(plainText(screen)), " ")
	used := meet.Terms(say.Of("{}", say.Foreign(text)))
	for _, term := range used {
		if strings.Contains(text, term.Means.Screen()) {
			explained[term.ID] = true
		}
	}
	for _, term := range used {
		if !explained[term.ID] {
			t.Errorf("%s: %s is not explained before\n%s", instrument, term.ID, plainText(screen))
			explained[term.ID] = true
		}
	}
}
