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
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// bench is the screen to try things on: set fingers or type a chord, and see and hear what it is, which
// note is doubled, and what may come in its place.
type bench struct {
	fingerboard
	back  screen
	voice *synth.Voice
	key   *theory.Key

	names  []theory.Naming
	named  int // which of the names it is seen as
	heard  fret.Voicing
	swaps  []fret.Swap
	swap   int          // which of the swaps is looked at; -1 for none
	others []fret.Found // shapes of the chord
	other  int
	before *fret.Voicing // what the last swap came from

	field   field
	written bool // something is being typed
}

var (
	keyStrum   = labelled(keyHear, "strum")
	keyPicked  = bind("picked", "p", "p")
	keyApart   = bind("apart", "a", "a")
	keyAgainst = bind("plain, then coloured", "b", "b")
	keySwap    = bind("next swap", "tab", "tab")
	keyTake    = labelled(keyGoOn, "take it")
	keyName    = bind("other name", "n", "n")
	keyShape   = bind("other shape", "f", "f")
)

// openBench opens the bench with the plainest shape of C, or of what the tuning has.
func openBench(a *app, back screen) screen {
	on, err := a.Settings.Instrument()
	if err != nil {
		a.said = sentence(err.Error())
		return back
	}
	w := newBenchOn(a, on.Tuning, nil, back)
	_ = w.show("C") // a tuning without a shape of it begins with its open strings
	return w
}

// newBench opens the bench with a voicing.
func newBench(a *app, v fret.Voicing, back screen) screen {
	w := newBenchOn(a, v.Tuning, v.Shape, back)
	w.seeAs(v.Chord)
	return w
}

func newBenchOn(a *app, t *fret.Tuning, s fret.Shape, back screen) *bench {
	w := &bench{fingerboard: newFingerboard(t, s), back: back, voice: synth.Voices()[0], swap: -1}
	if v, err := synth.VoiceByName(a.Settings.Voice); err == nil {
		w.voice = v
	}
	if k, err := theory.ParseKey(a.Settings.Key); err == nil {
		w.key = &k
	}
	w.look()
	return w
}

// look works out what the shape is, as its plainest name.
func (w *bench) look() {
	w.names = fret.Names(w.tuning, w.shape, theory.Context{Key: w.key})
	if len(w.names) > 0 {
		// Beside the plainest, those of which nothing is left out.
		w.names = slices.Concat(w.names[:1], slices.DeleteFunc(slices.Clone(w.names[1:]), func(n theory.Naming) bool { return n.Chord.Without != 0 }))
	}
	w.named, w.swap, w.before = 0, -1, nil
	w.see()
}

// see works out what follows from the name that is looked at.
func (w *bench) see() {
	w.heard, w.swaps, w.others, w.other = bare(w.tuning, w.shape), nil, nil, -1
	if len(w.names) == 0 {
		return
	}
	c := w.names[w.named].Chord
	if v, err := fret.Voice(w.tuning, w.shape, c); err == nil {
		w.heard = v
	}
	w.swaps = fret.Swaps(w.tuning, w.shape, c, w.key)
	if w.swap >= len(w.swaps) {
		w.swap = -1
	}
}

// seeAs looks at the shape as a chord, if that is one of its names.
func (w *bench) seeAs(c theory.Chord) {
	is := func(n theory.Naming) bool { return n.Chord.Kind == c.Kind && n.Chord.Root.Same(c.Root) }
	if i := slices.IndexFunc(w.names, is); i >= 0 {
		w.named = i
	} else if all := fret.Names(w.tuning, w.shape, theory.Context{Key: w.key}); slices.ContainsFunc(all, is) {
		w.named = len(w.names)
		w.names = append(w.names, all[slices.IndexFunc(all, is)])
	} else {
		return
	}
	w.see()
}

// chord puts the fingers on the easiest shape of a chord.
func (w *bench) chord(c theory.Chord) error {
	found := fret.Search(w.tuning, c, fret.DefaultHand)
	if len(found) == 0 {
		return fmt.Errorf("%s has no shape here that a hand can hold", c)
	}
	w.shape = slices.Clone(found[0].Shape)
	w.look()
	w.seeAs(c)
	w.others, w.other = found, 0
	return nil
}

func (w *bench) typing() bool { return w.written }

func (w *bench) keys(a *app) []key.Binding {
	if w.written {
		return []key.Binding{labelled(keyGoOn, "show it"), keyFill, keyEscape}
	}
	out := []key.Binding{keyStrum}
	if len(w.swaps) > 0 {
		out = append(out, keySwap)
	}
	out = append(out, labelled(keyType, "type"))
	if w.swap >= 0 {
		out = append([]key.Binding{keyTake}, out...)
	}
	out = append(out, labelled(keyLeave, "back"))
	if w.swap >= 0 || w.before != nil {
		out = append(out, keyAgainst)
	}
	out = append(out, keyPicked, keyApart)
	if len(w.names) > 1 {
		out = append(out, keyName)
	}
	return append(append(out, keyShape), w.fingerboard.keys()...)
}

func (w *bench) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	if w.written {
		return w, w.write(a, msg)
	}
	if m, ok := msg.(chosenMsg); ok && m.line < len(w.swaps) {
		w.swap = m.line
		return w, a.play(w.voice, w.against()...)
	}
	if press, ok := msg.(tea.KeyPressMsg); ok {
		switch {
		case key.Matches(press, keyLeave):
			a.hush()
			return w.back, nil
		case key.Matches(press, keyHear):
			return w, a.play(w.voice, w.strummed()...)
		case key.Matches(press, keyPicked):
			return w, a.play(w.voice, w.picked()...)
		case key.Matches(press, keyApart):
			return w, a.play(w.voice, w.apart()...)
		case key.Matches(press, keyAgainst):
			return w, a.play(w.voice, w.against()...)
		case key.Matches(press, keyType):
			w.written = true
			w.field.put("")
			return w, nil
		case key.Matches(press, keySwap) && len(w.swaps) > 0:
			w.swap = (w.swap + 1) % len(w.swaps)
			return w, a.play(w.voice, w.against()...)
		case key.Matches(press, keyGoOn) && w.swap >= 0:
			w.take()
			return w, a.play(w.voice, w.strummed()...)
		case key.Matches(press, keyName) && len(w.names) > 1:
			w.named = (w.named + 1) % len(w.names)
			w.swap = -1
			w.see()
			return w, nil
		case key.Matches(press, keyShape) && len(w.names) > 0:
			w.nextShape()
			return w, a.play(w.voice, w.strummed()...)
		}
	}
	at := w.at
	changed, _ := w.fingerboard.update(a, msg)
	if m, ok := msg.(fingerMsg); ok {
		at = len(w.shape) - m.string
	}
	if changed {
		w.look()
		return w, a.play(w.voice, w.pluck(at)...)
	}
	return w, nil
}

// write takes what is typed: a chord or a shape.
func (w *bench) write(a *app, msg tea.Msg) tea.Cmd {
	if press, ok := msg.(tea.KeyPressMsg); ok {
		switch {
		case key.Matches(press, keyEscape):
			w.written = false
			return nil
		case key.Matches(press, keyGoOn):
			if text := w.field.value(); text != "" {
				if err := w.show(text); err != nil {
					a.said = sentence(err.Error())
					return nil
				}
			}
			w.written = false
			return a.play(w.voice, w.strummed()...)
		}
	}
	w.field.update(msg, chordsFrom)
	return nil
}

// show puts the fingers on what was typed: a chord or a shape.
func (w *bench) show(text string) error {
	s, err := fret.ParseShape(text)
	if err == nil {
		err = w.tuning.Check(s)
	}
	if err == nil {
		w.shape = s
		w.look()
		return nil
	}
	c, wrong := theory.ParseChord(text)
	switch {
	case wrong == nil:
		return w.chord(c)
	case strings.ContainsAny(text[:1], "0123456789x"):
		return err
	}
	return wrong
}

// against is the plain shape and the coloured one in turn: before and after the swap that is looked at,
// or the one that was taken last; nothing if there is none.
func (w *bench) against() []drills.Sound {
	plain, coloured := w.shape, w.shape
	switch {
	case w.swap >= 0:
		coloured = w.swaps[w.swap].To
	case w.before != nil:
		plain = w.before.Shape
	default:
		return nil
	}
	one, two := newFingerboard(w.tuning, plain), newFingerboard(w.tuning, coloured)
	return append(strummed(one.notes()), strummed(two.notes())...)
}

func (w *bench) strummed() []drills.Sound { return strummed(w.notes()) }
func (w *bench) picked() []drills.Sound   { return inWay(synth.Pick, w.notes()) }
func (w *bench) apart() []drills.Sound    { return inWay(synth.Apart, w.notes()) }

// take moves the finger that the swap moves.
func (w *bench) take() {
	s, from := w.swaps[w.swap], w.heard
	w.shape, w.at = slices.Clone(s.To), len(s.To)-s.String
	w.look()
	w.seeAs(s.Chord)
	w.before = &from
}

// nextShape goes on to the next easiest shape of the chord.
func (w *bench) nextShape() {
	c := w.names[w.named].Chord
	found, n := w.others, w.other
	if found == nil {
		c.Without = 0
		found = fret.Search(w.tuning, c, fret.DefaultHand)
		n = slices.IndexFunc(found, func(f fret.Found) bool { return slices.Equal(f.Shape, w.shape) })
	}
	if len(found) == 0 {
		return
	}
	n = (n + 1) % len(found)
	w.shape = slices.Clone(found[n].Shape)
	w.look()
	w.seeAs(c)
	w.others, w.other = found, n
}

func (w *bench) view(a *app, b *body) {
	b.say(a.theme.Strong, "Try things")
	if w.written {
		w.field.view(a, b, "A chord or frets: ")
	} else {
		b.gap()
	}
	n := Neck{Voicing: w.heard, Named: len(w.names) > 0, Small: b.small, Left: a.Settings.Left, Caret: w.tuning.StringNumber(w.at), Least: 5}
	if w.swap >= 0 {
		n.Mark = w.swaps[w.swap].String
	}
	drawn := n.Render(a.theme)
	for _, p := range n.places() {
		b.click(b.next()+p.row, p.from, p.to, fingerMsg{p.string, p.fret})
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

// swapsShown is how many swaps are listed at once.
const swapsShown = 6

// say writes what the shape is, as a block of a width that add puts at a line and column of the body.
func (w *bench) say(a *app, b *body, row, from, width int, add func(string)) {
	th := a.theme
	var lines []string
	say := func(style lipgloss.Style, text string) {
		for _, l := range strings.Split(wrap(width, text), "\n") {
			lines = append(lines, style.Render(l))
		}
	}
	say(th.Quiet, w.shape.String())
	for i, l := range w.told() {
		if i == 0 {
			say(th.Strong, l)
		} else {
			say(th.Text, l)
		}
	}
	if len(w.swaps) > 0 {
		lines = append(lines, "")
		say(th.Quiet, "One finger moved makes")
		first := max(0, min(w.swap-swapsShown/2, len(w.swaps)-swapsShown))
		shown := w.swaps[first:min(len(w.swaps), first+swapsShown)]
		frets, chord := 0, 0
		for _, s := range shown {
			frets, chord = max(frets, len(s.To.String())), max(chord, ansi.StringWidth(s.Chord.String()))
		}
		for i, s := range shown {
			i += first
			mark, style := "  ", th.Text
			if i == w.swap {
				mark, style = "› ", th.Accent
				b.keep(row + len(lines))
			}
			b.click(row+len(lines), from, from+width, chosenMsg{i})
			l := mark + pad(s.To.String(), frets+2) + pad(s.Chord.String(), chord+2) + s.Adds.Role()
			lines = append(lines, style.Render(ansi.Truncate(l, width, "…")))
		}
		if more := len(w.swaps) - swapsShown; more > 0 {
			say(th.Quiet, fmt.Sprintf("  %d in all", len(w.swaps)))
		}
	}
	add(strings.Join(lines, "\n"))
}

// told says what the shape is, a sentence a line: its name first.
func (w *bench) told() []string {
	if len(w.names) == 0 {
		return []string{"These notes together have no name."}
	}
	c := w.names[w.named].Chord
	lines := []string{fmt.Sprintf("%s, %s", c, c.Kind.Name)}
	var also []string
	for i, n := range w.names {
		if i != w.named && len(also) < 3 {
			also = append(also, n.Chord.String())
		}
	}
	if len(also) > 0 {
		lines = append(lines, "Also "+strings.Join(also, ", ")+".")
	}
	var out []string
	for _, m := range w.heard.Missing() {
		out = append(out, m.Role())
	}
	if len(out) > 0 {
		lines = append(lines, "Left out: "+strings.Join(out, ", ")+".")
	}
	for _, d := range w.heard.Doubled() {
		lines = append(lines, fmt.Sprintf("%s, %s, is doubled: one can be spared.", d.Note, d.Interval.Role()))
	}
	if len(w.heard.Doubled()) == 0 {
		lines = append(lines, "No note is doubled.")
	}
	if w.before != nil {
		lines = append(lines, fmt.Sprintf("It came from %s.", w.before.Chord))
	}
	return lines
}

// pad fills a word up to a width, with a space behind it at the least.
func pad(s string, width int) string {
	return s + strings.Repeat(" ", max(1, width-ansi.StringWidth(s)))
}
