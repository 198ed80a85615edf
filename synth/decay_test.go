package synth

import (
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
)

// Partials 1 to 6 of the nylon voices die away, and their brightness falls, as those of a recorded nylon
// guitar do at the same pitches, within a factor of 2.
//
// Not every partial of a recording falls along a line: strings beat with the body and with themselves.
// Where a line explains less than 95 % of how a partial's level moves, there is no rate to compare with;
// the log says which those are.
func TestNylonDiesAwayAsRecorded(t *testing.T) {
	recorded := nylonGuitarRecorded(t)
	within2 := func(a, b float64) bool { return a/b <= 2 && b/a <= 2 }
	for name, lowest := range map[string]int{"ukulele": 59, "guitar": 40} {
		v, err := VoiceByName(name)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s, then recorded: dB/s of partials 1 to 6 (~ is not a line); centroid in Hz at 50 and 500 ms", name)
		for _, n := range slices.Sorted(maps.Keys(recorded)) {
			if n < lowest {
				continue
			}
			f := midiPitch(n).Frequency(440)
			real, ours := recorded[n], plucked(t, v, n, Options{})
			ours.Samples = ours.Samples[ours.Onset():]
			until := min(1, float64(len(real.Samples))/real.Rate)
			line := fmt.Sprintf("%4v ", midiPitch(n))
			for k := 1; k <= 6; k++ {
				want, straight := real.Decay(f, k, 0.05, until)
				got, _ := ours.Decay(f, k, 0.05, until)
				if straight < 0.95 {
					line += fmt.Sprintf("%6.1f      ~ ", got)
					continue
				}
				line += fmt.Sprintf("%6.1f %6.1f ", got, want)
				if !within2(got, want) {
					t.Errorf("%s %v partial %d falls %.2f dB/s, recorded %.2f", name, midiPitch(n), k, got, want)
				}
			}
			for _, at := range []float64{0.05, 0.5} {
				want, got := real.Centroid(at), ours.Centroid(at)
				line += fmt.Sprintf("%6.0f %6.0f ", got, want)
				if !within2(got, want) {
					t.Errorf("%s %v at %v s: centroid %.0f Hz, recorded %.0f", name, midiPitch(n), at, got, want)
				}
			}
			t.Log(line)
		}
	}
}

// The guitar voice loses inside its strings what Woodhouse measured on a guitar's: table 1 and equation 8
// of "Plucked guitar transients", Acta Acustica united with Acustica 90, 2004. What the bridge takes comes
// on top and is taken off again here. Open strings, partials 1 to 10 that lie below 4 kHz, within a third.
func TestGuitarStringsLoseWhatWasMeasured(t *testing.T) {
	table, err := os.ReadFile("../testdata/strings-woodhouse-2004.tsv")
	if err != nil {
		t.Fatal(err)
	}
	voice, err := VoiceByName("guitar")
	if err != nil {
		t.Fatal(err)
	}
	guitar := voice.(*instrument)
	rows := 0
	for row := range strings.Lines(string(table)) {
		if strings.HasPrefix(row, "#") {
			continue
		}
		var midi int
		var tension, mass, stiffness, friction, bending, air float64
		if _, err := fmt.Sscan(row, &midi, &tension, &mass, &stiffness, &friction, &bending, &air); err != nil {
			t.Fatalf("%q: %v", row, err)
		}
		rows++
		f := midiPitch(midi).Frequency(440)
		r := plucked(t, guitar, midi, Options{})
		w := guitar.wires[guitar.wireFor(f)]
		bridge := 2 * f * math.Sqrt(w.tension*w.mass) * w.bridge
		line := fmt.Sprintf("%4v ", midiPitch(midi))
		for k := 1; k <= 10 && float64(k)*f < 4000; k++ {
			omega := 2 * math.Pi * f * float64(k)
			// T = 4L²f²μ, so (kπ/L)² = ω²μ/T.
			bend := stiffness * omega * omega * mass / tension
			eta := (tension*(friction+air/omega) + bending*bend) / (tension + bend)
			want := eta * omega / 2
			rate, _ := r.Decay(f, k, 0.2, 1.2)
			got := rate/(20*math.Log10(math.E)) - bridge
			line += fmt.Sprintf("%6.2f %5.2f ", got, want)
			if got/want > 4.0/3 || want/got > 4.0/3 {
				t.Errorf("%v partial %d loses %.2f/s in the string, measured %.2f/s", midiPitch(midi), k, got, want)
			}
		}
		t.Log(line)
	}
	if rows != 6 {
		t.Errorf("%d strings of 6 were compared", rows)
	}
}
