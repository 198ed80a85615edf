package memory

import (
	"math"
	"slices"

	"sparetone/progress"
)

// What is foretold of a student's answers is held against what becomes of them, by eye and by ear, each by tenths of the chance. That
// tells the student how far to trust it, and it sets right what follows: where more answers were right than was foretold, all chances
// are raised, and lowered where fewer were.

// tenths are what chances are told apart by.
const tenths = 10

// corrects is how far one right answer more than was foretold moves all chances of its kind, in nats of their odds; a miss moves them as
// far back. What is off by 0.1 is half gone after some forty answers (from judgement: 0.05 left simulated students who tire 11 points
// off by ear, 0.1 left them 7).
const corrects = 0.1

// Foretold is what became of answers that were held for right with a chance that lies within one tenth.
type Foretold struct {
	Asked int
	Right int
	Sum   float64 // of the chances
}

// Calibration is what became of answers, by eye or by ear, by tenths of the chance that was foretold.
type Calibration [tenths]Foretold

// Total sums up all tenths.
func (c Calibration) Total() (sum Foretold) {
	for _, f := range c {
		sum.Asked += f.Asked
		sum.Right += f.Right
		sum.Sum += f.Sum
	}
	return sum
}

// Off returns how far what was foretold lay from what happened, on the average over answers, 0 to 1.
func (c Calibration) Off() float64 {
	off := 0.0
	for _, f := range c {
		off += math.Abs(f.Sum - float64(f.Right))
	}
	return off / float64(max(1, c.Total().Asked))
}

// corrected returns a chance as what was foretold up to now would have it.
func (c Calibration) corrected(chance float64) float64 {
	chance = clamp(chance, surest, 1-surest)
	sum := c.Total()
	odds := chance / (1 - chance) * math.Exp(corrects*(float64(sum.Right)-sum.Sum))
	return odds / (1 + odds)
}

// count counts an answer.
func (c *Calibration) count(chance float64, right bool) {
	f := &c[min(tenths-1, int(chance*tenths))]
	f.Asked++
	f.Sum += chance
	if right {
		f.Right++
	}
}

// Chance returns the chance that an item is right on a day, among as many choices as the last time: what the model of it says, set
// right by what became of the student's other answers by ear, or by eye. The zero Memory has none.
func (d *Derived) Chance(m Memory, day progress.Day) float64 {
	return d.SetRight(m, d.Foreseen(m, day))
}

// Foreseen returns the chance that the model of an item gives it on a day, before that is set right.
func (d *Derived) Foreseen(m Memory, day progress.Day) float64 { return m.chance(&d.Weights, day) }

// SetRight returns a chance that was foreseen of an item, set right by what became of answers up to now.
func (d *Derived) SetRight(m Memory, foreseen float64) float64 {
	return d.calibration(m.Ear).corrected(foreseen)
}

func (d *Derived) calibration(ear bool) *Calibration {
	if ear {
		return &d.ByEar
	}
	return &d.ByEye
}

// same reports whether two calibrations agree, but for what another processor may round otherwise.
func (c Calibration) same(d Calibration) bool {
	return slices.EqualFunc(c[:], d[:], func(a, b Foretold) bool {
		return a.Asked == b.Asked && a.Right == b.Right && math.Abs(a.Sum-b.Sum) <= 1e-6
	})
}
