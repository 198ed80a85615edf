package page

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/meet"
)

// Meeting shows one thing that is taught, and asks nothing: what it is like and made of, how it sounds and is held, and beside it what
// it is told from.
type Meeting struct {
	meet.Meeting

	turned int   // shapes further than the first
	back   Place // that enter leads to
}

// meets shows what a question is about, and leads back to where one was.
func (w *Walk) meets(r *Reveal) Next {
	m, err := w.Session.MeetAgain(r.Asked)
	if err != nil {
		return refused(err)
	}
	return Next{To: &Meeting{Meeting: m, back: r}, Voice: m.Voice, Sounds: soundsOf(m.Heard)}
}

// Page implements Place.
func (m *Meeting) Page(w *Walk) Page {
	shapes := slices.Clone(m.Seen)
	lines := slices.Clone(m.Facts)
	blocks := []Block{Sentence{Text: m.Name, Tone: Strong}, Sentence{Text: m.Like}}
	var other []drills.Sound
	if b := m.Beside; b != nil {
		blocks = append(blocks, Sentence{Text: sayBeside(b.Name), Tone: Quiet})
		shapes, other = append(shapes, b.Seen...), soundsOf(b.Heard)
		if !b.Contrast.IsZero() {
			lines = append(lines, b.Contrast)
		}
	}
	again, open, slower, root := sounding(m.Voice, soundsOf(m.Heard), func(bool) {})
	silent := !w.hears()
	onward := leads("go on", func() Place { return m.back })
	turn := called("next", func(string) Next { m.turned++; return Next{} }).As("other shape")
	return Page{
		Blocks: append(blocks, Gap{}, Shapes{All: shapes, Asked: shapes, At: m.turned % max(1, len(shapes)), Fingers: w.Fingers, Lines: lines}),
		Acts: only(
			onward,
			again.off(silent, nothingToHear),
			called("both", func(string) Next {
				return Next{Voice: m.Voice, Sounds: slices.Concat(soundsOf(m.Heard), other)}
			}).where(len(other) > 0).off(silent, nothingToHear),
			called("stop", func(string) Next { return w.finish(nil).hushed() }),
			open.off(silent, nothingToHear), slower.off(silent, nothingToHear), root.off(silent, nothingToHear),
			turn.where(len(shapes) > 1),
			w.fingers(shapes...),
		),
	}
}

// soundsOf are sounds with their names.
func soundsOf(heard []meet.Heard) []drills.Sound {
	var out []drills.Sound
	for _, h := range heard {
		h.Sound.Label = h.Name
		out = append(out, h.Sound)
	}
	return out
}
