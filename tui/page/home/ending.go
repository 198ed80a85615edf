package home

import (
	"sparetone/drills/bench"
	"sparetone/drills/practice"
	"sparetone/theory/say"
	"sparetone/tui/page"
	"sparetone/tui/page/songs"
)

// Ending is the end of a practice: what was learnt, sounds of it to hear again, a chord to take to the instrument, and when it goes on.
type Ending struct {
	failed     error // why practice could not go on; nil if it simply ended
	sum        practice.Summary
	sounds     []practice.Keepsake // to hear once more; nil without sound
	chord      *bench.Takeaway     // to play on the instrument; nil if there is none
	mark       int                 // index among sounds
	saidBefore []page.Block        // before all else
	saved      say.Text            // what came of saving practice in another file; zero if nobody asked for that
	song       *songs.Song         // the song that was practised, to go back to; nil for today's page
}

// newEnding sums up the session, which is closed already.
func newEnding(w *page.Walk, failed error, said []page.Block) *Ending {
	e := &Ending{failed: failed, saidBefore: said, sum: practice.SumUp(&w.App)}
	e.song, _ = w.BegunFrom.(*songs.Song)
	if e.sum.Asked == 0 {
		return e
	}
	if w.MayHear() {
		e.sounds = w.Keepsakes()
	}
	if chord, ok := w.Takeaway(); ok {
		e.chord = &chord
	}
	return e
}

// Page implements Place.
func (e *Ending) Page(w *page.Walk) page.Page {
	lost := w.Unkept()
	list := page.Choice{Mark: &e.mark, Pick: func(n int) page.Next { e.mark = n; return e.plays(n) }}
	heard := w.MayHear() && !w.Deviceless // a device may come or go while the page stands
	for _, k := range e.sounds {
		if heard {
			list.Lines = append(list.Lines, page.Line{Text: k.Name})
		}
	}
	list.Lines = page.Numbered(list.Lines)
	p := page.Page{Blocks: append([]page.Block{page.Title(titleDoneForNow), page.Gap{}}, e.saidBefore...), Last: true, OnlySaid: len(list.Lines) == 0 && e.chord == nil}
	if e.failed != nil {
		p.Blocks = append(append(p.Blocks, page.Failing(e.failed)...), page.Gap{})
	}
	switch {
	case lost != "":
		p.Blocks = append(p.Blocks, page.Seen{Text: sayWrong(lost), Tone: page.Wrong}, page.Gap{})
	case !e.saved.IsZero():
		p.Blocks = append(p.Blocks, page.Seen{Text: sayRight(e.saved), Tone: page.Right}, page.Gap{})
	}
	p.Blocks = append(p.Blocks, page.Sentence{Text: say.Of("{} {}", e.sum.Counted(), e.sum.Ahead)})
	if back := practice.SayTakenBack(e.sum.TakenBack); !back.IsZero() {
		p.Blocks = append(p.Blocks, page.Sentence{Text: back, Tone: page.Quiet})
	}
	for _, l := range e.sum.Gained() {
		p.Blocks = append(p.Blocks, page.Sentence{Text: l})
	}
	if len(list.Lines) > 0 {
		p.Blocks = append(p.Blocks, page.Gap{}, page.Sentence{Text: soundsOfToday, Tone: page.Quiet}, list)
		p.Take = list.Take
	}
	if e.chord != nil {
		p.Blocks = append(p.Blocks, page.Gap{}, page.Takeaway{Takeaway: *e.chord})
	}
	if lost != "" {
		p.Blocks = append(p.Blocks, page.Aloud(say.Of("{}", say.Foreign(lost))), page.Aloud(saySaveIn(w.Proposed())))
	}
	if !p.OnlySaid {
		p.Ask = askEnding(len(list.Lines), e.chord != nil && heard, e.song != nil)
		p.HelpBegins = p.Ask
	}
	sounding := func(a page.Act) page.Act { return a.If(len(list.Lines) > 0) }
	p.Acts = page.Only(
		page.Called("leave", func(string) page.Next { return w.Leave() }).On("q esc").As("leave"),
		page.Called("save", func(path string) page.Next { return w.SaveElsewhere(e, path) }).On("s ctrl+s").If(lost != ""),
		page.Called("go on", func(string) page.Next { return e.goOn(w) }).As(e.wayBack()),
		sounding(page.NumberKeys(max(1, len(list.Lines))).As("hear it")),
		page.Called("chord", func(string) page.Next { return e.playsChord(w) }).If(e.chord != nil && heard),
		page.Called("answers", func(string) page.Next { e.saidBefore = nil; return page.Next{To: &Answers{e.sum, e}, NewPage: true} }).If(e.sum.Asked > 0),
		page.Leads("known", func() page.Place {
			e.saidBefore = nil
			return newKnowledge(w, func() page.Next { return page.Next{To: e, Silence: true, NewPage: true} })
		}),
		sounding(page.Called("again", func(string) page.Next { return e.plays(e.mark) }).As("hear what is marked")),
		sounding(page.OnScreen("mark")),
	)
	return p
}

// plays plays a sound of the session.
func (e *Ending) plays(n int) page.Next {
	return page.Next{Voice: e.sounds[n].Voice, Sounds: e.sounds[n].Sounds, Said: say.Sentence("{}.", e.sounds[n].Name), OnlyInLines: true}
}

// playsChord plays the chord of the day after the plain one.
func (e *Ending) playsChord(w *page.Walk) page.Next {
	return page.Next{Voice: w.Session.On().Voices[0], Sounds: e.chord.Sounds()}
}

// goOn makes the next session, and goes back to today's page, or to the song that was practised.
func (e *Ending) goOn(w *page.Walk) page.Next {
	if err := w.Begin(w.Called); err != nil {
		return page.Refused(err)
	}
	if w.BegunFrom = nil; e.song != nil {
		return page.Next{To: e.song, Silence: true, Said: sayBackTo(e.song.Work().Title())}
	}
	return w.GoToToday()
}

// wayBack says where the page leads.
func (e *Ending) wayBack() string {
	if e.song != nil {
		return "back to the song"
	}
	return "back to today"
}

// KeptIn tells on the page that practice was saved elsewhere.
func (e *Ending) KeptIn(said say.Text) { e.saved = said }

// Answers lists how each drill went in a session, and what was missed.
type Answers struct {
	sum  practice.Summary
	back *Ending
}

// Page implements Place.
func (a *Answers) Page(w *page.Walk) page.Page {
	weak := page.Leads("weak", func() page.Place { return newWeak(w) })
	weak.HelpOnly = false
	back := page.Called("back", func(string) page.Next { return page.Next{To: a.back, Silence: true, NewPage: true} })
	return page.Page{
		Blocks: []page.Block{page.Title(titleAllAnswers), page.Gap{}, page.Summary(a.sum)},
		Acts:   page.Only(back, weak.If(len(a.sum.Missed) > 0)), Ask: askWeak, HelpBegins: askWeak,
	}
}
