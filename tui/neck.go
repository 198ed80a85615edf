package tui

import (
	"slices"
	"strconv"
	"strings"

	"sparetone/drills/neck"
	"sparetone/theory/fret"
	"sparetone/tui/draw"
	"sparetone/tui/page"
)

// fingerMsg is a place on the neck that was pointed at: the number of a string, and a fret.
type fingerMsg struct{ string, fret int }

// aside is how many strings an arrow goes on, 0 if it is none that goes aside.
func (l sight) aside(key string) int {
	by := map[string]int{"left": -1, "right": 1}[key]
	if l.left {
		return -by
	}
	return by
}

// overHand moves a finger. It reports whether the key was for it.
func (l sight) overHand(h *page.Hand, key string) (next page.Next, done bool) {
	n, notDigit := strconv.Atoi(key)
	switch {
	case l.aside(key) != 0:
		h.Along(l.aside(key))
	case key == "up":
		next = h.Up()
	case key == "down":
		next = h.Down()
	case key == "x":
		next = h.Put(fret.Muted)
	case notDigit == nil:
		next = h.Put(n)
	default:
		return next, false
	}
	return next, true
}

// overTones enters a degree. It reports whether the key was for it.
func (l sight) overTones(t *page.Tones, key string) bool {
	switch {
	case l.aside(key) != 0:
		t.Along(l.aside(key))
	case key == "up":
		t.Step(-1)
	case key == "down":
		t.Step(1)
	case key == "backspace":
		t.Clear()
	case len(key) == 1 && strings.Contains("rRb#123456789", key):
		t.Type(key)
	default:
		return false
	}
	return true
}

// neck draws a shape in the middle.
func (b *body) neck(n page.Neck) {
	b.picture(b.seen(draw.Neck(n)).Render(b.theme))
}

// pointed draws a neck in the middle with places to point at.
func (b *body) pointed(n draw.Neck) {
	n = b.seen(n)
	drawn := n.Render(b.theme)
	top := b.next()
	left := b.picture(drawn)
	for _, p := range n.Places() {
		b.click(top+p.Row, left+p.From, left+p.To, fingerMsg{p.String, p.Fret})
	}
}

// hand draws fingers that are being set.
func (b *body) hand(h *page.Hand) {
	b.pointed(draw.Neck{Voicing: neck.Unheard(h.Tuning, h.Shape), Caret: h.Tuning.StringNumber(h.At), Least: 5})
	b.gap()
	b.add(middle(b.col, b.theme.Text.Render(h.Shape.String())))
}

// tones draws a shape with the degrees that are being entered under it.
func (b *body) tones(t *page.Tones) {
	b.pointed(draw.Neck{Voicing: t.Shown, Fingers: t.Fingers, Caret: t.Shown.Tuning.StringNumber(t.At), Under: t.Under()})
	if slices.ContainsFunc(t.Given, func(g string) bool { return g != "" }) {
		b.keep(b.next() - 1) // once something is entered it stays in sight, and before that what is asked does
	}
}

// strings draws what sounds: a line for each note in the order plucked.
func (b *body) strings(sounding page.Strings) {
	s := draw.Strings{Count: sounding.Count, Phase: b.phase, Small: b.small, Still: b.still}
	if levels := b.levels(); len(levels) > 0 {
		for _, n := range sounding.Sounds[0].Score.Strings() {
			s.Levels = append(s.Levels, levels[n])
		}
	}
	b.add(middle(b.col, s.Render(b.theme)))
}

// outcome says what came of an answer; the first line of it is in colour.
func (b *body) outcome(o page.Outcome) {
	style := b.tone(o.Tone)
	for _, l := range rows(b.col, o.Sign+" "+o.Text.Screen()) {
		b.add(style.Render(l))
		style = b.theme.Text
	}
}
