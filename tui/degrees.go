package tui

import (
	"slices"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"sparetone/drills/practice"
	"sparetone/theory/fret"
	"sparetone/tui/draw"
)

// degrees enters what each string of a shape is in the chord: a degree under every string that sounds.
type degrees struct {
	asked *practice.Asked
	given []string // in the tuning's order, as typed; empty where nothing is entered yet
	at    int      // the string that is asked about, in the tuning's order
}

// allDegrees are the degrees that a string may have, as they are typed, in the order in which arrows
// go through them. A degree of the next octave is typed by its number: 9, 11, 13.
var allDegrees = strings.Fields("R b9 9 #9 b3 3 4 11 #11 b5 5 #5 b6 6 13 b7 7")

var (
	keyDegree = bind("degree; goes on to the next string", "R 2–9 b #", "r", "R", "1", "2", "3", "4", "5", "6", "7", "8", "9")
	keySign   = named(bind("", "", "b", "#"), "", "flat, and # sharp: before the number")
	keyRound  = bind("move", "←→↑↓", "left", "right", "up", "down")
	keyClear  = named(bind("take it away", "⌫", "backspace"), "⌫", "take away")
)

func newDegrees(q *practice.Asked) *degrees {
	d := &degrees{asked: q, given: make([]string, len(q.Shown.Shape)), at: -1}
	d.along(1)
	return d
}

func (d *degrees) typing() bool   { return false }
func (d *degrees) pictures() bool { return true }

func (d *degrees) keys() []key.Binding {
	out := []key.Binding{labelled(keyGoOn, "answer"), keyDegree, keySign, keyRound}
	if d.given[d.at] != "" {
		out = append(out, keyClear)
	}
	return out
}

// along goes to the next string that sounds, forward or back, round the neck.
func (d *degrees) along(by int) {
	for range d.given {
		d.at = (d.at + by + len(d.given)) % len(d.given)
		if d.asked.Shown.Shape[d.at] != fret.Muted {
			return
		}
	}
}

func (d *degrees) update(a *app, msg tea.Msg) (string, bool, tea.Cmd) {
	if m, ok := msg.(fingerMsg); ok {
		if i := len(d.given) - m.string; d.asked.Shown.Shape[i] != fret.Muted {
			d.at = i
		}
		return "", false, nil
	}
	press, ok := msg.(tea.KeyPressMsg)
	if !ok {
		return "", false, nil
	}
	aside := 1
	if a.Settings.Left {
		aside = -1
	}
	here := &d.given[d.at]
	switch {
	case key.Matches(press, keyGoOn):
		if text, ok := d.text(); ok {
			return text, true, nil
		}
		a.said = "Every string that sounds needs a degree, such as R, 3, 5, b7 or 9."
	case key.Matches(press, keyLeft):
		d.along(-aside)
	case key.Matches(press, keyRight):
		d.along(aside)
	case key.Matches(press, keyUp, keyDown):
		by := 1
		if key.Matches(press, keyUp) {
			by = -1
		}
		i := slices.Index(allDegrees, *here)
		if i < 0 {
			i = 0
			by = min(by, 0)
		}
		*here = allDegrees[(i+by+len(allDegrees))%len(allDegrees)]
	case key.Matches(press, keyClear):
		*here = ""
	case key.Matches(press, keySign):
		*here = press.String()
	case key.Matches(press, keyDegree):
		word := strings.ToUpper(press.String())
		if word == "1" {
			word = "R"
		}
		if *here == "b" || *here == "#" {
			word = *here + word
		}
		*here = word
		d.along(1)
	}
	return "", false, nil
}

// text is the answer as it would be typed, and whether it is whole.
func (d *degrees) text() (string, bool) {
	words := slices.Clone(d.given)
	for i, w := range words {
		switch {
		case d.asked.Shown.Shape[i] == fret.Muted:
			words[i] = "x"
		case w == "" || w == "b" || w == "#":
			return "", false
		}
	}
	return strings.Join(words, " "), true
}

func (d *degrees) view(a *app, b *body) {
	n := draw.Neck{Voicing: *d.asked.Shown, Small: b.small, Left: a.Settings.Left, Caret: d.asked.Shown.Tuning.StringNumber(d.at)}
	for i, g := range d.given {
		switch {
		case d.asked.Shown.Shape[i] == fret.Muted:
			g = " "
		case g == "":
			g = "·"
		default:
			g = signs(g)
		}
		n.Under = append(n.Under, g)
	}
	drawn := n.Render(a.theme)
	left := indent(b.col, drawn)
	for _, p := range n.Places() {
		b.click(b.next()+p.Row, left+p.From, left+p.To, fingerMsg{p.String, p.Fret})
	}
	b.add(shift(left, drawn))
	if slices.ContainsFunc(d.given, func(g string) bool { return g != "" }) {
		b.keep(b.next() - 1) // once something is entered it stays in sight, and before that what is asked does
	}
}

// signs writes a typed degree with the signs of print: b7 becomes ♭7.
func signs(s string) string { return strings.NewReplacer("b", "♭", "#", "♯").Replace(s) }
