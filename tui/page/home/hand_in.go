package home

import (
	"sparetone/drills/practice"
	"sparetone/theory"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// handIn leads to writing a file for the teacher: a name is asked for once, then what is in the file is said, and where it goes is asked.
func handIn(w *page.Walk, back page.Place) page.Next {
	if w.AsksName() {
		return page.Next{To: &page.Prompt{Title: say.Of("What is your name?"), About: aboutName, Field: page.Field{Label: "Name  ", Does: "go on", Most: longestName},
			None: "An empty line says none", Back: back, Take: func(typed string) page.Next {
				if err := w.KeepName(typed); err != nil {
					return page.Refused(err)
				}
				return handIn(w, back)
			}}, Hush: true}
	}
	says, proposed, err := w.HandsIn()
	if err != nil {
		return page.Refused(err)
	}
	return page.Next{To: &page.Prompt{Title: say.Of("A file for your teacher"), About: say.Of("{} {}", say.Row(says...), aboutHandIn),
		Field: page.Field{Label: "File  ", Does: "write it", Text: proposed, Most: page.LongestPath}, None: "An empty line takes " + theory.Clean(proposed), Back: back, Take: func(typed string) page.Next {
			said, err := w.HandInAt(typed, proposed)
			if err != nil {
				return page.Next{Said: practice.SentenceOf(err), Wrong: true}
			}
			return page.Next{To: back, Said: said, Stays: true}
		}}, Hush: true}
}

// longestName is how many characters of a name can be typed.
const longestName = 80

// What is said of handing in.
var (
	aboutName   = say.Of("It goes into what you hand in, so that your teacher knows whose it is. You need not say one; you are asked this once.")
	aboutHandIn = say.Of("Settings stay here, and nothing is sent: the file is written on this machine, and you give it to your teacher. Where is it to go?")
)
