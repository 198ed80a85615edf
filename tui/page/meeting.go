package page

import (
	"sparetone/drills"
	"sparetone/drills/inturn"
	"sparetone/drills/meet"
	"sparetone/drills/practice"
	"sparetone/synth/playback"
	"sparetone/theory/say"
)

// Meeting shows one thing that is taught, and asks nothing: what it is like, how it sounds and is held, and what it is told from.
type Meeting struct {
	meet.Meeting
	New bool // it is shown because it comes next; else it was asked for

	first   bool // of the program's run: lines of text say what can be typed
	at      int  // the look that shows
	onward  func() Next
	said    []say.Text // before it
	attempt *attempt   // at the shape of the look that was tried last; nil if none was
	tried   int
}

// meets shows what a question is about, and leads back to where one was.
func (w *Walk) meets(r *Reveal) Next {
	m, err := w.Session.MeetAgain(r.Asked)
	if err != nil {
		return refused(err)
	}
	return w.meeting(&Meeting{Meeting: m, onward: func() Next { return Next{To: r, Hush: true} }})
}

// meeting goes to a meeting, which sounds by itself.
func (w *Walk) meeting(m *Meeting) Next {
	m.at = m.First()
	return Next{To: m, Voice: m.Voice, Sounds: m.Opening()}
}

// mostAtOnce is how many sounds a meeting plays by itself at the most: one row of chords, or a thing and what it is told from.
const mostAtOnce = 4

// Opening is what a meeting sounds like by itself: the thing and then what it is told from, or the thing alone where that is much. None
// rings longer than it takes to tell it; each look by itself rings to its end.
func (m *Meeting) Opening() []drills.Sound {
	var own, all []drills.Sound
	for _, l := range m.Looks() {
		if all = append(all, l.Sounds...); !l.Beside {
			own = append(own, l.Sounds...)
		}
	}
	if len(all) > mostAtOnce || m.Known {
		all = own
	}
	return inturn.Brief(all)
}

// Page implements Place.
func (m *Meeting) Page(w *Walk) Page {
	looks := m.Looks()
	look := looks[m.at]
	var blocks []Block
	for _, l := range m.said {
		blocks = append(blocks, Aloud(l))
	}
	blocks = append(blocks, m.sentences()...)
	blocks = append(blocks, Sounding{w.Sounding})
	shown := Shapes{Fingers: w.Fingers}
	for i, l := range looks {
		if l.Shape == nil || look.Shape == nil {
			continue
		}
		if i == m.at {
			shown.At = len(shown.All)
		}
		if w.Sounding != nil && w.Sounding.Label.Equal(l.Name) && shown.Now == 0 {
			shown.Now = len(shown.All) + 1
		}
		shown.All = append(shown.All, drills.Reveal{Caption: l.Name, Voicing: *l.Shape, Mark: l.Mark})
	}
	if look.Shape == nil {
		blocks = append(blocks, Seen{Text: say.Sentence("{}", look.Name), Tone: Strong})
	}
	if moved := m.Moved(); !moved.IsZero() {
		shown.Lines, shown.Unsaid = []say.Text{moved}, true
	}
	blocks = append(blocks, shown)
	if a := m.toPlay(w); a != nil {
		blocks = append(blocks, Seen{Text: a.asks(), Tone: Quiet}, Aloud(a.Asks()))
	}
	for _, l := range m.spoken(w) {
		blocks = append(blocks, Aloud(l))
	}
	again, _, _, _ := sounding(m.Voice, m.Opening(), func(bool) {})
	_, open, slower, root := sounding(m.Voice, look.Sounds, func(bool) {})
	silent := !w.hears() || w.Deviceless
	stop, stopAsked := w.stops(m)
	stay := called("back", func(string) Next { return m.onward() })
	stay.Words, stay.Says = "stop", ", to go back"
	ask := ""
	if m.first || !m.New {
		ask = askGreeting
	}
	return Page{
		Blocks: blocks,
		Ask:    ask,
		Acts: only(
			called("go on", func(string) Next { return m.goOn(w) }),
			called("flip", func(string) Next { return m.flip(looks) }).where(len(looks) > 1),
			again.off(silent, nothingToHear),
			stop.where(!w.Fresh()), stopAsked.where(!w.Fresh()),
			stay.where(w.Fresh()), // no practice has begun that could be ended
			called("skip", func(string) Next { return m.skip(w) }).where(m.New),
			open.off(silent, nothingToHear), slower.off(silent, nothingToHear), root.off(silent, nothingToHear),
			w.fingers(shown.All...),
			called("made of", func(string) Next { return Next{Said: m.MadeOf(), Told: m.unspoken(), Stays: true} }),
		),
	}
}

// sentences say what it is, above its shapes.
func (m *Meeting) sentences() []Block {
	var blocks []Block
	name := say.Sentence("{}", m.Name)
	if m.New && m.Known {
		both := m.Name
		if m.Beside != nil {
			both = say.Of("{} and {}", m.Name, m.Beside.Name)
		}
		name = say.Sentence("{}", both)
		return append(blocks, Seen{Text: moreShapes, Tone: Quiet}, Seen{Text: name, Tone: Strong}, Aloud(sayMoreShapes(both)))
	}
	if m.New {
		blocks = append(blocks, Seen{Text: somethingNew(m.Drill), Tone: Quiet}, Seen{Text: name, Tone: Strong}, Aloud(sayNew(m.Drill, m.Name)))
	} else {
		blocks = append(blocks, Sentence{Text: name, Tone: Strong})
	}
	blocks = append(blocks, Sentence{Text: m.Like})
	if !m.Answer.IsZero() {
		blocks = append(blocks, Sentence{Text: sayAsAnswer(m.Within, m.Answer)})
	}
	if m.Beside != nil {
		blocks = append(blocks, Sentence{Text: sayBeside(m.Beside.Name), Tone: Quiet})
	}
	return blocks
}

// spoken is what lines of text say in place of the picture: of what is asked by ear the names of what sounds, in turn, else how each
// shape is held, and what stands under it if that is asked for. The rest waits behind "why".
func (m *Meeting) spoken(w *Walk) []say.Text {
	if !m.Ears {
		return append(m.Held(), m.Under()...)
	}
	if !w.hears() || w.Deviceless {
		return nil
	}
	if row := m.Row(); len(row) > 0 {
		return []say.Text{sayRow(row)}
	}
	return []say.Text{inturn.Foretold(m.Opening())}
}

// unspoken is what of the picture lines of text have not said.
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
func (m *Meeting) flip(looks []meet.Look) Next {
	m.at = (m.at + 1) % len(looks)
	return Next{Voice: m.Voice, Sounds: looks[m.at].Sounds, Said: say.Sentence("{}.", looks[m.at].Name), Aloud: true}
}

// goOn keeps that it was met, and goes on.
func (m *Meeting) goOn(w *Walk) Next {
	if !m.New {
		return m.onward()
	}
	wrong := w.Session.Met(&m.Meeting)
	return told(wrong, m.onward())
}

// skip goes on to the question, without what else is new in it.
func (m *Meeting) skip(w *Walk) Next {
	wrong := w.Session.MeetNone()
	return told(wrong, m.onward())
}

// told says what is wrong with the file, if anything, where one goes.
func told(wrong error, next Next) Next {
	if wrong != nil {
		next.Said, next.Stays = practice.SentenceOf(wrong), true
	}
	next.Hush = true
	return next
}

// soundChanged plays what could not be heard.
func (m *Meeting) soundChanged(w *Walk) Next {
	if state, _ := w.Speaker.State(); state == playback.Ready && !w.Speaker.Playing() {
		return Next{Voice: m.Voice, Sounds: m.Opening()}
	}
	return Next{}
}
