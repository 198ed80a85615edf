package tui

import (
	"slices"
	"strings"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/tui/draw"
	"sparetone/tui/page"
)

// What is of the terminal and of no place.
var (
	more    = page.Act{Keys: "pgdown", KeyName: "pgdn", Does: "more"}
	before  = page.Act{Keys: "pgup", Does: "back up"}
	arrows  = page.Act{Keys: "up down", KeyName: "↑↓", Does: "a line up or down"}
	helpAct = page.Act{Keys: "?", Does: "help"}
	pause   = page.Act{Keys: "ctrl+z", Does: "pause the program"}
)

// pressed is the message of a key being pressed, by its name.
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

// keyName is what an act's keys are called in the bottom line.
func keyName(act page.Act) string {
	if act.KeyName != "" {
		return act.KeyName
	}
	return strings.Fields(act.Keys)[0]
}

// clicked is the message that an act's first key is pressed.
func clicked(act page.Act) tea.Msg { return pressed(strings.Fields(act.Keys)[0]) }

// foot writes what can be done in one line: the acts there is room for, the first ones first, and always the last one,
// which leads to the rest, and the first that leads away. A click on one of them presses its key. What stands behind a
// semicolon is for the help alone. In a column narrower than the widest they stand closer.
func foot(th draw.Theme, width int, acts []page.Act) (string, []spot) {
	gap := "   "
	if width < columnWidth {
		gap = "  "
	}
	show := func(act page.Act) string {
		does, _, _ := strings.Cut(act.Does, ";")
		return th.Text.Render(keyName(act)) + " " + th.Quiet.Render(does)
	}
	lastAct := acts[len(acts)-1]
	last := show(lastAct)
	acts = acts[:len(acts)-1]
	away, room := slices.IndexFunc(acts, leadsAway), 0
	if away >= 0 {
		room = ansi.StringWidth(show(acts[away]) + gap)
	}
	line, spots := "", []spot{}
	for i, act := range acts {
		if i == away {
			room = 0
		}
		free := room
		if act.HasKey("pgdown") || act.HasKey("pgup") {
			free = 0 // that there is more is said before all else
		}
		longer := line + show(act)
		if act.HelpOnly || !act.Off.IsZero() || ansi.StringWidth(longer+gap+last)+free > width {
			continue
		}
		spots = append(spots, spot{0, ansi.StringWidth(line), ansi.StringWidth(longer), clicked(act)})
		line = longer + gap
	}
	at := ansi.StringWidth(line)
	return line + last, append(spots, spot{0, at, at + ansi.StringWidth(last), clicked(lastAct)})
}

// leadsAway reports whether an act leaves the page, or what is done on it.
func leadsAway(act page.Act) bool {
	return !act.HelpOnly && (act.ID == "stop" || act.HasKey("esc") || act.HasKey("ctrl+c"))
}

// acts are what can be done now on the page.
func (a *app) acts() []page.Act {
	if a.typing {
		return a.fieldActs(a.fieldBlock())
	}
	return a.page().Acts
}

// told lists what the help of a page names, under the names of all keys: its own acts, and what works everywhere. scrolls
// says whether there is more than can be seen. None is told twice.
func (a *app) told(scrolls bool) []page.Act {
	all := slices.Clone(a.acts())
	if scrolls {
		all = append(all, more, before)
		if !a.lists() {
			all = append(all, arrows)
		}
	}
	var seen []string
	var out []page.Act
	everywhere := a.Everywhere(a.place)
	for _, act := range slices.Concat(all, slices.Insert(everywhere, len(everywhere)-1, pause)) {
		if !act.Off.IsZero() || a.typing && (act.HasKey("+") || act.HasKey("-")) || act.KeyName == "" && act.HelpOnly && slices.Contains(seen, act.Does) {
			continue
		}
		if act.KeyName == "" || act.KeyName == strings.Fields(act.Keys)[0] {
			act.KeyName = strings.ReplaceAll(act.Keys, "backspace", "⌫")
		}
		if !slices.Contains(seen, act.KeyName) {
			seen = append(seen, act.KeyName, act.Does)
			out = append(out, act)
		}
	}
	return out
}

// help writes acts, a line each.
func help(b *body, told []page.Act) {
	gap := b.gap
	if len(told)+4 > b.rows { // with a title, a last line and two gaps
		gap = func() {}
	}
	b.say(b.theme.Strong, "What the keys do here")
	gap()
	widest := 0
	for _, act := range told {
		widest = max(widest, ansi.StringWidth(act.KeyName))
	}
	for _, act := range told {
		b.hang(b.theme.Text.Render(pad(act.KeyName, widest+3)), widest+3, inStyle(b.theme.Quiet, wrap(max(1, b.col-widest-3), act.Does)), clicked(act))
	}
	gap()
	b.say(b.theme.Quiet, "Any key closes this.")
}
