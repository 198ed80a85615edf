package synth

import (
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/theory"
)

// sounding reads "4:G4 3:C4": string numbers and pitches in tuning order.
func sounding(t testing.TB, s string) (notes []Sounding) {
	t.Helper()
	for _, f := range strings.Fields(s) {
		p, err := theory.ParsePitch(f[2:])
		if err != nil {
			t.Fatal(err)
		}
		notes = append(notes, Sounding{int(f[0] - '0'), p})
	}
	return notes
}

func TestWhatCannotBePlayed(t *testing.T) {
	c := theory.Pitch{Note: theory.Note{Letter: theory.C}, Octave: 4}
	low := theory.Pitch{Note: theory.Note{Letter: theory.C}, Octave: 0}
	for name, bad := range map[string]Score{
		"longer than nothing": {Plucks: []Pluck{{String: 1, Pitch: c, Strength: 1}}},
		"empty":               {Length: time.Second},
		"longest":             {Plucks: []Pluck{{String: 1, Pitch: c, Strength: 1}}, Length: time.Hour},
		"16.35 Hz":            {Plucks: []Pluck{{String: 1, Pitch: low, Strength: 1}}, Length: time.Second},
		"plucked at":          {Plucks: []Pluck{{String: 1, Pitch: c, Strength: 1, At: time.Second}}, Length: time.Second},
		"strength":            {Plucks: []Pluck{{String: 1, Pitch: c}}, Length: time.Second},
		"stopped":             {Plucks: []Pluck{{String: 1, Pitch: c, Strength: 1, Damp: -1}}, Length: time.Second},
	} {
		_, err := Render(bad, Voices()[0], Options{})
		if err == nil || !strings.Contains(err.Error(), name) || strings.Contains(err.Error(), "\n") {
			t.Errorf("want one line that says %q, got %v", name, err)
		}
	}
	good := Hand{}.Block([]Sounding{{1, c}})
	for want, opt := range map[string]Options{"A4 at 500": {A4: 500}, "0 dB or below": {Gain: 1}} {
		if _, err := Render(good, Voices()[0], opt); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("want %q, got %v", want, err)
		}
	}
	if _, err := Render(good, nil, Options{}); err == nil {
		t.Error("no voice: want an error")
	}
}

// Half an hour is played, and nothing longer.
func TestHowLongAScoreMayBe(t *testing.T) {
	note := Hand{}.Block(sounding(t, "1:A4"))
	for length, fine := range map[time.Duration]bool{30 * time.Minute: true, 30*time.Minute + 1: false} {
		note.Length = length
		if err := note.check(440); (err == nil) != fine {
			t.Errorf("%v: %v", length, err)
		}
	}
}

func TestThenPlaysOneAfterAnother(t *testing.T) {
	notes := sounding(t, "4:G4 1:A4")
	a, b := Hand{}.Block(notes), Hand{Ring: time.Second}.Block(notes)
	both := Then(500*time.Millisecond, a, b)
	if want := a.Length + 500*time.Millisecond + b.Length; both.Length != want {
		t.Errorf("length %v, want %v", both.Length, want)
	}
	if first, second := both.Plucks[0], both.Plucks[2]; first.Damp != a.Length || second.At != a.Length+500*time.Millisecond {
		t.Errorf("the first is stopped after %v and the second begins at %v", first.Damp, second.At)
	}
}

// What a string was plucked for rings on over the scores that follow, until the string is plucked again or stilled.
func TestRingOn(t *testing.T) {
	const ms = time.Millisecond
	c, f := Hand{}.Block(sounding(t, "4:G4 3:C4")), Hand{}.Block(sounding(t, "4:A4"))
	c.Length, f.Length = 500*ms, 1000*ms
	type tone struct {
		string     int
		from, long time.Duration
	}
	end := 1500*ms - SampleRate.D(fadeOut)
	for name, tt := range map[string]struct {
		score Score
		want  []tone
	}{
		"one after another":     {Then(0, c, f), []tone{{4, 0, 500 * ms}, {3, 0, 500 * ms}, {4, 500 * ms, end - 500*ms}}},
		"ringing on":            {RingOn(c, f), []tone{{4, 0, 500 * ms}, {3, 0, end}, {4, 500 * ms, end - 500*ms}}},
		"stilled at the change": {RingOn(c, f).Still(500*ms, 3), []tone{{4, 0, 500 * ms}, {3, 0, 500 * ms}, {4, 500 * ms, end - 500*ms}}},
		"stilled before":        {RingOn(c.Still(200*ms, 3, 4), f), []tone{{4, 0, 200 * ms}, {3, 0, 200 * ms}, {4, 500 * ms, end - 500*ms}}},
		"stilled twice":         {RingOn(c, f).Still(200*ms, 3).Still(900*ms, 3, 4), []tone{{4, 0, 500 * ms}, {3, 0, 200 * ms}, {4, 500 * ms, 400 * ms}}},
		"no such string":        {RingOn(c, f).Still(200*ms, 2), []tone{{4, 0, 500 * ms}, {3, 0, end}, {4, 500 * ms, end - 500*ms}}},
	} {
		p := newPlaying(tt.score, voices[0], 440)
		p.pluckBefore(p.length)
		var got []tone
		for _, r := range p.ringing {
			got = append(got, tone{r.string, SampleRate.D(r.start), SampleRate.D(r.end - r.start)})
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: strings ring\n%v, want\n%v", name, got, tt.want)
		}
		if tt.score.Length != 1500*ms {
			t.Errorf("%s: %v long", name, tt.score.Length)
		}
	}
	if c.Still(200*ms, 3); c.Plucks[1].Damp != 0 {
		t.Error("a score is changed by what is made of it")
	}
}

// A slur may say when its string is stilled.
func TestASlurIsStilled(t *testing.T) {
	const ms = time.Millisecond
	g, a := sounding(t, "4:G4")[0].Pitch, sounding(t, "4:A4")[0].Pitch
	score := Score{Plucks: []Pluck{
		{String: 4, Pitch: g, Strength: 0.7},
		{String: 4, Pitch: a, Strength: 0.7, At: 300 * ms, Slur: true},
	}, Length: time.Second}.Still(500*ms, 4)
	p := newPlaying(score, voices[0], 440)
	p.pluckBefore(p.length)
	if len(p.ringing) != 1 || p.ringing[0].end != SampleRate.N(500*ms) {
		t.Errorf("got %+v, want one string that rings until 500 ms", p.ringing)
	}
}

// Plucks are listed as they come, whatever order they were written in; those at once stay as written.
func TestPlucksInTime(t *testing.T) {
	const ms = time.Millisecond
	score := Score{Plucks: []Pluck{{String: 2, At: 30 * ms}, {String: 4, At: 10 * ms}, {String: 3, At: 10 * ms}, {String: 4, At: 40 * ms}, {String: 1, At: 20 * ms}}}
	if got, want := orderOf(score), []int{4, 3, 1, 2, 4}; !slices.Equal(got, want) {
		t.Errorf("plucked in the order %v, want %v", got, want)
	}
	if got, want := score.Strings(), []int{4, 3, 1, 2}; !slices.Equal(got, want) {
		t.Errorf("first plucked in the order %v, want %v", got, want)
	}
	if score.Plucks[0].String != 2 {
		t.Error("the score itself was put in order")
	}
}
