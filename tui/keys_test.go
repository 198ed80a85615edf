package tui

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"sparetone/theory/say"
)

// namedKeys are the keys that have a name.
var namedKeys = []string{"enter", "space", "tab", "esc", "backspace", "up", "down", "left", "right", "pgup", "pgdown"}

// everyKey are the keys that are tried: those, all that print, and the letters with ctrl.
func everyKey() []string {
	out := slices.Clone(namedKeys)
	for r := '!'; r <= '~'; r++ {
		out = append(out, string(r))
	}
	for r := 'a'; r <= 'z'; r++ {
		out = append(out, "ctrl+"+string(r))
	}
	return out
}

// keysNamed are the keys that a name in the help stands for.
func keysNamed(name string) []string {
	var out []string
	for _, word := range strings.Fields(name) {
		r := []rune(word)
		switch {
		case len(r) == 3 && r[1] == '–':
			for ; r[0] <= r[2]; r[0]++ {
				out = append(out, string(r[0]))
			}
		case strings.ContainsAny(word, "←→↑↓⌫"):
			for _, k := range r {
				out = append(out, map[rune]string{'←': "left", '→': "right", '↑': "up", '↓': "down", '⌫': "backspace"}[k])
			}
		case word == "pgdn":
			out = append(out, "pgdown")
		default:
			out = append(out, word)
		}
	}
	return out
}

// works reports whether a key does something. To say a word is not enough, unless the help names the key: then
// it may be why it does nothing now.
func works(a *app, name string, named bool) bool {
	if named {
		a.draw() // else it is as it was drawn last
	}
	was, on := strings.Join(a.shown.lines, "\n"), a.place
	_, cmd := a.Update(pressed(name))
	if !a.said.IsZero() && named {
		return true
	}
	a.said = say.Text{}
	return cmd != nil || a.place != on || drawn(a) != was
}

// sameKeys are keys that do what another does, which alone the help names.
var sameKeys = map[string]string{"r": "R", "1": "R"}

// everywhere are keys that the help names and that are the same on every screen.
var everywhere = []string{"+", "=", "-", "?", "ctrl+c", "ctrl+s", "ctrl+z"}

// writes are keys that belong to a line that is being typed, as do those with ctrl.
var writes = []string{"left", "right", "backspace", "space"}

// moves are the keys that a page needs where it is larger than the terminal.
var moves = []string{"up", "down", "pgup", "pgdown"}

// The help of every screen names each key that does something there, and none that does not. Of screens of one kind that let one do the same,
// one is tried. What a page lets one do is the same at every size but for moving on it, which alone is tried on the smallest terminal.
func TestHelpNamesWhatWorks(t *testing.T) {
	alike := map[string]bool{}
	for _, s := range scenes() {
		if !slices.Contains(pictured, s.name) {
			continue
		}
		a := sized(s.set(t), 80, 24)
		a.draw()
		kind := fmt.Sprintf("%T, typing %t, more %t: %v", a.place, a.typing, a.shown.more, a.told(a.shown.more))
		if alike[kind] {
			continue
		}
		alike[kind] = true
		t.Run(s.name, func(t *testing.T) {
			t.Parallel()
			helps(t, s, 80, 24, everyKey())
			helps(t, s, 40, 10, moves)
		})
	}
}

// helps checks the help of one screen at one size, for the keys that are tried.
func helps(t *testing.T, s scene, width, height int, tried []string) {
	var a *app
	fresh := func() {
		a = sized(s.set(t), width, height)
		a.help, a.said = false, say.Text{}
		a.draw()
	}
	fresh()
	told := a.told(a.shown.more)
	named := slices.Clone(everywhere)
	for _, k := range told {
		keys, does := keysNamed(k.KeyName), false
		named = append(named, keys...)
		if len(keys) == 0 || k.Does == "" {
			t.Errorf("%s: %v is told as %q, %q", s.name, k.Keys, k.KeyName, k.Does)
		}
		if !slices.ContainsFunc(keys, func(key string) bool { return slices.Contains(tried, key) }) {
			continue
		}
		for _, key := range keys {
			if does {
				break // what the others do is the same
			}
			does = slices.Contains(everywhere, key) || works(a, key, true) || works(keyed(a, "pgdown"), key, true) || works(keyed(a, "pgup"), key, true)
		}
		if !does {
			t.Errorf("%s at %d×%d: the help names %q, which does nothing", s.name, width, height, k.KeyName)
		}
		if !slices.Contains(everywhere, keys[0]) {
			fresh()
		}
	}
	for a.help = true; ; a.Update(pressed("pgdown")) {
		if text := plainText(drawn(a)); strings.Contains(text, "…") {
			t.Errorf("%s at %d×%d: the help is cut off:\n%s", s.name, width, height, text)
		}
		if !a.shown.below {
			break
		}
	}
	fresh()
	for _, k := range tried {
		if slices.Contains(named, k) || slices.Contains(named, sameKeys[k]) || a.typing && (len(k) == 1 || strings.HasPrefix(k, "ctrl+") || slices.Contains(writes, k)) {
			continue
		}
		if works(a, k, false) {
			t.Errorf("%s at %d×%d: %s does something that the help does not name", s.name, width, height, k)
			fresh()
		}
	}
}

// On every screen of 60 columns or more the bottom line names a key that leads away from it.
func TestAWayOutIsNamed(t *testing.T) {
	t.Parallel()
	for _, s := range scenes() {
		if !slices.Contains(pictured, s.name) || s.name == "help" {
			continue
		}
		a := s.set(t)
		for _, width := range []int{60, 72, 80, 200} {
			sized(a, width, 20)
			a.draw()
			bottom := plainText(a.shown.lines[len(a.shown.lines)-1])
			if !strings.Contains(bottom, "q ") && !strings.Contains(bottom, "esc ") && !strings.Contains(bottom, "ctrl+c ") {
				t.Errorf("%s at %d columns: %q", s.name, width, bottom)
			}
		}
	}
}
