package page

import "sparetone/drills/practice"

// Start is where a walk begins.
func (w *Walk) Start() Next {
	if w.New {
		return Next{To: newWelcome(w)}
	}
	return w.opening()
}

// opening is today's page, or the practice that was asked for when the program was called.
func (w *Walk) opening() Next {
	if w.Straight {
		w.Straight = false
		return w.begin(practice.Outlook(&w.App))
	}
	return w.today()
}
