package page

import (
	"slices"
	"strings"

	"sparetone/drills"
	"sparetone/drills/meet"
	"sparetone/theory/fret"
	"sparetone/theory/say"
	"sparetone/tui/draw"
)

// rootTerm is the term without which nothing that is written under a shape means anything.
const rootTerm = "root"

// PageOf is the page of a place. Where somebody practises, each word of the trade that appears for the first time is explained on it, and
// all of them can be explained again; notes and degrees stand under shapes once it was said what a root is, with a legend until they are
// known.
func (w *Walk) PageOf(at Place) Page {
	p := at.Page(w)
	if !p.Explains {
		return p
	}
	if w.explainedAt != at {
		w.explainedAt, w.opened = at, nil
	}
	bare := !p.Written && (!w.isOpen(rootTerm) || slices.ContainsFunc(w.opened, func(t meet.Term) bool { return t.ID == rootTerm }))
	texts := w.textsOf(p.Blocks)
	w.open(texts)
	for i, b := range p.Blocks {
		if s, ok := b.(Shapes); ok {
			s.Bare = bare
			p.Blocks[i] = s
		}
	}
	if legend := w.legend(p.Blocks); (!bare || w.Spoken) && !legend.IsZero() {
		w.open([]say.Text{legend})
		texts = append(texts, legend)
		p.Blocks = append(p.Blocks, Gap{}, Sentence{Text: legend, Tone: Quiet})
	}
	if !bare && !w.Spoken && pairsShow(p.Blocks) {
		w.open([]say.Text{doubledSign})
	}
	if len(w.opened) > 0 {
		p.GoesOn = nil // it is to be read
		p.Blocks = append(p.Blocks, Gap{})
	}
	for _, t := range w.opened {
		p.Blocks = append(p.Blocks, Sentence{Text: t.Means, Tone: Quiet})
	}
	for i := range p.Acts {
		if do := p.Acts[i].Do; do != nil {
			p.Acts[i].Do = func(more string) Next { return w.withTermsExplained(do(more)) }
		}
	}
	if take := p.Take; take != nil {
		p.Take = func(typed string) Next { return w.withTermsExplained(take(typed)) }
	}
	if all := meet.Terms(texts...); len(all) > 0 {
		what := Called("what", func(word string) Next { return w.explainAgain(&Words{all: all, back: at, hinted: p.Hinted}, word) })
		what.HelpOnly = len(w.opened) == 0
		p.Acts = append(p.Acts, what)
	}
	return p
}

// isOpen reports whether a word was explained, here or before.
func (w *Walk) isOpen(term string) bool {
	return w.knownTerms[term] || w.Opened(term)
}

// open explains at this place the words of some texts that were never explained, and those that their explanations use, before them.
func (w *Walk) open(texts []say.Text) {
	for _, t := range meet.Terms(texts...) {
		if w.isOpen(t.ID) {
			w.knownTerms[t.ID] = true
			continue
		}
		w.knownTerms[t.ID] = true
		w.open([]say.Text{t.Means})
		w.opened = append(w.opened, t)
		_ = w.Open(t.ID) // what is not kept is explained once more another time
	}
}

// withTermsExplained adds to what is said the words in it that were never explained.
func (w *Walk) withTermsExplained(next Next) Next {
	if next.To != nil {
		return next
	}
	if !next.Said.IsZero() {
		for _, t := range w.openIn(next.Said) {
			next.Said = say.Of("{} {}", next.Said, t.Means)
		}
	}
	if w.Spoken {
		for _, t := range w.openIn(next.ToldInLines...) {
			next.ToldInLines = append(next.ToldInLines, t.Means)
		}
	}
	return next
}

// openIn opens the words of some texts and returns them; they are explained where the texts are, and not on the page.
func (w *Walk) openIn(texts ...say.Text) []meet.Term {
	before := len(w.opened)
	w.open(texts)
	out := slices.Clone(w.opened[before:])
	w.opened = w.opened[:before]
	return out
}

// explainAgain explains a word again, with its sound; without a word it leads to all that the page has.
func (w *Walk) explainAgain(all *Words, word string) Next {
	if word == "" {
		return Next{To: all}
	}
	found := meet.Terms(say.Of("{}", say.Foreign(strings.TrimRight(word, ".?!"))))
	if len(found) == 0 {
		return Next{Said: noSuchTerm(word)}
	}
	return all.explain(w, found[0])
}

// explain says what a word means, and lets it be heard.
func (l *Words) explain(w *Walk, t meet.Term) Next {
	next := Next{Said: t.Means, Stays: true}
	if !w.MayHear() {
		return next
	}
	if l.hinted != nil {
		l.hinted()
	}
	for _, h := range t.Heard(w.Session.On()) {
		h.Sound.Label = h.Name
		next.Sounds = append(next.Sounds, h.Sound)
	}
	next.Voice = w.Session.On().Voices[0]
	return next
}

// textsOf are the texts of blocks, in the order in which they stand.
func (w *Walk) textsOf(blocks []Block) (out []say.Text) {
	for _, b := range blocks {
		switch b := b.(type) {
		case Sentence:
			out = append(out, b.Text)
		case Seen:
			if !w.Spoken {
				out = append(out, b.Text)
			}
		case Aloud:
			if w.Spoken {
				out = append(out, say.Text(b))
			}
		case Sounding:
			if b.Now != nil && !w.Spoken {
				out = append(out, b.Now.Label)
			}
		case Neck:
			if w.Spoken {
				out = append(out, draw.Neck(b).Words()...)
			}
		case Outcome:
			out = append(out, b.Text)
		case Shapes:
			for _, s := range b.All {
				if !w.Spoken {
					out = append(out, s.Caption)
				}
			}
			for _, s := range b.Asked {
				if w.Spoken {
					out = append(append(out, s.Caption), draw.Neck{Voicing: s.Voicing, Named: true}.Words()...)
				}
			}
			if !w.Spoken || !b.Unsaid {
				out = append(out, b.Lines...)
			}
		case *Tones:
			if !w.Spoken {
				out = append(out, degreeKey)
			}
		case Choice:
			for _, l := range b.Lines {
				out = append(out, l.Text)
			}
		case Field:
			out = append(append(out, w.textsOf(b.WhileOpen)...), w.textsOf(b.WhileClosed)...)
		}
	}
	return out
}

// legend says what is written under the shapes of a page, or is to be written there, as far as it is not known yet; zero if it is.
func (w *Walk) legend(blocks []Block) say.Text {
	var shapes []drills.Reveal
	var asked *fret.Voicing
	for _, b := range blocks {
		switch b := b.(type) {
		case Shapes:
			if !w.Spoken { // there they are said in words
				shapes = append(shapes, b.All...)
			}
		case Field:
			for _, e := range b.WhileClosed {
				if tones, asks := e.(*Tones); asks {
					asked = &tones.Shown
				}
			}
		}
	}
	return w.Legend(shapes, asked)
}

// pairsShow reports whether a bracket below a shape says that strings sound the same note.
func pairsShow(blocks []Block) bool {
	return slices.ContainsFunc(blocks, func(b Block) bool {
		s, ok := b.(Shapes)
		return ok && slices.ContainsFunc(s.All, func(r drills.Reveal) bool { return len(r.Voicing.Doubled()) > 0 })
	})
}

// Words lists the words of the trade of a page, to be explained again and heard.
type Words struct {
	all    []meet.Term
	back   Place
	hinted func() // of the page that they are of
	mark   int
}

// Page implements Place.
func (l *Words) Page(w *Walk) Page {
	list := Choice{Mark: &l.mark, Pick: func(n int) Next {
		l.mark = n
		next := l.explain(w, l.all[n])
		next.OnlyInLines = true // the screen shows it below
		return next
	}}
	for _, t := range l.all {
		list.Lines = append(list.Lines, Line{Text: say.Of("{}", say.Words(t.ID)), Names: []string{t.ID}})
	}
	list.Lines = Numbered(list.Lines)
	back := BackTo(l.back)
	return Page{
		Blocks: []Block{Title("Words"), Gap{}, list, Gap{}, Seen{Text: l.all[l.mark].Means}},
		Acts:   list.Acts("hear it", back),
		Take:   list.Take, Ask: askWord, HelpBegins: askWord,
	}
}
