package tui

import (
	"slices"
	"strconv"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"sparetone/drills"
	"sparetone/synth"
	"sparetone/theory/fret"
	"sparetone/tui/draw"
)

// fingerboard is a neck on which fingers are set: with arrows, with digits, or with the mouse.
type fingerboard struct {
	tuning  *fret.Tuning
	shape   fret.Shape
	at      int  // the string that a finger is on, in the tuning's order
	touched bool // a string was set, be it to what it was
}

var (
	keyFret = bind("fret; goes on to the next string", "0–9", "0", "1", "2", "3", "4", "5", "6", "7", "8", "9")
	keyMute = bind("mute; goes on to the next string", "x", "x")
	keyMove = bind("move", "←→↑↓", "left", "right", "up", "down")
)

// newFingerboard returns a neck with fingers on a shape, or with every string open if there is none.
func newFingerboard(t *fret.Tuning, from fret.Shape) fingerboard {
	f := fingerboard{tuning: t, shape: slices.Clone(from)}
	if len(f.shape) != len(t.Strings) {
		f.shape = make(fret.Shape, len(t.Strings))
	}
	return f
}

func (f *fingerboard) keys() []key.Binding { return []key.Binding{keyMove, keyFret, keyMute} }

// fingerMsg is a place on the neck that was pointed at.
type fingerMsg struct{ string, fret int }

// update moves a finger. It reports whether the shape has changed, and whether the message was for it.
func (f *fingerboard) update(a *app, msg tea.Msg) (changed, taken bool) {
	was := f.shape[f.at]
	switch msg := msg.(type) {
	case fingerMsg:
		f.at = len(f.shape) - msg.string
		was = f.shape[f.at]
		switch {
		case was != msg.fret:
			f.set(msg.fret)
		case was == 0:
			f.set(fret.Muted)
		default:
			f.set(0)
		}
	case tea.KeyPressMsg:
		aside := 1
		if a.Settings.Left {
			aside = -1
		}
		switch {
		case key.Matches(msg, keyLeft):
			f.along(-aside)
			return false, true
		case key.Matches(msg, keyRight):
			f.along(aside)
			return false, true
		case key.Matches(msg, keyUp):
			f.set(max(fret.Muted, f.before(was)))
		case key.Matches(msg, keyDown):
			f.set(f.after(was))
		case key.Matches(msg, keyMute):
			f.set(fret.Muted)
			f.along(1)
			return was != fret.Muted, true
		case key.Matches(msg, keyFret):
			n, _ := strconv.Atoi(msg.String())
			if n > 0 && n <= f.tuning.Start(f.at) || n > f.tuning.Frets {
				a.said = "That string has no such fret."
				return false, true
			}
			at := f.at
			f.set(n)
			f.along(1)
			return f.shape[at] != was, true
		default:
			return false, false
		}
	default:
		return false, false
	}
	return f.shape[f.at] != was, true
}

func (f *fingerboard) set(to int) { f.shape[f.at], f.touched = to, true }

// along goes some strings on, round the neck.
func (f *fingerboard) along(by int) { f.at = (f.at + by + len(f.shape)) % len(f.shape) }

// before and after are the stops on either side of one on the present string.
func (f *fingerboard) before(n int) int {
	if n == f.tuning.Start(f.at)+1 {
		return 0
	}
	return n - 1
}

func (f *fingerboard) after(n int) int {
	if n == 0 {
		n = f.tuning.Start(f.at)
	}
	return min(f.tuning.Frets, n+1)
}

// pluck is the sound of one string as it is stopped now.
func (f *fingerboard) pluck(i int) []drills.Sound {
	if f.shape[i] == fret.Muted {
		return nil
	}
	note := synth.Sounding{String: f.tuning.StringNumber(i), Pitch: f.tuning.Pitch(i, f.shape[i])}
	return []drills.Sound{{Notes: []synth.Sounding{note}, Score: synth.Hand{}.Block([]synth.Sounding{note})}}
}

// view draws the neck, with places to point at.
func (f *fingerboard) view(a *app, b *body, n draw.Neck) {
	n.Small, n.Left, n.Caret, n.Least = b.small, a.Settings.Left, f.tuning.StringNumber(f.at), 5
	drawn := n.Render(a.theme)
	left := indent(b.col, drawn)
	for _, p := range n.Places() {
		b.click(b.next()+p.Row, left+p.From, left+p.To, fingerMsg{p.String, p.Fret})
	}
	b.add(shift(left, drawn))
}
