package capture

import (
	"context"
	"io"
	"sync"
	"time"
)

// State is how a microphone stands.
type State int

// A microphone is off; on, and its source opens; it is heard; or it is on, but there is nothing to hear.
const (
	Off State = iota
	Opening
	Listening
	Deaf
)

// Times.
const (
	noneFor   = 1500 * time.Millisecond // without a sample: the source hangs
	beginsIn  = 1900 * time.Millisecond // a source that has just been opened may take this long to give the first one, before that is said
	giveUp    = 4 * time.Second         // and after this it is opened anew
	zerosFor  = time.Second             // of nothing but zeros: it is refused
	anewAfter = 4 * time.Second         // of zeros it is opened once more beside: PipeWire's streams stay silent when what they hear was suspended
	anewFor   = 3 * time.Second         // for sound to come from there: a new source may take 2 s to begin
	anewIn    = 300 * time.Millisecond  // for the silent one to give the same sound: then it is heard on without a gap
	lookEvery = time.Second             // where there is no source
	keptFor   = 20                      // seconds of samples that nobody took; older ones are dropped
	readTime  = 0.02                    // seconds of samples that are read at once
)

// Microphone listens to a source for as long as it is switched on. It is off at first. Where the source goes, State says so, and it is
// opened again when it is back. Its methods may be called from any goroutine and return at once.
type Microphone struct {
	opener  Opener
	changed chan struct{}
	came    chan struct{}

	mu    sync.Mutex
	stop  context.CancelFunc // nil if it is off
	state State
	fault *Fault
	rate  float64
	run   int
	kept  []float64
	zeros int  // how many samples in a row were exactly zero
	sound bool // the source gave a sample that was not
}

// Sound is what a microphone heard.
type Sound struct {
	Samples []float64 // -1 to 1, one channel
	Rate    float64   // samples a second
	Run     int       // another one after each gap: what came before does not join on
}

// NewMicrophone returns a microphone that is off and listens to what an opener opens.
func NewMicrophone(o Opener) *Microphone {
	return &Microphone{opener: o, changed: make(chan struct{}, 1), came: make(chan struct{}, 1)}
}

// On switches the microphone on: it opens in the background.
func (m *Microphone) On() {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.stop != nil {
		return
	}
	ctx, stop := context.WithCancel(context.Background())
	m.stop = stop
	m.set(Opening, nil)
	go m.listen(ctx)
}

// Off switches the microphone off. What it heard and was not taken is dropped.
func (m *Microphone) Off() {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.stop == nil {
		return
	}
	m.stop()
	m.stop, m.kept = nil, nil
	m.set(Off, nil)
}

// State returns how the microphone stands, and if it is deaf, why; the fault is nil otherwise.
func (m *Microphone) State() (State, *Fault) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.state, m.fault
}

// Changed returns a channel that receives after the state has changed. Several changes may be one receipt.
func (m *Microphone) Changed() <-chan struct{} { return m.changed }

// Came returns a channel that receives after samples have come. Several times may be one receipt.
func (m *Microphone) Came() <-chan struct{} { return m.came }

// Take returns what was heard since it was last called, and forgets it.
func (m *Microphone) Take() Sound {
	m.mu.Lock()
	defer m.mu.Unlock()
	s := Sound{Samples: m.kept, Rate: m.rate, Run: m.run}
	m.kept = nil
	return s
}

// set sets the state; m.mu is held.
func (m *Microphone) set(s State, f *Fault) {
	if s == m.state && (f == m.fault || f != nil && m.fault != nil && *f == *m.fault) {
		return
	}
	m.state, m.fault = s, f
	tell(m.changed)
}

func tell(c chan struct{}) {
	select {
	case c <- struct{}{}:
	default:
	}
}

// deaf says that nothing is heard, unless it is off by now.
func (m *Microphone) deaf(ctx context.Context, f *Fault) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if ctx.Err() == nil {
		m.set(Deaf, f)
	}
}

// listen opens the source again and again until the context ends.
func (m *Microphone) listen(ctx context.Context) {
	var lost *Fault // why it was heard no more; that no other opens is then no news
	for ctx.Err() == nil {
		begun := time.Now()
		f := m.hearOne(ctx)
		if f != nil && f.Kind != NoServer {
			lost = f
		}
		if lost != nil {
			f = lost
		}
		m.deaf(ctx, f)
		select {
		case <-ctx.Done():
		case <-time.After(max(0, lookEvery-time.Since(begun))):
		}
	}
}

// opened is what came of opening a source.
type opened struct {
	source Source
	err    error
}

// hearOne opens the source once, hears it for as long as it goes, and returns what ended it.
func (m *Microphone) hearOne(ctx context.Context) *Fault {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	came := make(chan opened, 1)
	go func() {
		s, err := m.opener.Open(ctx)
		came <- opened{s, err}
	}()
	late, hopeless := time.NewTimer(beginsIn), time.NewTimer(giveUp)
	defer late.Stop()
	defer hopeless.Stop()
	for {
		select {
		case o := <-came:
			if o.err != nil {
				return faultOf(o.err, NoServer)
			}
			return m.follow(ctx, o.source, late, hopeless)
		case <-late.C:
			m.deaf(ctx, &Fault{Kind: Hung})
		case <-hopeless.C:
			go closeLate(came)
			return &Fault{Kind: Hung}
		case <-ctx.Done():
			go closeLate(came)
			return nil
		}
	}
}

// closeLate closes a source that opens when nobody wants it any more.
func closeLate(came <-chan opened) {
	if o := <-came; o.err == nil {
		o.source.Close()
	}
}

// follow hears a source that has opened. Late and hopeless are the times at which it should have begun.
func (m *Microphone) follow(ctx context.Context, s Source, late, hopeless *time.Timer) *Fault {
	at := streamOf(ctx, s)
	defer func() { at.stop() }()
	var beside <-chan found // another stream, as soon as it gives sound while this one does not
	end := func() {}        // ends the search for it
	defer func() { end() }()
	next := anewAfter
	first := true
	for {
		select {
		case b := <-at.blocks:
			late.Reset(noneFor)
			hopeless.Reset(giveUp)
			zeros := m.take(ctx, at.rate, b, first)
			first = false
			switch {
			case zeros == 0:
				end()
				beside, end, next = nil, func() {}, anewAfter
			case zeros >= next:
				end()
				beside, end = m.lookBeside(ctx)
				next = zeros + anewAfter
			}
		case f := <-beside:
			at.stop()
			at, beside, next = f.stream, nil, anewAfter
			m.take(ctx, at.rate, f.came, true)
		case err := <-at.failed:
			if err == io.EOF {
				return &Fault{Kind: Ended}
			}
			return faultOf(err, Gone)
		case <-late.C:
			m.deaf(ctx, &Fault{Kind: Hung})
		case <-hopeless.C:
			return &Fault{Kind: Hung}
		case <-ctx.Done():
			return nil
		}
	}
}

// take keeps samples that came; the first ones of a source do not join on to what came before. It returns for how long there were
// nothing but zeros.
func (m *Microphone) take(ctx context.Context, rate float64, samples []float64, first bool) time.Duration {
	m.mu.Lock()
	defer m.mu.Unlock()
	if ctx.Err() != nil {
		return 0
	}
	if first {
		m.kept, m.rate, m.zeros, m.sound = nil, rate, 0, false
		m.run++
	}
	for _, x := range samples {
		m.zeros++
		if x != 0 {
			m.zeros, m.sound = 0, true
		}
	}
	m.kept = append(m.kept, samples...)
	if most := int(keptFor * rate); len(m.kept) > most {
		m.kept = append([]float64(nil), m.kept[len(m.kept)-most/2:]...)
		m.run++
	}
	silent := time.Duration(float64(m.zeros) / rate * float64(time.Second))
	if silent >= zerosFor {
		m.set(Deaf, &Fault{Kind: Refused})
	} else if m.sound {
		m.set(Listening, nil)
	}
	tell(m.came)
	return silent
}
