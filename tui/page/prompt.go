package page

import (
	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/theory/say"
)

// Prompt asks for one thing to be typed, and goes back with it.
type Prompt struct {
	Title, About say.Text
	Field        Field
	Back         Place
	Take         func(typed string) Next
}

// Page implements Place.
func (p *Prompt) Page(w *Walk) Page {
	p.Field.Open, p.Field.Stays = true, true
	back := leads("back", func() Place { return p.Back }).on("esc")
	back.Words = "stop"
	return Page{
		Blocks: []Block{Sentence{Text: p.Title, Tone: Strong}, Gap{}, Sentence{Text: p.About}, Gap{}, p.Field},
		Acts:   []Act{back},
		Take:   p.Take,
		Ask:    askPrompt, Lead: askPrompt,
	}
}

// longestPath is how many characters of a path can be typed.
const longestPath = 1000

// saves saves practice in a new file, or first asks in which.
func (w *Walk) saves(at Place, path string) Next {
	take := func(typed string) Next {
		said, err := w.Save(typed)
		if err != nil {
			return Next{Said: practice.SentenceOf(err), Wrong: true}
		}
		w.Trouble = say.Text{}
		next := Next{To: at, Said: say.Of("{}", say.Foreign(said))}
		if e, ended := at.(*Ending); ended {
			e.saved = next.Said
		}
		return next
	}
	if path != "" {
		return take(path)
	}
	return Next{To: &Prompt{
		Title: say.Of("Where is practice to be saved?"), About: aboutSaving,
		Field: Field{Label: "File  ", Does: "save", Text: w.Proposed(), Most: longestPath}, Back: at, Take: take,
	}}
}

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
