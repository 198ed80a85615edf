package page

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/synth/playback"
	"sparetone/theory/say"
)

// Question is a question of a practice.
type Question struct {
	Asked *practice.Asked
	Held  bool // it waits for the sound device, and the clocks stand still
	Hand  *Hand
	Tones *Tones

	attempt *attempt   // at playing the answer; nil until something listens
	mark    int        // among the choices; -1 until one is marked
	said    []say.Text // before it
}

// ask goes on to the next question and what is to be met before it, or to the end if the time is up. said comes before it.
func (w *Walk) ask(said []say.Text) Next {
	asked, err := w.App.Next()
	if err != nil {
		return w.finish(err)
	}
	if asked == nil {
		return w.finish(nil, Aloud(timeIsUp))
	}
	return w.put(asked, said)
}

// put puts a question, after what is new in it was shown.
func (w *Walk) put(asked *practice.Asked, said []say.Text) Next {
	switch m := w.Meet(); {
	case len(asked.Sounds) > 0 && !w.Setup.Silent && w.Session.Silent():
		return w.ask(said) // sound went away in the meantime
	case m != nil:
		first := !w.hasMet
		w.hasMet = true
		return w.meeting(&Meeting{Meeting: *m, New: true, first: first, said: said, onward: func() Next { return w.put(asked, nil) }})
	}
	q := &Question{Asked: asked, mark: -1, said: said}
	switch {
	case asked.Form == drills.Tones:
		q.Tones = newTones(*asked.Shown)
	case asked.Form == drills.Frets:
		q.Hand = newHand(w.Session.On().Tuning, nil)
		if asked.Shown != nil {
			q.Hand = newHand(asked.Shown.Tuning, asked.Shown.Shape)
		}
		q.Hand.Changed = func(i int) Next { return q.Hand.pluck(asked.Voice, i) }
	}
	if w.WaitsForSound(asked) {
		q.hold(w)
	}
	return Next{To: q, Voice: asked.Voice, Sounds: asked.Sounds}
}

// hold stops the clocks until there is sound.
func (q *Question) hold(w *Walk) {
	q.Held = true
	w.Session.Pause()
}

// Page implements Place.
func (q *Question) Page(w *Walk) Page {
	asked, typing := q.Asked, w.Settings.Typing
	p := Page{Take: func(typed string) Next { return q.take(w, typed) }, Lead: leadQuestion(asked, typing), Ask: askQuestion(asked, typing), Waits: q.Held}
	for _, l := range q.said {
		p.Blocks = append(p.Blocks, Aloud(l))
	}
	p.Blocks = append(p.Blocks, Seen{Text: asked.Prompt, Tone: Strong}, Aloud(say.Of("Question {}. {}", say.Number(asked.Number), asked.Prompt)))
	if asked.Form == drills.Notes {
		p.Blocks = append(p.Blocks, Seen{Text: say.Of("Type {}.", asked.Typing()), Tone: Quiet})
	}
	p.Blocks = append(append(p.Blocks, q.toPlay(w)...), Gap{})
	field := Field{Label: "Your answer: ", Does: "answer", Complete: func(begun string) []string { return catalogue.Complete(asked.Question, begun) }, Open: typing, Empty: typeFirst}
	shown := w.picture(asked.Question)
	block, enters := q.entry(w, typing)
	var first, ways, rest []Act
	switch {
	case block == nil:
		field.Open = true
		first = []Act{eye("type").on("t enter")}
	default:
		field.Else, first, ways, rest = []Block{block}, enters[:1], nil, enters[1:]
	}
	if pictured := q.Hand != nil || q.Tones != nil; pictured && !typing {
		field.Before, shown = shown, nil
		n := min(2, len(rest))
		ways, rest = rest[:n], rest[n:]
	}
	p.Blocks = append(append(p.Blocks, shown...), field)
	if q.Held {
		p.Blocks = append(p.Blocks, Gap{}, Seen{Text: waiting, Tone: Quiet})
	}
	p.Acts = only(slices.Concat(first, q.acts(w, ways, block != nil), rest)...)
	return p
}

// entry is how the screen enters an answer, with what can be done there; nil if it is typed.
func (q *Question) entry(w *Walk, typing bool) (Block, []Act) {
	switch {
	case typing:
	case q.Tones != nil:
		q.Tones.Fingers = w.Fingers
		return q.Tones, []Act{called("answer", func(string) Next { return q.tonesGiven(w) }), eye("degree"), eye("sign"), eye("move"), eye("clear").where(q.Tones.Given[q.Tones.At] != "")}
	case q.Hand != nil:
		hear := called("hear", func(frets string) Next { return q.handHeard(w, frets) }).on("m").As("hear mine")
		hear.Aside = false
		return q.Hand, append([]Act{called("answer", func(string) Next { return q.handGiven(w) })}, append(handActs(), hear.where(w.hears()))...)
	case q.Asked.Form == drills.Choose:
		list := Choice{Mark: &q.mark, Answers: true, Pick: func(n int) Next { return q.take(w, q.Asked.Choices[n].Typed) }, Unset: chooseFirst}
		for _, c := range q.Asked.Choices {
			list.Lines = append(list.Lines, Line{Text: c.Said})
		}
		list.Lines = numbered(list.Lines)
		number, mark := numbers(len(list.Lines)), eye("mark").As("mark")
		if q.mark >= 0 {
			return list, []Act{called("answer", func(string) Next { return list.Pick(q.mark) }), mark, number}
		}
		return list, []Act{number, mark}
	}
	return nil, nil
}

// acts are those that every question has, with ways to enter the answer among them.
func (q *Question) acts(w *Walk, ways []Act, types bool) []Act {
	asked := q.Asked
	again, open, slower, root := sounding(asked.Voice, asked.Sounds, func(opened bool) {
		switch {
		case q.Held: // a device is looked for; what is not heard is not counted
		case opened:
			w.Session.Hinted()
		default:
			w.Session.Heard()
		}
	})
	hear := called("hear", func(frets string) Next { return w.hear(q, asked.Voice, frets) })
	stop, stopAsked := w.stops(q)
	pass := called("pass", func(string) Next { return q.take(w, drills.Unknown) })
	if asked.Form == drills.Choose { // elsewhere 0 is an open string
		pass.Keys, pass.Words = pass.Keys+" 0", pass.Words+"|0"
	}
	return slices.Concat([]Act{again, open}, ways, []Act{
		stop, stopAsked, pass, w.time(),
		called("why", func(string) Next { return Next{Said: practice.WhyNow(asked), Stays: true} }),
		slower, root,
		w.fingers(shownIn(asked.Question)...),
		eye("type").where(types),
		w.takesBack(func() Next { return Next{} }),
		hear.where(w.hears() && (q.Hand == nil || w.Settings.Typing)),
	})
}

// handGiven answers with what the fingers hold. Enter alone, as it goes on elsewhere, is no answer.
func (q *Question) handGiven(w *Walk) Next {
	switch from := q.Asked.Shown; {
	case from != nil && slices.Equal(q.Hand.Shape, from.Shape):
		return Next{Said: moveFirst}
	case !q.Hand.Touched:
		return Next{Said: fingersFirst}
	}
	return q.take(w, q.Hand.Shape.String())
}

// handHeard plays frets that were typed, or what the fingers hold.
func (q *Question) handHeard(w *Walk, frets string) Next {
	if frets != "" {
		return w.hear(q, q.Asked.Voice, frets)
	}
	return Next{Voice: q.Asked.Voice, Sounds: drills.Once(synth.Strum, drills.SoundingsOf(q.Hand.Tuning, q.Hand.Shape))}
}

// tonesGiven answers with the degrees that were entered.
func (q *Question) tonesGiven(w *Walk) Next {
	if text, whole := q.Tones.text(); whole {
		return q.take(w, text)
	}
	return Next{Said: degreesFirst}
}

// take takes an answer.
func (q *Question) take(w *Walk, typed string) Next {
	if q.Held {
		return Next{Said: notHeardYet}
	}
	return q.marked(w, typed, w.Answer)
}

// marked gives an answer, and shows what came of it.
func (q *Question) marked(w *Walk, typed string, give func(*practice.Asked, string) (drills.Verdict, error)) Next {
	v, err := give(q.Asked, typed)
	if err != nil && v.Result == 0 {
		next := misfit(typed, err)
		next.Stays = true
		return next
	}
	next := w.reveal(q.Asked, v)
	if err != nil {
		next.Said, next.Stays = practice.SentenceOf(err), true
	}
	return next
}

// soundChanged lets the clocks run when the device has opened at last. Where there is none, the question is put aside
// unrecorded if there are others that need no ears, and else waits: what was not heard is not missed.
func (q *Question) soundChanged(w *Walk) Next {
	switch state, _ := w.Speaker.State(); {
	case len(q.Asked.Sounds) == 0:
	case state == playback.NoDevice && w.Session.Silent():
		return w.ask(nil)
	case state == playback.NoDevice && !q.Held:
		q.hold(w)
		return Next{Anew: true}
	case state == playback.Ready && q.Held:
		q.Held = false
		w.Session.Resume()
		next := Next{Anew: true}
		if !w.Speaker.Playing() {
			next.Voice, next.Sounds = q.Asked.Voice, q.Asked.Sounds
		}
		return next
	}
	return Next{}
}
