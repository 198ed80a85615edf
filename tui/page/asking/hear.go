package asking

import (
	"sparetone/drills"
	"sparetone/synth"
	"sparetone/tui/page"
)

// hearShape plays a shape that was typed, or first asks which.
func hearShape(w *page.Walk, at page.Place, v synth.Voice, frets string) page.Next {
	on := w.Session.On()
	take := func(typed string) page.Next {
		s, err := on.ReadShape(typed)
		if err != nil {
			return page.Misfit(typed, err)
		}
		return page.Next{To: at, Voice: v, Sounds: drills.Once(synth.Strum, drills.SoundingsOf(on.Tuning, s))}
	}
	ask := &page.Prompt{Title: askShape, About: aboutShape, Field: page.Field{Label: "Frets  ", Does: "hear it"}, Back: at, Take: take}
	return ask.TakeOrAsk(page.Unstopped(frets))
}
