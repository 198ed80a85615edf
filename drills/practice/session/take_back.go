package session

import (
	"fmt"

	"sparetone/progress"
)

// mayTakeBack remembers how things stand before an answer counts.
func (s *Session) mayTakeBack(a progress.Answer) *mayGo {
	m := &mayGo{item: a.Item, runs: map[*Running]run{}}
	for _, r := range s.set.Lessons {
		if was, asked := r.runs[a.Item]; asked {
			m.runs[r] = was
		}
	}
	return m
}

// TakesBack reports whether the last answer can be taken back.
func (s *Session) TakesBack() bool { return s.back != nil && !s.ended }

// TakeBack takes the last answer back, if it can be. It is gone from the disk when TakeBack returns nil; where the error wraps ErrNotKept
// the file tries again with every further answer and at the end.
func (s *Session) TakeBack() error {
	if !s.TakesBack() {
		return nil
	}
	m := s.back
	s.back = nil
	s.done = s.done[:len(s.done)-1]
	s.gone.Counted++
	for _, r := range s.set.Lessons {
		if was, asked := m.runs[r]; asked {
			r.runs[m.item] = was
		} else {
			delete(r.runs, m.item)
		}
	}
	err := s.set.File.TakeBack()
	if err == nil {
		known, _, failed := s.set.File.Known()
		if err = failed; err == nil {
			s.planner.TakeBack(known)
		}
	}
	if err != nil {
		return fmt.Errorf("%w: %w", ErrNotKept, err)
	}
	return s.set.File.Follow()
}

// TakeBackHeard counts that an answer to the present question was heard and taken back before it counted. Where the error wraps ErrNotKept the file tries
// again, as TakeBack does.
func (s *Session) TakeBackHeard() error {
	s.isHere()
	s.gone.Heard++
	if err := s.set.File.CountHeard(s.id); err != nil {
		return fmt.Errorf("%w: %w", ErrNotKept, err)
	}
	return nil
}

// TakenBack counts what was heard and taken back.
func (s *Session) TakenBack() progress.TakenBack { return s.gone }
