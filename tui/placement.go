package tui

import (
	"fmt"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/drills/practice"
)

// placement is the screen on which the first run finds out what is known: questions one after the other, with
// no word on whether an answer was right. What they come to is said at their end.
type placement struct {
	drills *course.Placement
	shown  *question
	back   *welcome
}

// newPlacement begins a placement that leads back to the first run. If there is none it says why.
func newPlacement(a *app, back *welcome) (screen, tea.Cmd) {
	d, err := a.NewPlacement()
	if err != nil {
		a.said = practice.Sentence(err.Error())
		return back, nil
	}
	p := &placement{drills: d, back: back}
	return p.next(a)
}

// next asks the next question, or goes back with what was found.
func (p *placement) next(a *app) (screen, tea.Cmd) {
	a.hush()
	a.top()
	p.drills.SetSilent(!a.Hears())
	q := p.drills.Next()
	if q == nil {
		p.back.take(a, p.drills)
		return p.back, nil
	}
	p.shown = &question{asked: &practice.Asked{Question: q}, entry: newUnsure(q)}
	return p, a.play(q.Voice, q.Sounds...)
}

func (p *placement) keys(a *app) []key.Binding {
	first, rest := p.shown.entry.keys()[:1:1], p.shown.entry.keys()[1:]
	if len(p.shown.asked.Sounds) > 0 {
		first = append(first, keyHear)
	}
	return append(append(first, rest[0], keyReturn), append(rest[1:], named(keyQuit, "ctrl+c", "leave"))...)
}

func (p *placement) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	sounds := p.shown.asked.Sounds
	switch msg := msg.(type) {
	case soundMsg:
		if len(sounds) > 0 && !a.Hears() {
			return p.next(a) // what cannot be heard is not asked
		}
		return p, nil
	case tea.KeyPressMsg:
		switch {
		case key.Matches(msg, keyReturn):
			a.hush()
			return p.back, nil
		case key.Matches(msg, keyHear):
			return p, a.play(p.shown.asked.Voice, sounds...)
		}
	}
	answer, given, cmd := p.shown.entry.update(a, msg)
	switch {
	case !given:
		return p, cmd
	case answer == unknown:
		p.drills.Unknown()
	default:
		if err := p.drills.Answer(answer); err != nil {
			a.said = practice.Sentence(err.Error())
			return p, nil
		}
	}
	return p.next(a)
}

func (p *placement) view(a *app, b *body) {
	b.say(a.theme.Quiet, fmt.Sprintf("Finding out: question %d", p.drills.Asked()+1))
	if !b.small {
		b.gap()
	}
	p.shown.view(a, b)
}

// unsure enters one of the choices, or that it is not known: nobody has to guess.
type unsure struct {
	menu
	choices []drills.Choice
	moved   bool // the mark: it then stays in sight, and before that what is asked does
}

// unknown is the answer that it is not known.
const unknown = ""

var keyUnknown = bind(drills.Unknown, "0", "0", "d")

func newUnsure(q *drills.Question) *unsure {
	u := &unsure{choices: q.Choices}
	for _, c := range q.Choices {
		u.lines = append(u.lines, line{text: c.Said.Screen()})
	}
	u.lines = append(digits(u.lines), line{key: keyUnknown.Help().Key, text: drills.Unknown})
	u.menu.at = len(q.Choices)
	return u
}

func (u *unsure) typing() bool { return false }

func (u *unsure) pictures() bool { return false }

func (u *unsure) keys() []key.Binding {
	return []key.Binding{
		named(keyAnswer, fmt.Sprintf("1–%d", len(u.choices)), "answer"), keyUnknown,
		labelled(keyGoOn, "answer as marked"), labelled(keyMark, "mark"),
	}
}

func (u *unsure) update(a *app, msg tea.Msg) (string, bool, tea.Cmd) {
	was := u.menu.at
	i, ok := u.menu.update(msg)
	u.moved = u.moved || u.menu.at != was
	if ok && i < len(u.choices) {
		return u.choices[i].Typed, true, nil
	}
	return unknown, ok, nil
}

func (u *unsure) view(a *app, b *body) {
	widest := 0
	for _, l := range u.lines {
		widest = max(widest, ansi.StringWidth(l.text))
	}
	left := max(0, (b.col-widest-5)/2)
	in := newBody(b.col-left, b.rows)
	u.menu.view(a, in)
	top := b.next()
	if u.moved {
		b.keepRows(top+in.kept, top+in.keptTo)
	}
	for _, s := range in.spots {
		b.click(top+s.row, left, left+widest+5, s.means)
	}
	for _, l := range in.lines {
		b.add(shift(left, l))
	}
}
