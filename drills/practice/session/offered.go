package session

import (
	"slices"
	"strings"

	"sparetone/drills"
	"sparetone/progress"
)

// offered returns the choices of a question as they are recorded, and which of them an answer to it is, counted from 1: 0 if it is none of
// them, as that it is not known.
func offered(q *drills.Question, answer string) (ids string, chosen int) {
	var all []string
	for _, c := range q.Choices {
		all = append(all, c.ID)
	}
	if id, read := q.Reads(answer); read && !drills.SaysUnknown(answer) {
		chosen = slices.Index(all, id) + 1
	}
	return strings.Join(all, progress.Between), chosen
}
