package class

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"time"

	"sparetone/progress"
	"sparetone/progress/exchange"
)

// practised is what one student practised, of all files together, in the order of time. Each answer is there once, however many files
// have it.
type practised struct {
	things   []*Thing
	thing    map[string]int32
	sessions []progress.Session
	session  map[string]int32
	lessons  []string // ids
	lesson   map[string]int32
	offers   []offer // the first one is none
	offer    map[offered]int32
	choices  []choice
	choice   map[choiceID]int32
	handed   exchange.HandedIn // the latest; zero if none was
	answers  []answer
	sorted   bool
}

// answer is an answer as far as a class looks at it.
type answer struct {
	id       [16]byte
	at       int64 // milliseconds since 1970
	day      progress.Day
	thing    int32
	takenFor int32 // thing; -1 if none
	session  int32
	lesson   int32 // -1 if none
	took     int32 // milliseconds
	offer    int32 // what there was to choose from; 0 if nobody knows
	choices  uint8 // 0 if it was answered freely
	chosen   uint8 // which of the offer, counted from 1; 0 if none
	rung     uint8
	result   progress.Result
	played   bool
	doubted  bool
}

// mostAnswers is how many answers of one student are read: more than twenty years of a hundred a day.
const mostAnswers = 1_000_000

var errTooMany = fmt.Errorf("more than %d answers of one student: that is more than anybody gives", mostAnswers)

// errOther is the error of a file in which another student's practice begins.
var errOther = errors.New("this line is another student's: a file holds the practice of one")

func newPractised() *practised {
	return &practised{offers: make([]offer, 1), offer: map[offered]int32{}, choice: map[choiceID]int32{}, thing: map[string]int32{}, session: map[string]int32{}, lesson: map[string]int32{}}
}

func number[T any](of map[string]int32, all *[]T, id string, make func(string) T) int32 {
	n, met := of[id]
	if !met {
		n = int32(len(*all))
		of[id] = n
		*all = append(*all, make(id))
	}
	return n
}

func (p *practised) thingOf(item string) int32 { return number(p.thing, &p.things, item, thingOf) }

// read adds a file, which has to be of one student. Where the error is not nil, part of it may have been added.
func (p *practised) read(r io.Reader, whose string) error {
	is := func(of progress.Whose) error {
		if of.ID != "" && of.ID != whose {
			return errOther
		}
		return nil
	}
	p.sorted = false
	return exchange.Read(r, exchange.Reading{
		HandedIn: func(h exchange.HandedIn) error {
			if h.At.After(p.handed.At) {
				p.handed = h
			}
			return is(progress.Whose{ID: h.File})
		},
		Session: func(s exchange.Session) error {
			n := number(p.session, &p.sessions, s.ID, func(id string) progress.Session { return progress.Session{ID: id} })
			p.sessions[n] = s.Session
			return is(s.Of)
		},
		Answer: func(a exchange.Answer) error {
			if len(p.answers) == mostAnswers {
				return errTooMany
			}
			one := answer{id: a.ID, at: a.At.UnixMilli(), day: a.Day, thing: p.thingOf(a.Item), takenFor: -1, lesson: -1, took: int32(a.Took.Milliseconds()),
				choices: uint8(a.Choices), chosen: uint8(a.Chosen), rung: uint8(a.Rung), result: a.Result, played: a.Played, doubted: a.Doubted}
			one.session = number(p.session, &p.sessions, a.Session, func(id string) progress.Session { return progress.Session{ID: id} })
			one.offer = p.offerOf(a.Answer)
			if a.TakenFor != "" {
				one.takenFor = p.thingOf(a.TakenFor)
			}
			if a.Lesson != "" {
				one.lesson = number(p.lesson, &p.lessons, a.Lesson, func(id string) string { return id })
			}
			p.answers = append(p.answers, one)
			return is(a.Of)
		},
	})
}

// inOrder returns the answers in the order of time, each once.
func (p *practised) inOrder() []answer {
	if !p.sorted {
		slices.SortFunc(p.answers, func(a, b answer) int { return cmp.Or(cmp.Compare(a.at, b.at), bytes.Compare(a.id[:], b.id[:])) })
		p.answers = slices.CompactFunc(p.answers, func(a, b answer) bool { return a.id == b.id })
		p.sorted = true
	}
	return p.answers
}

// certain are the answers of which it is known when they were given.
func (p *practised) certain() []answer {
	return slices.DeleteFunc(slices.Clone(p.inOrder()), func(a answer) bool { return a.doubted })
}

// minutes is how long was practised: before each answer the time since the one before it in its session, or since that began, but no
// more than exchange.LongestPause.
func (p *practised) minutes(answers []answer) float64 {
	last := make([]int64, len(p.sessions))
	for n, s := range p.sessions {
		if !s.Began.IsZero() {
			last[n] = s.Began.UnixMilli()
		}
	}
	sum := int64(0)
	for _, a := range answers {
		spent := int64(a.took)
		if before := last[a.session]; before != 0 {
			spent = max(spent, a.at-before)
		}
		last[a.session] = a.at
		sum += min(spent, exchange.LongestPause.Milliseconds())
	}
	return float64(sum) / float64(time.Minute.Milliseconds())
}

// offer is what there was to choose from, as numbers of choices in the order in which they stood.
type offer []int32

// offered tells one offer from another.
type offered struct{ drill, ids string }

// choiceID tells one choice from another.
type choiceID struct{ drill, id string }

// choice is something that could be chosen in a drill.
type choice struct {
	id   string
	said string // as it was said when it was chosen; "" if it never was
}
