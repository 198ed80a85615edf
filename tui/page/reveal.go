package page

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/progress"
	"sparetone/theory/say"
)

// Reveal is what came of an answer: right or not, what it was, and why.
type Reveal struct {
	Asked   *practice.Asked
	Verdict drills.Verdict

	turned int // how many shapes further the neck shows than the one to look at first
	onward func(said []say.Text) Next
}

// Page implements Place.
func (r *Reveal) Page(w *Walk) Page {
	v := r.Verdict
	sign, came := practice.Outcome(v)
	tone := Wrong
	if v.Result == progress.Right {
		tone = Right
	}
	shapes := Shapes{All: v.Shapes, Asked: v.AskedShapes(), At: r.at(), Fingers: w.Fingers, Lines: v.Lines}
	if back := practice.ComesBack(v.BackIn); !back.IsZero() {
		shapes.Lines = append(slices.Clip(shapes.Lines), back)
	}
	heard := len(v.Asked) > 0 && w.hears()
	again, open, slower, root := sounding(r.Asked.Voice, v.Asked, func(bool) {})
	turn := called("next", func(string) Next { r.turned++; return Next{} }).As("other shape")
	return Page{
		Blocks: []Block{Outcome{sign, came, tone}, Gap{}, shapes},
		Acts: only(
			called("go on", func(string) Next { return r.onward(nil).hushed() }),
			again.off(!heard, nothingToHear),
			called("both", func(string) Next { return Next{Voice: r.Asked.Voice, Sounds: slices.Concat(v.Asked, v.Other)} }).where(heard && len(v.Other) > 0),
			called("stop", func(string) Next { return w.finish(nil).hushed() }),
			open.off(!heard, nothingToHear), slower.off(!heard, nothingToHear), root.off(!heard, nothingToHear),
			turn.where(len(v.Shapes) > 1),
			w.fingers(v.Shapes...),
			called("why", func(string) Next { return Next{Said: practice.WhyText(r.Asked), Stays: true} }),
			called("meet", func(string) Next { return w.meets(r) }),
			called("bench", func(string) Next { return newBench(w, v.Shapes[r.at()].Voicing, func() Place { return r }) }).where(len(v.Shapes) > 0),
		),
	}
}

// at is the shape that shows: what was asked, or what was answered. Where a string of the last one is marked,
// the two are a before and an after, and the after is what was asked.
func (r *Reveal) at() int {
	if len(r.Verdict.Shapes) == 0 {
		return 0
	}
	i, last := 0, len(r.Verdict.Shapes)-1
	if r.Verdict.Marked() {
		i = last
	}
	return (i + r.turned) % len(r.Verdict.Shapes)
}
