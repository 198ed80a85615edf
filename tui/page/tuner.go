package page

import (
	"sparetone/drills/practice"
	"sparetone/synth/capture"
)

// Tuner is where an instrument is tuned, string by string, by what the microphone hears. It listens while one is there.
type Tuner struct {
	tunes   *practice.Tuner
	listens bool // it did before
	back    func() Place
}

// Needles are the strings of an instrument, each with how far it is off.
type Needles struct {
	*practice.Tuner
}

// newTuner switches the microphone on, which who asks for the tuner asks for, until the tuner is left.
func newTuner(w *Walk, back func() Place) Next {
	tunes, err := w.NewTuner()
	if err != nil {
		return refused(err)
	}
	t := &Tuner{tunes: tunes, listens: w.Listens(), back: back}
	w.Listen(true)
	return Next{To: t, Hush: true}
}

// tunes is the act that leads to the tuner.
func (w *Walk) tunes(back func() Place) Act {
	return called("tune", func(string) Next { return newTuner(w, back) }).where(w.Microphone != nil)
}

// Page implements Place.
func (t *Tuner) Page(w *Walk) Page {
	p := Page{
		Blocks: []Block{title("Tune"), Gap{}, Needles{t.tunes}, Gap{}},
		Acts: only(
			called("again", func(string) Next { return w.sample() }).As("hear the strings").where(w.hears()),
			called("back", func(string) Next {
				w.Listen(t.listens)
				return Next{To: t.back(), Hush: true}
			}),
		),
		Ask: askTuning, Lead: askTuning,
	}
	if !w.Listens() {
		p.Blocks = append(p.Blocks, Seen{Text: notListening, Tone: Quiet}, Aloud(notListeningAloud))
		return p
	}
	p.Blocks = append(p.Blocks, Seen{Text: t.tunes.Words()})
	if whole := t.tunes.Whole(); !whole.IsZero() {
		p.Blocks = append(p.Blocks, Seen{Text: whole, Tone: Right})
	}
	return p
}

// heard implements ear. What we play ourselves is not heard.
func (t *Tuner) heard(w *Walk, sound capture.Sound) Next {
	if w.Speaker.Playing() {
		return Next{}
	}
	if err := t.tunes.Take(sound); err != nil {
		return refused(err)
	}
	if cents, agrees := t.tunes.Off(); agrees {
		w.SetOff(cents)
	}
	return Next{Said: t.tunes.News(), Aloud: true}
}
