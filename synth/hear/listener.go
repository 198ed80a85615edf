package hear

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"sparetone/synth/hear/net"
	"sparetone/theory"
)

// Times, in seconds.
const (
	risenOver   = 0.08 // over which it must have grown louder for a stroke to have been one
	sameTime    = 0.3  // within which a weak onset beside a strong one is not another pluck of the same pitch
	ringsFrom   = 0.2  // after it began, when all of a stroke's strings sound,
	ringsTo     = 0.6  // and to when their partials keep their frequencies,
	ringsLeast  = 0.16 // or for how long at least, if they are struck anew
	ringsAt     = 0.35 // after it began, when a stroke still rings
	mergeTime   = 0.4  // what is struck this soon after a stroke began belongs to it
	turnPause   = 1.5  // after the last of strings plucked in turn, when no more are waited for
	keptBefore  = 0.5  // that is kept of what was before a stroke
	longestTurn = 30   // from the first to the last of strings plucked in turn, after which they are read as they are
	blockTime   = 0.1  // over which loudness is measured
	floorTime   = 10   // over which the softest block is the noise
)

// Ratios, and a logarithm of odds.
const (
	noiseBefore = 2.5  // strength of a later onset over the first's, from which the first was a noise before the stroke
	risenBy     = 1.25 // power after an onset over that before it, at the least for a stroke to have been one
	ringsRise   = 1.2  // strength of a partial in the second half of the time over that in the first, at the most: strings that share a partial beat
	ringsBy     = 1e-3 // power of a stroke at ringsAt over its power as it begins, at the least
	soundsAt    = 2.0  // natural logarithm of the odds from which on a pitch is taken to sound
)

// maskedFrom is the odds from which on a pitch that another string masks is judged by the net of masked strings too.
const maskedFrom = -5.0

// weights are how a pitch is judged that another string masks: by a part of what each of two nets says, less a doubt.
type weights struct{ strum, masked, doubt float64 }

// maskedWeights were chosen on strokes by the font fluid, see TestStudyOfMasked.
var maskedWeights = weights{strum: 0.5, masked: 0.65, doubt: 1.5}

// odds weighs what two nets say.
func (w weights) odds(strum, masked float64) float64 {
	return w.strum*strum + w.masked*masked - w.doubt
}

// The range of sampling rates, in Hz.
const (
	LowestRate  = 8000.0
	HighestRate = 192000.0
)

// Listener hears strings in sound that is fed block by block. It is not for two goroutines at once.
type Listener struct {
	rate     float64
	task     Task
	pitches  []int
	analyser *net.Analyser
	strum    *net.Net
	masked   *net.Net
	pluck    *net.Net
	onsets   *onsets
	kept     []float64        // the samples that may still be needed
	gone     int              // how many samples came before those
	pending  []onset          // that are not yet read
	tried    int              // len(pending) when strings in turn were last read in vain, so that it is not tried again before another onset; 0 if it was not
	seen     map[float64]seen // the spectra of plucks that are not yet read, by their onsets
	level    meter
}

// seen holds the spectra of a pluck; next is when the next strong pluck began as they were taken, in seconds, 0 if none had.
type seen struct {
	next    float64
	spectra []net.Spectrum
}

// Listen returns a listener to sound of so many samples a second, for a task. The error says what is wrong with either.
func Listen(rate float64, task Task) (*Listener, error) {
	if !(rate >= LowestRate && rate <= HighestRate) {
		return nil, fmt.Errorf("a rate of %v samples a second: it must be %v to %v", rate, LowestRate, HighestRate)
	}
	l := &Listener{rate: rate, analyser: net.NewAnalyser(rate), strum: net.Strum(), masked: net.OfMasked(), pluck: net.Pluck(), onsets: newOnsets(rate), level: newMeter(rate)}
	return l, l.Ask(task)
}

// Ask has the listener listen for another task from now on; what was struck and not read yet is forgotten. The error says what is
// wrong with the task, and the listener then listens for the one before.
func (l *Listener) Ask(task Task) error {
	if err := task.check(); err != nil {
		return err
	}
	l.task, l.pitches, l.pending, l.tried, l.seen = task, task.pitches(), nil, 0, map[float64]seen{}
	return nil
}

// Begun reports how many strokes or plucks were found that are not read yet.
func (l *Listener) Begun() int { return len(l.pending) }

// BegunStrongly reports how many of these began as strongly as plucks do, later than some seconds from the first sample: weaker ones are crackling as often.
func (l *Listener) BegunStrongly(from float64) (n int) {
	for _, o := range l.pending {
		if o.strength >= strong && o.at > from {
			n++
		}
	}
	return n
}

// Level returns how loud it is now.
func (l *Listener) Level() Level { return l.level.now() }

// now is the time of the end of what was fed, in seconds from the first sample.
func (l *Listener) now() float64 { return float64(l.gone+len(l.kept)) / l.rate }

// Feed hears the samples that come next, -1 to 1, one channel, and returns the readings that are whole by now: a stroke's
// 1.15 s after it began; of strings plucked in turn 0.6 s after the last if all are sure, else after turnPause, or twice that where the
// latest onsets are weak.
func (l *Listener) Feed(samples []float64) []Reading {
	l.kept = append(l.kept, samples...)
	l.level.feed(samples)
	for {
		first := l.onsets.next() - l.gone
		if first+l.onsets.size > len(l.kept) {
			break
		}
		if o, found := l.onsets.feed(l.kept[first : first+l.onsets.size]); found && (o.strength >= strong || l.task.Order != nil) {
			l.pending = append(l.pending, o)
		}
	}
	out := l.read(false)
	l.forget()
	return out
}

// End returns the readings of what was struck and not read yet, as if silence followed. The listener may be fed no more.
func (l *Listener) End() []Reading {
	level := l.level // which what follows does not change
	level.powers = slices.Clone(level.powers)
	out := l.Feed(make([]float64, int((aheadTime+frameTime+3*hopTime)*l.rate)))
	l.level = level
	return append(out, l.read(true)...)
}

// Hear returns the readings of a whole sound of so many samples a second. The errors are those of Listen.
func Hear(samples []float64, rate float64, task Task) ([]Reading, error) {
	l, err := Listen(rate, task)
	if err != nil {
		return nil, err
	}
	var out []Reading
	for block := range slices.Chunk(samples, int(rate/10)) {
		out = append(out, l.Feed(block)...)
	}
	return append(out, l.End()...), nil
}

// forget drops the samples that are not needed any more.
func (l *Listener) forget() {
	need := l.now() - keptBefore
	if len(l.pending) > 0 {
		need = min(need, l.pending[0].at-keptBefore)
	}
	if drop := min(int(need*l.rate), l.onsets.next()) - l.gone; drop > len(l.kept)/2 && drop > int(l.rate) {
		l.kept = slices.Delete(l.kept, 0, drop)
		l.gone += drop
	}
}

// read reads what is whole by now, or, at the end, all there is.
func (l *Listener) read(end bool) (out []Reading) {
	for len(l.pending) > 0 {
		var r Reading
		var used int
		switch {
		case l.task.Order == nil:
			r, used = l.readStroke(end)
		case l.task.free():
			r, used = l.readPluck(end)
		default:
			r, used = l.readTurn(end)
		}
		if used == 0 {
			break
		}
		l.pending, l.tried = slices.Delete(l.pending, 0, used), 0
		clear(l.seen)
		if r.Strings != nil {
			out = append(out, r)
		}
	}
	return out
}

// inKept returns a time as seconds from the first sample that is kept.
func (l *Listener) inKept(at float64) float64 { return at - float64(l.gone)/l.rate }

// frequencies returns what pitches sound at, in Hz, on an instrument that is so many cents off.
func (l *Listener) frequencies(pitches []int, cents float64) []float64 {
	out := make([]float64, len(pitches))
	for i, p := range pitches {
		out[i] = theory.MIDIFrequency(p, l.task.a4()) * math.Exp2(cents/1200)
	}
	return out
}

// readStroke reads the first stroke, and returns how many onsets are done with: none if it is not whole yet. The reading has no
// strings if nothing was heard.
func (l *Listener) readStroke(end bool) (Reading, int) {
	at := l.pending[0].at
	if !end && l.now() < at+net.StrumTime+aheadTime+frameTime {
		return Reading{}, 0
	}
	used, next := 1, 0.0
	for _, o := range l.pending[1:] {
		if o.at >= at+mergeTime {
			next = o.at
			break
		}
		if o.strength > noiseBefore*l.pending[0].strength {
			return Reading{}, used // a noise came before the stroke
		}
		used++
	}
	nextSince := 0.0
	if next > 0 {
		nextSince = l.inKept(next)
	}
	odds, cents, spectra := l.strumOdds(l.inKept(at), nextSince)
	if !heardEnough(l.task, odds) || !l.risen(at) {
		return Reading{}, 1
	}
	ringing := l.ringing(at, odds, cents, spectra[0])
	if ringing < l.task.enough() {
		return Reading{}, 1
	}
	l.judgeMasked(odds, l.inKept(at), nextSince, cents, spectra)
	r := l.reading(at, cents, spectra, struck(l.task, odds))
	l.doubtStroke(&r, at, odds, spectra[0])
	if half := (len(l.task.different()) + 1) / 2; ringing < half && r.sounding() < half {
		return Reading{}, 1
	}
	return r, used
}

// strumOdds returns the odds of each pitch that it was struck at a time, when the next stroke comes at another, both since the first sample kept;
// and how far the instrument is off, and the spectra that tell so.
func (l *Listener) strumOdds(at, next float64) (odds map[int]float64, cents float64, spectra []net.Spectrum) {
	spectra = net.StrumSpectra(l.analyser, l.kept, at, next)
	cents = net.Cents(l.task.a4(), spectra...)
	odds = map[int]float64{}
	for i, o := range l.strum.OddsOf(l.frequencies(l.pitches, cents), spectra) {
		odds[l.pitches[i]] = math.Max(-mostOdds, math.Min(mostOdds, o))
	}
	return odds, cents, spectra
}

// judgeMasked judges anew, of the pitches of a stroke that may sound, those that another masks.
func (l *Listener) judgeMasked(odds map[int]float64, at, next, cents float64, spectra []net.Spectrum) {
	judged := map[int]float64{}
	for p, o := range l.maskedOdds(odds, at, next, cents, spectra) {
		judged[p] = maskedWeights.odds(odds[p], o)
	}
	maps.Copy(odds, judged)
}

// maskedOdds returns what the net of masked strings says of those pitches that may sound and that another masks.
func (l *Listener) maskedOdds(odds map[int]float64, at, next, cents float64, spectra []net.Spectrum) map[int]float64 {
	end := net.StrumEnd(at, next)
	says := map[int]float64{}
	for i, hz := range l.frequencies(l.pitches, cents) {
		p := l.pitches[i]
		if odds[p] < maskedFrom {
			continue
		}
		sounds := func(semitones int) bool { return odds[p+semitones] > soundsAt }
		if net.MaskedBy(sounds) > 0 {
			o := l.masked.Odds(net.Masked(nil, l.kept, l.rate, at, end, hz, sounds, spectra))
			says[p] = math.Max(-mostOdds, math.Min(mostOdds, o))
		}
	}
	return says
}

// risen reports whether it is louder after a time than before, as what rings on is not, and still sounds a while later, as a knock does not.
func (l *Listener) risen(at float64) bool {
	power := func(from float64) (sum float64) {
		first := int(l.inKept(at+from) * l.rate)
		for i := max(0, first); i < min(len(l.kept), first+int(risenOver*l.rate)); i++ {
			sum += l.kept[i] * l.kept[i]
		}
		return sum
	}
	first := max(power(0.02), power(0.02+risenOver))
	return first > risenBy*power(-0.02-risenOver) && power(ringsAt) > ringsBy*first
}

// different returns the different pitches that are expected to sound.
func (t Task) different() (out []int) {
	for _, p := range t.Expect {
		if p != Silent && !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	return out
}

// enough returns how many pitches must sound for something to have been played: two, or all that are expected.
func (t Task) enough() int {
	if t.Expect == nil {
		return 2
	}
	return min(2, len(t.different()))
}

// heardEnough reports whether enough pitches sound for something to have been played.
func heardEnough(task Task, odds map[int]float64) bool {
	want := task.enough()
	for _, o := range odds {
		if o > soundsAt {
			want--
		}
	}
	return want <= 0
}

// ringing returns how many of the pitches that sound ring on steadily after a stroke at a time, as strings do and a voice does not.
func (l *Listener) ringing(at float64, odds map[int]float64, cents float64, s net.Spectrum) (n int) {
	from, to := at+ringsFrom, at+ringsTo
	for _, o := range l.pending[1:] {
		if o.at < to { // struck anew: what rings grows louder then
			to = max(o.at, from+ringsLeast)
			break
		}
	}
	for p, o := range odds {
		if o > soundsAt && l.steady(from, to, ringsRise, theory.MIDIFrequency(p, l.task.a4())*math.Exp2(cents/1200), s) {
			n++
		}
	}
	return n
}

// readTurn reads strings plucked in turn, and returns how many onsets are done with: none if more may come.
func (l *Listener) readTurn(end bool) (Reading, int) {
	last := l.pending[len(l.pending)-1].at
	whole := net.PluckTime + aheadTime + frameTime
	paused := l.paused()
	many := len(l.pending) >= len(l.task.Order) && l.now() >= last+whole
	if !end && !paused && (!many || l.tried == len(l.pending)) {
		return Reading{}, 0
	}
	l.tried = len(l.pending)
	r, heard := l.inTurn(l.pending)
	if !heard {
		if !end && !paused {
			return Reading{}, 0
		}
		return Reading{}, len(l.pending)
	}
	if !end && !paused && slices.ContainsFunc(r.Strings, func(h Heard) bool { return h.Pitch == Silent || !h.Certain() }) {
		return Reading{}, 0
	}
	return r, len(l.pending)
}

// paused reports whether no more strings are waited for: nothing was plucked for a while. What may have been none, as the crackling of a
// room, is waited for no more than twice as long.
func (l *Listener) paused() bool {
	first, last, sure := l.pending[0].at, l.pending[len(l.pending)-1].at, l.pending[0].at
	for _, o := range l.pending {
		if o.strength >= strong {
			sure = o.at
		}
	}
	return l.now() >= last+turnPause || l.now() >= sure+2*turnPause || last > first+longestTurn
}

// inTurn reads what was plucked at some onsets, and reports whether enough was.
func (l *Listener) inTurn(onsets []onset) (Reading, bool) {
	p := l.plucks(onsets)
	heard, first := 0, -1
	for k := range onsets {
		if p.most[k] > soundsAt {
			heard++
			if first < 0 {
				first = k
			}
		}
	}
	if heard < min(2, len(l.task.Order)) {
		return Reading{}, false
	}
	at := onsets[first].at
	t := l.weigh(onsets, p)
	if all := l.seek(onsets, p, t); all != nil {
		onsets = all
		p = l.plucks(onsets)
		t = l.weigh(onsets, p)
	}
	l.doubtSilence(t, onsets[len(onsets)-1].at, p.cents)
	r := l.reading(at, p.cents, p.spectra, t)
	l.doubtTurn(&r, onsets, p)
	return r, true
}

// doubtSilence takes half of its likeliness from the silence of a string of which the pitch that is expected sounds in the end: it may have
// been plucked so softly that nothing was found to begin. Last is when the last of the strings was plucked.
func (l *Listener) doubtSilence(t *tally, last, cents float64) {
	if l.task.Expect == nil {
		return
	}
	var spectra []net.Spectrum
	for i, expected := range l.task.Expect {
		if expected == Silent || t.strings[i][Silent] < Certain*t.all {
			continue
		}
		if spectra == nil {
			spectra = net.StrumSpectra(l.analyser, l.kept, l.inKept(min(last, l.now()-net.StrumTime)), 0)
		}
		hz := theory.MIDIFrequency(expected, l.task.a4()) * math.Exp2(cents/1200)
		if l.strum.OddsOf([]float64{hz}, spectra)[0] > 0 {
			t.strings[i][Silent] /= 2
		}
	}
}

// plucked is what was heard at some onsets: how far the whole instrument is off, and of each onset the odds of each pitch, and the highest
// of them.
type plucked struct {
	cents   float64
	spectra []net.Spectrum
	odds    []map[int]float64
	most    []float64
}

// plucks hears what was plucked at some onsets.
func (l *Listener) plucks(onsets []onset) (p plucked) {
	spectra := make([][]net.Spectrum, len(onsets))
	for k, o := range onsets {
		next, nextAt := 0.0, 0.0
		for _, later := range onsets[k+1:] {
			if later.strength >= strong {
				next, nextAt = l.inKept(later.at), later.at
				break
			}
		}
		was := l.seen[o.at]
		if was.spectra == nil || was.next != nextAt || l.now() < o.at+net.PluckTime {
			was = seen{nextAt, net.PluckSpectra(l.analyser, l.kept, l.inKept(o.at), next)}
			l.seen[o.at] = was
		}
		spectra[k] = was.spectra
		p.spectra = append(p.spectra, spectra[k][2])
	}
	p.cents = net.Cents(l.task.a4(), p.spectra...)
	frequencies := l.frequencies(l.pitches, p.cents)
	p.odds, p.most = make([]map[int]float64, len(onsets)), make([]float64, len(onsets))
	for k := range onsets {
		p.odds[k] = map[int]float64{}
		for i, o := range l.pluck.OddsOf(frequencies, spectra[k]) {
			if o > 0 && l.now() >= onsets[k].at+net.PluckTime && !l.rangOn(onsets[k].at, frequencies[i]) {
				o = -mostOdds
			}
			p.odds[k][l.pitches[i]] = math.Max(-mostOdds, math.Min(mostOdds, o))
			p.most[k] = max(p.most[k], o)
		}
	}
	for k, o := range onsets {
		for q, other := range onsets {
			if o.strength < strong && other.strength >= strong && math.Abs(o.at-other.at) < sameTime {
				for pitch, v := range p.odds[q] {
					if v > 0 {
						p.odds[k][pitch] = -mostOdds
					}
				}
			}
		}
	}
	return p
}

// reading makes a reading of what was weighed.
func (l *Listener) reading(at, cents float64, spectra []net.Spectrum, t *tally) Reading {
	r := Reading{At: at, Cents: cents, Among: -1, Sure: 1, Verdict: Unsure, AboveNoise: l.aboveNoise(at, spectra)}
	for i, s := range l.task.Strings {
		h := Heard{Number: s.Number, Expected: Silent, Pitch: Silent}
		if l.task.Expect != nil {
			h.Expected = l.task.Expect[i]
		}
		most := -1.0
		for _, p := range append([]int{Silent}, s.May...) {
			if v := t.strings[i][p]; v > most {
				h.Pitch, most = p, v
			}
		}
		h.Sure = most / t.all
		r.Strings = append(r.Strings, h)
	}
	right, other, should := l.task.Expect != nil, false, 0
	for i := range r.Strings {
		h := &r.Strings[i]
		sure := h.Sure
		for k, o := range r.Strings {
			same := o.Pitch == h.Pitch && h.Pitch != Silent
			if l.task.Expect != nil && h.Pitch == Silent {
				same = o.Pitch == h.Expected && h.Expected != Silent
			}
			if k != i && same {
				h.Unison = o.Number
			}
		}
		if h.Unison != 0 && l.task.Order == nil {
			// Whether the string sounds the same or is silent makes no difference, but that it sounds something else would.
			sure = min(t.notes[h.Pitch], t.strings[i][h.Pitch]+t.strings[i][Silent]) / t.all
			if h.Pitch == Silent {
				sure = 0
			}
		}
		if h.Pitch != Silent {
			h.Cents = l.centsOf(h.Pitch, cents, spectra)
		}
		r.Sure *= sure
		if h.Expected != Silent || l.task.Expect == nil {
			should++
		}
		right = right && h.Pitch == h.Expected && sure >= Certain
		other = other || l.task.Expect != nil && h.Pitch != h.Expected && h.Sure >= Certain
	}
	for n, w := range l.task.Among {
		if slices.EqualFunc(w, r.Strings, func(p int, h Heard) bool { return p == h.Pitch }) {
			r.Among = n
			right = right || l.task.Expect == nil && r.Sure >= Certain
		}
	}
	switch {
	case r.AboveNoise < Quiet, r.sounding() < (should+1)/2: // too little to speak of: a knock, or a voice
	case other:
		r.Verdict = Other
	case right:
		r.Verdict = Right
	}
	return r
}

// centsOf returns how far a pitch that sounds is above where A4 has it: by its lowest partial that stands out.
func (l *Listener) centsOf(pitch int, whole float64, spectra []net.Spectrum) float64 {
	f := theory.MIDIFrequency(pitch, l.task.a4()) * math.Exp2(whole/1200)
	for n := 1.0; n <= 3; n++ {
		var best net.Peak
		for _, s := range spectra {
			for _, p := range s.Peaks(n*f*math.Exp2(-40.0/1200), n*f*math.Exp2(40.0/1200), 35) {
				if p.Power > best.Power {
					best = p
				}
			}
		}
		if best.Power > 0 {
			return whole + 1200*math.Log2(best.Hz/(n*f))
		}
	}
	return whole
}

// aboveNoise returns how many dB the noise lies below what was played.
func (l *Listener) aboveNoise(at float64, spectra []net.Spectrum) float64 {
	from := max(0, int(l.inKept(at)*l.rate))
	to := min(len(l.kept), from+int(net.Half*l.rate))
	var power float64
	for _, x := range l.kept[from:to] {
		power += x * x
	}
	power /= float64(max(1, to-from))
	noise := spectra[0].Noise()
	for _, s := range spectra {
		noise = min(noise, s.Noise())
	}
	if floor, known := l.level.floor(); known {
		noise = min(noise, floor) // before a stroke nothing rings
	}
	return min(60, 10*math.Log10(max(power-noise, power*1e-3)/max(noise, 1e-12)))
}
