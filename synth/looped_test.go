package synth

import (
	"math"
	"testing"
	"time"

	"sparetone/theory"
)

// roundOf is a round of three plucks, of which the last rings on.
func roundOf(t *testing.T) Score {
	c := sounding(t, "4:G4 3:C4")
	return Score{Length: 1500 * time.Millisecond, Plucks: []Pluck{
		{String: 4, Pitch: c[0].Pitch, At: 0, Strength: 0.8},
		{String: 3, Pitch: c[1].Pitch, At: 500 * time.Millisecond, Strength: 0.8},
		{String: 4, Pitch: theory.Pitch{Note: theory.Note{Letter: theory.A}, Octave: 4}, At: time.Second, Strength: 0.8},
	}}
}

// heard takes so many samples of a sound.
func heard(s *Sound, n int) []float64 {
	out := make([]float64, 0, n)
	var buf [777][2]float64
	for len(out) < n {
		k, _ := s.Stream(buf[:min(len(buf), n-len(out))])
		for _, x := range buf[:k] {
			out = append(out, x[0])
		}
	}
	return out
}

// A loop sounds, to the sample, as the same rounds written one after another do.
func TestLoopIsItsRounds(t *testing.T) {
	once := Score{Length: time.Second, Plucks: []Pluck{{String: 1, Pitch: theory.Pitch{Note: theory.Note{Letter: theory.C}, Octave: 6}, Strength: 0.5, Damp: 30 * time.Millisecond}}}
	round := roundOf(t)
	const rounds = 30
	written := once
	for range rounds {
		written = RingOn(written, round)
	}
	written.Length += 5 * time.Second // so that nothing fades at its end
	want, err := Render(written, voices[0], Options{})
	if err != nil {
		t.Fatal(err)
	}
	loop, err := RenderLoop(once, round, voices[0], Options{})
	if err != nil {
		t.Fatal(err)
	}
	n := SampleRate.N(time.Second + rounds*round.Length - 50*time.Millisecond)
	a, b := heard(want, n), heard(loop, n)
	for i := range a {
		if math.Abs(a[i]/want.gain-b[i]/loop.gain) > 1e-9 {
			t.Fatalf("sample %d: %g, want %g", i, b[i]/loop.gain, a[i]/want.gain)
		}
	}
	if err := loop.Seek(SampleRate.N(10 * time.Second)); err != nil {
		t.Fatal(err)
	}
	c := heard(loop, 1000)
	for i := range c {
		if c[i] != b[SampleRate.N(10*time.Second)+i] {
			t.Fatalf("sample %d after ten seconds is another", i)
		}
	}
}

// Each round begins where it should, however many came before.
func TestLoopDoesNotDrift(t *testing.T) {
	round := roundOf(t)
	round.Length = time.Minute * 3 / 97
	loop, err := RenderLoop(Score{}, round, voices[0], Options{})
	if err != nil {
		t.Fatal(err)
	}
	l := loop.source.(*looped)
	for _, n := range []int{0, 1, 1000, 100_000} {
		if off := math.Abs(float64(l.startOf(n)) - float64(n)*round.Length.Seconds()*float64(SampleRate)); off > 1 {
			t.Errorf("round %d begins %g samples beside its place", n, off)
		}
	}
	if loop.Len() < SampleRate.N(24*time.Hour) {
		t.Error("the loop ends within a day")
	}
}

func TestLoopsThatCannotBe(t *testing.T) {
	c := sounding(t, "4:G4")
	for _, row := range []struct{ once, round Score }{
		{Score{}, Score{}},
		{Score{}, Score{Length: time.Second}},
		{Score{Length: time.Second, Plucks: []Pluck{{String: 4, Pitch: c[0].Pitch, At: time.Second, Strength: 1}}}, roundOf(t)},
		{Score{}, Score{Length: time.Second, Plucks: []Pluck{{String: 4, Pitch: c[0].Pitch, At: time.Second, Strength: 2}}}},
	} {
		if _, err := RenderLoop(row.once, row.round, voices[0], Options{}); err == nil {
			t.Errorf("%+v is played", row)
		}
	}
}
