package memory

import "math"

// Ears are not vocabulary. What is told by ear from others is not remembered or forgotten: it is told apart more or less well, by a
// distance d' that is 0 where nothing is heard between them and 2 or 3 where they are hardly ever mistaken. It grows with every
// contrast, loses part of what a day added over night, and then fades slowly.
//
// Sources of the forms. Several answers: signal detection among m, D. M. Green and J. A. Swets, Signal Detection Theory and
// Psychophysics (1966), with a logistic in the place of the normal distribution, as in R. D. Luce, Individual Choice Behavior (1959).
// That trials add up within a day, and that a part of it lasts: B. A. Wright and A. T. Sabin, Experimental Brain Research 180 (2007);
// D. F. Little, Y.-X. Zhang and B. A. Wright, Current Biology 27 (2017). All from memory. The numbers are from judgement.
const (
	tellSlope  = 1.2  // of the logistic, so that d' says about what it does of a normal distribution
	tellFirst  = 0.6  // d' before anything was asked
	tellUnsure = 2    // variance of that: somebody may hear it well already
	tellDrift  = 0.01 // variance that every day adds
	tellAdds   = 0.35 // d' that the first contrast adds; less, the nearer it is to the most
	tellMost   = 3.5
	tellKept   = 0.5 // of what a day added, what the night leaves
	tellFades  = 0.1 // d' falls with this power of time
	tellScale  = 30  // days after which it has begun to
	tellAmong  = 8   // answers that a free one counts as being picked from
)

// Telling is how well something is told by ear from what it stands among.
type Telling struct {
	Kept   float64 // d' without what the last day of practice added
	Added  float64 // d' that it added
	Unsure float64 // variance of what is believed of it
}

func firstTelling() Telling { return Telling{Kept: tellFirst, Unsure: tellUnsure} }

func (t Telling) distance() float64 { return t.Kept + t.Added }

// after returns what is left after so many days.
func (t Telling) after(days float64) Telling {
	if days <= 0 {
		return t
	}
	return Telling{
		Kept:   (t.Kept + tellKept*t.Added) * math.Pow(1+days/tellScale, -tellFades),
		Unsure: min(tellUnsure, t.Unsure+tellDrift*days),
	}
}

// among is how many answers there are where guessing is right with a chance.
func among(guess float64) float64 {
	if guess <= 0 {
		return tellAmong
	}
	return 1 / guess
}

// picked returns the chance that the right one of so many is picked.
func (t Telling) picked(among float64) float64 {
	return 1 / (1 + (among-1)*math.Exp(-tellSlope*t.distance()))
}

// known is picked with guessing taken out.
func (t Telling) known(among float64) float64 {
	return max(0, (t.picked(among)-1/among)/(1-1/among))
}

// seen returns what is believed after an answer: by Bayes's rule, as far as one step along the slope of the likelihood goes.
func (t Telling) seen(among float64, right bool) Telling {
	p := t.picked(among)
	chance := (1 - slips) * p
	slope := (1 - slips) * tellSlope * p * (1 - p)
	t.Unsure /= 1 + t.Unsure*slope*slope/(chance*(1-chance))
	if right {
		t.Kept += t.Unsure * slope / chance
	} else {
		t.Kept = max(0, t.Kept-t.Unsure*slope/(1-chance))
	}
	return t
}

// contrasted adds what hearing it once more beside others teaches.
func (t Telling) contrasted() Telling {
	t.Added += tellAdds * max(0, 1-t.distance()/tellMost)
	return t
}

// gain returns how much more likely it is known so many days later for being asked once more.
func (t Telling) gain(among, later float64) float64 {
	return t.contrasted().after(later).known(among) - t.after(later).known(among)
}

// rests returns for how many days it is known with a chance of aim at least.
func (t Telling) rests(among float64) float64 {
	p := Aim + (1-Aim)/among
	needed := math.Log((among-1)*p/(1-p)) / tellSlope
	left := t.Kept + tellKept*t.Added
	if left <= needed {
		return 0
	}
	return tellScale * (math.Pow(left/needed, 1/tellFades) - 1)
}
