package asking

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/inturn"
	"sparetone/drills/practice"
	"sparetone/drills/practice/session"
	"sparetone/progress"
	"sparetone/theory/say"
	"sparetone/tui/draw"
	"sparetone/tui/page"
	"sparetone/tui/page/trying"
)

// Reveal is what came of an answer, at a glance: right or not, one sentence, and when it needs practice again. What was asked sounds once more by
// itself, and after a mistake what was right and what was answered, in turn, each named while it sounds. All else waits behind "why".
type Reveal struct {
	Asked   *session.Asked
	Verdict drills.Verdict

	turned    int              // how many times "flip" was done: a contrast goes to its other side, else the next shape shows
	whyTold   bool             // the screen shows all that "why" tells
	waits     bool             // something was pressed: the page does not go on by itself
	takenBack bool             // the answer was taken back
	onward    func() page.Next // where "go on" leads
}

// reveal shows what came of an answer and lets it be heard; onward goes on from there.
func reveal(w *page.Walk, asked *session.Asked, v drills.Verdict, onward func() page.Next) page.Next {
	r := &Reveal{Asked: asked, Verdict: v, onward: onward}
	next := page.Next{To: r}
	if r.heard(w) {
		next.Voice, next.Sounds = asked.Voice, r.opening()
	}
	return next
}

// heard reports whether there is something to hear, and a device to hear it on.
func (r *Reveal) heard(w *page.Walk) bool {
	return len(r.Verdict.Asked) > 0 && w.MayHear() && !w.Deviceless
}

// opening returns what sounds by itself: after a mistake the contrast, else what was asked.
func (r *Reveal) opening() []drills.Sound {
	if r.Verdict.Contrast.Any() {
		return inturn.Contrast(r.Verdict)
	}
	return inturn.Named(r.Verdict, r.Verdict.Asked)
}

// side returns the sounds that "open up" and "root first" play: of a contrast the side that shows, else what was asked.
func (r *Reveal) side() []drills.Sound {
	switch {
	case !r.Verdict.Contrast.Any():
		return inturn.Named(r.Verdict, r.Verdict.Asked)
	case r.givenSide():
		return inturn.Yours(r.Verdict)
	}
	return inturn.Named(r.Verdict, inturn.Brief(r.Verdict.Contrast.Right))
}

// Page implements Place.
func (r *Reveal) Page(w *page.Walk) page.Page {
	v := r.Verdict
	heard, contrast := r.heard(w), v.Contrast.Any()
	plays := func(sounds func() []drills.Sound) func(string) page.Next {
		return func(string) page.Next { return page.Next{Voice: r.Asked.Voice, Sounds: sounds()} }
	}
	again, _, slower, _ := page.SoundActs(r.Asked.Voice, inturn.Named(v, v.Asked), func(bool) {})
	_, open, _, root := page.SoundActs(r.Asked.Voice, r.side(), func(bool) {})
	if contrast {
		slower.Do = plays(func() []drills.Sound { return inturn.Slower(inturn.Contrast(v)) })
	}
	why := page.Called("why", func(string) page.Next { return r.why() }).As("why")
	why.Says = ", for all there is to say of it, and why it is asked now"
	both := page.Called("both", plays(func() []drills.Sound { return inturn.Contrast(v) }))
	flip := page.Called("flip", func(string) page.Next { return r.flips(w) })
	stop, stopAsked := stopActs(w, r)
	p := page.Page{
		Explains: true,
		Blocks:   r.blocks(w),
		Acts: page.Only(
			page.Called("go on", func(string) page.Next { return r.onward().InSilence() }),
			again.OffIf(!heard, page.NothingToHear),
			both.If(heard && contrast),
			why,
			flip.If(len(v.Shapes) > 1 || contrast),
			takeBackAct(w, func() page.Next { r.takenBack, r.waits = true, true; return page.Next{} }),
			stop, stopAsked, timeAct(w),
			open.OffIf(!heard, page.NothingToHear), slower.OffIf(!heard, page.NothingToHear), root.OffIf(!heard, page.NothingToHear),
			w.TellsFingers(v.Shapes...),
			page.Called("meet", func(string) page.Next { return meetAgain(w, r) }),
			page.Called("bench", func(string) page.Next {
				return trying.OpenAt(w, v.Shapes[r.shapeAt()].Voicing, func() page.Place { return r })
			}).If(len(v.Shapes) > 0),
		),
	}
	if r.Asked.Number == 1 {
		p.Ask = askOnward
	}
	if r.goes(w) {
		p.GoesOn = page.GoesAfter(r.toRead(), func() { r.waits = true })
	}
	return p
}

// blocks are what shows and what is said.
func (r *Reveal) blocks(w *page.Walk) []page.Block {
	v := r.Verdict
	sign, came := practice.Outcome(r.Asked.Form, v)
	tone := page.Wrong
	if v.Result == progress.Right {
		tone = page.Right
	}
	out := []page.Block{page.Outcome{Sign: sign, Text: came, Tone: tone}}
	if r.takenBack {
		out = []page.Block{page.Sentence{Text: sayGone, Tone: page.Strong}}
	}
	for _, line := range []say.Text{v.Short, practice.NeededAgain(v)} {
		if !line.IsZero() && !r.takenBack {
			out = append(out, page.Sentence{Text: line})
		}
	}
	if r.heard(w) {
		out = append(out, page.Aloud(inturn.YouHear(v)))
	}
	if r.goes(w) {
		out = append(out, page.Seen{Text: goesOn, Tone: page.Quiet}, page.Aloud(goesAloud))
	}
	out = append(out, page.Gap{})
	shapes := r.shapes(w, w.Sounding)
	if r.named(w) {
		now := w.Sounding
		if shapes.Now != 0 {
			now = nil // its shape says so
		}
		out = append(out, page.Sounding{Now: now})
	}
	out = append(out, shapes)
	if r.whyTold {
		out = append(out, page.Gap{})
		for _, l := range r.rest() {
			out = append(out, page.Seen{Text: l})
		}
	}
	return out
}

// shapes are those that show: of a contrast the two that tell it, with the strings on which they differ lit; of rows of chords the row
// that sounds, or that keys are about; else all. Now is what sounds, nil for nothing.
func (r *Reveal) shapes(w *page.Walk, now *drills.Sound) page.Shapes {
	v := r.Verdict
	s := page.Shapes{Fingers: w.Fingers}
	if !v.Contrast.Any() {
		s.All, s.At = slices.Clone(v.Shapes), r.shapeAt()
		for i := range s.All {
			s.All[i].InTurn = r.inTurn(i, v.Asked)
		}
		if now != nil && v.ShapeOf(*now) >= 0 {
			s.At = v.ShapeOf(*now)
		}
		if now != nil && r.isCaptioned(*now) {
			s.Now = 1 + s.At
		}
		return s
	}
	sides := [2][]int{r.shapesOf(v.Contrast.Right), r.shapesOf(v.Contrast.Given)}
	given := r.givenSide()
	if now != nil {
		given = r.isGiven(*now)
	}
	var shown []int
	switch right, yours := sides[0], sides[1]; {
	case r.ofRows():
		shown = right
		if given {
			shown = yours
		}
		s.At = max(0, slices.Index(shown, r.shapeAt()))
	case len(right) == 0 || len(yours) == 0:
		shown = slices.Concat(right, yours)
	case last(right) == last(yours): // on one shape
		shown, s.Lit = right[:1], r.plucked(now)
	default:
		shown = []int{last(right), last(yours)}
		s.Lit = drills.Differing(v.Shapes[shown[0]].Voicing, v.Shapes[shown[1]].Voicing)
		if given {
			s.At = 1
		}
	}
	turns := slices.Concat(v.Contrast.Right, v.Contrast.Given)
	if given { // of two notes on one shape, as they are heard on the side that shows
		turns = slices.Concat(v.Contrast.Given, v.Contrast.Right)
	}
	for n, i := range shown {
		one := v.Shapes[i]
		one.Mark, one.InTurn = 0, r.inTurn(i, turns)
		if one.Caption = r.caption(i); !one.Caption.Equal(v.Shapes[i].Caption) {
			one.Caption = say.Sentence("{}", one.Caption)
		}
		s.All = append(s.All, one)
		if now == nil || v.ShapeOf(*now) != i {
			continue
		}
		if s.At = n; r.isCaptioned(*now) {
			s.Now = n + 1
		}
	}
	return s
}

// caption is what a shape of a contrast is called.
func (r *Reveal) caption(shape int) say.Text {
	v := r.Verdict
	if slices.Contains(r.shapesOf(v.Contrast.Given), shape) && !slices.Contains(r.shapesOf(v.Contrast.Right), shape) {
		return inturn.YourAnswer(v.Shapes[shape].Caption)
	}
	return v.Shapes[shape].Caption
}

// isCaptioned reports whether a sound goes by the name that stands above the shape that makes it.
func (r *Reveal) isCaptioned(s drills.Sound) bool {
	i := r.Verdict.ShapeOf(s)
	return i >= 0 && s.Label.Equal(r.caption(i))
}

// inTurn lists the strings of a shape of two notes as the first of some sounds that it makes plucks them, one after the other; nil if it
// plucks them at once, or is a chord.
func (r *Reveal) inTurn(shape int, sounds []drills.Sound) []int {
	i := slices.IndexFunc(sounds, func(s drills.Sound) bool { return r.Verdict.ShapeOf(s) == shape })
	if i < 0 {
		return nil
	}
	return sounds[i].InTurn()
}

// shapesOf lists the shapes that make some sounds, each once.
func (r *Reveal) shapesOf(sounds []drills.Sound) []int {
	var out []int
	for _, s := range sounds {
		if i := r.Verdict.ShapeOf(s); i >= 0 && !slices.Contains(out, i) {
			out = append(out, i)
		}
	}
	return out
}

func last(list []int) int { return list[len(list)-1] }

// ofRows reports whether rows of chords are set against each other, and not two chords: each chord is then seen in turn.
func (r *Reveal) ofRows() bool { return len(r.Verdict.Contrast.Right) > mostPaired }

// mostPaired is how many sounds a side of a contrast has at the most that its last shape stands for: more are a row.
const mostPaired = 2

// givenSide reports whether what was answered is the side of the contrast that shows, not what was right.
func (r *Reveal) givenSide() bool {
	if r.ofRows() {
		return !slices.Contains(r.shapesOf(r.Verdict.Contrast.Right), r.shapeAt())
	}
	return r.turned%2 == 1
}

// isGiven reports whether a sound is of what was answered.
func (r *Reveal) isGiven(s drills.Sound) bool {
	return slices.ContainsFunc(inturn.Yours(r.Verdict), func(yours drills.Sound) bool { return yours.Label.Equal(s.Label) })
}

// plucked are the strings that sound now; while none does, those that only one side of the contrast plucks.
func (r *Reveal) plucked(now *drills.Sound) []int {
	if now != nil {
		return now.Sounded()
	}
	right, given := r.Verdict.Contrast.Right[0].Sounded(), r.Verdict.Contrast.Given[0].Sounded()
	return slices.DeleteFunc(append(slices.Clone(right), given...), func(n int) bool { return slices.Contains(right, n) == slices.Contains(given, n) })
}

// named reports whether a sound is heard that no shape which shows is called by, so that its name stands on a line of its own.
func (r *Reveal) named(w *page.Walk) bool {
	return r.heard(w) && slices.ContainsFunc(r.opening(), func(s drills.Sound) bool { return r.shapes(w, &s).Now == 0 })
}

// shapeAt returns the index, among the shapes of the verdict, of the one that "try it" takes to the bench.
func (r *Reveal) shapeAt() int {
	v := r.Verdict
	if len(v.Shapes) == 0 {
		return 0
	}
	if v.Contrast.Any() && !r.ofRows() {
		if shown := r.shapesOf([][]drills.Sound{v.Contrast.Right, v.Contrast.Given}[r.turned%2]); len(shown) > 0 {
			return last(shown)
		}
	}
	return (v.First() + r.turned) % len(v.Shapes)
}

// flips shows the other shape, or the next one, and lets it be heard.
func (r *Reveal) flips(w *page.Walk) page.Next {
	r.turned++
	v := r.Verdict
	if !r.heard(w) {
		return page.Next{}
	}
	if v.Contrast.Any() && !r.ofRows() {
		return page.Next{Voice: r.Asked.Voice, Sounds: r.side()}
	}
	for _, s := range append(inturn.Named(v, v.Asked), inturn.Yours(v)...) {
		if v.ShapeOf(s) == r.shapeAt() {
			return page.Next{Voice: r.Asked.Voice, Sounds: []drills.Sound{s}}
		}
	}
	return page.Next{}
}

// why tells all that the glance left out, and on the screen takes it away again.
func (r *Reveal) why() page.Next {
	r.whyTold = !r.whyTold
	var told []say.Text
	for _, s := range r.Verdict.AskedShapes() {
		told = append(told, say.Sentence("{}:", s.Caption))
		told = append(told, draw.Neck{Voicing: s.Voicing, Named: true}.Words()...)
	}
	return page.Next{ToldInLines: append(told, r.rest()...)}
}

// rest returns the explanation without the sentence that was said at once, and why the question is asked now.
func (r *Reveal) rest() []say.Text {
	lines := slices.DeleteFunc(slices.Clone(r.Verdict.Lines), r.Verdict.Short.Equal)
	return append(lines, session.WhyText(r.Asked))
}

// goes reports whether it goes on by itself: after a right answer, if the student wishes, and as long as nothing is pressed.
func (r *Reveal) goes(w *page.Walk) bool {
	return w.Settings.Onward && !r.waits && r.Verdict.Result == progress.Right
}

// toRead returns how many words there are to read before it goes on by itself.
func (r *Reveal) toRead() (words int) {
	_, came := practice.Outcome(r.Asked.Form, r.Verdict)
	for _, l := range []say.Text{came, r.Verdict.Short, practice.NeededAgain(r.Verdict)} {
		words += l.Words()
	}
	return words
}

// meetAgain shows what a question is about, and leads back to where one was.
func meetAgain(w *page.Walk, r *Reveal) page.Next {
	m, err := w.Session.MeetAgain(r.Asked)
	if err != nil {
		return page.Refused(err)
	}
	return ShowAgain(w, m, func() page.Next { return page.Next{To: r, Silence: true} })
}
