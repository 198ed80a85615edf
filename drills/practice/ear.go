package practice

import (
	"cmp"
	"sync"

	"sparetone/drills"
	"sparetone/drills/played"
	"sparetone/synth/capture"
	"sparetone/theory"
)

// echo is for how long after a sound of ours nothing is listened to, in seconds: it may still lie with the device, and a room rings
// (from judgement).
const echo = 0.4

// ear hears in the background what a microphone has heard, so that whoever hands it on need not wait. It hears nothing until it is asked.
type ear struct {
	mu     sync.Mutex
	idle   *sync.Cond // once nothing is left to hear
	asks   int
	hears  played.Listening
	queue  []heardSound
	busy   bool
	came   []played.Heard // of what was asked last
	echoes float64        // seconds that are still passed over

	// Of whoever works.
	at  heardSound // that was heard last
	now *played.Ear
}

func newEar() *ear {
	e := &ear{}
	e.idle = sync.NewCond(&e.mu)
	return e
}

// heardSound is sound to be heard for what was asked by then.
type heardSound struct {
	ask   int
	hears played.Listening
	sound capture.Sound
}

// ask has the ear hear something else from now on, or the same anew; what it heard before is forgotten.
func (e *ear) ask(l played.Listening) {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.asks++
	e.hears, e.queue, e.came = l, nil, nil
}

// hear hands sound on, and returns what was heard in the meantime. own says that a sound of ours is playing: that is not listened to.
func (e *ear) hear(s capture.Sound, own bool) []played.Heard {
	e.mu.Lock()
	defer e.mu.Unlock()
	lasts := float64(len(s.Samples)) / s.Rate
	switch {
	case e.hears.Task == nil && e.hears.Notes == nil:
		return nil
	case own:
		e.echoes = echo
		e.asks++
		e.queue, e.came = nil, nil
		return nil
	case e.echoes > 0:
		e.echoes -= lasts
		return nil
	}
	e.queue = append(e.queue, heardSound{e.asks, e.hears, s})
	if !e.busy {
		e.busy = true
		go e.work()
	}
	came := e.came
	e.came = nil
	return came
}

// wait waits until all that was handed on is heard.
func (e *ear) wait() {
	e.mu.Lock()
	defer e.mu.Unlock()
	for e.busy {
		e.idle.Wait()
	}
}

// work hears what is handed on until nothing is left.
func (e *ear) work() {
	e.mu.Lock()
	defer e.mu.Unlock()
	for len(e.queue) > 0 {
		next := e.queue[0]
		e.queue = e.queue[1:]
		e.mu.Unlock()
		came := e.listen(next)
		e.mu.Lock()
		if next.ask == e.asks {
			e.came = append(e.came, came...)
		}
	}
	e.busy = false
	e.idle.Broadcast()
}

// listen hears some sound, after what came before it if it joins on.
func (e *ear) listen(s heardSound) []played.Heard {
	if e.now == nil || s.ask != e.at.ask || s.sound.Run != e.at.sound.Run || s.sound.Rate != e.at.sound.Rate {
		e.now = nil
		if now, err := played.NewEar(s.sound.Rate, s.hears); err == nil {
			e.now = now
		} // a rate that nothing can be heard at: the microphone says so
	}
	e.at = s
	e.at.sound.Samples = nil
	if e.now == nil {
		return nil
	}
	return e.now.Feed(s.sound.Samples)
}

// ListenFor has what the microphone hears be heard as something else from now on.
func (p *App) ListenFor(l played.Listening) {
	if p.hearing == nil {
		p.hearing = newEar()
	}
	p.hearing.ask(l)
	if l.Task != nil {
		p.listensAt = cmp.Or(l.Task.A4, theory.StandardA4)
	}
}

// Hear hands on what the microphone heard, and returns what was heard until now of what is listened for. While a sound of ours is played,
// and a moment after, nothing is.
func (p *App) Hear(s capture.Sound) []played.Heard {
	if p.hearing == nil {
		return nil
	}
	came := p.hearing.hear(s, p.Speaker.Playing())
	for _, h := range came {
		if h.Reading != nil {
			p.heardOff(*h.Reading, p.listensAt)
		}
	}
	return came
}

// HearAll waits until all that was handed on is heard.
func (p *App) HearAll() {
	if p.hearing != nil {
		p.hearing.wait()
	}
}

// Playable returns an attempt at a question by playing; nil if it cannot be answered so, or nothing listens.
func (p *App) Playable(q *drills.Question) played.Attempt {
	if !p.Listens() {
		return nil
	}
	return played.New(q, p.Session.On(), p.HeardA4())
}
