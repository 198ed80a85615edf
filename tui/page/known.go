package page

import (
	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// Knowledge shows what somebody can tell apart by ear, week by week, and how well each kind of chord is known.
type Knowledge struct {
	curve  practice.Curve
	kinds  practice.KindMap
	failed error
	back   func() Next
}

// Curve is how many things are told apart by ear, week by week.
type Curve practice.Curve

// KindMap is how well each kind of chord is known.
type KindMap practice.KindMap

func newKnowledge(w *Walk, back func() Next) *Knowledge {
	k := &Knowledge{back: back}
	if k.curve, k.failed = w.ToldApart(); k.failed == nil {
		k.kinds, k.failed = w.KindMap()
	}
	return k
}

// Page implements Place.
func (k *Knowledge) Page(w *Walk) Page {
	weak := leads("weak", func() Place { return newWeak(w) })
	weak.Aside = false
	p := Page{
		Blocks: []Block{title("What you know"), Gap{}},
		Acts:   []Act{called("back", func(string) Next { return k.back() }), weak},
		Ask:    askWeak, Lead: askWeak,
	}
	if k.failed != nil {
		p.Blocks = append(p.Blocks, failing(k.failed)...)
		return p
	}
	for _, l := range practice.Curve(k.curve).Words() {
		p.Blocks = append(p.Blocks, Sentence{Text: l})
	}
	p.Blocks = append(p.Blocks, Gap{}, Curve(k.curve), Gap{}, Sentence{Text: aboutKinds, Tone: Quiet}, KindMap(k.kinds))
	return p
}

// askWeak is what can be typed where all else is only said.
const askWeak = "Type weak for what you mistake for what."

// aboutKinds stands above the map of kinds.
var aboutKinds = say.Of("The kinds of chord: whether you hear them, name and build their shapes, and know their tones.")
