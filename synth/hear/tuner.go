package hear

import (
	"fmt"
	"math"
	"slices"

	"sparetone/synth/hear/net"
	"sparetone/theory"
)

// How a string is tuned by ear.
const (
	InTune     = 4.0 // cents off at the most for a string to be in tune: nobody hears less on a plucked string (from judgement)
	tunedAfter = 0.3 // seconds of a note after which it is told: a pluck is sharp at its beginning
	tunedOver  = 0.5 // seconds of it that are weighed, the newest
	newNote    = 0.2 // seconds without a tone, after which the next one is another note
	pluckRings = 3.0 // seconds after a pluck, in which only plucks are told: what else sounds as one tone may be several that ring
	followStep = 0.1 // from look to look at a string that was plucked
	astray     = 9.0 // semitones outside the strings, beyond which a tone is no string
	noisyLevel = -45 // dBFS: as loud as this without a tone for noisyTime it is too noisy (from judgement)
	noisyTime  = 2.0
)

// Tuner hears strings that are plucked by themselves: which one it is, and how far off. It is not for two goroutines at once.
type Tuner struct {
	rate    float64
	a4      float64
	strings []String
	tones   *Tones
	meter   *Meter
	spectra *net.Analyser
	kept    []float64 // the newest samples, of which the noise is measured
	onsets  *onsets
	net     *net.Net
	struck  []float64   // times at which something was struck, that are not heard yet
	pluck   *pluckHeard // that is followed; nil if none is
	looked  float64     // when it was looked at last
	plucked float64     // when the last string was that was heard to be plucked
	lowest  float64     // Hz
	highest float64
	note    []Tone // the tones of the note that sounds
	now     Tuned
	last    map[int]Tuned // by the string's number, as it was heard last
	fed     int
	toned   float64 // when a tone was heard last, in seconds
}

// Tuned is how a string was heard that was plucked by itself.
type Tuned struct {
	Numbers []int   // of the string; several where their pitch is the same
	Cents   float64 // how far it is above its pitch for A4
	Hz      float64
	At      float64 // when the note began, in seconds from the first sample
	Heard   float64 // seconds of the note that were heard
	Noise   float64 // dB that the noise lies below it; below Clean the rest is not told, and zero
}

// NewTuner returns a tuner for strings in tuning order, of which only Number and Open count, for A4 in Hz, in sound of so many samples a
// second. The error says what is wrong.
func NewTuner(rate float64, strings []String, a4 float64) (*Tuner, error) {
	if len(strings) == 0 || len(strings) > mostStrings {
		return nil, fmt.Errorf("%d strings to tune: it must be 1 to %d", len(strings), mostStrings)
	}
	t := &Tuner{rate: rate, a4: a4, strings: strings, last: map[int]Tuned{}}
	lowest, highest := math.Inf(1), 0.0
	for _, s := range strings {
		if s.Open < lowestPitch || s.Open > highestPitch {
			return nil, fmt.Errorf("string %d at MIDI number %d: it must be %d to %d", s.Number, s.Open, lowestPitch, highestPitch)
		}
		hz := theory.MIDIFrequency(s.Open, a4)
		lowest, highest = min(lowest, hz), max(highest, hz)
	}
	if !(rate >= LowestRate && rate <= HighestRate) {
		return nil, fmt.Errorf("a rate of %v samples a second: it must be %v to %v", rate, LowestRate, HighestRate)
	}
	beyond := math.Exp2(astray / 12)
	var err error
	t.lowest, t.highest = max(25, lowest/beyond), min(rate/4, highest*beyond)
	t.tones, err = NewTones(rate, t.lowest, t.highest)
	t.onsets, t.net, t.plucked = newOnsets(rate), net.Pluck(), -pluckRings
	t.meter, t.spectra = NewMeter(rate), net.NewAnalyser(rate)
	return t, err
}

// Feed hears the samples that come next, -1 to 1, one channel, and reports whether something new was heard of the string that sounds.
func (t *Tuner) Feed(samples []float64) (news bool) {
	for block := range slices.Chunk(samples, int(t.rate/20)) {
		news = t.feed(block) || news
	}
	return news
}

// feed hears samples that are few beside what is kept.
func (t *Tuner) feed(samples []float64) (news bool) {
	t.meter.Feed(samples)
	t.fed += len(samples)
	t.kept = append(t.kept, samples...)
	for first := t.onsets.next() - (t.fed - len(t.kept)); first+t.onsets.size <= len(t.kept); first = t.onsets.next() - (t.fed - len(t.kept)) {
		if o, found := t.onsets.feed(t.kept[first : first+t.onsets.size]); found {
			t.struck = append(t.struck, o.at)
		}
	}
	news = t.plucks()
	if len(t.kept) > int(6*tunedOver*t.rate) {
		t.kept = slices.Delete(t.kept, 0, len(t.kept)-int(4*tunedOver*t.rate))
	}
	for _, tone := range t.tones.Feed(samples) {
		t.toned = tone.At
		if n := len(t.note); n > 0 && (tone.At-t.note[n-1].At > newNote || math.Abs(centsBetween(tone.Hz, medianHz(t.newest()))) > heldWithin) {
			t.note = nil
		}
		t.note = append(t.note, tone)
		if len(t.struck) == 0 && tone.At > t.plucked+pluckRings {
			news = t.tell() || news
		}
	}
	return news
}

// plucks hears what was struck, and follows the string that was plucked last.
func (t *Tuner) plucks() (news bool) {
	now, behind := float64(t.fed)/t.rate, float64(t.fed-len(t.kept))/t.rate
	for len(t.struck) > 0 && now >= t.struck[0]+net.PluckTime {
		at := t.struck[0]
		t.struck = t.struck[1:]
		if h, heard := pluckAt(t.spectra, t.net, t.kept, at-behind, t.lowest, t.highest); heard {
			h.at = at
			t.pluck, t.plucked, t.looked = &h, at, now
			news = t.tellPluck(now) || news
		}
	}
	if t.pluck != nil && len(t.struck) == 0 && now >= t.looked+followStep && now-tunedOver >= t.pluck.at {
		t.looked = now
		clean := t.noise(now, tunedOver) >= Clean
		if clean && !t.pluck.follow(t.spectra.Spectrum(t.kept, now-tunedOver-behind, now-behind)) {
			t.pluck = nil
			return news
		}
		news = t.tellPluck(now) || news
		if !clean { // it has died away, and what stands out from now on is something else
			t.pluck = nil
		}
	}
	return news
}

// tellPluck tells the string that is followed.
func (t *Tuner) tellPluck(at float64) bool {
	return t.told(Tuned{At: t.pluck.at, Heard: at - t.pluck.at, Noise: t.noise(at, min(at-t.pluck.at, tunedOver))}, t.pluck.hz)
}

// newest are the tones of the note that are weighed.
func (t *Tuner) newest() []Tone {
	last := t.note[len(t.note)-1].At
	from := slices.IndexFunc(t.note, func(o Tone) bool { return o.At > last-tunedOver })
	return t.note[from:]
}

// tell tells the note that sounds as a string, once it has sounded long enough.
func (t *Tuner) tell() bool {
	first, last := t.note[0], t.note[len(t.note)-1]
	heard := last.At - first.At
	if heard < tunedAfter {
		return false
	}
	return t.told(Tuned{At: first.At, Heard: heard, Noise: t.noise(last.At, min(heard, tunedOver))}, medianHz(t.newest()))
}

// told tells a note as a string, if the noise lets it.
func (t *Tuner) told(now Tuned, hz float64) bool {
	if now.Noise < Clean {
		if t.now.At == now.At && t.now.Numbers != nil {
			return false // it has died away; what was told of it stands
		}
		t.now = now
		return true
	}
	now.Hz = hz
	now.Numbers, now.Cents = t.nearest(hz)
	if now.Numbers == nil {
		return false
	}
	t.now = now
	for _, n := range now.Numbers {
		t.last[n] = now
	}
	return true
}

// noise returns how many dB the noise lies below the tone that sounds, over some seconds before a time. What rings beside the tone is no
// noise, and between what rings there is little of it where the room was ever so quiet.
func (t *Tuner) noise(at, over float64) float64 {
	behind := float64(t.fed-len(t.kept)) / t.rate
	from, to := at-over-behind, at-behind
	stretch := t.kept[max(0, int(from*t.rate)):min(len(t.kept), int(to*t.rate))]
	var power float64
	for _, x := range stretch {
		power += x * x
	}
	power /= float64(max(1, len(stretch)))
	noise := t.spectra.Spectrum(t.kept, from, to).Noise()
	if floor, known := t.meter.floor(); known {
		noise = min(noise, floor)
	}
	return min(60, 10*math.Log10(max(power-noise, power*1e-3)/max(noise, 1e-12)))
}

// nearest returns which strings a frequency is nearest to, when the whole instrument is off as far as is known, and how many cents it is
// above them; none if it is far from all.
func (t *Tuner) nearest(hz float64) (numbers []int, cents float64) {
	whole, _ := t.Whole()
	least := math.Inf(1)
	for _, s := range t.strings {
		off := centsBetween(hz, theory.MIDIFrequency(s.Open, t.a4))
		switch far := math.Abs(off - whole); {
		case far > 100*astray:
		case far < least-1e-6:
			numbers, cents, least = []int{s.Number}, off, far
		case far < least+1e-6:
			numbers = append(numbers, s.Number)
		}
	}
	return numbers, cents
}

// Now returns the string that was heard last, and whether any was.
func (t *Tuner) Now() (Tuned, bool) { return t.now, t.now.Heard > 0 }

// Of returns how a string was heard last, by its number, and whether it was.
func (t *Tuner) Of(number int) (Tuned, bool) {
	tuned, ok := t.last[number]
	return tuned, ok
}

// Whole returns how many cents the whole instrument is above its pitches: the middle of the strings that were heard; and whether they are
// all in tune with one another, which none is before all were heard.
func (t *Tuner) Whole() (cents float64, agrees bool) {
	var all []float64
	for _, tuned := range t.last {
		all = append(all, tuned.Cents)
	}
	if len(all) < 2 {
		return 0, false
	}
	slices.Sort(all)
	cents = (all[(len(all)-1)/2] + all[len(all)/2]) / 2
	return cents, len(all) == len(t.strings) && all[len(all)-1]-cents <= InTune && cents-all[0] <= InTune
}

// Level returns how loud it is now.
func (t *Tuner) Level() Level { return t.meter.Level() }

// Noisy reports whether it is too noisy for a string to be heard: there was no tone for a while, though it is loud.
func (t *Tuner) Noisy() bool {
	return float64(t.fed)/t.rate-t.toned > noisyTime && t.meter.Level().Floor > noisyLevel
}

// centsBetween returns how many cents a frequency is above another.
func centsBetween(hz, from float64) float64 { return 1200 * math.Log2(hz/from) }
