// Package asking is the way of a question: what is new and shown before it, the question, an answer that was played and does not count yet,
// and what came of the answer.
package asking

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/practice"
	"sparetone/drills/practice/session"
	"sparetone/synth"
	"sparetone/synth/playback"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// Question is a question of a practice.
type Question struct {
	Asked *session.Asked
	Waits bool        // the question waits for the sound device, and the clocks stand still
	Hand  *page.Hand  // enters frets; nil where the answer is none
	tones *page.Tones // enters degrees; nil where the answer is none

	attempt    *page.Attempt // at playing the answer; nil where none can be played, and until the microphone listens
	denied     []string      // answers that were heard and taken back before they counted
	mark       int           // index among the choices; -1 until one is marked
	saidBefore []say.Text    // in lines, before the question
}

// ask goes on to the next question and what is new in it, or to the end if the time is up. said is said before it in lines.
func ask(w *page.Walk, said []say.Text) page.Next {
	asked, err := w.App.Next()
	if err != nil {
		return w.Finish(err)
	}
	if asked == nil {
		return w.Finish(nil, page.Aloud(timeIsUp))
	}
	return putQuestion(w, asked, said)
}

// putQuestion puts a question, after what is new in it was shown.
func putQuestion(w *page.Walk, asked *session.Asked, said []say.Text) page.Next {
	switch m := w.Meet(); {
	case len(asked.Sounds) > 0 && !w.Setup.Silent && w.Session.Silent():
		return ask(w, said) // sound went away in the meantime
	case m != nil:
		first := !w.HasMet
		w.HasMet = true
		return meeting(w, &Meeting{Meeting: *m, New: true, firstOfRun: first, tellsNecks: tellsNecks(w, m), saidBefore: said, onward: func() page.Next { return putQuestion(w, asked, nil) }})
	}
	q := &Question{Asked: asked, mark: -1, saidBefore: said}
	switch {
	case asked.Form == drills.Tones:
		q.tones = page.NewTones(*asked.Shown)
	case asked.Form == drills.Frets:
		q.Hand = page.NewHand(w.Session.On().Tuning, nil)
		if asked.Shown != nil {
			q.Hand = page.NewHand(asked.Shown.Tuning, asked.Shown.Shape)
		}
		q.Hand.Changed = func(i int) page.Next { return q.Hand.Pluck(asked.Voice, i) }
	}
	if w.WaitsForSound(asked) {
		q.waitForSound(w)
	}
	return page.Next{To: q, Voice: asked.Voice, Sounds: asked.Sounds}
}

// standsStill implements standing.
func (q *Question) standsStill() bool { return q.Waits }

// waitForSound stops the clocks until there is sound.
func (q *Question) waitForSound(w *page.Walk) {
	q.Waits = true
	w.Session.Pause()
}

// Page implements Place.
func (q *Question) Page(w *page.Walk) page.Page {
	asked, typing := q.Asked, w.Settings.Typing
	p := page.Page{Take: func(typed string) page.Next { return q.take(w, typed) }, HelpBegins: leadQuestion(asked, typing), Ask: askQuestion(asked, typing), Waits: q.Waits, Explains: true, Hinted: func() {
		if !q.Waits {
			w.Session.Hinted()
		}
	}}
	for _, l := range q.saidBefore {
		p.Blocks = append(p.Blocks, page.Aloud(l))
	}
	p.Blocks = append(p.Blocks, page.Seen{Text: asked.Prompt, Tone: page.Strong}, page.Aloud(sayQuestion(asked)))
	if asked.Form == drills.Notes {
		p.Blocks = append(p.Blocks, page.Seen{Text: sayTypingSeen(asked), Tone: page.Quiet})
	}
	p.Blocks = append(append(p.Blocks, q.askToPlay(w)...), page.Gap{})
	field := page.Field{Label: "Your answer: ", Does: "answer", Complete: func(begun string) []string { return catalogue.Complete(asked.Question, begun) }, Open: typing, Empty: typeFirst}
	shown := w.Picture(asked.Question)
	block, enters := q.entry(w, typing)
	var first, ways, rest []page.Act
	switch {
	case block == nil:
		field.Open = true
		first = []page.Act{page.OnScreen("type").On("t enter")}
	default:
		field.WhileClosed, first, ways, rest = []page.Block{block}, enters[:1], nil, enters[1:]
	}
	if pictured := q.Hand != nil || q.tones != nil; pictured && !typing {
		field.WhileOpen, shown = shown, nil
		n := min(2, len(rest))
		ways, rest = rest[:n], rest[n:]
	}
	p.Blocks = append(append(p.Blocks, shown...), field)
	if q.Waits {
		p.Blocks = append(p.Blocks, page.Gap{}, page.Seen{Text: waiting, Tone: page.Quiet})
	}
	p.Acts = page.Only(slices.Concat(first, q.acts(w, ways, block != nil), rest)...)
	return p
}

// entry returns the block in which the screen enters an answer, with its acts; nil where an answer is typed.
func (q *Question) entry(w *page.Walk, typing bool) (page.Block, []page.Act) {
	switch {
	case typing:
	case q.tones != nil:
		q.tones.Fingers = w.Fingers
		return q.tones, []page.Act{page.Called("answer", func(string) page.Next { return q.tonesGiven(w) }), page.OnScreen("degree"), page.OnScreen("sign"), page.OnScreen("move"), page.OnScreen("clear").If(q.tones.Given[q.tones.At] != "")}
	case q.Hand != nil:
		hear := page.Called("hear", func(frets string) page.Next { return q.handHeard(w, frets) }).On("m").As("hear mine")
		hear.HelpOnly = false
		return q.Hand, append([]page.Act{page.Called("answer", func(string) page.Next { return q.handGiven(w) })}, append(page.HandActs(), hear.If(w.MayHear()))...)
	case q.Asked.Form == drills.Choose:
		list := page.Choice{Mark: &q.mark, Answers: true, Pick: func(n int) page.Next { return q.take(w, q.Asked.Choices[n].Typed) }, Unmarked: chooseFirst}
		for _, c := range q.Asked.Choices {
			list.Lines = append(list.Lines, page.Line{Text: c.Said})
		}
		list.Lines = page.Numbered(list.Lines)
		number, mark := page.NumberKeys(len(list.Lines)), page.OnScreen("mark").As("mark")
		if q.mark >= 0 {
			return list, []page.Act{page.Called("answer", func(string) page.Next { return list.Pick(q.mark) }), mark, number}
		}
		return list, []page.Act{number, mark}
	}
	return nil, nil
}

// acts are those that every question has, with ways to enter the answer among them.
func (q *Question) acts(w *page.Walk, ways []page.Act, types bool) []page.Act {
	asked := q.Asked
	again, open, slower, root := page.SoundActs(asked.Voice, asked.Sounds, func(opened bool) {
		switch {
		case q.Waits: // a device is looked for; what is not heard is not counted
		case opened:
			w.Session.Hinted()
		default:
			w.Session.Heard()
		}
	})
	hear := page.Called("hear", func(frets string) page.Next { return hearShape(w, q, asked.Voice, frets) })
	stop, stopAsked := stopActs(w, q)
	pass := page.Called("pass", func(string) page.Next { return q.take(w, drills.Unknown) })
	if asked.Form == drills.Choose { // elsewhere 0 is an open string
		pass.Keys, pass.Words, pass.Says = pass.Keys+" 0", pass.Words+"|0", " or 0"+pass.Says
	}
	if _, err := asked.Mark("d"); err != nil { // where it is no note and no chord, the key's letter is its word in lines
		pass.Words += "|d"
	}
	return slices.Concat([]page.Act{again, pass, open}, ways, []page.Act{ // that one may not know is said however narrow the screen is
		stop, stopAsked, timeAct(w),
		page.Called("why", func(string) page.Next { return page.Next{Said: session.WhyNow(asked), Stays: true} }),
		slower, root,
		w.TellsFingers(shownIn(asked.Question)...),
		page.OnScreen("type").If(types),
		takeBackAct(w, func() page.Next { return page.Next{} }),
		hear.If(w.MayHear() && (q.Hand == nil || w.Settings.Typing)),
	})
}

// handGiven answers with what the fingers hold. Enter alone, as it goes on elsewhere, is no answer.
func (q *Question) handGiven(w *page.Walk) page.Next {
	switch from := q.Asked.Shown; {
	case from != nil && slices.Equal(q.Hand.Shape, from.Shape):
		return page.Next{Said: moveFirst}
	case !q.Hand.Touched:
		return page.Next{Said: fingersFirst}
	}
	return q.take(w, q.Hand.Shape.String())
}

// handHeard plays frets that were typed, or what the fingers hold.
func (q *Question) handHeard(w *page.Walk, frets string) page.Next {
	if frets != "" {
		return hearShape(w, q, q.Asked.Voice, frets)
	}
	return page.Next{Voice: q.Asked.Voice, Sounds: drills.Once(synth.Strum, drills.SoundingsOf(q.Hand.Tuning, q.Hand.Shape))}
}

// tonesGiven answers with the degrees that were entered.
func (q *Question) tonesGiven(w *page.Walk) page.Next {
	if text, whole := q.tones.Text(); whole {
		return q.take(w, text)
	}
	return page.Next{Said: degreesFirst}
}

// take takes an answer.
func (q *Question) take(w *page.Walk, typed string) page.Next {
	if q.Waits {
		return page.Next{Said: notHeardYet}
	}
	return q.giveAnswer(w, typed, w.Answer)
}

// giveAnswer has an answer marked and kept by give, and goes to what came of it.
func (q *Question) giveAnswer(w *page.Walk, typed string, give func(*session.Asked, string) (drills.Verdict, error)) page.Next {
	v, err := give(q.Asked, typed)
	if err != nil && v.Result == 0 {
		next := page.Misfit(typed, err)
		next.Stays = true
		return next
	}
	next := reveal(w, q.Asked, v, func() page.Next { return ask(w, nil) })
	if err != nil {
		next.Said, next.Stays = practice.SentenceOf(err), true
	}
	return next
}

// SoundChanged lets the clocks run when the device has opened at last. Where there is none, the question is put aside
// unrecorded if there are others that need no ears, and else waits: what was not heard is not missed.
func (q *Question) SoundChanged(w *page.Walk) page.Next {
	switch state, _ := w.Speaker.State(); {
	case len(q.Asked.Sounds) == 0:
	case state == playback.NoDevice && w.Session.Silent():
		return ask(w, nil)
	case state == playback.NoDevice && !q.Waits:
		q.waitForSound(w)
		return page.Next{NewPage: true}
	case state == playback.Ready && q.Waits:
		q.Waits = false
		w.Session.Resume()
		next := page.Next{NewPage: true}
		if !w.Speaker.Playing() {
			next.Voice, next.Sounds = q.Asked.Voice, q.Asked.Sounds
		}
		return next
	}
	return page.Next{}
}

// shownIn returns the shape that a question shows, and nil where it shows none or asks to move a finger in it.
func shownIn(q *drills.Question) []drills.Reveal {
	if q.Shown == nil || q.Form == drills.Frets {
		return nil
	}
	return []drills.Reveal{{Voicing: *q.Shown}}
}
