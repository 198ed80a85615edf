package main

import (
	"math"
	"math/rand/v2"
	"slices"

	"sparetone/synth/hear/net"
)

// rate is the rate of invented sounds in samples a second: enough for the highest partial that is looked at.
const rate = 16000.0

// necks are the open strings of the instruments for which sounds are invented, by MIDI number. Common practice, no source.
var necks = [][]int{
	{67, 60, 64, 69}, {67, 60, 64, 69}, {55, 60, 64, 69}, {50, 55, 59, 64}, // ukuleles
	{40, 45, 50, 55, 59, 64}, {40, 45, 50, 55, 59, 64}, {38, 45, 50, 55, 57, 62}, // guitars
	{55, 62, 69, 76}, {48, 55, 62, 69}, {62, 67, 71, 74},
}

// between returns a number drawn evenly from lo to hi.
func between(r *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }

// ratio returns a number from lo to hi whose logarithm is drawn evenly.
func ratio(r *rand.Rand, lo, hi float64) float64 { return lo * math.Pow(hi/lo, r.Float64()) }

// db returns the amplitude of so many decibels.
func db(x float64) float64 { return math.Pow(10, x/20) }

// bump is where a body, a room or a loudspeaker is stronger or weaker.
type bump struct{ octave, width, gain float64 }

// build is what all strings of an invented instrument share.
type build struct {
	slope    float64 // of the partials: amplitude falls with this power of their number
	rough    float64 // dB by which partials stray
	position float64 // where the string is plucked
	stiff    float64 // partials are sharper by this times the square of their number
	last     float64 // seconds in which a note of 200 Hz falls by 60 dB
	low      float64 // by which power of the frequency lower notes last longer
	damping  float64 // how much faster each next partial falls
	rise     float64 // seconds until a string sounds wholly
	beat     float64 // how often a partial is two
	twin     float64 // of how strong it is, the second at the most
	thud     float64 // dB of the noise of a pluck
	bumps    []bump
	highpass float64 // Hz
	order    float64
	lowpass  float64
}

// newBuild invents an instrument, with what it is heard through.
func newBuild(r *rand.Rand) build {
	b := build{
		slope: between(r, 0.2, 2.4), rough: between(r, 1, 7), position: between(r, 0.06, 0.5), stiff: ratio(r, 1e-6, 4e-4),
		last: ratio(r, 0.7, 12), low: between(r, 0.2, 0.9), damping: ratio(r, 0.02, 0.6), rise: ratio(r, 0.001, 0.05),
		beat: between(r, 0, 0.6), twin: 0.8, thud: between(r, -50, -12),
		highpass: ratio(r, 30, 350), order: between(r, 0, 3), lowpass: ratio(r, 1800, 20000),
	}
	for range 3 + r.IntN(7) {
		b.bumps = append(b.bumps, bump{between(r, 6, 12.5), ratio(r, 0.05, 1), 5 * r.NormFloat64()})
	}
	return b
}

// narrow makes the instrument one of those that are usual, where little else tells a masked string from none: plucked at a third of the
// string at the most, with partials that stray less and that beat less by themselves.
func (b *build) narrow(r *rand.Rand) {
	b.slope, b.rough, b.position = between(r, 0.4, 2), between(r, 1, 5), between(r, 0.06, 0.33)
	b.beat, b.twin = between(r, 0, 0.35), 0.4
}

// through returns how strongly the instrument passes a frequency on.
func (b build) through(f float64) float64 {
	octave, gain := math.Log2(f), 0.0
	for _, p := range b.bumps {
		d := (octave - p.octave) / p.width
		gain += p.gain * math.Exp(-d*d/2)
	}
	x := math.Pow(b.highpass/f, 2)
	return db(gain) * math.Pow(1+x, -b.order/2) / math.Sqrt(1+math.Pow(f/b.lowpass, 4))
}

// pluck adds a string of f Hz that is plucked at a time and, unless it is 0, stopped at another.
func (b build) pluck(r *rand.Rand, out []float64, f, at, strength, stop float64) {
	start := int(at * rate)
	if start >= len(out) {
		return
	}
	end := len(out)
	if stop > at {
		end = min(end, int((stop+0.08)*rate))
	}
	last := b.last * math.Pow(f/200, -b.low) * ratio(r, 0.7, 1.4)
	position := math.Min(0.5, math.Max(0.03, b.position+0.05*r.NormFloat64()))
	bright := b.slope + 0.25*r.NormFloat64()
	sound := make([]float64, end-start)
	for k := 1; k <= 24; k++ {
		n := float64(k)
		fk := n * f * math.Sqrt(1+b.stiff*n*n)
		if fk > 0.45*rate {
			break
		}
		a := strength * math.Pow(n, -bright) * (0.15 + math.Abs(math.Sin(math.Pi*n*position))) * b.through(fk) * db(b.rough*r.NormFloat64())
		fall := 6.91 / last * (1 + b.damping*(n-1)) * (1 + math.Pow(fk/4000, 2)) * math.Exp(0.35*r.NormFloat64())
		partial(sound, fk, a, fall, 2*math.Pi*r.Float64())
		if r.Float64() < b.beat {
			partial(sound, fk+between(r, 0.1, 2), a*between(r, b.twin/8, b.twin), fall*ratio(r, 0.5, 2), 2*math.Pi*r.Float64())
		}
	}
	rise := int(b.rise * ratio(r, 0.5, 2) * rate)
	for i := range min(rise, len(sound)) {
		sound[i] *= float64(i) / float64(rise)
	}
	if stop > at {
		for i := max(0, int((stop-at)*rate)); i < len(sound); i++ {
			sound[i] *= math.Exp(-(float64(i)/rate - (stop - at)) / 0.012)
		}
	}
	knock(r, sound, strength*db(b.thud), ratio(r, 150, 4000), ratio(r, 0.003, 0.04))
	for i, x := range sound {
		out[start+i] += x
	}
}

// partial adds a sine of f Hz that falls by e in 1/fall seconds.
func partial(out []float64, f, a, fall, phase float64) {
	if a < 1e-7 {
		return
	}
	w := 2 * math.Pi * f / rate
	shrink := math.Exp(-fall / rate)
	cos, sin := shrink*math.Cos(w), shrink*math.Sin(w)
	re, im := a*math.Cos(phase), a*math.Sin(phase)
	for i := range out {
		out[i] += im
		re, im = re*cos-im*sin, re*sin+im*cos
	}
}

// knock adds a burst of noise about f Hz that falls by e in so many seconds.
func knock(r *rand.Rand, out []float64, a, f, fall float64) {
	part := math.Min(1, 2*math.Pi*f/rate)
	var x, low float64
	for i := range out[:min(len(out), int(7*fall*rate))] {
		x += part * (3*a*r.NormFloat64() - x)
		low += 0.3 * part * (x - low)
		out[i] += (x - low) * math.Exp(-float64(i)/rate/fall)
	}
}

// room adds echoes: a few early ones and, often, a tail.
func room(r *rand.Rand, s []float64) []float64 {
	if r.Float64() < 0.3 {
		return s
	}
	out := append([]float64(nil), s...)
	loud := db(between(r, -30, -6))
	for range 2 + r.IntN(10) {
		late, a := int(between(r, 0.002, 0.05)*rate), loud*between(r, -1, 1)
		for i := late; i < len(out); i++ {
			out[i] += a * s[i-late]
		}
	}
	if r.Float64() < 0.6 { // a tail of four combs: Schroeder, J. Audio Eng. Soc. 10(3), 1962
		last, wet := ratio(r, 0.15, 0.8), db(between(r, -35, -14))
		for range 4 {
			late := int(between(r, 0.02, 0.05) * rate)
			back := math.Pow(10, -3*float64(late)/rate/last)
			line := make([]float64, len(s))
			for i := late; i < len(s); i++ {
				line[i] = s[i-late] + back*line[i-late]
				out[i] += wet * line[i]
			}
		}
	}
	return out
}

// noise adds noise, part white and part pink, so many dB below the sound, and a hum of the mains at times.
func noise(r *rand.Rand, s []float64, below float64) {
	var power float64
	for _, x := range s {
		power += x * x
	}
	level := math.Sqrt(power/float64(len(s))) * db(-below)
	white := r.Float64()
	// Kellet's filter from white to pink, from memory.
	var b0, b1, b2 float64
	for i := range s {
		w := r.NormFloat64()
		b0 = 0.99765*b0 + w*0.0990460
		b1 = 0.96300*b1 + w*0.2965164
		b2 = 0.57000*b2 + w*1.0526913
		s[i] += level * (white*w + (1-white)*(b0+b1+b2+w*0.1848)*0.6)
	}
	if r.Float64() < 0.15 {
		hum := 50 + 10*float64(r.IntN(2))
		for n := 1; n <= 6; n++ {
			partial(s, hum*float64(n), level*r.Float64(), 0, 0)
		}
	}
}

// speech returns a sound that glides as a voice does, with pauses and hisses.
func speech(r *rand.Rand, length int) []float64 {
	out := make([]float64, length)
	f := ratio(r, 80, 350)
	formants := [3]float64{ratio(r, 250, 900), ratio(r, 800, 2400), ratio(r, 2000, 3500)}
	var phase, glide, gain float64
	aim, hiss := 1.0, 0.0
	steady := r.Float64() < 0.3 // a sung note, or a long vowel
	for i := range out {
		if i%int(0.06*rate) == 0 {
			glide = 6 * r.NormFloat64() // semitones a second
			if steady {
				glide *= 0.05
			}
			if !steady || r.Float64() < 0.1 {
				aim, hiss = 0, 0
				if r.Float64() < 0.7 {
					aim = ratio(r, 0.2, 1)
				}
				if r.Float64() < 0.2 {
					hiss = ratio(r, 0.05, 0.5)
				}
			}
		}
		f *= math.Exp2(glide / 12 / rate)
		gain += (aim - gain) * 40 / rate
		phase += f / rate
		phase -= math.Floor(phase)
		x := 0.0
		for n := 1; n <= 12; n++ {
			fn := f * float64(n)
			if fn > 4000 {
				break
			}
			a := 0.05
			for _, fo := range formants {
				d := (fn - fo) / (0.12 * fo)
				a += 1 / (1 + d*d)
			}
			x += a / float64(n) * math.Sin(2*math.Pi*phase*float64(n))
		}
		out[i] = gain*x + hiss*r.NormFloat64()
	}
	return out
}

// knocks returns a sound of bodies that are struck: what a table, a door or a hand on the strings makes.
func knocks(r *rand.Rand, length int) []float64 {
	out := make([]float64, length)
	for range 1 + r.IntN(4) {
		at := 0
		if r.Float64() < 0.5 {
			at = r.IntN(length)
		}
		for range 2 + r.IntN(6) {
			partial(out[at:], ratio(r, 80, 3000), db(between(r, -20, 0)), 1/ratio(r, 0.004, 0.12), 0)
		}
		knock(r, out[at:], db(between(r, -20, 0)), ratio(r, 150, 5000), ratio(r, 0.003, 0.08))
	}
	return out
}

// example is a sound, when in it something was plucked, and what.
type example struct {
	samples  []float64
	at, next float64 // seconds; next is 0 if nothing more is plucked
	off      float64 // cents of the whole instrument, as they would be heard
	plucked  []int   // MIDI numbers
	others   []int   // that the instrument has and that were not plucked then
	ringing  []int   // of these, those that sound all the same
	analyser *net.Analyser
}

// mask has a string of some pitches sound what is masked by another, if their necks allow it.
func mask(r *rand.Rand, neck, pitches []int) {
	for range 20 {
		lower, upper := r.IntN(len(neck)), r.IntN(len(neck))
		want := pitches[lower] + net.Above[r.IntN(len(net.Above))]
		if lower != upper && want >= neck[upper] && want <= neck[upper]+12 {
			pitches[upper] = want
			return
		}
	}
}

// beside reports whether a string was plucked so many semitones above a pitch.
func (e example) beside(pitch int) func(semitones int) bool {
	return func(semitones int) bool { return slices.Contains(e.plucked, pitch+semitones) }
}

// masked returns which notes of an example are judged of those that another masks, and whether each was plucked: all that were, and some
// others.
func (e example) masked(r *rand.Rand, most int) (notes []int, plucked []bool) {
	for _, p := range slices.Compact(slices.Sorted(slices.Values(e.plucked))) {
		if net.MaskedBy(e.beside(p)) > 0 {
			notes, plucked = append(notes, p), append(plucked, true)
		}
	}
	for _, i := range r.Perm(len(e.others)) {
		if p := e.others[i]; len(notes) < most && net.MaskedBy(e.beside(p)) > 0 {
			notes, plucked = append(notes, p), append(plucked, false)
		}
	}
	return notes, plucked
}

// held returns what some fingers on a neck stop: a pitch for each string.
func held(r *rand.Rand, neck []int) []int {
	base := 0
	if r.Float64() < 0.4 {
		base = r.IntN(9)
	}
	out := make([]int, len(neck))
	for i, open := range neck {
		fret := base + r.IntN(5)
		if r.Float64() < 0.35 {
			fret = 0
		}
		out[i] = open + fret
	}
	return out
}

// invent returns an example: strings struck at once, of which one masks another or not, or one of strings plucked in turn.
func invent(r *rand.Rand, inTurn, masks bool) example {
	neck := necks[r.IntN(len(necks))]
	b := newBuild(r)
	if masks {
		b.narrow(r)
	}
	e := example{off: between(r, -50, 50)}
	pitches := held(r, neck)
	silent, untuned := 0.12, 7.0 // how often a string does not sound, and cents that strings are off each other
	if masks {
		mask(r, neck, pitches)
		silent = 0.25
		untuned = ratio(r, 0.7, 9)
	}
	hz := func(midi int) float64 {
		return 440 * math.Exp2((float64(midi-69)+(e.off+untuned*r.NormFloat64())/100)/12)
	}
	strength := func() float64 { return db(math.Max(-14, math.Min(8, 3.5*r.NormFloat64()))) }
	lead := between(r, 0.25, 0.4)
	length := int((lead + net.StrumTime + 0.02) * rate)
	gap := between(r, 0.15, 0.5)
	turn := 0
	if inTurn {
		turn = r.IntN(len(pitches))
		length = int((lead + float64(turn)*gap + net.PluckTime + 0.02) * rate)
	}
	out := make([]float64, length)
	sounding := map[int]bool{}
	nothing := r.Float64()
	switch {
	case nothing < 0.04:
		out, e.at = speech(r, length), lead
	case nothing < 0.07:
		out, e.at = knocks(r, length), lead
	case !inTurn:
		if r.Float64() < 0.2 { // what was struck before still rings
			quiet := db(between(r, -30, -6))
			for _, p := range held(r, neck) {
				if r.Float64() < 0.6 {
					b.pluck(r, out, hz(p), 0.01, quiet*strength(), 0)
					sounding[p] = true
				}
			}
		}
		step := ratio(r, 0.002, 0.05)
		up := r.Float64() < 0.3
		e.at = lead
		for i, p := range pitches {
			if r.Float64() < silent {
				continue // it is not struck, or stilled
			}
			n := i
			if up {
				n = len(pitches) - 1 - i
			}
			b.pluck(r, out, hz(p), lead+step*float64(n), strength(), 0)
			e.plucked = append(e.plucked, p)
		}
	default:
		for i, p := range pitches {
			at := lead + float64(i)*gap*between(r, 0.9, 1.1)
			missing := r.Float64() < 0.1
			if i == turn {
				e.at = at
			} else if e.next == 0 && i > turn {
				e.next = at
			}
			if missing {
				continue
			}
			stop := 0.0
			if r.Float64() < 0.1 {
				stop = at + gap // the hand comes back to it
			}
			b.pluck(r, out, hz(p), at, strength(), stop)
			if i == turn {
				e.plucked = append(e.plucked, p)
			} else if i < turn {
				sounding[p] = true
			}
		}
		if r.Float64() < 0.1 { // a fingertip on the body, or a string that does not sound
			knock(r, out[min(len(out)-1, int(e.at*rate)):], strength()*db(-10), ratio(r, 150, 3000), ratio(r, 0.003, 0.05))
		}
	}
	out = room(r, out)
	noise(r, out, between(r, 4, 45))
	e.samples = out
	e.at += between(r, -0.005, 0.02) // as an onset is found
	e.off += 3 * r.NormFloat64()
	plucked := map[int]bool{}
	for _, p := range e.plucked {
		plucked[p] = true
	}
	lowest, highest := 200, 0
	for _, open := range neck {
		lowest, highest = min(lowest, open), max(highest, open+12)
	}
	for p := lowest; p <= highest; p++ {
		if sounding[p] && !plucked[p] {
			e.ringing = append(e.ringing, p)
		}
		if !plucked[p] {
			e.others = append(e.others, p)
		}
	}
	return e
}

// asked returns which notes of an example are judged, and whether each was plucked: all that were, what is most easily taken for
// them, and some at random.
func (e example) asked(r *rand.Rand, most int) (notes []int, plucked []bool) {
	for i, p := range e.plucked {
		same := false
		for _, q := range e.plucked[:i] {
			same = same || q == p
		}
		if !same && len(notes) < most {
			notes, plucked = append(notes, p), append(plucked, true)
		}
	}
	in := map[int]bool{}
	for _, p := range e.others {
		in[p] = true
	}
	add := func(p int) {
		if in[p] && len(notes) < most {
			delete(in, p)
			notes, plucked = append(notes, p), append(plucked, false)
		}
	}
	for _, p := range e.ringing {
		add(p)
	}
	near := []int{-1, 1, 12, -12, 2, -2, 7, 19, 5, -7, 3, 4}
	for range 2 * most {
		if len(e.plucked) > 0 && r.Float64() < 0.6 {
			add(e.plucked[r.IntN(len(e.plucked))] + near[r.IntN(len(near))])
		} else {
			add(e.others[r.IntN(len(e.others))])
		}
	}
	return notes, plucked
}

// spectra returns the spectra that a net sees of the example, of a pluck in turn or of a stroke.
func (e example) spectra(inTurn bool) []net.Spectrum {
	if inTurn {
		return net.PluckSpectra(e.analyser, e.samples, e.at, e.next)
	}
	return net.StrumSpectra(e.analyser, e.samples, e.at, 0)
}
