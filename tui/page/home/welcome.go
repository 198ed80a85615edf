package home

import (
	"slices"
	"strconv"
	"strings"

	"sparetone/drills/course"
	"sparetone/drills/practice"
	"sparetone/drills/practice/setting"
	"sparetone/synth/playback"
	"sparetone/theory/fret"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// Welcome is the first run: a few questions, each of which enter or an empty line answers.
type Welcome struct {
	Step  int               // index in practice.Greetings
	Found *course.Placement // finds out how much is known; nil if nobody asked for that

	mark        int
	values      []string    // what the lines of the choice set
	lines       []page.Line // of the choice
	askedBefore bool        // the step was asked already: in lines it is not said once more what it is about
}

func newWelcome(w *page.Walk) *Welcome {
	g := &Welcome{}
	g.fill(w)
	return g
}

// fill lists what there is to choose from at this step, with what is set marked.
func (g *Welcome) fill(w *page.Walk) {
	g.mark, g.values, g.lines, g.askedBefore = 0, nil, nil, false
	k := setting.ByID(practice.Greetings[g.Step].Setting)
	if k == nil {
		return
	}
	g.values = practice.Greetings[g.Step].Choices()
	for _, v := range g.values {
		g.lines = append(g.lines, page.Line{Text: k.Short(v)})
	}
	switch g.Step {
	case practice.StepLevel:
		if name := g.foundLevel(); name != "" && !slices.Contains(g.values, name) {
			g.values = slices.Insert(g.values, 0, name)
			g.lines = slices.Insert(g.lines, 0, page.Line{Text: beginThere})
		}
	case stepInstrument:
		for i, t := range fret.Tunings() {
			g.lines[i].More = stringsOf(t)
		}
		if typed := k.Get(&w.Settings); !slices.Contains(g.values, typed) {
			g.values = slices.Insert(g.values, 0, typed)
			g.lines = slices.Insert(g.lines, 0, page.Line{Text: k.Short(typed)})
		}
	}
	g.lines = page.Numbered(g.lines)
	g.mark = max(0, slices.Index(g.values, k.Get(&w.Settings)))
}

// stepInstrument is the step of the first run that asks what is played.
const stepInstrument = 0

// saidFirst is how many instruments lines of text say before "more" is typed: ukuleles, the guitar and its tunings.
const saidFirst = 9

// aloud says a line in words.
func (g *Welcome) aloud(n int) say.Text {
	return setting.ByID(practice.Greetings[g.Step].Setting).Long(g.values[n])
}

// foundLevel returns the id of the level that was found, empty if none was looked for.
func (g *Welcome) foundLevel() string {
	if g.Found == nil {
		return ""
	}
	return g.Found.Found().Level().ID()
}

// takeFound takes up what a placement found, marked to be accepted; nil if it was stopped.
func (g *Welcome) takeFound(w *page.Walk, found *course.Placement) page.Next {
	if found != nil {
		g.Found = found
		g.fill(w)
		g.mark = slices.Index(g.values, g.foundLevel())
	}
	g.askedBefore = true
	return page.Next{To: g, Silence: true, NewPage: true}
}

// Page implements Place.
func (g *Welcome) Page(w *page.Walk) page.Page {
	step := practice.Greetings[g.Step]
	silent, deviceless := !w.MayHear(), w.MayHear() && w.Deviceless
	sounds := g.Step == practice.StepSound && !silent
	onward := page.Called("go on", func(string) page.Next { return g.goOn(w) })
	back := page.Called("back", func(string) page.Next { g.Step--; g.fill(w); return page.Next{NewPage: true} }).On("esc backspace").If(g.Step > 0)
	back.Words = "back"
	away := []page.Act{back,
		page.Called("leave", func(string) page.Next { return w.Leave() }).As("leave"),
		page.Called("later", func(string) page.Next { return g.over(w, nil) }),
	}
	p := page.Page{Ask: page.AskGoOn}
	if g.Step == 0 {
		p.Blocks = append(p.Blocks, page.Seen{Text: welcome, Tone: page.Strong}, page.Seen{Text: greeted, Tone: page.Quiet}, page.Aloud(greetedAloud), page.Gap{})
	} else {
		p.Blocks = append(p.Blocks, page.Seen{Text: sayStep(g.Step), Tone: page.Quiet})
	}
	p.Blocks = append(p.Blocks, g.told(w)...)
	p.Blocks = append(p.Blocks, page.Gap{})
	switch {
	case step.Setting != "":
		list := page.Choice{Lines: g.lines, Mark: &g.mark, Aloud: g.aloud, Pick: func(n int) page.Next { return g.pick(w, n) }, TopFirst: g.values[g.mark] == g.foundLevel(), Enters: true, SaidFirst: saidFirst}
		acts := list.Acts("go on", away...)
		onward.Do = func(string) page.Next { return g.pick(w, g.mark) }
		onward.Says = " takes what is set"
		acts[0] = onward
		p.Acts, p.Take = acts, func(typed string) page.Next { return g.take(w, list, typed) }
		p.Blocks, p.HelpBegins = append(p.Blocks, list), leadGreeting
		p.Ask = sayTaken(g.aloud(g.mark))
		return p
	case g.Step == practice.StepLast:
		onward.Does = "to today's practice"
	case sounds && deviceless:
		p.Acts = []page.Act{page.Called("again", func(string) page.Next { return sample(w) }).As("try again")}
	case sounds:
		louder := page.Called("louder", func(string) page.Next { return w.Louder(1) })
		softer := page.Called("softer", func(string) page.Next { return w.Louder(-1) })
		unheard := page.Called("unheard", func(string) page.Next { return g.unheard(w) }).As("no, nothing")
		unheard.HelpOnly = false
		p.Acts = []page.Act{unheard, page.Called("again", func(string) page.Next { return sample(w) }), louder, softer}
		p.Ask, onward.Words, onward.Does = askSound, "|yes", "yes"
	}
	p.Acts = page.Only(append(append([]page.Act{onward}, p.Acts...), away...)...)
	if g.Step == practice.StepSound {
		p.Blocks = append(p.Blocks, page.Seen{Text: soundWords(w)})
	}
	return p
}

// told returns what a step asks, for both faces.
func (g *Welcome) told(w *page.Walk) []page.Block {
	step := practice.Greetings[g.Step]
	if g.Step == practice.StepLevel && g.Found != nil {
		out := []page.Block{page.Title(titleWhatWasFound)}
		for _, l := range g.Found.Say() {
			out = append(out, page.Sentence{Text: l})
		}
		return append(out, page.Aloud(say.Of(step.Title)))
	}
	seen, aloud := say.Of(step.Title), sayGreeting(g.Step, step.Title)
	about, aboutAloud := say.Of("{}", say.Foreign(step.About)), say.Of("{}", say.Foreign(greetingAloud(g.Step)))
	if g.Step == practice.StepSound && (w.Deviceless || !w.Hears()) {
		without := soundOff
		if w.MayHear() {
			without = soundless
		}
		aloud, aboutAloud = sayGreeting(g.Step, without.title), say.Of(without.aloud)
		if !w.MayHear() || w.Deviceless {
			about = say.Of(without.about)
		}
	}
	if g.askedBefore {
		return []page.Block{page.Seen{Text: seen, Tone: page.Strong}, page.Aloud(seen), page.Seen{Text: about, Tone: page.Quiet}}
	}
	return []page.Block{page.Seen{Text: seen, Tone: page.Strong}, page.Aloud(aloud), page.Seen{Text: about, Tone: page.Quiet}, page.Aloud(aboutAloud)}
}

// pick takes a line of the choice.
func (g *Welcome) pick(w *page.Walk, n int) page.Next {
	if g.values[n] == setting.FindOut {
		return newPlacement(w, func(found *course.Placement) page.Next { return g.takeFound(w, found) })
	}
	return g.set(w, g.values[n])
}

// set sets what the step is about.
func (g *Welcome) set(w *page.Walk, value string) page.Next {
	k := setting.ByID(practice.Greetings[g.Step].Setting)
	if err := setTyped(w, k, value); err != nil {
		next := page.Refused(err)
		next.ToldInLines = []say.Text{say.Of("{}", say.Foreign(sayTaken(g.aloud(g.mark))))} // the step was told, and stands
		return next
	}
	next := g.goOn(w)
	next.Said, next.OnlyInLines = saySet(&w.Settings, k), true
	return next
}

// take takes what was typed: the number of a line, or what it says.
func (g *Welcome) take(w *page.Walk, list page.Choice, typed string) page.Next {
	for n, v := range g.values {
		list.Lines[n].Names = []string{v}
	}
	next := list.Take(typed)
	if practice.Greetings[g.Step].AsksToFindOut(typed) {
		next = g.pick(w, slices.Index(g.values, setting.FindOut))
	}
	if !next.Unknown {
		return next
	}
	if _, err := strconv.Atoi(typed); err == nil {
		return page.Next{Said: page.SayAnswers(len(g.values)), Wrong: true}
	}
	return g.set(w, typed)
}

// unheard asks by eye only from now on, until the program ends.
func (g *Welcome) unheard(w *page.Walk) page.Next {
	w.Setup.Silent = true
	next := g.goOn(w)
	next.Said = byEyeFromNow
	if err := w.Session.SetSilent(true); err != nil {
		next.Said = practice.SentenceOf(err)
	}
	return next
}

// goOn takes the next step; after the last one the first run is over.
func (g *Welcome) goOn(w *page.Walk) page.Next {
	if g.Step == practice.StepLast {
		return g.over(w, w.Welcomed())
	}
	g.Step++
	g.fill(w)
	next := page.Next{Silence: true, NewPage: true}
	if g.Step == practice.StepSound && w.MayHear() {
		next = sample(w)
		next.NewPage = true
	}
	return next
}

// over ends the first run. kept is why that could not be kept in the file; nil if it could, or need not be.
func (g *Welcome) over(w *page.Walk, kept error) page.Next {
	if g.Step == practice.StepLast {
		w.Caution()
	}
	begun := w.Begin(w.Called)
	next := opening(w)
	next.Silence = true
	switch {
	case begun != nil:
		next.Said = practice.SentenceOf(begun)
	case kept != nil:
		next.Said = sayNotKept(kept)
	}
	return next
}

// soundWords says how loud it is, where there is something to hear.
func soundWords(w *page.Walk) say.Text {
	switch state, _ := w.Speaker.State(); {
	case !w.MayHear() || w.Deviceless:
		return say.Text{}
	case state == playback.Opening:
		return deviceOpening
	}
	return sayOpenStrings(int(10*w.Speaker.Volume() + 0.5))
}

// stringsOf names the strings of a tuning.
func stringsOf(t *fret.Tuning) string {
	var names []string
	for n := len(t.Strings); n > 0; n-- {
		names = append(names, t.StringName(n))
	}
	return strings.Join(names, " ")
}
