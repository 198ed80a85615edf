package page

import (
	"sparetone/drills/bench"
	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// Ending is the end of a practice: what was learnt, sounds of it to hear again, a chord to take to the instrument, and when it goes on.
type Ending struct {
	failed error // why practice could not go on; nil if it simply ended
	sum    practice.Summary
	sounds []practice.Keepsake
	chord  *bench.Takeaway // nil if there is none
	mark   int
	said   []Block  // before it
	saved  say.Text // what came of saving it elsewhere; zero if that was not asked for
	song   *Song    // that was practised, to go back to; nil for today's page
}

// newEnding sums up the session, which is closed already.
func newEnding(w *Walk, failed error, said []Block) *Ending {
	e := &Ending{failed: failed, said: said, sum: practice.SumUp(&w.App), song: w.song}
	if e.sum.Asked == 0 {
		return e
	}
	if w.hears() {
		e.sounds = w.Keepsakes()
	}
	if chord, ok := w.Takeaway(); ok {
		e.chord = &chord
	}
	return e
}

// Page implements Place.
func (e *Ending) Page(w *Walk) Page {
	lost := w.Unkept()
	list := Choice{Mark: &e.mark, Pick: func(n int) Next { e.mark = n; return e.plays(n) }}
	heard := w.hears() && !w.Deviceless // a device may come or go while the page stands
	for _, k := range e.sounds {
		if heard {
			list.Lines = append(list.Lines, Line{Text: k.Name})
		}
	}
	list.Lines = numbered(list.Lines)
	p := Page{Blocks: append([]Block{title("Done for now"), Gap{}}, e.said...), Last: true, Passed: len(list.Lines) == 0 && e.chord == nil}
	if e.failed != nil {
		p.Blocks = append(append(p.Blocks, failing(e.failed)...), Gap{})
	}
	switch {
	case lost != "":
		p.Blocks = append(p.Blocks, Seen{Text: sayWrong(lost), Tone: Wrong}, Gap{})
	case !e.saved.IsZero():
		p.Blocks = append(p.Blocks, Seen{Text: sayRight(e.saved), Tone: Right}, Gap{})
	}
	p.Blocks = append(p.Blocks, Sentence{Text: say.Of("{} {}", e.sum.Counted(), e.sum.Ahead)})
	for _, l := range e.sum.Gained() {
		p.Blocks = append(p.Blocks, Sentence{Text: l})
	}
	if len(list.Lines) > 0 {
		p.Blocks = append(p.Blocks, Gap{}, Sentence{Text: soundsOfToday, Tone: Quiet}, list)
		p.Take = list.take
	}
	if e.chord != nil {
		p.Blocks = append(p.Blocks, Gap{}, Takeaway{*e.chord})
	}
	if lost != "" {
		p.Blocks = append(p.Blocks, Aloud(say.Of("{}", say.Foreign(lost))), Aloud(saySaveIn(w.Proposed())))
	}
	if !p.Passed {
		p.Ask = e.asks(len(list.Lines), e.chord != nil && heard)
		p.Lead = p.Ask
	}
	sounding := func(a Act) Act { return a.where(len(list.Lines) > 0) }
	p.Acts = only(
		called("leave", func(string) Next { return w.Leave() }).on("q esc").As("leave"),
		called("save", func(path string) Next { return w.saves(e, path) }).on("s ctrl+s").where(lost != ""),
		called("go on", func(string) Next { return e.goOn(w) }).As(e.wayBack()),
		sounding(numbers(max(1, len(list.Lines))).As("hear it")),
		called("chord", func(string) Next { return e.playsChord(w) }).where(e.chord != nil && heard),
		called("answers", func(string) Next { e.said = nil; return Next{To: &Answers{e.sum, e}, Anew: true} }).where(e.sum.Asked > 0),
		leads("known", func() Place {
			e.said = nil
			return newKnowledge(w, func() Next { return Next{To: e, Hush: true, Anew: true} })
		}),
		sounding(called("again", func(string) Next { return e.plays(e.mark) }).As("hear what is marked")),
		sounding(eye("mark")),
	)
	return p
}

// plays plays a sound of the session.
func (e *Ending) plays(n int) Next {
	return Next{Voice: e.sounds[n].Voice, Sounds: e.sounds[n].Sounds, Said: say.Sentence("{}.", e.sounds[n].Name), Aloud: true}
}

// playsChord plays the chord of the day after the plain one.
func (e *Ending) playsChord(w *Walk) Next {
	return Next{Voice: w.Session.On().Voices[0], Sounds: e.chord.Sounds()}
}

// goOn makes the next session, and goes back to today's page, or to the song that was practised.
func (e *Ending) goOn(w *Walk) Next {
	if err := w.Begin(w.Called); err != nil {
		return refused(err)
	}
	if w.song = nil; e.song != nil {
		return Next{To: e.song, Hush: true, Said: say.Of("Back to “{}”.", e.song.work.Title())}
	}
	return w.today()
}

// wayBack says where the page leads.
func (e *Ending) wayBack() string {
	if e.song != nil {
		return "back to the song"
	}
	return "back to today"
}

// finish closes the session and sums it up, said first; failed is why it could not go on, nil if it simply ended.
func (w *Walk) finish(failed error, said ...Block) Next {
	w.end()
	return Next{To: newEnding(w, failed, said)}
}

// keptIn tells on the page that practice was saved elsewhere.
func (e *Ending) keptIn(said say.Text) { e.saved = said }

// Takeaway is a chord to take to the instrument: the neck to begin from tells which finger stops what.
type Takeaway struct{ bench.Takeaway }

// Answers lists how each drill went in a session, and what is to come back to.
type Answers struct {
	sum  practice.Summary
	back *Ending
}

// Page implements Place.
func (a *Answers) Page(w *Walk) Page {
	weak := leads("weak", func() Place { return newWeak(w) })
	weak.Aside = false
	back := called("back", func(string) Next { return Next{To: a.back, Hush: true, Anew: true} })
	return Page{
		Blocks: []Block{title("All answers"), Gap{}, Summary(a.sum)},
		Acts:   only(back, weak.where(len(a.sum.Missed) > 0)), Ask: askWeak, Lead: askWeak,
	}
}

// soundsOfToday stands above the sounds of a session.
var soundsOfToday = say.Of("To hear once more:")

// asks says what can be typed at the end of a practice.
func (e *Ending) asks(sounds int, chord bool) string {
	out := ""
	if sounds > 0 {
		out = "Type a number to hear that sound again. "
	}
	if chord {
		out += "Type chord to hear today's chord. "
	}
	to := "today's practice"
	if e.song != nil {
		to = "the song"
	}
	return out + "An empty line goes back to " + to + "; answers lists all answers."
}
