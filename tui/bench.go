package tui

import (
	"fmt"
	"slices"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/theory/fret"
	"sparetone/tui/draw"
)

// bench is the screen to try things on: set fingers or type a chord, and see and hear what it is, which
// note is doubled, and what may come in its place.
type bench struct {
	fingerboard
	grip  drills.Grip
	swap  int // which of the grip's swaps is looked at; -1 for none
	voice synth.Voice
	field field  // focused while something is being typed
	wrong string // with what was typed
	back  screen
}

var (
	keyStrum  = labelled(keyHear, "strum")
	keyPicked = bind("picked", "p", "p")
	keyApart  = bind("apart", "a", "a")
	keySwap   = bind("a swap", "tab", "tab")
	keyTake   = labelled(keyGoOn, "take it")
	keyUndo   = bind("take back", "⌫", "backspace")
	keyChord  = bind("type", "A–G", "t", "A", "B", "C", "D", "E", "F", "G")
	keyName   = bind("other name", "n", "n")
	keyShape  = bind("other shape", "f", "f")
)

// openBench opens the bench with the plainest shape of C, or of what the tuning has.
func openBench(a *app, back screen) screen {
	on, err := a.Settings.Instrument()
	if err != nil {
		a.said = practice.Sentence(err.Error())
		return back
	}
	return benchOn(on, drills.NewGrip(on, a.Settings.Key), back)
}

// newBench opens the bench with a voicing of what is practised on.
func newBench(a *app, v fret.Voicing, back screen) screen {
	on := a.Session.On()
	return benchOn(on, drills.NewGrip(on, a.Settings.Key).Hold(v.Shape).As(v.Chord), back)
}

func benchOn(on *drills.Instrument, g drills.Grip, back screen) screen {
	w := &bench{fingerboard: newFingerboard(on.Tuning, g.Shape), voice: on.Voices[0], back: back}
	w.hold(g)
	return w
}

// hold puts the fingers where a grip has them.
func (w *bench) hold(g drills.Grip) { w.grip, w.shape, w.swap = g, slices.Clone(g.Shape), -1 }

func (w *bench) typing() bool { return w.field.Focused() }

func (w *bench) keys(a *app) []key.Binding {
	if w.typing() {
		return w.field.keys("show it")
	}
	g, looking, leave := w.grip, w.swap >= 0, labelled(keyLeave, "back")
	var out []key.Binding
	add := func(works bool, k ...key.Binding) {
		if works {
			out = append(out, k...)
		}
	}
	heard := !a.Setup.Silent
	add(looking, keyTake, labelled(keySwap, "next"), leave)
	add(heard, keyStrum)
	add(looking, keyChord)
	add(!looking && len(g.Swaps) > 0, keySwap)
	add(!looking, keyChord, leave)
	add(heard && (looking || g.Before != nil), keyBoth)
	add(g.Before != nil, keyUndo)
	add(heard, keyPicked, keyApart)
	add(len(g.Names) > 1, keyName)
	add(len(g.Names) > 0, keyShape)
	add(true, w.fingerboard.keys()...)
	add(true, named(keyType, "", "type a chord, or frets"))
	return out
}

func (w *bench) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	switch msg.(type) {
	case chosenMsg, fingerMsg: // a click is no word of what is typed
		w.field.Blur()
	}
	if w.typing() {
		return w, w.write(a, msg)
	}
	switch msg := msg.(type) {
	case chosenMsg:
		if msg.line < len(w.grip.Swaps) {
			w.swap = msg.line
			return w, a.play(w.voice, w.grip.Compared(w.swap)...)
		}
	case tea.KeyPressMsg:
		if back, cmd, done := w.press(a, msg); done {
			return back, cmd
		}
	}
	at := w.at
	changed, _ := w.fingerboard.update(a, msg)
	if m, ok := msg.(fingerMsg); ok {
		at = len(w.shape) - m.string
	}
	if changed {
		w.hold(w.grip.Hold(w.shape))
		return w, a.play(w.voice, w.pluck(at)...)
	}
	return w, nil
}

// press does what a key does beside setting fingers.
func (w *bench) press(a *app, msg tea.KeyPressMsg) (shown screen, cmd tea.Cmd, done bool) {
	var sounds []drills.Sound
	switch g := w.grip; {
	case key.Matches(msg, keyLeave):
		a.hush()
		return w.back, nil, true
	case key.Matches(msg, keyChord):
		w.field = newField(drills.CompleteChord)
		if msg.Text != keyChord.Keys()[0] {
			w.field.update(msg)
		}
	case key.Matches(msg, keyHear):
		sounds = g.Played(synth.Strum)
	case key.Matches(msg, keyPicked):
		sounds = g.Played(synth.Pick)
	case key.Matches(msg, keyApart):
		sounds = g.Played(synth.Apart)
	case key.Matches(msg, keyBoth):
		sounds = g.Compared(w.swap)
	case key.Matches(msg, keySwap) && len(g.Swaps) > 0:
		w.swap = (w.swap + 1) % len(g.Swaps)
		sounds = g.Compared(w.swap)
	case key.Matches(msg, keyTake) && w.swap >= 0:
		w.at = len(g.Shape) - g.Swaps[w.swap].String
		w.hold(g.Swapped(w.swap))
		sounds = w.grip.Played(synth.Strum)
	case key.Matches(msg, keyUndo) && g.Before != nil:
		w.hold(g.Back())
		sounds = w.grip.Played(synth.Strum)
	case key.Matches(msg, keyName) && len(g.Names) > 1:
		w.hold(g.NextName())
	case key.Matches(msg, keyShape) && len(g.Names) > 0:
		w.hold(g.NextShape())
		sounds = w.grip.Played(synth.Strum)
	default:
		return w, nil, false
	}
	return w, a.play(w.voice, sounds...), true
}

// write takes what is typed: a chord or a shape.
func (w *bench) write(a *app, msg tea.Msg) tea.Cmd {
	press, ok := msg.(tea.KeyPressMsg)
	w.wrong = ""
	switch {
	case ok && key.Matches(press, keyHelp): // no chord has a question mark
		a.help = true
	case ok && key.Matches(press, keyEscape):
		w.field.Blur()
	case ok && key.Matches(press, keyGoOn) && w.field.text() == "":
		w.field.Blur()
	case ok && key.Matches(press, keyGoOn):
		g, err := w.grip.Read(w.field.text())
		if err != nil {
			w.wrong = practice.Sentence(err.Error())
			return nil
		}
		w.field.Blur()
		w.hold(g)
		return a.play(w.voice, g.Played(synth.Strum)...)
	default:
		w.field.update(msg)
	}
	return nil
}

func (w *bench) view(a *app, b *body) {
	switch {
	case !w.typing():
		b.say(a.theme.Strong, "Try things")
		b.say(a.theme.Quiet, "Type a chord, or set fingers with arrows and digits.")
	case w.wrong != "":
		w.field.view(a, b, "A chord or frets: ")
		b.say(a.theme.Text, w.wrong)
	default:
		w.field.view(a, b, "A chord or frets: ")
		w.field.list(a, b)
	}
	n := draw.Neck{Voicing: w.grip.Voicing, Named: len(w.grip.Names) > 0, Small: b.small, Left: a.Settings.Left, Mark: w.grip.Moved, Caret: w.tuning.StringNumber(w.at), Least: 5}
	if w.swap >= 0 {
		n.Swap = &w.grip.Swaps[w.swap]
	}
	drawn := n.Render(a.theme)
	for _, p := range n.Places() {
		b.click(b.next()+p.Row, p.From, p.To, fingerMsg{p.String, p.Fret})
	}
	width := b.col - lipgloss.Width(drawn) - 3
	if width < 24 {
		b.add(drawn)
		b.gap()
		w.say(a, b, b.next(), 0, b.col, b.add)
		return
	}
	top := b.next()
	w.say(a, b, top, b.col-width, width, func(text string) { b.add(beside(drawn, text, 3)) })
}

// leastTrade is the narrowest column, in characters, in which what a swap trades has room beside what it makes.
const leastTrade = 12

// swapsShown is how many swaps are listed at once.
const swapsShown = 6

// say writes what the shape is, as a block of a width that add puts at a line and column of the body.
func (w *bench) say(a *app, b *body, row, from, width int, add func(string)) {
	th := a.theme
	swaps := w.grip.Swaps
	var lines []string
	say := func(style lipgloss.Style, text string) {
		for _, l := range strings.Split(wrap(width, text), "\n") {
			lines = append(lines, style.Render(l))
		}
	}
	say(th.Quiet, w.shape.String())
	for i, l := range w.grip.Told() {
		if i == 0 {
			say(th.Strong, l.Screen())
		} else {
			say(th.Text, l.Screen())
		}
	}
	if len(swaps) > 0 {
		lines = append(lines, "")
		say(th.Quiet, "Moving one string makes")
		first := max(0, min(w.swap-swapsShown/2, len(swaps)-swapsShown))
		shown := swaps[first:min(len(swaps), first+swapsShown)]
		frets, chord := 0, 0
		for _, s := range shown {
			frets, chord = max(frets, len(s.To.String())), max(chord, ansi.StringWidth(s.Chord.String()))
		}
		for i, s := range shown {
			i += first
			mark, style := unmarked, th.Text
			if i == w.swap {
				mark, style = marked, th.Accent
				b.keep(row + len(lines))
			}
			before := mark + pad(s.To.String(), frets+2) + pad(s.Chord.String(), chord+2)
			if width-ansi.StringWidth(before) < leastTrade { // below, set in
				b.click(row+len(lines), from, from+width, chosenMsg{i})
				lines = append(lines, style.Render(before))
				before = "    "
			}
			for _, trade := range strings.Split(wrap(max(1, width-ansi.StringWidth(before)), w.grip.SwapAdds(i).Screen()), "\n") {
				b.click(row+len(lines), from, from+width, chosenMsg{i})
				lines = append(lines, style.Render(before+trade))
				before = strings.Repeat(" ", ansi.StringWidth(before))
			}
		}
		if more := len(swaps) - swapsShown; more > 0 {
			say(th.Quiet, fmt.Sprintf("  %d in all", len(swaps)))
		}
	}
	add(strings.Join(lines, "\n"))
}

// pad fills a word up to a width, with a space behind it at the least.
func pad(s string, width int) string {
	return s + strings.Repeat(" ", max(1, width-ansi.StringWidth(s)))
}
