// Package setting has what a student chooses for good: a table of settings, each with its choices and their wording, and their values
// as a progress file keeps them.
package setting

import (
	"slices"
	"strconv"
	"strings"

	"sparetone/theory/read"
	"sparetone/theory/say"
)

// Setting is one setting: its id and its wording, its choices by their ids and their wording, and where its value lies in
// Values. Ids are kept in progress files and stay as they are; wording is only for people.
type Setting struct {
	ID      string
	Title   say.Words
	About   say.Words       // what it does, in a clause
	Choices func() []string // ids, in the order in which they are stepped through
	wording wording         // how its values are said; nil where an id is what people write
	Get     func(s *Values) string
	Set     func(s *Values, id string) error // the error says what it may be
}

// wording is how the values of a setting are said. A value may be none of the choices, such as a pitch of A4.
type wording interface {
	// short says a value in a list of choices.
	short(id string) say.Text
	// long says a value in a sentence.
	long(id string) say.Text
	// more says in a sentence what else there is to say of a value; the zero Text if there is nothing.
	more(id string) say.Text
}

// Short says a value of the setting as it stands in a list of choices.
func (k *Setting) Short(id string) say.Text {
	if k.wording == nil {
		return say.Of("{}", say.Foreign(id))
	}
	return k.wording.short(id)
}

// Long says a value of the setting in a sentence: of a tuning what it is, and not only its name.
func (k *Setting) Long(id string) say.Text {
	if k.wording == nil {
		return say.Of("{}", say.Foreign(id))
	}
	return k.wording.long(id)
}

// Explained says what the setting does, and what there is to say of its value.
func (k *Setting) Explained(s *Values) say.Text {
	if k.wording == nil {
		return sayExplained(k.About, say.Text{})
	}
	return sayExplained(k.About, k.wording.more(k.Get(s)))
}

// OffList returns the value that is set if it is none of the choices, such as a level in the course that was found, and
// otherwise the one that was so before.
func (k *Setting) OffList(s *Values, before string) string {
	if v := k.Get(s); !slices.Contains(k.Choices(), v) {
		return v
	}
	return before
}

// Step returns the choice that lies so many steps from the value that is set, going round at the ends. A value that is none
// of the choices comes after them; offList is that value, empty if there is none.
func (k *Setting) Step(s *Values, offList string, by int) string {
	all := k.Choices()
	if offList != "" {
		all = append(slices.Clone(all), offList)
	}
	i := slices.Index(all, k.Get(s))
	return all[(i+by+len(all))%len(all)]
}

// Typed returns the id of the one choice that begins as somebody typed, in its id or in its wording; empty if there is
// none, or more than one.
func (k *Setting) Typed(typed string) string {
	if typed == "" || typed[0] >= '0' && typed[0] <= '9' {
		return "" // 4 is no beginning of 45
	}
	var found []string
	for _, id := range k.Choices() {
		if strings.HasPrefix(id, strings.ToLower(typed)) || read.Begins(typed, k.Short(id)) || read.Begins(typed, k.Long(id)) {
			found = append(found, id)
		}
	}
	if len(found) != 1 {
		return ""
	}
	return found[0]
}

// May says what a setting may be.
func (k *Setting) May() say.Text {
	all := k.Choices()
	last := all[len(all)-1]
	low, err1 := strconv.Atoi(all[0])
	high, err2 := strconv.Atoi(last)
	if err1 == nil && err2 == nil && high-low == len(all)-1 {
		return sayBetween(low, high)
	}
	var choices []say.Text
	for _, id := range all {
		choices = append(choices, k.Short(id))
	}
	return sayChoices(choices)
}
