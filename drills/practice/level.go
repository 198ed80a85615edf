package practice

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"sparetone/drills/course"
	"sparetone/theory"
)

// level is a place in the course to begin from.
type level struct {
	name string
	step string // id of the first step that is not taken as known, neither by ear nor by eye
}

// levels are the places to begin from, in the built-in course. A placement may find another.
var levels = []level{
	{"from the beginning", ""},
	{"major, minor and plain shapes are known", "thirds"},
	{"sevenths and ninths are known", "soft-sevenths"},
	{"suspended and added notes are known", "added-heard"},
}

func (l level) place() course.Place { return course.Place{Ear: l.step, Eye: l.step} }

// LevelNames lists what the places to begin from are called, in the order of the course.
func LevelNames() []string {
	var out []string
	for _, l := range levels {
		out = append(out, l.name)
	}
	return out
}

// How a place that is none of the levels is written, by the ids of its steps.
const (
	fromEar     = "by ear from "
	fromEye     = ", by eye from "
	atBeginning = "the beginning"
)

// LevelName is what a place is called.
func LevelName(at course.Place) string {
	for _, l := range levels {
		if l.place() == at {
			return l.name
		}
	}
	return fromEar + cmp.Or(at.Ear, atBeginning) + fromEye + cmp.Or(at.Eye, atBeginning)
}

// levelNamed is the place that is called so.
func levelNamed(name string) (course.Place, error) {
	for _, l := range levels {
		if strings.EqualFold(name, l.name) {
			return l.place(), nil
		}
	}
	ear, eye, both := strings.Cut(strings.TrimPrefix(name, fromEar), fromEye)
	if !both {
		return course.Place{}, fmt.Errorf("%q is not one of: %s", theory.Clip(name), strings.Join(LevelNames(), ", "))
	}
	steps := course.BuiltIn()
	for _, id := range []*string{&ear, &eye} {
		if *id == atBeginning {
			*id = ""
		} else if !slices.ContainsFunc(steps, func(s course.Step) bool { return s.ID == *id }) {
			return course.Place{}, fmt.Errorf("%q is no step of the course", theory.Clip(*id))
		}
	}
	return course.Place{Ear: ear, Eye: eye}, nil
}

// PlaceTold says what a place in the course that was found begins with; it is empty for one of the levels.
func PlaceTold(at course.Place) string {
	if slices.Contains(LevelNames(), LevelName(at)) {
		return ""
	}
	title := func(id string) string {
		steps := course.BuiltIn()
		if i := slices.IndexFunc(steps, func(s course.Step) bool { return s.ID == id }); i >= 0 {
			return "“" + steps[i].Name() + "”"
		}
		return atBeginning
	}
	return fmt.Sprintf(" By ear from %s, by eye from %s.", title(at.Ear), title(at.Eye))
}
