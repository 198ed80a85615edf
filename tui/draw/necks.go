package draw

import (
	"charm.land/lipgloss/v2"

	"sparetone/theory/fret"
)

// SideBySide draws necks next to each other, some columns apart, the same fret at the same height in each of them where
// they lie near enough. Every line has the same width.
func SideBySide(th Theme, apart int, necks ...Neck) string {
	var drawn []string
	for i, n := range Together(necks) {
		if i > 0 {
			drawn = append(drawn, lipgloss.NewStyle().Width(apart).Render(""))
		}
		drawn = append(drawn, n.Render(th))
	}
	return lipgloss.JoinHorizontal(lipgloss.Top, drawn...)
}

// Together lets necks show the same frets, where they lie near enough: to stand side by side, or to be turned through in one place.
func Together(necks []Neck) []Neck {
	var shapes []fret.Shape
	for _, n := range necks {
		shapes = append(shapes, n.Voicing.Shape)
	}
	out := make([]Neck, len(necks))
	for i, n := range necks {
		n.Beside = shapes
		out[i] = n
	}
	return out
}
