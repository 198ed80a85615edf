package page

import (
	"sparetone/theory/say"
)

// Prompt asks for one thing to be typed, and goes back with it.
type Prompt struct {
	Title, About say.Text
	Field        Field
	None         string // in lines, what an empty line does, such as "An empty line takes ann.jsonl"; "" where something has to be typed
	Back         Place
	Take         func(typed string) Next
}

// TakeOrAsk takes what was typed already, or goes to the prompt where nothing was.
func (p *Prompt) TakeOrAsk(typed string) Next {
	if typed != "" {
		return p.Take(typed)
	}
	return Next{To: p}
}

// Page implements Place.
func (p *Prompt) Page(w *Walk) Page {
	p.Field.Open, p.Field.StaysOpen = true, true
	back := BackTo(p.Back).On("esc")
	back.Words = "stop"
	acts, ask := []Act{back}, askPrompt
	if p.None != "" {
		empty := Called("go on", func(string) Next { return p.Take("") }).On("")
		acts, ask = append(acts, empty), p.None+". "+askPrompt
	}
	return Page{
		Blocks: []Block{Sentence{Text: p.Title, Tone: Strong}, Gap{}, Sentence{Text: p.About}, Gap{}, p.Field},
		Acts:   acts,
		Take:   p.Take,
		Ask:    ask, HelpBegins: askPrompt,
	}
}
