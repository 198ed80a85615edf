package ear

import (
	"slices"

	"sparetone/drills"
	"sparetone/theory/say"
)

// sameness is an answer: of one kind or not, or which of the chords has the note.
type sameness struct {
	id    string
	said  say.Text
	typed string
	also  []string // what else is understood
	shown []string // of that, what papers list
}

var (
	sameKind  = sameness{"same", saySameKind, "same", []string{"yes", "y", "same kind", "one kind"}, []string{"yes", "y"}}
	twoKinds  = sameness{"different", sayTwoKinds, "two", []string{"no", "n", "not", "different", "not the same", "two kinds"}, []string{"no", "n", "not", "different", "two kinds"}}
	theFirst  = sameness{"first", sayTheFirst, "first", []string{"1st", "first one", "first chord"}, []string{"1st"}}
	theSecond = sameness{"second", sayTheSecond, "second", []string{"2nd", "second one", "second chord"}, []string{"2nd"}}
)

// isTyped reports whether a text means the answer.
func (s sameness) isTyped(text string) bool {
	return slices.ContainsFunc(s.also, func(w string) bool { return drills.SameWords(text, w) })
}

// offerTwo offers two answers, of which one is right.
func offerTwo(q *drills.Question, offered []sameness, right int, explain func(g drills.Given, v *drills.Verdict)) {
	var choices []drills.Choice
	for _, s := range offered {
		choices = append(choices, drills.Choice{ID: s.id, Said: s.said, Typed: s.typed})
	}
	q.Offer(offered[right].id, choices...)
	q.Accepts = offered[right].shown
	q.Answers = drills.Answers[sameness]{
		Offered: offered,
		Read: func(text string) (sameness, error) {
			if i := slices.IndexFunc(offered, func(s sameness) bool { return s.isTyped(text) }); i >= 0 {
				return offered[i], nil
			}
			return sameness{}, drills.ErrUnread
		},
		Mark: func(s sameness) drills.Given {
			return drills.Given{ID: s.id, Said: s.said, Result: drills.RightIf(s.id == offered[right].id)}
		},
		Explain: func(_ sameness, g drills.Given, v *drills.Verdict) { explain(g, v) },
	}
}
