package setting

import (
	"slices"

	"sparetone/theory/say"
)

// choice is a value that a setting may have: its id, and how it is said.
type choice struct {
	id   string
	said say.Words
}

// choices are the values that a setting may have, in the order in which they are stepped through. Where there are two, the
// first one stands for false and the second one for true.
type choices []choice

func (c choices) ids() []string {
	var out []string
	for _, one := range c {
		out = append(out, one.id)
	}
	return out
}

func (c choices) short(id string) say.Text {
	for _, one := range c {
		if one.id == id {
			return say.Of("{}", one.said)
		}
	}
	return say.Of("{}", say.Foreign(id))
}

func (c choices) long(id string) say.Text { return c.short(id) }
func (choices) more(string) say.Text      { return say.Text{} }

// of returns the id of one of two choices.
func (c choices) of(second bool) string {
	if second {
		return c[1].id
	}
	return c[0].id
}

// set reads the id of one of two choices.
func (c choices) set(id string, second *bool) error {
	err := c.check(id)
	if err == nil {
		*second = id == c[1].id
	}
	return err
}

// check returns an error that lists the choices unless an id is that of one.
func (c choices) check(id string) error {
	if slices.Contains(c.ids(), id) {
		return nil
	}
	var all []say.Words
	for _, one := range c {
		all = append(all, one.said)
	}
	return notOneOf(id, all)
}
