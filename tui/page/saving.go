package page

import "sparetone/theory/say"

// LongestPath is how many characters of a path can be typed.
const LongestPath = 1000

// SaveElsewhere saves practice in a new file, or first asks in which.
func (w *Walk) SaveElsewhere(at Place, path string) Next {
	take := func(typed string) Next {
		said, err := w.Save(typed)
		if err != nil {
			return Mistyped(err)
		}
		w.Trouble = say.Text{}
		next := Next{To: at, Said: say.Of("{}", say.Foreign(said))}
		if e, tells := at.(interface{ KeptIn(said say.Text) }); tells {
			e.KeptIn(next.Said)
		}
		return next
	}
	ask := &Prompt{
		Title: askSaving, About: aboutSaving,
		Field: Field{Label: "File  ", Does: "save", Text: w.Proposed(), MaxLength: LongestPath}, Back: at, Take: take,
	}
	return ask.TakeOrAsk(path)
}
