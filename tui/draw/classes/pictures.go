package classes

import (
	"fmt"
	"strings"

	"sparetone/drills/class"
)

// The pictures stand beside the figures that they show, so whoever hears the page is told nothing of them.

const hidden = `aria-hidden="true" focusable="false"`

// whisker draws how much is known, and between which ends.
func whisker(k class.Shown) string {
	const width, height = 110.0, 14.0
	x := func(hundredths int) float64 { return 5 + float64(hundredths) }
	return fmt.Sprintf(`<svg %s width="%g" height="%g" viewBox="0 0 %[2]g %[3]g"><line x1="5" y1="7" x2="105" y2="7" stroke="#767676"/><line x1="55" y1="2" x2="55" y2="12" stroke="#767676"/>`+
		`<line x1="%.0f" y1="7" x2="%.0f" y2="7" stroke="#0b5d8a" stroke-width="4"/><circle cx="%.0f" cy="7" r="4.5" fill="#0b5d8a"/></svg>`, hidden, width, height, x(k.Low), x(k.High), x(k.Known))
}

// bar draws a share of students.
func bar(some, all int) string {
	const width = 104.0
	return fmt.Sprintf(`<svg %s width="%g" height="10" viewBox="0 0 %[2]g 10"><rect x=".5" y=".5" width="%g" height="9" fill="none" stroke="#767676"/><rect x="0" y="0" width="%.1f" height="10" fill="#a1430a"/></svg>`,
		hidden, width, width-1, width*float64(some)/float64(max(1, all)))
}

// strip draws the last four weeks, a mark a day, the latest on the right: filled where something was practised.
func strip(s *class.Student) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg %s width="140" height="12" viewBox="0 0 140 12">`, hidden)
	for day, practised := range s.Weeks {
		fill := "none"
		if practised {
			fill = "#0b5d8a"
		}
		fmt.Fprintf(&b, `<rect x="%.1f" y="2.5" width="3.5" height="7" fill="%s" stroke="#767676" stroke-width=".7"/>`, float64(day)*5+0.7, fill)
	}
	b.WriteString("</svg>")
	return b.String()
}
