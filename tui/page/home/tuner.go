package home

import (
	"sparetone/drills/practice"
	"sparetone/synth/capture"
	"sparetone/tui/page"
)

// Tuner is where an instrument is tuned, string by string, by what the microphone hears. It listens while one is there.
type Tuner struct {
	tunes          *practice.Tuner
	listenedBefore bool // the microphone was on before the tuner came
	back           func() page.Place
}

// newTuner goes to the tuner, and switches the microphone on until the tuner is left: who asks for the tuner asks for that.
func newTuner(w *page.Walk, back func() page.Place) page.Next {
	tunes, err := w.NewTuner()
	if err != nil {
		return page.Refused(err)
	}
	t := &Tuner{tunes: tunes, listenedBefore: w.Listens(), back: back}
	w.Listen(true)
	return page.Next{To: t, Silence: true}
}

// tunes is the act that leads to the tuner.
func tunes(w *page.Walk, back func() page.Place) page.Act {
	return page.Called("tune", func(string) page.Next { return newTuner(w, back) }).If(w.Microphone != nil)
}

// Page implements Place.
func (t *Tuner) Page(w *page.Walk) page.Page {
	p := page.Page{
		Blocks: []page.Block{page.Title(titleTune), page.Gap{}, page.Needles{Tuner: t.tunes}, page.Gap{}},
		Acts: page.Only(
			page.Called("again", func(string) page.Next { return sample(w) }).As("hear the strings").If(w.MayHear()),
			page.Called("back", func(string) page.Next {
				w.Listen(t.listenedBefore)
				return page.Next{To: t.back(), Silence: true}
			}),
		),
		Ask: askTuning, HelpBegins: askTuning,
	}
	if !w.Listens() {
		p.Blocks = append(p.Blocks, page.Seen{Text: notListening, Tone: page.Quiet}, page.Aloud(notListeningAloud))
		return p
	}
	p.Blocks = append(p.Blocks, page.Seen{Text: t.tunes.Words()})
	if whole := t.tunes.Whole(); !whole.IsZero() {
		p.Blocks = append(p.Blocks, page.Seen{Text: whole, Tone: page.Right})
	}
	return p
}

// Heard implements ear. What we play ourselves is not heard.
func (t *Tuner) Heard(w *page.Walk, sound capture.Sound) page.Next {
	if w.Speaker.Playing() {
		return page.Next{}
	}
	if err := t.tunes.Take(sound); err != nil {
		return page.Refused(err)
	}
	if cents, agrees := t.tunes.Off(); agrees {
		w.SetOff(cents)
	}
	return page.Next{Said: t.tunes.News(), OnlyInLines: true}
}
