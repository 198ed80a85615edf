package session

import (
	"slices"
	"time"

	"sparetone/drills/neck"
	"sparetone/progress"
	"sparetone/progress/plan"
	"sparetone/theory/say"
)

// While lessons run, three questions of four are theirs, in their order: of the next few things that are not done the one that was
// asked least often. The fourth is what the planner would ask, so that what was met before is not lost meanwhile.
const (
	everyFourth = 4
	lessonNext  = 5 // things of a lesson that come in turn
	triesAlone  = 4 // questions in a session after which a thing that is not done holds up none behind it (from judgement)
)

// on returns the instrument that an item is asked on: held to its lesson if it has one.
func (s *Session) on(it item) *neck.Instrument {
	if it.held != nil {
		return it.held
	}
	return s.set.On
}

// ofLessons returns what of a pick is the lessons': another item in its place, where it is their turn.
func (s *Session) ofLessons(pick plan.Chosen, now time.Time) plan.Chosen {
	if len(s.set.Lessons) == 0 || s.items[pick.Item].lesson == "" && len(s.done)%everyFourth == everyFourth-1 {
		return pick
	}
	id := s.nextOfLessons()
	if id == "" || id == pick.Item {
		return pick
	}
	why := s.planner.AskedInstead(id, now)
	return plan.Chosen{Item: id, Drill: s.items[id].drill.About().ID, Why: why}
}

// nextOfLessons returns the item of the lessons that comes next, "" if all are done or none can be asked.
func (s *Session) nextOfLessons() string {
	var next []string
	fresh := 0 // of these, those that hold up what comes behind them
	for _, r := range s.set.Lessons {
		for _, id := range r.items() {
			if it := s.items[id]; it.lesson == r.Lesson.ID && !s.never[id] && !r.runs[id].done() && fresh < lessonNext && !slices.Contains(next, id) && s.canHear(it) {
				next = append(next, id)
				if s.tried[id] < triesAlone {
					fresh++
				}
			}
		}
	}
	if len(next) > 1 && s.asked != nil {
		next = slices.DeleteFunc(next, func(id string) bool { return id == s.asked.Item })
	}
	if len(next) == 0 {
		return ""
	}
	return slices.MinFunc(next, func(a, b string) int { return s.tried[a] - s.tried[b] })
}

// canHear reports whether an item can be asked with or without sound, as the session is.
func (s *Session) canHear(it item) bool {
	return !s.set.Silent || !it.drill.About().Ears && !it.target.Ears
}

// counted tells the lessons of an answer.
func (s *Session) counted(a progress.Answer) {
	for _, r := range s.set.Lessons {
		if r.Lesson.ID == a.Lesson {
			r.count(a)
		}
	}
}

// sayOfLesson says why something is asked now that is of a lesson.
func (s *Session) sayOfLesson(id string) say.Text {
	for _, r := range s.set.Lessons {
		if r.Lesson.ID == id {
			return say.Of("it is of your lesson {}", say.Foreign(r.Lesson.Name))
		}
	}
	return say.Text{}
}
