package tui

import (
	"strings"
	"unicode/utf8"

	tea "charm.land/bubbletea/v2"

	"sparetone/theory/say"
	"sparetone/tui/page"
)

// press does what a key does.
func (a *app) press(msg tea.KeyPressMsg) tea.Cmd {
	a.said, a.turned = say.Text{}, false
	key := msg.String()
	if key != "enter" { // which goes on at once
		a.stays()
	}
	switch {
	case key == "ctrl+z":
		a.hush()
		a.away = true
		return tea.Suspend
	case a.shown.more && (more.HasKey(key) || before.HasKey(key) || (a.help || !a.lists()) && arrows.HasKey(key)):
		a.turn(key)
	case a.help && key != "ctrl+c":
		a.help = false
		a.top()
	case key == "?":
		a.help = true
		a.top()
	case a.typing && len(key) == 1 || a.typing && a.fills(key):
		return a.enters(msg)
	default:
		for _, acts := range [...]func() []page.Act{a.acts, func() []page.Act { return a.Everywhere(a.place) }} {
			for _, act := range acts() {
				if act.HasKey(key) && act.Do != nil {
					return a.apply(act.Do(""))
				}
			}
		}
		return a.apply(a.over(key))
	}
	return nil
}

// lists reports whether the page itself goes up and down.
func (a *app) lists() bool {
	for _, act := range a.acts() {
		if act.HasKey("up") {
			return true
		}
	}
	return false
}

// turn moves what can be seen of a screen that is too long: in a list the mark, as long as there is somewhere
// to move it.
func (a *app) turn(key string) {
	by := max(1, a.height-4)
	if arrows.HasKey(key) {
		by = 1
	}
	if key == "up" || before.HasKey(key) {
		by = -by
	}
	if list := a.shown.list; list != nil && list.page(by) {
		a.made, a.moved = nil, true
		return
	}
	a.scroll, a.turned = max(0, a.shown.scroll+by), true
}

// enters takes a key while letters go to the field.
func (a *app) enters(msg tea.KeyPressMsg) tea.Cmd {
	f, text := a.fieldBlock(), a.field.text()
	switch key := msg.String(); {
	case key == "esc" && f.StaysOpen:
		for _, act := range a.page().Acts {
			if act.HasKey(key) {
				return a.apply(act.Do(""))
			}
		}
	case key == "esc", key == "enter" && text == "" && f.Empty.IsZero() && !f.StaysOpen:
		a.typing = false
		a.field.Blur()
	case key == "enter" && text == "" && !f.Empty.IsZero():
		a.said = f.Empty
	case key == "enter":
		if f.Multiline {
			text = a.field.Value()
		}
		next := a.page().Take(text)
		if a.typing = next.Wrong || f.StaysOpen; !a.typing {
			a.field.Blur()
		}
		return a.apply(next)
	default:
		a.enter(msg)
	}
	return nil
}

// paste takes what is pasted into the field. Where it is a line of several, each line of it is taken.
func (a *app) paste(msg tea.PasteMsg) tea.Cmd {
	f := a.fieldBlock()
	lines := strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(msg.Content), "\n")
	if !f.Multiline || len(lines) < 2 {
		a.enter(msg)
		return nil
	}
	var cmds []tea.Cmd
	for n, line := range lines[:min(len(lines), mostPasted)] {
		if n == 0 {
			line = a.field.Value() + line
		}
		if n == len(lines)-1 {
			a.field.SetValue(printed(line))
			break
		}
		a.made = nil
		cmds = append(cmds, a.apply(a.page().Take(printed(line[:min(len(line), utf8.UTFMax*f.MaxLength)]))))
	}
	return tea.Batch(cmds...)
}

// mostPasted is how many lines are taken of what is pasted at once.
const mostPasted = 2000

// over does what a key does that is no act's: it opens the field, or moves over a block or fills it in.
func (a *app) over(key string) page.Next {
	p := a.page()
	for _, act := range p.Acts {
		if act.ID == "type" && act.HasKey(key) {
			f := a.fieldBlock()
			a.openField(f, f.WhileClosed != nil)
			if key >= "A" && key <= "Z" {
				a.enter(pressed(key))
			}
			return page.Next{}
		}
	}
	for _, block := range p.Blocks {
		if next, done := a.overBlock(block, key); done {
			return next
		}
	}
	return page.Next{}
}
