package practice

import (
	"fmt"

	"sparetone/drills/course"
)

// FoundInWords says what a placement came to, a sentence or two a line.
func FoundInWords(p *course.Placement) []string {
	f := p.Found()
	return []string{
		reachedWords("By ear", f.Ear),
		reachedWords("By eye", f.Eye),
		fmt.Sprintf("This is an estimate from %s. If it is a little off, nothing is lost.", Count(p.Asked(), "answer", "answers")),
	}
}

func reachedWords(how string, r course.Reached) string {
	from := fmt.Sprintf("“%s”", r.From.Name())
	switch {
	case r.Of == 0:
		return how + " there is nothing in this course."
	case !r.Asked:
		return how + " nothing was asked; you begin at the beginning, with " + from + "."
	case len(r.Known) == 0:
		return how + " you begin at the beginning, with " + from + "."
	}
	last := r.Known[len(r.Known)-1]
	return fmt.Sprintf("%s you know %d of %d steps of the course, as far as “%s”; you begin at %s.", how, len(r.Known), r.Of, last.Name(), from)
}
