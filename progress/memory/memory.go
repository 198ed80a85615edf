package memory

import (
	"math"

	"sparetone/progress"
)

// Aim is the share of answers that should be right: learning is fastest at about 85 %.
// Source: Wilson, Shenhav, Straccia and Cohen, "The Eighty Five Percent Rule for optimal learning",
// Nature Communications 10:4646, 2019.
const Aim = 0.85

// Memory is what is remembered of one item.
type Memory struct {
	Trace
	Day   progress.Day // practice day of the last answer
	Due   progress.Day // practice day it comes back
	Asked int
	Held  int     // answers that were right
	Run   int     // right answers in a row up to now
	Luck  float64 // chance that guessing alone gives this run; 1 where there is none
}

// longestRest is how long an item stays away at the most, in days.
const longestRest = 365

// after returns what is remembered after a further answer, or after the first one; guess is the chance that it was
// right by guessing.
func (m Memory) after(w *Weights, g Grade, r progress.Result, guess float64, day progress.Day, known bool) Memory {
	if known {
		m.Trace = w.Next(m.Trace, float64(day.Since(m.Day)), g)
	} else {
		m.Trace = w.firstOf(g, guess)
	}
	m.Day = day
	m.Due = day + progress.Day(clamp(math.Round(w.Interval(m.Trace, Aim)), 1, longestRest))
	m.Asked++
	if m.Run == 0 {
		m.Luck = 1
	}
	m.Run++
	m.Luck *= guess
	if r == progress.Right {
		m.Held++
	} else {
		m.Run, m.Luck = 0, 1
	}
	return m
}

// Chance returns the chance of being right on a day.
func (m Memory) Chance(w *Weights, day progress.Day) float64 {
	return w.Retrievability(m.Trace, float64(day.Since(m.Day)))
}

// IsDue reports whether an item has come back. One that was last asked after the present day was
// asked when the clock was wrong, and is asked again to find out.
func (m Memory) IsDue(day progress.Day) bool { return m.Due <= day || m.Day > day+1 }

// Gain returns how much more likely an item is to be known a month from a day for being asked on it.
func (m Memory) Gain(w *Weights, day progress.Day) float64 {
	const month = 30
	f := w.forgetting()
	days := float64(day.Since(m.Day))
	p := f.chance(m.Trace, days)
	return p*f.chance(w.next(m.Trace, days, p, Firm), month) +
		(1-p)*f.chance(w.next(m.Trace, days, p, Missed), month) -
		f.chance(m.Trace, days+month)
}

// luckExcluded reports whether the run of right answers is one that guessing hardly gives.
func (m Memory) luckExcluded() bool { return m.Luck < unlikelyLuck }
