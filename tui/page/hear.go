package page

import (
	"sparetone/drills"
	"sparetone/synth"
	"sparetone/theory/say"
)

// hear plays a shape that was typed, or first asks which.
func (w *Walk) hear(at Place, v synth.Voice, frets string) Next {
	on := w.Session.On()
	take := func(typed string) Next {
		s, err := on.ReadShape(typed)
		if err != nil {
			return misfit(typed, err)
		}
		return Next{To: at, Voice: v, Sounds: drills.Once(synth.Strum, drills.SoundingsOf(on.Tuning, s))}
	}
	if frets != "" {
		return take(Unstopped(frets))
	}
	return Next{To: &Prompt{Title: say.Of("Which shape do you want to hear?"), About: say.Of("A fret for each string, such as 0003."), Field: Field{Label: "Frets  ", Does: "hear it"}, Back: at, Take: take}}
}
