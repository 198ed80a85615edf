package asking

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/inturn"
	"sparetone/drills/meet"
	"sparetone/drills/played"
	"sparetone/drills/practice"
	"sparetone/synth/capture"
	"sparetone/synth/playback"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// Meeting shows one thing that is taught, and asks nothing: what it is like, how it sounds and is held, and what it is told from.
type Meeting struct {
	meet.Meeting
	New bool // the meeting comes before a question; else somebody asked for it

	firstOfRun bool             // the first that is New since the program began: lines of text say what can be typed
	tellsNecks bool             // the first that shows a shape, or in lines says its frets: it says how that is done
	look       int              // index of the look that shows
	onward     func() page.Next // where "go on" leads
	saidBefore []say.Text       // in lines, before the meeting
	attempt    *page.Attempt    // at playing the shape of look triedLook; nil if none was played yet
	triedLook  int
}

// tellsNecks reports whether a meeting is the first on this file to show a shape, or in lines to say its frets, and keeps that it was shown.
// What cannot be kept is said once more another time.
func tellsNecks(w *page.Walk, m *meet.Meeting) bool {
	shows := slices.ContainsFunc(m.Looks(), func(l meet.Look) bool { return l.Shape != nil })
	if !shows || w.Spoken && m.Ears || w.KnowsNecks(w.Spoken) {
		return false
	}
	_ = w.TellNecks(w.Spoken)
	return true
}

// ShowAgain goes to a meeting that somebody asked for; onward is where "go on" leads from it.
func ShowAgain(w *page.Walk, m meet.Meeting, onward func() page.Next) page.Next {
	return meeting(w, &Meeting{Meeting: m, onward: onward})
}

// meeting goes to a meeting, which sounds by itself.
func meeting(w *page.Walk, m *Meeting) page.Next {
	m.look = m.First()
	return page.Next{To: m, Voice: m.Voice, Sounds: m.Opening()}
}

// mostAtOnce is how many sounds a meeting plays by itself at the most: one row of chords, or a thing and what it is told from.
const mostAtOnce = 4

// Opening is what a meeting sounds like by itself: the thing and then what it is told from, or the thing alone where that is much, or is
// another answer about the same sound. None
// rings longer than it takes to tell it; each look by itself rings to its end.
func (m *Meeting) Opening() []drills.Sound {
	var own, all []drills.Sound
	for _, l := range m.Looks() {
		if all = append(all, l.Sounds...); !l.Beside {
			own = append(own, l.Sounds...)
		}
	}
	if len(all) > mostAtOnce || m.Known || m.Beside != nil && m.Beside.Answer {
		all = own
	}
	return inturn.Brief(all)
}

// Page implements Place.
func (m *Meeting) Page(w *page.Walk) page.Page {
	looks := m.Looks()
	look := looks[m.look]
	var blocks []page.Block
	for _, l := range m.saidBefore {
		blocks = append(blocks, page.Aloud(l))
	}
	blocks = append(blocks, m.sentences()...)
	at := len(blocks)
	blocks = append(blocks, page.Sounding{Now: w.Sounding})
	shown := page.Shapes{Fingers: w.Fingers}
	for i, l := range looks {
		if l.Shape == nil || look.Shape == nil {
			continue
		}
		if i == m.look && shown.Now == 0 {
			shown.At = len(shown.All)
		}
		if w.Sounding != nil && w.Sounding.Label.Equal(l.Name) && shown.Now == 0 {
			shown.At, shown.Now = len(shown.All), len(shown.All)+1
			blocks[at] = page.Gap{} // its shape says so
		}
		shown.All = append(shown.All, drills.Reveal{Caption: l.Name, Voicing: *l.Shape, Mark: l.Mark, InTurn: l.Sounds[0].InTurn()})
	}
	if look.Shape == nil {
		blocks = append(blocks, page.Seen{Text: say.Sentence("{}", look.Name), Tone: page.Strong})
	}
	if moved := m.Moved(); !moved.IsZero() {
		shown.Lines, shown.Unsaid = []say.Text{moved}, true
	}
	blocks = append(blocks, shown)
	if m.tellsNecks {
		on := w.Session.On().Tuning
		first, last := say.String{On: on, Number: len(on.Strings)}, say.String{On: on, Number: 1}
		blocks = append(blocks, page.Gap{IfRoom: true}, page.Seen{Text: howNecksAreDrawn, Tone: page.Quiet}, page.Aloud(sayHowFretsAreSaid(first, last)))
	}
	if a := m.attemptAtShape(w); a != nil {
		blocks = append(blocks, page.Seen{Text: a.LastWord(), Tone: page.Quiet}, page.Aloud(a.Asks()))
	}
	for _, l := range m.spoken(w) {
		blocks = append(blocks, page.Aloud(l))
	}
	again, _, _, _ := page.SoundActs(m.Voice, m.Opening(), func(bool) {})
	_, open, slower, root := page.SoundActs(m.Voice, look.ByItself(), func(bool) {})
	silent := !w.MayHear() || w.Deviceless
	stop, stopAsked := stopActs(w, m)
	stay := page.Called("back", func(string) page.Next { return m.onward() })
	stay.Words, stay.Says = "stop", ", to go back"
	ask := ""
	if m.firstOfRun || !m.New {
		ask = page.AskGoOn
	}
	return page.Page{
		Explains: true, Written: m.Written(),
		Blocks: blocks,
		Ask:    ask,
		Acts: page.Only(
			page.Called("go on", func(string) page.Next { return m.goOn(w) }),
			page.Called("flip", func(string) page.Next { return m.flip(looks) }).If(len(looks) > 1),
			again.OffIf(silent, page.NothingToHear),
			stop.If(!w.Fresh()), stopAsked.If(!w.Fresh()),
			stay.If(w.Fresh()), // no practice has begun that could be ended
			page.Called("skip", func(string) page.Next { return m.skip(w) }).If(m.New),
			open.OffIf(silent, page.NothingToHear), slower.OffIf(silent, page.NothingToHear), root.OffIf(silent, page.NothingToHear),
			w.TellsFingers(shown.All...),
			page.Called("made of", func(string) page.Next { return page.Next{Said: m.MadeOf(), ToldInLines: m.unspoken(), Stays: true} }),
		),
	}
}

// sentences say what it is, above its shapes.
func (m *Meeting) sentences() []page.Block {
	var blocks []page.Block
	name := say.Sentence("{}", m.Name)
	if m.New && m.Known {
		both := m.Name
		if m.Beside != nil {
			both = sayBoth(m.Name, m.Beside.Name)
		}
		name = say.Sentence("{}", both)
		return append(blocks, page.Seen{Text: moreShapes, Tone: page.Quiet}, page.Seen{Text: name, Tone: page.Strong}, page.Aloud(sayMoreShapes(both)))
	}
	if m.New {
		blocks = append(blocks, page.Seen{Text: somethingNew(m.Drill), Tone: page.Quiet}, page.Seen{Text: name, Tone: page.Strong}, page.Aloud(sayNew(m.Drill, m.Name)))
	} else {
		blocks = append(blocks, page.Sentence{Text: name, Tone: page.Strong})
	}
	if !m.Like.IsZero() {
		blocks = append(blocks, page.Sentence{Text: m.Like})
	}
	if !m.Answer.IsZero() {
		blocks = append(blocks, page.Sentence{Text: sayAsAnswer(m.Within, m.Answer)})
	}
	switch {
	case m.Beside != nil && m.Beside.Answer:
		blocks = append(blocks, page.Sentence{Text: sayNot(m.Beside.Name), Tone: page.Quiet})
	case m.Beside != nil:
		blocks = append(blocks, page.Sentence{Text: sayBeside(m.Beside.Name), Tone: page.Quiet})
	}
	return blocks
}

// spoken returns what lines of text say in place of the picture: the names of what sounds, in turn, where the drill is of the ear, and else
// how each shape is held, and what stands under it where that is asked. The rest waits behind "why".
func (m *Meeting) spoken(w *page.Walk) []say.Text {
	if !m.Ears {
		return append(m.Held(), m.Under()...)
	}
	if !w.MayHear() || w.Deviceless {
		return nil
	}
	if row := m.Row(); len(row) > 0 {
		return []say.Text{sayRow(row)}
	}
	return []say.Text{inturn.Foretold(m.Opening())}
}

// unspoken returns what the picture shows and spoken leaves out.
func (m *Meeting) unspoken() []say.Text {
	var told []say.Text
	if m.Ears {
		told = m.Held()
	}
	if moved := m.Moved(); !moved.IsZero() {
		told = append(told, moved)
	}
	return told
}

// flip shows and plays the next look.
func (m *Meeting) flip(looks []meet.Look) page.Next {
	m.look = (m.look + 1) % len(looks)
	return page.Next{Voice: m.Voice, Sounds: looks[m.look].ByItself(), Said: say.Sentence("{}.", looks[m.look].Name), OnlyInLines: true}
}

// goOn keeps that it was met, and goes on.
func (m *Meeting) goOn(w *page.Walk) page.Next {
	if !m.New {
		return m.onward()
	}
	wrong := w.Session.Met(&m.Meeting)
	return withFault(wrong, m.onward())
}

// skip goes on to the question, without what else is new in it.
func (m *Meeting) skip(w *page.Walk) page.Next {
	wrong := w.Session.MeetNone()
	return withFault(wrong, m.onward())
}

// withFault returns next with what is wrong with the file, as long as one stays there. wrong is nil where nothing is.
func withFault(wrong error, next page.Next) page.Next {
	if wrong != nil {
		next.Said, next.Stays = practice.SentenceOf(wrong), true
	}
	next.Silence = true
	return next
}

// SoundChanged plays what could not be heard.
func (m *Meeting) SoundChanged(w *page.Walk) page.Next {
	if state, _ := w.Speaker.State(); state == playback.Ready && !w.Speaker.Playing() {
		return page.Next{Voice: m.Voice, Sounds: m.Opening()}
	}
	return page.Next{}
}

// attemptAtShape is an attempt at the shape that shows, after a meeting; nil where none shows, or nothing listens.
func (m *Meeting) attemptAtShape(w *page.Walk) *page.Attempt {
	shape := m.Looks()[m.look].Shape
	if shape == nil || shape.Chord.Kind == nil || !w.Listens() {
		return nil
	}
	if m.attempt == nil || m.triedLook != m.look {
		m.attempt, m.triedLook = &page.Attempt{Attempt: played.NewShapeAttempt(*shape, w.HeardA4())}, m.look
	}
	return m.attempt
}

// ToPlay says that the shape that shows can be played; zero where none does.
func (m *Meeting) ToPlay(w *page.Walk) say.Text {
	if a := m.attemptAtShape(w); a != nil {
		return a.LastWord()
	}
	return say.Text{}
}

// Heard says what was heard of the shape that shows. It is no answer.
func (m *Meeting) Heard(w *page.Walk, sound capture.Sound) page.Next {
	a := m.attemptAtShape(w)
	if a == nil {
		return page.Next{}
	}
	came := a.Follow(w, sound)
	if !came.Amiss.IsZero() {
		came.Says, a.Word = came.Amiss, came.Amiss
	}
	return page.WordOn(came)
}
