package practice

import (
	"math"
	"slices"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/progress"
	"sparetone/progress/memory"
	"sparetone/theory/say"
)

// Curve is how many things somebody tells apart by ear, week by week, from the answers that are kept.
type Curve struct {
	Points []Point // earliest first, the last one now; nil if nothing can be said yet
	Of     int     // things that count now
	Seldom int     // things that were asked too seldom to count
}

// Point is where a curve stands at the end of a week.
type Point struct {
	Ago     int     // weeks
	Apart   float64 // things told apart: each counts by how surely it is, luck taken out
	Answers int     // that this rests on
}

// curveWeeks is how many weeks a curve goes back, and fewAnswers how many answers leave it a guess (both from judgement).
const (
	curveWeeks = 12
	fewAnswers = 40
)

// ToldApart draws the curve of what is told apart by ear, on all instruments together.
func (p *App) ToldApart() (Curve, error) {
	standings, err := p.File().Standings()
	if err != nil {
		return Curve{}, err
	}
	weeks := map[string][]memory.Week{} // by drill and target, whatever the instrument
	for _, s := range standings {
		drill, target, _ := drills.SplitItem(s.Item)
		if p.byEar(drill, target) {
			weeks[drill+"/"+target] = append(weeks[drill+"/"+target], s.Weeks...)
		}
	}
	for _, w := range weeks {
		slices.SortFunc(w, func(a, b memory.Week) int { return a.Begins.Compare(b.Begins) })
	}
	this := progress.Day(progress.DayOf(p.now()).Week()*7 + 7).Date()
	return curveOf(weeks, this), nil
}

// curveOf draws the curve of things by the weeks in which they were asked, up to the end of this week.
func curveOf(weeks map[string][]memory.Week, end time.Time) Curve {
	var c Curve
	for ago := curveWeeks - 1; ago >= 0; ago-- {
		at := Point{Ago: ago}
		c.Of, c.Seldom = 0, 0
		for _, w := range weeks {
			share, answers := memory.ToldApart(w, end.AddDate(0, 0, -7*ago))
			switch {
			case answers >= memory.Fewest:
				at.Apart += share
				at.Answers += answers
				c.Of++
			case answers > 0:
				c.Seldom++
			}
		}
		if c.Of > 0 {
			c.Points = append(c.Points, at)
		}
	}
	return c
}

// byEar reports whether a target of a drill cannot be asked without sound.
func (p *App) byEar(drill, target string) bool {
	d, ok := catalogue.ByID(drill)
	if !ok {
		return false
	}
	return d.About().Ears || slices.ContainsFunc(d.Targets(p.Session.On()), func(t drills.Target) bool { return t.ID == target && t.Ears })
}

// Whole is the number of things told apart, as it is said.
func (p Point) Whole() int { return int(math.Round(p.Apart)) }

// Words says the curve, a sentence a line.
func (c Curve) Words() []say.Text {
	things := say.Count{N: c.Seldom, One: "thing was", Many: "things were"}
	if len(c.Points) == 0 && c.Seldom == 0 {
		return []say.Text{say.Of("Nothing was asked by ear yet. When it is, this shows week by week how much you can tell apart.")}
	}
	if len(c.Points) == 0 {
		return []say.Text{say.Of("{} asked by ear, too seldom yet to say how surely you tell them apart.", things)}
	}
	first, last := c.Points[0], c.Points[len(c.Points)-1]
	lines := []say.Text{say.Of("By ear you now tell apart about {} of {}.", say.Number(last.Whole()), say.Count{N: c.Of, One: "thing", Many: "things"})}
	if first.Ago > 0 {
		lines = append(lines, say.Of("{} ago it was about {}.", say.Count{N: first.Ago, One: "week", Many: "weeks"}, say.Number(first.Whole())))
	}
	if last.Answers < fewAnswers {
		lines = append(lines, say.Of("That rests on {} only: it may be off.", say.Count{N: last.Answers, One: "answer", Many: "answers"}))
	}
	lines = append(lines, say.Of("Lucky answers are taken out."))
	if c.Seldom > 0 {
		lines = append(lines, say.Of("{} asked too seldom to count.", things))
	}
	return lines
}

// ByWeek says where the curve stood, week by week.
func (c Curve) ByWeek() say.Text {
	var all []say.Number
	for _, p := range c.Points {
		all = append(all, say.Number(p.Whole()))
	}
	if len(all) < 2 {
		return say.Text{}
	}
	return say.Of("Week by week, up to now: {}.", say.Commas(all...))
}
