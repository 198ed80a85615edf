// Package draw draws necks and strings as text, with the colours of a theme. It holds no musical knowledge.
package draw

import (
	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/colorprofile"
)

// Theme is the colours, each with a job. Every job is also said by a word or a sign, so that nothing
// is lost without colour.
type Theme struct {
	Text   lipgloss.Style
	Quiet  lipgloss.Style
	Strong lipgloss.Style // text that carries the eye, without a colour of its own
	Accent lipgloss.Style // the note that is asked about, added or spared
	Right  lipgloss.Style
	Wrong  lipgloss.Style
}

// shades holds a colour for each job on one kind of background.
type shades struct{ text, quiet, accent, right, wrong string }

// The hues are those of Okabe and Ito, Color Universal Design, 2008, which people with any of the
// common colour-vision deficiencies can tell apart: orange, sky blue and reddish purple on dark;
// blue, bluish green and vermilion on light. On light backgrounds green is darkened, hue kept, and vermilion
// darkened and reddened, to reach a contrast of 4.5:1 (WCAG 2.2), also as the nearest of 256 colours.
var (
	onDark  = shades{text: "#E6E6E6", quiet: "#A0A0A0", accent: "#E69F00", right: "#56B4E9", wrong: "#CC79A7"}
	onLight = shades{text: "#1A1A1A", quiet: "#5C5C5C", accent: "#0072B2", right: "#00694D", wrong: "#A82D00"}
)

// Of sixteen colours the terminal's owner has chosen how each looks. Text is then the terminal's own,
// and so is quiet text: no grey of the sixteen can be relied on to be read.
var (
	sixteenOnDark  = shades{accent: "11", right: "14", wrong: "13"}
	sixteenOnLight = shades{accent: "5", right: "4", wrong: "1"} // green and cyan are too pale there
)

// NewTheme returns the colours for a dark or a light background on a terminal of some abilities.
func NewTheme(dark bool, profile colorprofile.Profile) Theme {
	s := onLight
	if dark {
		s = onDark
	}
	switch {
	case profile < colorprofile.ANSI:
		s = shades{}
	case profile == colorprofile.ANSI && dark:
		s = sixteenOnDark
	case profile == colorprofile.ANSI:
		s = sixteenOnLight
	}
	ink := func(name string) lipgloss.Style {
		if name == "" {
			return lipgloss.NewStyle()
		}
		return lipgloss.NewStyle().Foreground(profile.Convert(lipgloss.Color(name)))
	}
	// Many terminals show bold text in the first eight of sixteen colours in the eight bright ones, which are
	// not read on a light background.
	bold := profile != colorprofile.ANSI || dark
	return Theme{
		Text:   ink(s.text),
		Quiet:  ink(s.quiet),
		Strong: ink(s.text).Bold(true),
		Accent: ink(s.accent).Bold(bold),
		Right:  ink(s.right).Bold(bold),
		Wrong:  ink(s.wrong).Bold(bold),
	}
}
