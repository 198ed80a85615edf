package memory

import (
	"math"

	"sparetone/progress"
)

// Aim is the share of answers that should be right: learning is fastest at about 85 %.
// Source: Wilson, Shenhav, Straccia and Cohen, "The Eighty Five Percent Rule for optimal learning",
// Nature Communications 10:4646, 2019. An item comes back when it is known with this chance; what is weak is told by the share of right
// answers, lucky ones among them.
const Aim = 0.85

// Memory is what is remembered of one item. What is heard is held in two models at once, one of remembering and one of telling
// apart; each answer moves the belief in which of them is true of it.
type Memory struct {
	Trace
	Telling
	Ear    bool         // its questions are heard
	Favour float64      // of what is heard: how much likelier its answers are if it is told apart than if it is remembered, in nats
	Day    progress.Day // practice day of the last answer
	Due    progress.Day // practice day it comes back
	Asked  int
	Right  int     // answers that were right
	Run    int     // right answers in a row up to now
	Luck   float64 // chance that guessing alone gives this run; 1 where there is none
	Guess  float64 // chance that guessing alone answers it right, as it was last asked
	Rung   int     // how closely it is asked, see rung; 0 where it was never asked
	OnRung int     // right answers in a row on this rung
}

// longestRest is how long an item stays away at the most, in days.
const longestRest = 365

// earFirst is how much likelier it is of what is heard that it is told apart than remembered, before any answer, in nats (from
// judgement).
const earFirst = 1

// surest keeps one answer from settling which of two models is true: no chance counts as nearer to 0 or 1.
const surest = 0.01

// after returns what is remembered after a further answer, or after the first one; guess is the chance that it was
// right by guessing, and met says that it was asked before.
func (m Memory) after(w *Weights, g Grade, r progress.Result, guess float64, day progress.Day, met bool) Memory {
	days := float64(day.Since(m.Day))
	trace := m.Trace
	if met {
		m.Trace = w.learn(trace, days, w.Retrievability(trace, days), g, guess)
	} else {
		m.Trace = w.firstOf(g, guess)
	}
	rest := w.Interval(m.Trace, Aim)
	if m.Ear {
		if m.Unsure == 0 { // heard for the first time
			m.Telling, met, days = firstTelling(), false, 0
		}
		right, n := r == progress.Right, among(guess)
		heard := m.Telling.after(days)
		if met && days > 0 {
			told := clamp((1-slips)*heard.picked(n), surest, 1-surest)
			remembered := clamp(rightWith(w.Retrievability(trace, days), guess), surest, 1-surest)
			if !right {
				told, remembered = 1-told, 1-remembered
			}
			m.Favour += math.Log(told / remembered)
		}
		m.Telling = heard.seen(n, right).contrasted()
		rest = m.apartChance()*m.rests(n) + (1-m.apartChance())*rest
	}
	m.Day, m.Guess = day, guess
	m.Due = day + progress.Day(clamp(math.Round(rest), 1, longestRest))
	m.Asked++
	if m.Run == 0 {
		m.Luck = 1
	}
	m.Run++
	m.Luck *= guess
	if r == progress.Right {
		m.Right++
	} else {
		m.Run, m.Luck = 0, 1
	}
	return m
}

// apartChance is how likely it is, 0 to 1, that an item is told apart and not remembered; 0 of what is not heard.
func (m Memory) apartChance() float64 {
	if !m.Ear {
		return 0
	}
	return 1 / (1 + math.Exp(-earFirst-m.Favour))
}

// blend weighs what the two models say.
func (m Memory) blend(told, remembered float64) float64 {
	share := m.apartChance()
	return share*told + (1-share)*remembered
}

// Knows returns the chance that an item is known on a day, lucky guesses and slips apart.
func (m Memory) Knows(w *Weights, day progress.Day) float64 {
	days := float64(day.Since(m.Day))
	remembered := w.Retrievability(m.Trace, days)
	if !m.Ear {
		return remembered
	}
	return m.blend(m.Telling.after(days).known(among(m.Guess)), remembered)
}

// chance returns the chance of being right on a day, among as many choices as the last time.
func (m Memory) chance(w *Weights, day progress.Day) float64 {
	days := float64(day.Since(m.Day))
	remembered := rightWith(w.Retrievability(m.Trace, days), m.Guess)
	if !m.Ear {
		return remembered
	}
	return m.blend((1-slips)*m.Telling.after(days).picked(among(m.Guess)), remembered)
}

// IsDue reports whether an item has come back. One that was last asked after the present day was
// asked when the clock was wrong, and is asked again to find out.
func (m Memory) IsDue(day progress.Day) bool { return m.Due <= day || m.Day > day+1 }

// AWeek is how many days after a question its gain is counted, unless there is reason to count it sooner (from judgement; a month taught
// simulated students less).
const AWeek = 7

// Gain returns how much more likely an item is to be known so many days later for being asked on a day. Of what is told by ear that is
// always counted a week later.
func (m Memory) Gain(w *Weights, day progress.Day, later float64) float64 {
	f := w.forgetting()
	days := float64(day.Since(m.Day))
	known := f.chance(m.Trace, days)
	p := rightWith(known, m.Guess)
	remembered := p*f.chance(w.learn(m.Trace, days, known, Firm, m.Guess), later) +
		(1-p)*f.chance(w.learn(m.Trace, days, known, Missed, m.Guess), later) -
		f.chance(m.Trace, days+later)
	if !m.Ear {
		return remembered
	}
	return m.blend(m.Telling.after(days).gain(among(m.Guess), AWeek), remembered)
}

// What is expected of something that was never asked (from judgement).
const (
	knownAtFirst = 0.2  // chance that it is known from elsewhere
	firstGuess   = 0.25 // chance to guess it
)

// FirstGain returns how much more likely something is to be known a week later for being asked for the first time. What is heard
// counts as what is seen, so that new things keep the order of the course.
func FirstGain(w *Weights) float64 {
	return (1 - knownAtFirst) * w.Retrievability(w.First(Missed), AWeek)
}

// FirstChance is the chance of being right when something is asked for the first time.
const FirstChance = knownAtFirst + (1-knownAtFirst)*firstGuess

// luckExcluded reports whether the run of right answers is one that guessing hardly gives.
func (m Memory) luckExcluded() bool { return m.Luck < unlikelyLuck }
