package practice

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/meet"
	"sparetone/theory/say"
)

// Chapter is a chapter of the course with how much of it is known.
type Chapter struct {
	Name  say.Text
	Parts []Part
}

// Part is a step of the course with how much of it is known.
type Part struct {
	course.Step
	Things []Thing
	Also   []Thing // what else was met in its drill, of which nothing is kept: chords over another note than their root
}

// Thing is something that a part teaches.
type Thing struct {
	Drill drills.Drill
	drills.Target
	Grasp Grasp
}

// Learnt counts what is known of a part.
func (p Part) Learnt() (l Learnt) {
	for _, t := range p.Things {
		l.Add(t.Grasp)
	}
	return l
}

// Learnt counts what is known of a chapter.
func (c Chapter) Learnt() (l Learnt) {
	for _, p := range c.Parts {
		for _, t := range p.Things {
			l.Add(t.Grasp)
		}
	}
	return l
}

// wholeCourse is what the one chapter of a course without chapters is called.
var wholeCourse = say.Of("All of it")

// Chapters returns the course in chapters, as it is on the instrument that is practised on. What the instrument cannot do is left out.
func (p *App) Chapters() ([]Chapter, error) {
	grasps, err := p.Grasps()
	if err != nil {
		return nil, err
	}
	on := p.Session.On()
	targets := map[string][]drills.Target{}
	var out []Chapter
	for _, c := range p.Setup.Course.Chapters() {
		chapter := Chapter{Name: wholeCourse}
		if c.Name != "" {
			chapter.Name = say.Of("{}", say.Foreign(c.Name))
		}
		for _, s := range c.Steps {
			d, ok := catalogue.ByID(s.Drill)
			if !ok {
				continue
			}
			if targets[s.Drill] == nil {
				targets[s.Drill] = d.Targets(on)
			}
			part := Part{Step: s}
			for _, id := range s.Asks {
				i := slices.IndexFunc(targets[s.Drill], func(t drills.Target) bool { return t.ID == id })
				if i < 0 {
					continue
				}
				grasp := grasps[drills.ItemID(s.Drill, id, on.Name())]
				if grasp == Unmet && p.Session.IsMet(d, id) {
					grasp = Met
				}
				part.Things = append(part.Things, Thing{d, targets[s.Drill][i], grasp})
			}
			if meet.AsksAnotherBass(d, on) && p.Session.IsMet(d, meet.AnotherBass) {
				part.Also = append(part.Also, Thing{d, drills.Target{ID: meet.AnotherBass, Name: meet.AnotherBassName}, Met})
			}
			if part.Things != nil {
				chapter.Parts = append(chapter.Parts, part)
			}
		}
		if chapter.Parts != nil {
			out = append(out, chapter)
		}
	}
	return out, nil
}

// Way is practising a chapter.
func (c Chapter) Way() Way {
	w := Way{Title: c.Name}
	inside := map[string]bool{}
	for _, p := range c.Parts {
		s := p.Step
		s.RestsOn = slices.DeleteFunc(slices.Clone(s.RestsOn), func(r string) bool { return !inside[r] })
		inside[s.ID] = true
		w.Course = append(w.Course, s)
	}
	return w
}

// MeetingOf shows a thing of the course on the instrument that is practised on. The error says why it cannot be shown on this neck.
func (p *App) MeetingOf(t Thing) (meet.Meeting, error) {
	return meet.New(t.Drill, t.ID, p.Session.On())
}
