package home

import (
	"sparetone/theory"
	"sparetone/tui/page"
)

// handIn leads to writing a file for the teacher: a name is asked for once, then what is in the file is said, and where it goes is asked.
func handIn(w *page.Walk, back page.Place) page.Next {
	if w.AsksName() {
		return page.Next{To: &page.Prompt{Title: askName, About: aboutName, Field: page.Field{Label: "Name  ", Does: "go on", MaxLength: longestName},
			None: noName, Back: back, Take: func(typed string) page.Next {
				if err := w.KeepName(typed); err != nil {
					return page.Refused(err)
				}
				return handIn(w, back)
			}}, Silence: true}
	}
	says, proposed, err := w.HandsIn()
	if err != nil {
		return page.Refused(err)
	}
	return page.Next{To: &page.Prompt{Title: titleHandIn, About: sayHandIn(says),
		Field: page.Field{Label: "File  ", Does: "write it", Text: proposed, MaxLength: page.LongestPath}, None: takesProposed + theory.Clean(proposed), Back: back, Take: func(typed string) page.Next {
			said, err := w.HandInAt(typed, proposed)
			if err != nil {
				return page.Mistyped(err)
			}
			return page.Next{To: back, Said: said, Stays: true}
		}}, Silence: true}
}

// longestName is how many characters of a name can be typed.
const longestName = 80
