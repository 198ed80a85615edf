package page

import (
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
