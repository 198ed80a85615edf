package setting

import (
	"sparetone/drills/course"
	"sparetone/theory/say"
)

// levels are the places to begin from, in the built-in course. A placement may find another.
var levels = choices{
	{course.Level{}.ID(), "from the beginning"},
	{knownUpTo("thirds"), "major, minor and plain shapes are known"},
	{knownUpTo("soft-sevenths"), "sevenths and ninths are known"},
	{knownUpTo("added-heard"), "suspended and added notes are known"},
}

// knownUpTo is the id of the place at a step, by ear and by eye.
func knownUpTo(step string) string { return course.Level{Ear: step, Eye: step}.ID() }

// FindOut is the choice among the levels to find out how much is known. It is no value of the setting.
const FindOut = "find-out"

// levelWording says places in the course: the levels, and any that was found.
type levelWording struct{}

func (levelWording) short(id string) say.Text {
	switch {
	case id == FindOut:
		return sayFindOut
	case levels.check(id) == nil:
		return levels.short(id)
	}
	return sayFound
}

func (w levelWording) long(id string) say.Text { return w.short(id) }

func (levelWording) more(id string) say.Text {
	at, ok := course.LevelByID(id)
	if !ok || levels.check(id) == nil {
		return say.Text{}
	}
	return sayPlace(beginning(at.Ear), beginning(at.Eye))
}

// beginning says a step to begin from, by its id; an empty one is the beginning of the course.
func beginning(step string) say.Text {
	if s, ok := course.StepByID(step); ok {
		return s.Say()
	}
	return sayBeginning
}
