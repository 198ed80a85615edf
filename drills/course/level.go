package course

import (
	"slices"
	"strings"
)

// Level is how far somebody has come in a course: of what is heard and of what is seen, the id of the first step that is not
// known. An empty one, or one that the course has not, is its beginning.
type Level struct{ Ear, Eye string }

// A level's id is made of the ids of its steps.
const (
	fromEar = "ear="
	fromEye = ",eye="
)

// ID returns the id under which a level is kept: ear=thirds,eye=
func (at Level) ID() string { return fromEar + at.Ear + fromEye + at.Eye }

// LevelByID returns the level in the built-in course that has an id, and false if there is none.
func LevelByID(id string) (Level, bool) {
	steps, isLevel := strings.CutPrefix(id, fromEar)
	ear, eye, both := strings.Cut(steps, fromEye)
	for _, step := range []string{ear, eye} {
		if _, ok := StepByID(step); !ok && step != "" {
			return Level{}, false
		}
	}
	return Level{Ear: ear, Eye: eye}, isLevel && both
}

// StepByID returns the step of the built-in course that has an id, and false if there is none.
func StepByID(id string) (Step, bool) {
	steps := BuiltIn()
	i := slices.IndexFunc(steps, func(s Step) bool { return s.ID == id })
	if i < 0 {
		return Step{}, false
	}
	return steps[i], true
}

// IsPast reports whether somebody at a level is at a step of the built-in course or further, by ear and by eye.
func (at Level) IsPast(step string) bool {
	least := numberOf(step)
	return least >= 0 && numberOf(at.Ear) >= least && numberOf(at.Eye) >= least
}

// SawBefore reports whether something that is asked by eye lies before a level in the built-in course, and so counts as known there.
func (at Level) SawBefore(drill, target string) bool {
	asking := slices.IndexFunc(BuiltIn(), func(s Step) bool { return s.Drill == drill && slices.Contains(s.Asks, target) })
	return asking >= 0 && asking < numberOf(at.Eye)
}

// numberOf is the index of a step in the built-in course, -1 if there is none.
func numberOf(step string) int {
	return slices.IndexFunc(BuiltIn(), func(s Step) bool { return s.ID == step })
}
