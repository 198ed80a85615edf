package progress

import (
	"math/rand/v2"
	"slices"
	"time"
)

// Candidate is an item that may be asked, as the course has it. Candidates come in the course's order.
type Candidate struct {
	Item  string
	Drill string
	After []string // items it rests on: it is new only when all of them hold
	Near  []string // items it is easily mistaken for
}

// Pick is what to ask next.
type Pick struct {
	Item    string
	Drill   string
	Why     Why
	Against string // item to set it against; empty if none
}

// Today says what a day holds.
type Today struct {
	Due  int // items that have come back
	Weak int // of these, the ones that are often missed
	New  int // items that could be begun
}

// Planner chooses what is asked in one session.
type Planner struct {
	course []Candidate
	byItem map[string]int
	length time.Duration
	rng    *rand.Rand
	file   *File

	memory   map[string]Memory
	began    time.Time
	last     string
	contrast []Pick
	asked    map[string]int // this session
}

// NewPlanner plans a session of the given length over a course. Candidates that cannot be asked now,
// such as those for the ear where there is no sound, are left out by the caller. The same file,
// course and rng, asked at the same times and told the same answers, plan the same session.
func NewPlanner(f *File, course []Candidate, length time.Duration, rng *rand.Rand) (*Planner, error) {
	p := &Planner{course: course, length: length, rng: rng, file: f,
		byItem: map[string]int{}, memory: map[string]Memory{}, asked: map[string]int{}}
	for i, c := range course {
		p.byItem[c.Item] = i
	}
	rows, err := f.db.Query("SELECT id, stability, difficulty, day, due, asked, held, run FROM memory JOIN items ON n = item")
	if err != nil {
		return nil, plain(err)
	}
	defer rows.Close()
	for rows.Next() {
		var id string
		var m Memory
		if err := rows.Scan(&id, &m.Stability, &m.Difficulty, &m.Day, &m.Due, &m.Asked, &m.Held, &m.Run); err != nil {
			return nil, plain(err)
		}
		p.memory[id] = m
	}
	return p, plain(rows.Err())
}

// Today says what a moment's day holds.
func (p *Planner) Today(now time.Time) Today {
	day := DayOf(now)
	var t Today
	for _, c := range p.course {
		m, known := p.memory[c.Item]
		switch {
		case known && m.isDue(day):
			t.Due++
			if m.Run == 0 {
				t.Weak++
			}
		case !known && p.ready(c):
			t.New++
		}
	}
	return t
}

// Next picks what to ask now. The session's time runs from its first call. It returns false when
// the time is up or the course is empty.
func (p *Planner) Next(now time.Time) (Pick, bool) {
	if p.began.IsZero() {
		p.began = now
	}
	if now.Sub(p.began) >= p.length || len(p.course) == 0 {
		return Pick{}, false
	}
	pick := p.choose(DayOf(now))
	p.last = pick.Item
	p.asked[pick.Item]++
	return pick, true
}

func (p *Planner) choose(day Day) Pick {
	if len(p.contrast) > 0 && p.contrast[0].Item != p.last {
		pick := p.contrast[0]
		p.contrast = p.contrast[1:]
		return pick
	}
	var due, fresh, rest []Pick
	for _, i := range p.rng.Perm(len(p.course)) {
		c := p.course[i]
		m, known := p.memory[c.Item]
		pick := Pick{Item: c.Item, Drill: c.Drill}
		switch {
		case c.Item == p.last:
		case known && m.isDue(day):
			pick.Why = Why{Reason: Due, Days: day.since(m.Day)}
			due = append(due, pick)
		case !known && p.ready(c):
			pick.Why.Reason = New
			fresh = append(fresh, pick)
		case known:
			pick.Why.Reason = Ahead
			rest = append(rest, pick)
		}
	}
	switch {
	case len(due) > 0:
		return due[0]
	case len(fresh) > 0:
		return slices.MinFunc(fresh, func(a, b Pick) int { return p.byItem[a.Item] - p.byItem[b.Item] })
	case len(rest) > 0:
		w := DefaultWeights
		return slices.MinFunc(rest, func(a, b Pick) int {
			if p.asked[a.Item] != p.asked[b.Item] {
				return p.asked[a.Item] - p.asked[b.Item]
			}
			if p.memory[a.Item].chance(&w, day) < p.memory[b.Item].chance(&w, day) {
				return -1
			}
			return 1
		})
	}
	c := p.course[0]
	return Pick{Item: c.Item, Drill: c.Drill, Why: Why{Reason: Ahead}}
}

// ready reports whether all that an item rests on holds.
func (p *Planner) ready(c Candidate) bool {
	return !slices.ContainsFunc(c.After, func(item string) bool {
		_, inCourse := p.byItem[item]
		return inCourse && p.memory[item].Run == 0
	})
}

// Answered tells the planner of an answer that was recorded.
func (p *Planner) Answered(a Answer) {
	m, known := p.memory[a.Item]
	p.memory[a.Item] = m.after(DefaultWeights, gradeOf(a, 0, !known), a.Result, DayOf(a.At.In(p.file.now().Location())), known)
	if a.Result == Right {
		return
	}
	why := Why{Reason: Contrast, TakenFor: a.TakenFor, Times: 1}
	if _, ok := p.byItem[a.TakenFor]; ok {
		p.contrast = append(p.contrast, Pick{Item: a.TakenFor, Drill: p.course[p.byItem[a.TakenFor]].Drill, Against: a.Item, Why: Why{Reason: Contrast, TakenFor: a.Item, Times: 1}})
	}
	p.contrast = append(p.contrast, Pick{Item: a.Item, Drill: a.Drill, Against: a.TakenFor, Why: why})
}
