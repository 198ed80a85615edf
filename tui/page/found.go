package page

import (
	"sparetone/drills/course"
	"sparetone/drills/practice"
)

// Found says what a check of what is known came to, where it was asked for in the settings: to begin there, or to leave all as it was.
type Found struct {
	found *course.Placement
	back  Place
}

// findsOut is the act that finds out anew where in the course one begins.
func (w *Walk) findsOut(from Place) Act {
	return called("find out", func(string) Next {
		return newPlacement(w, func(found *course.Placement) Next {
			if found == nil {
				return Next{To: from, Hush: true}
			}
			return Next{To: &Found{found, from}, Hush: true, Anew: true}
		})
	})
}

// Page implements Place.
func (f *Found) Page(w *Walk) Page {
	p := Page{Blocks: []Block{title("What was found"), Gap{}}}
	for _, l := range practice.FoundInWords(f.found) {
		p.Blocks = append(p.Blocks, Sentence{Text: l})
	}
	begin := called("go on", func(string) Next { return f.take(w) }).As("begin there")
	begin.Says = " begins there"
	stay := backTo(f.back).As("leave it as it was")
	stay.Words, stay.Says = "stop|back", ", to leave it as it was"
	p.Acts, p.Ask, p.Lead = []Act{begin, stay}, askFound, askFound
	return p
}

// take begins at what was found.
func (f *Found) take(w *Walk) Next {
	k := practice.SettingByID("level")
	if err := w.Set(k.ID, f.found.Found().Place().ID()); err != nil {
		return refused(err)
	}
	return Next{To: f.back, Said: sayNow(&w.Settings, k)}
}

// What is to be typed in lists of the course, and where something was found.
const (
	askChapter = "Type the number of a chapter to open it."
	askPart    = "Type the number of a part to open it."
	askThing   = "Type the number of a thing to hear and see it again."
	askFound   = "An empty line begins there; stop leaves it as it was."
)
