package draw

import (
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Words says the shape for a screen reader, a sentence a string in the tuning's order:
// "g string, open, G, the fifth".
func (n Neck) Words() []say.Text {
	var fingers []int
	if n.Fingers {
		fingers = n.Voicing.Fingers()
	}
	var lines []say.Text
	for i, s := range n.Voicing.Strings {
		called := say.String{On: n.Voicing.Tuning, Number: s.Number}
		where := say.Of("{} string, fret {}", called, say.Number(s.Fret))
		switch s.Fret {
		case 0:
			where = say.Of("{} string, open", called)
		case fret.Muted:
			lines = append(lines, say.Of("{} string, not played", called))
			continue
		}
		if fingers != nil && fingers[i] > 0 {
			where = say.Of("{}, finger {}", where, say.Number(fingers[i]))
		}
		if n.Named {
			where = say.Of("{}, {}", where, say.Note(s.Pitch.Note))
			if n.Voicing.Chord.Kind != nil {
				where = say.Of("{}, {}", where, say.Role(s.Interval))
			}
			if s.Doubled {
				where = say.Of("{}, doubled", where)
			}
		}
		lines = append(lines, where)
	}
	return lines
}
