package synth

import (
	"flag"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/synth/measure"
)

var writeSounds = flag.Bool("write-sounds", false, "write testdata/sounds.tsv again")

// prints is how many fingerprints of a sound are kept.
const prints = 4

// fingerprint is a sound told in few numbers: how many samples it has and what they sum up to with signs drawn at random.
// Whatever changes a thousandth of a sound, or moves it by a sample, changes every sum by far more than rounding does.
type fingerprint struct {
	samples int
	sums    [prints]float64
}

func fingerprintOf(r measure.Recording) fingerprint {
	f := fingerprint{samples: len(r.Samples)}
	for i := range f.sums {
		rng := rand.New(rand.NewPCG(uint64(i), 9))
		for at := 0; at < len(r.Samples); at += 64 {
			signs := rng.Uint64()
			for _, x := range r.Samples[at:min(at+64, len(r.Samples))] {
				f.sums[i] += x * float64(int(signs&1)*2-1)
				signs >>= 1
			}
		}
	}
	return f
}

func (f fingerprint) String() string {
	s := fmt.Sprint(f.samples)
	for _, x := range f.sums {
		s += fmt.Sprintf("\t%.7f", x)
	}
	return s
}

// same reports whether two fingerprints are of one sound, but for rounding: processors round differently.
func (f fingerprint) same(g fingerprint) bool {
	for i := range f.sums {
		if math.Abs(f.sums[i]-g.sums[i]) > 1e-4 {
			return false
		}
	}
	return f.samples == g.samples
}

// staying are scores of every kind that is played: all ways to play, evenly and by a hand, one after another, stopped,
// slurred, in unison, plucked again.
func staying(t testing.TB) map[string]Score {
	c, unison := sounding(t, "4:G4 3:C4 2:E4 1:C5"), sounding(t, "4:G4 3:C4 2:G4 1:Bb4")
	low := sounding(t, "6:E2 5:B2 4:E3 3:G#3 2:B3 1:E4")
	hand := func() Hand {
		return Hand{Tempo: 200, Ring: 900 * time.Millisecond, Rand: rand.New(rand.NewPCG(4, 2))}
	}
	scores := map[string]Score{
		"opened up": Hand{Ring: time.Second}.OpenUp(c),
		"falling":   hand().Falling(c),
		"in turn":   Then(350*time.Millisecond, hand().Strum(c), hand().Strum(unison)),
		"six":       hand().Strum(low),
		"again": {Plucks: []Pluck{
			{String: 1, Pitch: c[0].Pitch, Strength: 0.8},
			{String: 2, Pitch: c[0].Pitch, Strength: 0.5, At: 200 * time.Millisecond, Damp: 300 * time.Millisecond},
			{String: 1, Pitch: c[2].Pitch, Strength: 0.7, At: 400 * time.Millisecond, Slur: true},
			{String: 1, Pitch: c[1].Pitch, Strength: 0.6, At: 600 * time.Millisecond},
		}, Length: 1200 * time.Millisecond},
	}
	for _, how := range Hows() {
		scores[string(how)] = hand().Play(how, c)
		scores[string(how)+" in unison"] = hand().Play(how, unison)
	}
	return scores
}

// Every voice sounds every score as it always did. Where a sound is meant to change, -write-sounds writes the table again.
func TestSoundsStay(t *testing.T) {
	const path = "testdata/sounds.tsv"
	scores := staying(t)
	got := map[string]fingerprint{}
	for _, v := range Voices() {
		for name, score := range scores {
			s, err := Render(score, v, Options{A4: 442})
			if err != nil {
				t.Fatal(err)
			}
			got[v.Name()+"\t"+name] = fingerprintOf(measure.Record(s, SampleRate))
		}
	}
	if *writeSounds {
		writeTable(t, path, got)
	}
	table, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	rows := 0
	for row := range strings.Lines(string(table)) {
		cells := strings.Split(strings.TrimSpace(row), "\t")
		name := strings.Join(cells[:2], "\t")
		var want fingerprint
		if _, err := fmt.Sscan(strings.Join(cells[2:], " "), &want.samples, &want.sums[0], &want.sums[1], &want.sums[2], &want.sums[3]); err != nil {
			t.Fatalf("%q: %v", row, err)
		}
		rows++
		if g, ok := got[name]; !ok || !g.same(want) {
			t.Errorf("%s sounds otherwise: %v, it was %v", name, g, want)
		}
	}
	if rows != len(got) {
		t.Errorf("%d sounds have %d rows", len(got), rows)
	}
}

func writeTable(t *testing.T, path string, rows map[string]fingerprint) {
	t.Helper()
	var b strings.Builder
	for _, name := range slices.Sorted(maps.Keys(rows)) {
		fmt.Fprintf(&b, "%s\t%v\n", name, rows[name])
	}
	if err := os.MkdirAll("testdata", 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}
