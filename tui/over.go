package tui

import (
	tea "charm.land/bubbletea/v2"

	"sparetone/tui/page"
)

// overBlock moves over a block or fills it in. It reports whether the key was for it.
func (a *app) overBlock(block page.Block, key string) (next page.Next, done bool) {
	switch block := block.(type) {
	case page.Choice:
		return a.overChoice(block, key)
	case page.Chart:
		return next, overChart(block, key)
	case page.Bars:
		return a.overBars(block, key)
	case *page.Hand:
		return a.overHand(block, key)
	case *page.Tones:
		return next, a.overTones(block, key)
	case page.Grip:
		return a.overHand(block.Hand, key)
	case page.Field:
		for _, b := range block.WhileClosed {
			if next, done = a.overBlock(b, key); done {
				break
			}
		}
	}
	return next, done
}

// point does what a click on a block does.
func (a *app) point(msg tea.Msg) page.Next {
	for _, block := range a.page().Blocks {
		if f, ok := block.(page.Field); ok && len(f.WhileClosed) > 0 {
			block = f.WhileClosed[len(f.WhileClosed)-1]
		}
		switch block := block.(type) {
		case page.Choice:
			if m, ok := msg.(chosenMsg); ok && m.line < len(block.Lines) {
				if !block.Answers {
					*block.Mark = m.line
				}
				return block.Pick(m.line)
			}
		case page.Bars:
			if m, ok := msg.(chosenMsg); ok {
				return block.Point(m.line)
			}
		case page.Chart:
			if m, ok := msg.(cellMsg); ok {
				*block.Row, *block.Col = min(len(block.Items)-1, m.row), min(len(block.Items)-1, m.col)
			}
		case *page.Hand:
			if m, ok := msg.(fingerMsg); ok {
				return block.Point(m.string, m.fret)
			}
		case *page.Tones:
			if m, ok := msg.(fingerMsg); ok {
				block.Point(m.string)
			}
		case page.Grip:
			switch m := msg.(type) {
			case fingerMsg:
				return block.Hand.Point(m.string, m.fret)
			case chosenMsg:
				if m.line < len(block.Swaps) {
					return block.Look(m.line)
				}
			}
		}
	}
	return page.Next{}
}
