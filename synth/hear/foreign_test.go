package hear

import (
	"fmt"
	"math"
	"testing"

	"sparetone/synth/hear/net"
	"sparetone/theory"
)

// ringingTones returns a second and a half of tones of 16,000 samples a second: each a MIDI number, its amplitude, and when it begins and how much it falls in a second.
func ringingTones(tones ...[4]float64) []float64 {
	const rate = 16000
	out := make([]float64, 3*rate/2)
	for i := range out {
		for _, tone := range tones {
			if s := float64(i)/rate - tone[2]; s >= 0 {
				out[i] += tone[1] * math.Exp(-s*tone[3]) * math.Sin(2*math.Pi*theory.MIDIFrequency(int(tone[0]), 440)*s)
			}
		}
	}
	return out
}

// readingOf is a reading of a C chord on the ukulele that sounds some pitches.
func readingOf(among int, pitches ...int) Reading {
	r := Reading{Among: among, Verdict: Other}
	for i, p := range pitches {
		r.Strings = append(r.Strings, Heard{Number: 4 - i, Expected: []int{67, 60, 64, 72}[i], Pitch: p, Sure: 1})
	}
	return r
}

// What stands at no partial of a reading is foreign, from a part of all that stands out on.
func TestForeignTones(t *testing.T) {
	a := net.NewAnalyser(16000)
	c := [][4]float64{{67, 0.1, 0, 0}, {60, 0.1, 0, 0}, {64, 0.1, 0, 0}, {72, 0.1, 0, 0}}
	for _, s := range []struct {
		name string
		more [4]float64
		want bool
	}{
		{"nothing", [4]float64{60, 0, 0, 0}, false},
		{"a third partial", [4]float64{79, 0.1, 0, 0}, false},
		{"F above, softly", [4]float64{77, 0.026, 0, 0}, false},
		{"F above, stronger", [4]float64{77, 0.031, 0, 0}, true},
		{"C below, as from a bass", [4]float64{48, 0.05, 0, 0}, true},
		{"what is too soft to stand out", [4]float64{77, 0.002, 0, 0}, false},
		{"what lies above all that is looked at", [4]float64{104, 0.1, 0, 0}, false},
	} {
		got := readingOf(-1, 67, 60, 64, 72).foreign(440, foreignPart, a.Spectrum(ringingTones(append(c, s.more)...), 0.2, 0.7))
		if got != s.want {
			t.Errorf("%s: foreign is %v", s.name, got)
		}
	}
	if !readingOf(-1, 67, Silent, 64, 72).foreign(440, foreignPart, a.Spectrum(ringingTones(c...), 0.2, 0.7)) {
		t.Error("a string that is read as silent is none of what is foreign")
	}
	for hz, want := range map[float64]bool{220 * 14: true, 220 * 15: false, 220 * 1.019: true, 220 * 1.022: false, 220 * 2 * 1.019: true, 90: false} {
		if got := isPartial(hz, 220); got != want {
			t.Errorf("%v Hz is a partial of 220 Hz: %v", hz, got)
		}
	}
}

// Pitches that surely sound beside a reading are too much, and one that may is not.
func TestExtraPitches(t *testing.T) {
	r := readingOf(-1, 67, 60, 64, 72)
	for _, c := range []struct {
		odds map[int]float64
		want bool
	}{
		{map[int]float64{67: 9, 60: 9, 64: 9, 72: 9, 65: 1.9, 66: 1.9, 70: 1.9}, false},
		{map[int]float64{65: 3.9}, false},
		{map[int]float64{65: 4}, true},
		{map[int]float64{65: 2.1, 69: 2.1}, true},
	} {
		if got := r.extra(c.odds); got != c.want {
			t.Errorf("%v: %v", c.odds, got)
		}
	}
}

// Two faults of fingers fit, three do only as a shape that is known.
func TestWhatFits(t *testing.T) {
	for _, c := range []struct {
		r    Reading
		want bool
	}{
		{readingOf(-1, 67, 60, 64, 72), true}, {readingOf(-1, 67, 61, Silent, 72), true}, {readingOf(-1, 69, 61, Silent, 72), false},
		{readingOf(0, 69, 60, 65, 69), true}, {readingOf(-1, 69, 60, 65, 69), false},
	} {
		if got := c.r.fits(); got != c.want {
			t.Errorf("%+v fits: %v", c.r, got)
		}
	}
}

// A string that rings or is held was not struck; one that is struck anew while it rings was; so was one of which a single partial grew.
func TestAllAreStruck(t *testing.T) {
	for _, c := range []struct {
		name  string
		tones [][4]float64
		want  bool
	}{
		{"both begin", [][4]float64{{60, 0.1, 0.5, 1}, {67, 0.1, 0.5, 1}}, true},
		{"one is held", [][4]float64{{60, 0.1, 0.5, 1}, {67, 0.1, 0, 0}}, false},
		{"one is held a little louder", [][4]float64{{60, 0.1, 0.5, 1}, {67, 0.1, 0, 0}, {67, 0.04, 0.5, 0}}, false},
		{"one rings and is struck anew", [][4]float64{{60, 0.1, 0.5, 1}, {67, 0.1, 0, 2}, {67, 0.1, 0.5, 2}}, true},
		{"one has its second partial anew", [][4]float64{{60, 0.1, 0.5, 1}, {67, 0.1, 0, 0}, {79, 0.1, 0.5, 0}}, true},
		{"one begins later in the stroke", [][4]float64{{60, 0.1, 0.5, 1}, {67, 0.1, 0.58, 1}}, true},
	} {
		l, err := Listen(16000, func() Task { t := ukulele(); t.Expect = []int{67, 60, 64, 72}; return t }())
		if err != nil {
			t.Fatal(err)
		}
		l.kept = ringingTones(c.tones...)
		if got := l.allStruck(0.5, readingOf(-1, 67, 60, Silent, Silent)); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// A recording may begin within a stroke: what sounds from its first sample on was struck.
func TestWhatBeginsWithTheRecordingIsStruck(t *testing.T) {
	l, err := Listen(16000, func() Task { t := ukulele(); t.Expect = []int{67, 60, 64, 72}; return t }())
	if err != nil {
		t.Fatal(err)
	}
	for _, late := range []float64{0, 0.006, 0.016, 0.026, 0.04} { // seconds after which the onset is found
		l.kept = ringingTones([4]float64{60, 0.1, 0.5, 1}, [4]float64{67, 0.1, 0.52, 1})[8000:]
		if !l.allStruck(late, readingOf(-1, 67, 60, Silent, Silent)) {
			t.Errorf("found after %v s: it was not struck", late)
		}
	}
}

// A pluck rings on, a knock does not.
func TestKnocksDoNotRingOn(t *testing.T) {
	l, err := Listen(16000, func() Task { t := ukulele(); t.Expect = []int{67, 60, 64, 72}; return t }())
	if err != nil {
		t.Fatal(err)
	}
	for fall, want := range map[float64]bool{2: true, 8: true, 20: false, 60: false} {
		l.kept = ringingTones([4]float64{67, 0.1, 0.5, fall})
		if got := l.rangOn(0.5, theory.MIDIFrequency(67, 440)); got != want {
			t.Errorf("what falls by e %v times a second rings on: %v", fall, got)
		}
	}
	l.kept = ringingTones([4]float64{67, 0.1, 0.5, 30}, [4]float64{79, 0.03, 0.5, 2})
	if !l.rangOn(0.5, theory.MIDIFrequency(67, 440)) {
		t.Error("its second partial alone does not count")
	}
	l.kept = ringingTones([4]float64{67, 0.1, 0.5, 30}, [4]float64{79, 0.0012, 0.5, 2})
	if l.rangOn(0.5, theory.MIDIFrequency(67, 440)) {
		t.Error("a partial that is hardly there counts")
	}
}

// Nothing is said of a stroke or of strings in turn in which something is foreign, nor where more was plucked than there are strings.
func TestWhatIsForeignIsDoubted(t *testing.T) {
	l, err := Listen(16000, func() Task { t := ukulele(4, 3, 2, 1); t.Expect = []int{67, 60, 64, 72}; return t }())
	if err != nil {
		t.Fatal(err)
	}
	a := net.NewAnalyser(16000)
	c := [][4]float64{{67, 0.1, 0.5, 1}, {60, 0.1, 0.5, 1}, {64, 0.1, 0.5, 1}, {72, 0.1, 0.5, 1}}
	spectrum := func(more ...[4]float64) net.Spectrum {
		l.kept = ringingTones(append(c, more...)...)
		return a.Spectrum(l.kept, 0.55, 1.05)
	}
	check := func(name string, want bool, doubt func(*Reading), pitches ...int) {
		for _, verdict := range []Verdict{Right, Other} {
			r := readingOf(-1, pitches...)
			r.Verdict = verdict
			doubt(&r)
			if r.Foreign != want || (r.Verdict == Unsure) != want || !want && r.Verdict != verdict {
				t.Errorf("%s: foreign %v, %s", name, r.Foreign, r.Verdict)
			}
		}
	}
	stroke := func(odds map[int]float64, more ...[4]float64) func(*Reading) {
		return func(r *Reading) { l.doubtStroke(r, 0.5, odds, spectrum(more...)) }
	}
	check("as read", false, stroke(nil), 67, 60, 64, 72)
	check("another tone", true, stroke(nil, [4]float64{65, 0.1, 0.5, 1}), 67, 60, 64, 72)
	check("another pitch", true, stroke(map[int]float64{65: 5}), 67, 60, 64, 72)
	check("no shape", true, stroke(nil, [4]float64{69, 0.1, 0.5, 1}, [4]float64{65, 0.1, 0.5, 1}), 69, 65, 67, 72)
	check("one held", true, func(r *Reading) {
		spectra := spectrum()
		l.kept = ringingTones(append(c[1:], [4]float64{67, 0.1, 0, 0})...)
		l.doubtStroke(r, 0.5, nil, spectra)
	}, 67, 60, 64, 72)
	for _, n := range []struct {
		plucks int
		most   float64
		power  float64
		want   bool
	}{{4, 9, 0, false}, {5, 9, 0, false}, {6, 9, 0, true}, {6, 1, 0, false}, {4, 9, 0.09, false}, {4, 9, 0.11, true}} {
		for _, strength := range []float64{weak, strong} {
			check(fmt.Sprintf("%+v %v", n, strength), n.want && strength == strong, func(r *Reading) {
				p, s := plucked{}, spectrum([4]float64{65, n.power, 0.5, 1})
				var onsets []onset
				for k := range n.plucks {
					onsets, p.most, p.spectra = append(onsets, onset{float64(k), strength}), append(p.most, n.most), append(p.spectra, s)
				}
				l.doubtTurn(r, onsets, p)
			}, 67, 60, 64, 72)
		}
	}
}
