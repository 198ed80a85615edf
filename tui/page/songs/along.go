package songs

import (
	"sparetone/synth/capture"
	"sparetone/tui/page"
)

// alongAct begins to play the song through, chord after chord, or ends it.
func (s *Song) alongAct(w *page.Walk, id string, inTime bool) page.Act {
	act := page.Called(id, func(string) page.Next {
		if s.playsAlong(inTime) {
			s.through = nil
			return page.Next{Said: noMoreAlong}
		}
		through, err := s.work.NewAlong(inTime)
		if err != nil {
			return page.Refused(err)
		}
		s.work.Stop()
		s.through, s.attempt = through, &page.Attempt{Attempt: through}
		s.mark, s.barsSaid = through.Place(), true
		return page.Next{Said: through.Asks(), OnlyInLines: true, Silence: true, NewPage: true}
	})
	if s.playsAlong(inTime) {
		act.Does = "no more " + act.Does
	}
	return act.OffIf(!w.Listens(), listenFirst)
}

func (s *Song) playsAlong(inTime bool) bool { return s.through != nil && s.through.InTime == inTime }

// Heard follows the song as the student plays it through.
func (s *Song) Heard(w *page.Walk, sound capture.Sound) page.Next {
	if s.through == nil {
		return page.Next{}
	}
	came := s.attempt.Follow(w, sound)
	if passed := s.through.Passed(float64(len(sound.Samples)) / sound.Rate); !passed.Says.IsZero() {
		came = passed
	}
	if !came.Says.IsZero() {
		s.attempt.Word = came.Says
	}
	s.mark = s.through.Place()
	if came.Answer != "" {
		s.through = nil
		return page.Next{Said: came.Says, Stays: true}
	}
	return page.WordOn(came)
}
