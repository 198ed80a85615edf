package tui

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"sparetone/drills/practice"
	"sparetone/progress"
	"sparetone/tui/draw"
	"sparetone/tui/page"
)

// summary draws what came of a session: a row a drill, and what there is to say below.
func (b *body) summary(s page.Summary) {
	th, sum := b.theme, practice.Summary(s)
	b.say(th.Text, sum.Counted().Screen())
	widest := 0
	for _, d := range sum.Drills {
		widest = max(widest, ansi.StringWidth(d.Title))
	}
	for _, d := range sum.Drills {
		counts := "  " + d.Counted().Screen()
		before := pad(d.Title, widest+2)
		if widest+2+len(counts) >= b.col { // no room for an answer beside it: below, set in
			b.say(th.Text, d.Title)
			before = "  "
		}
		marks := answerMarks(th, d.Results, b.col-ansi.StringWidth(before)-len(counts))
		b.add(th.Text.Render(before) + marks + th.Quiet.Render(counts))
	}
	for _, part := range sum.Rest() {
		b.gap()
		b.say(th.Quiet, part.Title)
		for _, l := range part.Lines {
			b.add(th.Text.Render(shift(2, wrap(b.col-2, l.Screen()))))
		}
	}
}

// answerMarks draws answers in the order they were given, the latest as far as there is room: a sign for
// each result.
func answerMarks(th draw.Theme, results []progress.Result, room int) string {
	var b strings.Builder
	for _, r := range results[max(0, len(results)-max(1, room)):] {
		switch r {
		case progress.Right:
			b.WriteString(th.Right.Render("●"))
		case progress.Partly:
			b.WriteString(th.Text.Render("±"))
		default:
			b.WriteString(th.Wrong.Render("○"))
		}
	}
	return b.String()
}
