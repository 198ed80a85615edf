package page

import (
	"slices"
	"strings"

	"sparetone/drills/course"
	"sparetone/drills/practice"
	"sparetone/synth/playback"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Welcome is the first run: a few questions, each of which enter or an empty line answers.
type Welcome struct {
	Step  int
	Found *course.Placement // how much is known, if it was found out

	mark   int
	values []string // what the lines of the choice set
	lines  []Line
	again  bool // it was asked already: in lines of text it is not said once more what it is about
}

func newWelcome(w *Walk) *Welcome {
	g := &Welcome{}
	g.fill(w)
	return g
}

// fill lists what there is to choose from at this step, with what is set marked.
func (g *Welcome) fill(w *Walk) {
	g.mark, g.values, g.lines, g.again = 0, nil, nil, false
	k := practice.SettingByID(practice.Greetings[g.Step].Setting)
	if k == nil {
		return
	}
	g.values = practice.Greetings[g.Step].Choices()
	for _, v := range g.values {
		g.lines = append(g.lines, Line{Text: k.Short(v)})
	}
	switch g.Step {
	case practice.StepLevel:
		if name := g.foundLevel(); name != "" && !slices.Contains(g.values, name) {
			g.values = slices.Insert(g.values, 0, name)
			g.lines = slices.Insert(g.lines, 0, Line{Text: say.Of("begin there")})
		}
	case stepInstrument:
		for i, t := range fret.Tunings() {
			g.lines[i].More, g.lines[i].Brief = t.Title, stringsOf(t)
		}
	}
	g.lines = numbered(g.lines)
	g.mark = max(0, slices.Index(g.values, k.Get(&w.Settings)))
}

// stepInstrument is the step of the first run that asks what is played.
const stepInstrument = 0

// aloud says a line in words.
func (g *Welcome) aloud(n int) say.Text {
	return practice.SettingByID(practice.Greetings[g.Step].Setting).Long(g.values[n])
}

// foundLevel is the level that was found, empty if none was looked for.
func (g *Welcome) foundLevel() string {
	if g.Found == nil {
		return ""
	}
	return g.Found.Found().Place().ID()
}

// took takes up what a placement found, marked to be accepted; nil if it was stopped.
func (g *Welcome) took(w *Walk, found *course.Placement) Next {
	if found != nil {
		g.Found = found
		g.fill(w)
		g.mark = slices.Index(g.values, g.foundLevel())
	}
	g.again = true
	return Next{To: g, Hush: true, Anew: true}
}

// Page implements Place.
func (g *Welcome) Page(w *Walk) Page {
	step := practice.Greetings[g.Step]
	silent, deviceless := !w.hears(), w.hears() && w.Deviceless
	sounds := g.Step == practice.StepSound && !silent
	onward := called("go on", func(string) Next { return g.goOn(w) })
	back := called("back", func(string) Next { g.Step--; g.fill(w); return Next{Anew: true} }).on("esc backspace").where(g.Step > 0)
	back.Words = "back"
	away := []Act{back,
		called("leave", func(string) Next { return w.Leave() }).As("leave"),
		called("later", func(string) Next { return g.over(w, nil) }),
	}
	p := Page{Ask: askGreeting}
	if g.Step == 0 {
		p.Blocks = append(p.Blocks, Seen{Text: say.Of("Welcome to sparetone"), Tone: Strong}, Seen{Text: greeted, Tone: Quiet}, Aloud(greetedAloud), Gap{})
	} else {
		p.Blocks = append(p.Blocks, Seen{Text: sayStep(g.Step), Tone: Quiet})
	}
	p.Blocks = append(p.Blocks, g.told(w)...)
	p.Blocks = append(p.Blocks, Gap{})
	switch {
	case step.Setting != "":
		list := Choice{Lines: g.lines, Mark: &g.mark, Aloud: g.aloud, Pick: func(n int) Next { return g.pick(w, n) }, Aloft: g.values[g.mark] == g.foundLevel()}
		acts := list.acts("go on", away...)
		onward.Do = func(string) Next { return g.pick(w, g.mark) }
		onward.Says = " takes what is set"
		acts[0] = onward
		p.Acts, p.Take = acts, func(typed string) Next { return g.take(w, list, typed) }
		p.Blocks, p.Lead = append(p.Blocks, list), leadGreeting
		p.Ask = sayTaken(g.aloud(g.mark))
		return p
	case g.Step == practice.StepLast:
		onward.Does = "to today's practice"
	case sounds && deviceless:
		p.Acts = []Act{called("again", func(string) Next { return w.sample() }).As("try again")}
	case sounds:
		louder := called("louder", func(string) Next { return w.louder(1) })
		softer := called("softer", func(string) Next { return w.louder(-1) })
		unheard := called("unheard", func(string) Next { return g.unheard(w) }).As("no, nothing")
		unheard.Aside = false
		p.Acts = []Act{unheard, called("again", func(string) Next { return w.sample() }), louder, softer}
		p.Ask, onward.Words, onward.Does = askSound, "|yes", "yes"
	}
	p.Acts = only(append(append([]Act{onward}, p.Acts...), away...)...)
	if g.Step == practice.StepSound {
		p.Blocks = append(p.Blocks, Seen{Text: soundWords(w)})
	}
	return p
}

// told says what a step asks.
func (g *Welcome) told(w *Walk) []Block {
	step := practice.Greetings[g.Step]
	if g.Step == practice.StepLevel && g.Found != nil {
		out := []Block{Seen{Text: say.Of("What was found"), Tone: Strong}}
		for _, l := range practice.FoundInWords(g.Found) {
			out = append(out, Sentence{Text: l})
		}
		return append(out, Aloud(say.Of(step.Title)))
	}
	seen, aloud := say.Of(step.Title), sayGreeting(g.Step, step.Title)
	about, aboutAloud := say.Of("{}", say.Foreign(step.About)), say.Of("{}", say.Foreign(greetingAloud(g.Step)))
	if g.Step == practice.StepSound && (w.Deviceless || !w.Hears()) {
		without := soundOff
		if w.hears() {
			without = soundless
		}
		aloud, aboutAloud = sayGreeting(g.Step, without.title), say.Of(without.aloud)
		if !w.hears() || w.Deviceless {
			about = say.Of(without.about)
		}
	}
	if g.again {
		return []Block{Seen{Text: seen, Tone: Strong}, Aloud(seen), Seen{Text: about, Tone: Quiet}}
	}
	return []Block{Seen{Text: seen, Tone: Strong}, Aloud(aloud), Seen{Text: about, Tone: Quiet}, Aloud(aboutAloud)}
}

// pick takes a line of the choice.
func (g *Welcome) pick(w *Walk, n int) Next {
	if g.values[n] == practice.FindOut {
		return newPlacement(w, func(found *course.Placement) Next { return g.took(w, found) })
	}
	return g.set(w, g.values[n])
}

// set sets what the step is about.
func (g *Welcome) set(w *Walk, value string) Next {
	k := practice.SettingByID(practice.Greetings[g.Step].Setting)
	if err := setTyped(w, k, value); err != nil {
		next := refused(err)
		next.Anew, g.again = true, true
		return next
	}
	next := g.goOn(w)
	next.Said, next.Aloud = saySet(&w.Settings, k), true
	return next
}

// take takes what was typed: the number of a line, or what it says.
func (g *Welcome) take(w *Walk, list Choice, typed string) Next {
	for n, v := range g.values {
		list.Lines[n].Names = []string{v}
	}
	next := list.take(typed)
	if practice.Greetings[g.Step].AsksToFindOut(typed) {
		next = g.pick(w, slices.Index(g.values, practice.FindOut))
	}
	if !next.Unknown {
		return next
	}
	return g.set(w, typed)
}

// unheard asks by eye only from now on, until the program ends.
func (g *Welcome) unheard(w *Walk) Next {
	w.Setup.Silent = true
	next := g.goOn(w)
	next.Said = byEyeFromNow
	if err := w.Session.SetSilent(true); err != nil {
		next.Said = practice.SentenceOf(err)
	}
	return next
}

// goOn takes the next step; after the last one the first run is over.
func (g *Welcome) goOn(w *Walk) Next {
	if g.Step == practice.StepLast {
		return g.over(w, w.Welcomed())
	}
	g.Step++
	g.fill(w)
	next := Next{Hush: true, Anew: true}
	if g.Step == practice.StepSound && w.hears() {
		next = w.sample()
		next.Anew = true
	}
	return next
}

// over ends the first run. kept is why its end could not be kept, nil if it could, or need not be.
func (g *Welcome) over(w *Walk, kept error) Next {
	if g.Step == practice.StepLast {
		w.Caution()
	}
	begun := w.Begin(w.Called)
	next := w.opening()
	next.Hush = true
	switch {
	case begun != nil:
		next.Said = practice.SentenceOf(begun)
	case kept != nil:
		next.Said = sayNotKept(kept)
	}
	return next
}

// soundWords says how loud it is, where there is something to hear.
func soundWords(w *Walk) say.Text {
	switch state, _ := w.Speaker.State(); {
	case !w.hears() || w.Deviceless:
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
