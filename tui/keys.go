package tui

import (
	"slices"
	"strings"

	"sparetone/tui/draw"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"
)

// bind is a binding with the first of its keys as its name.
func bind(does string, name string, keys ...string) key.Binding {
	return key.NewBinding(key.WithKeys(keys...), key.WithHelp(name, does))
}

// The keys are the same on every screen; each screen says which of them work on it.
var (
	keyAnswer = bind("answer", "1–9", "1", "2", "3", "4", "5", "6", "7", "8", "9")
	keyUp     = bind("up", "↑", "up")
	keyDown   = bind("down", "↓", "down")
	keyMark   = bind("choose", "↑↓", "up", "down")
	keyLeft   = bind("left", "←", "left")
	keyRight  = bind("right", "→", "right")
	keyGoOn   = bind("go on", "enter", "enter")
	keyHear   = bind("again", "space", "space")
	keyOpen   = bind("open up", "o", "o")
	keyRoot   = bind("root first", "r", "r")
	keySlower = bind("slower", "s", "s")
	keyBoth   = bind("hear both", "b", "b")
	keyMine   = bind("hear mine", "m", "m")
	keyType   = bind("type it", "t", "t")
	keyPass   = bind("don't know", "d", "d")
	keyTry    = bind("try it", "v", "v")
	keyWhy    = bind("why now", "y", "y")
	keyOther  = bind("other shape", "tab", "tab")
	keyFill   = bind("complete", "tab", "tab")
	keyMore   = bind("more", "pgdn", "pgdown")
	keyBefore = bind("back up", "pgup", "pgup")
	keyLouder = bind("louder", "+", "+", "=")
	keySofter = bind("softer", "-", "-")
	keyHelp   = bind("help", "?", "?")
	keyLeave  = bind("leave", "q", "q", "esc")
	keyReturn = bind("back", "esc", "esc", "backspace")
	keyEscape = bind("stop typing", "esc", "esc")
	keyPause  = bind("pause the program", "ctrl+z", "ctrl+z")
	keyQuit   = bind("leave at once", "ctrl+c", "ctrl+c")
)

// labelled is a binding that says on this screen what it does here.
func labelled(b key.Binding, does string) key.Binding {
	b.SetHelp(b.Help().Key, does)
	return b
}

// named is a binding that is shown under another name on this screen.
func named(b key.Binding, name, does string) key.Binding {
	b.SetHelp(name, does)
	return b
}

// pressed is the message of a key being pressed, by the name it has in a binding.
func pressed(name string) tea.KeyPressMsg {
	if code, ok := keyCodes[name]; ok {
		return tea.KeyPressMsg{Code: code}
	}
	if last, ok := strings.CutPrefix(name, "ctrl+"); ok {
		return tea.KeyPressMsg{Code: []rune(last)[0], Mod: tea.ModCtrl}
	}
	return tea.KeyPressMsg{Code: []rune(name)[0], Text: name}
}

// keyCodes are the keys that have a name and no letter.
var keyCodes = map[string]rune{
	"enter": tea.KeyEnter, "space": tea.KeySpace, "tab": tea.KeyTab, "esc": tea.KeyEscape, "backspace": tea.KeyBackspace,
	"up": tea.KeyUp, "down": tea.KeyDown, "left": tea.KeyLeft, "right": tea.KeyRight, "pgup": tea.KeyPgUp, "pgdown": tea.KeyPgDown,
}

// foot writes what can be pressed in one line, from the bindings themselves: those there is room for, the
// first ones first, and always the last one, which leads to the rest, and the first that leads away. A click on one of
// them presses it. What stands behind a semicolon is for the help alone.
func foot(th draw.Theme, width int, bindings []key.Binding) (string, []spot) {
	const gap = "   "
	show := func(k key.Binding) string {
		does, _, _ := strings.Cut(k.Help().Desc, ";")
		return th.Text.Render(k.Help().Key) + " " + th.Quiet.Render(does)
	}
	press := func(k key.Binding, from, to int) spot {
		return spot{0, from, to, pressed(k.Keys()[0])}
	}
	lastKey := bindings[len(bindings)-1]
	last := show(lastKey)
	bindings = bindings[:len(bindings)-1]
	away, room := slices.IndexFunc(bindings, leadsAway), 0
	if away >= 0 {
		room = ansi.StringWidth(show(bindings[away]) + gap)
	}
	line, spots := "", []spot{}
	for i, k := range bindings {
		if i == away {
			room = 0
		}
		free := room
		if key.Matches(pressed("pgdown"), k) || key.Matches(pressed("pgup"), k) {
			free = 0 // that there is more is said before all else
		}
		if k.Help().Key == "" {
			continue
		}
		longer := line + show(k)
		if ansi.StringWidth(longer+gap+last)+free > width {
			continue
		}
		spots = append(spots, press(k, ansi.StringWidth(line), ansi.StringWidth(longer)))
		line = longer + gap
	}
	at := ansi.StringWidth(line)
	return line + last, append(spots, press(lastKey, at, at+ansi.StringWidth(last)))
}

// leadsAway reports whether a key leaves the screen, or what is done on it.
func leadsAway(k key.Binding) bool {
	return key.Matches(pressed("esc"), k) || key.Matches(pressed("ctrl+c"), k)
}

// told lists what the help of a screen names: its own bindings, and what works on every screen. scrolls says
// whether there is more than can be seen. None is told twice.
func (a *app) told(bindings []key.Binding, scrolls bool) []key.Binding {
	all := slices.Clone(bindings)
	if scrolls {
		all = append(all, keyMore, keyBefore)
		if !a.lists() {
			all = append(all, labelled(keyMark, "a line up or down"))
		}
	}
	if w, ok := a.screen.(writing); !ok || !w.typing() {
		all = append(all, keyLouder, keySofter)
	}
	var seen []string
	var out []key.Binding
	for _, k := range append(all, keyHelp, keyPause, keyQuit) {
		h := k.Help()
		if h.Key == "" && slices.Contains(seen, h.Desc) {
			continue // it was told with another
		}
		if h.Key == "" || h.Key == k.Keys()[0] {
			h.Key = strings.ReplaceAll(strings.Join(k.Keys(), " "), "backspace", "⌫")
		}
		if slices.Contains(seen, h.Key) {
			continue
		}
		seen = append(seen, h.Key, h.Desc)
		out = append(out, named(k, h.Key, h.Desc))
	}
	return out
}

// help writes bindings, a line each.
func help(a *app, b *body, told []key.Binding) {
	b.say(a.theme.Strong, "What the keys do here")
	b.gap()
	widest := 0
	for _, k := range told {
		widest = max(widest, ansi.StringWidth(k.Help().Key))
	}
	for _, k := range told {
		before := a.theme.Text.Render(pad(k.Help().Key, widest+3))
		for _, row := range inStyle(a.theme.Quiet, wrap(max(1, b.col-widest-3), k.Help().Desc)) {
			b.click(b.next(), 0, b.col, pressed(k.Keys()[0]))
			b.add(before + row)
			before = strings.Repeat(" ", widest+3)
		}
	}
	b.gap()
	b.say(a.theme.Quiet, "Any key closes this.")
}
