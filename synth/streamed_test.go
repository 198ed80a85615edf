package synth

import (
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"slices"
	"testing"
	"time"

	"sparetone/synth/measure"
)

// song is a score of so many bars of two seconds on four strings, eight strokes each: the chords of a progression strummed
// down and up, every one ringing on over the next.
func song(t testing.TB, bars int, rng *rand.Rand) Score {
	chords := [][]Sounding{
		sounding(t, "4:G4 3:C4 2:E4 1:C5"), sounding(t, "4:A4 3:C4 2:E4 1:A4"), sounding(t, "4:A4 3:C4 2:F4 1:A4"), sounding(t, "4:G4 3:D4 2:G4 1:B4"),
	}
	var all []Score
	for bar := range bars {
		for stroke := range 8 {
			hand := Hand{Rand: rng}
			s := hand.Strum(chords[bar%len(chords)])
			if stroke%2 == 1 {
				s = hand.Up(chords[bar%len(chords)])
			}
			s.Length = 250 * time.Millisecond
			all = append(all, s)
		}
	}
	return RingOn(all...)
}

// A score that is played as it is heard sounds, to the sample, as one that is played into memory, from wherever it is heard.
func TestStreamedIsAsKept(t *testing.T) {
	t.Parallel()
	scores := staying(t)
	scores["song"] = song(t, 2, rand.New(rand.NewPCG(1, 1)))
	for _, v := range voices {
		for name, score := range scores {
			one, other := kept(score, v, 440), streamed(score, v, 440)
			if one.gain != other.gain || one.length != other.length || !slices.Equal(one.ringing, other.ringing) {
				t.Errorf("%s, %s: a gain of %v and %v, %d and %d samples", v.Name(), name, one.gain, other.gain, one.length, other.length)
			}
			whole := measure.Record(one, SampleRate).Samples
			if again := measure.Record(other, SampleRate).Samples; !slices.Equal(again, whole) {
				t.Errorf("%s, %s: another sound", v.Name(), name)
			}
			if name != "song" {
				continue
			}
			for _, at := range []int{20_000, 5_001, 0} {
				if err := other.Seek(at); err != nil || other.Position() != at {
					t.Fatal(err, other.Position())
				}
				if again := measure.Record(other, SampleRate).Samples; !slices.Equal(again, whole[at:]) {
					t.Errorf("%s, %s: another sound from sample %d on", v.Name(), name, at)
				}
			}
		}
	}
}

// A string in unison may be plucked a little sooner than its score says. None is too late for what is played as it is heard.
func TestStreamedUnisonsAreInTime(t *testing.T) {
	g, sooner := sounding(t, "1:G4")[0].Pitch, 0
	for n := 3; n < 24; n++ {
		score := Score{Plucks: []Pluck{
			{String: 1, Pitch: g, Strength: 0.7},
			{String: 2, Pitch: g, Strength: 0.7, At: SampleRate.D(n*Chunk) + 1}, // where a chunk begins
		}, Length: 300 * time.Millisecond}
		one, other := kept(score, voices[0], 440), streamed(score, voices[0], 440)
		if one.ringing[1].start < n*Chunk {
			sooner++
		}
		if !slices.Equal(measure.Record(one, SampleRate).Samples, measure.Record(other, SampleRate).Samples) {
			t.Errorf("plucked at sample %d: another sound", n*Chunk)
		}
	}
	if sooner < 3 {
		t.Errorf("only %d plucks came sooner", sooner)
	}
}

// knock is a voice of which a pluck is a single sample: soft on the whole, however high it is.
type knock struct{ Voice }

func (v knock) Ready() Performer { return v }
func (v knock) Pluck(_ float64, at int, _ float64) []Tone {
	return []Tone{&knocked{at: at, end: 1 << 30}}
}

type knocked struct{ at, end int }

func (k *knocked) Span() (start, end int)     { return k.at, k.end }
func (k *knocked) Still(at int)               { k.end = min(k.end, at) }
func (k *knocked) Slur(float64, int, float64) {}
func (k *knocked) Sound(mix []float64, at int) {
	if at == k.at {
		mix[0]++
	}
}

// Where a sound would peak too high it is softer, also if it is played as it is heard.
func TestPeaksOfStreams(t *testing.T) {
	score := Score{Plucks: []Pluck{{String: 1, Pitch: sounding(t, "1:G4")[0].Pitch, Strength: 0.7, At: 100 * time.Millisecond}}, Length: time.Second}
	for name, s := range map[string]*Sound{"kept": kept(score, knock{voices[0]}, 440), "streamed": streamed(score, knock{voices[0]}, 440)} {
		if lufs, _ := loudnessOf(s); lufs > Loudness-3 {
			t.Errorf("%s: %.1f LUFS: nothing is to be seen", name, lufs)
		}
		if peak := 20 * math.Log10(s.gain); math.Abs(peak-TruePeak) > 0.1 {
			t.Errorf("%s: it peaks at %.2f dBTP, want %.1f", name, peak, TruePeak)
		}
	}
}

// The length of a score decides how it is played, and nothing else does.
func TestWhatIsKept(t *testing.T) {
	note := Hand{}.Block(sounding(t, "1:A4"))
	for length, isKept := range map[time.Duration]bool{30 * time.Second: true, 30*time.Second + time.Millisecond: false} {
		note.Length = length
		s, err := Render(note, voices[0], Options{Gain: -6})
		if err != nil {
			t.Fatal(err)
		}
		if _, ok := s.source.(*memory); ok != isKept {
			t.Errorf("%v: kept is %v", length, ok)
		}
		if lufs, _ := loudnessOf(s); lufs < Loudness-6.5 || lufs > Loudness-5.5 {
			t.Errorf("%v: %.1f LUFS at -6 dB", length, lufs)
		}
	}
}

// Five minutes of a song hold no more memory while they sound than their plucks do; sample by sample they would be 58 MB.
// They are as loud as any sound, and nothing waits for longer than a device does. A minute in the ordinary run, five with
// SPARETONE_STUDY=1.
func TestASongIsNotKept(t *testing.T) {
	bars := 30
	if os.Getenv("SPARETONE_STUDY") != "" {
		bars = 150
	}
	score := song(t, bars, rand.New(rand.NewPCG(5, 5)))
	live := func() int64 {
		runtime.GC()
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return int64(m.HeapAlloc)
	}
	before := live()
	start := time.Now()
	s, err := Render(score, voices[0], Options{})
	if err != nil {
		t.Fatal(err)
	}
	measured := time.Since(start)
	var heap, slowest int64
	var playing time.Duration
	frames := make([][2]float64, Chunk)
	var m meter
	part := make([]float32, Chunk)
	for taken := 0; ; taken++ {
		start := time.Now()
		n, ok := s.Stream(frames)
		took := time.Since(start)
		if !ok {
			break
		}
		playing += took
		slowest = max(slowest, int64(took))
		for i := range n {
			part[i] = float32(frames[i][0])
		}
		m.add(part[:n])
		if taken%2000 == 1999 {
			heap = max(heap, live()-before)
		}
	}
	m.end()
	runtime.KeepAlive(s)
	if most := int64(1<<20 + 200*len(score.Plucks)); heap > most {
		t.Errorf("the heap grew by %d bytes, more than %d", heap, most)
	}
	if lufs := loudness(m.powers, 1); lufs < Loudness-0.5 || lufs > Loudness+0.5 || float64(m.peak) > Decibels(TruePeak) {
		t.Errorf("%.1f LUFS, peak %.2f", lufs, m.peak)
	}
	t.Logf("%v with %d plucks: measured in %v, played in %v (%.0f times real time), %d samples within %v, the heap grew by %d kB",
		score.Length, len(score.Plucks), measured.Round(time.Millisecond), playing.Round(time.Millisecond), score.Length.Seconds()/playing.Seconds(),
		Chunk, time.Duration(slowest).Round(10*time.Microsecond), heap/1000)
}

// A rendered sound streams without allocating.
func TestStreamingDoesNotAllocate(t *testing.T) {
	s := chordSound(t)
	var frames [256][2]float64
	if n := testing.AllocsPerRun(100, func() { s.Stream(frames[:]) }); n != 0 {
		t.Errorf("Sound.Stream: %v allocations", n)
	}
	p := newPlaying(Hand{Ring: time.Minute}.Strum(sounding(t, "4:G4 3:C4 2:E4 1:C5")), voices[4], 440)
	var made [Chunk]float32
	p.next(made[:]) // what strings need is there from their first chunk on
	if n := testing.AllocsPerRun(1000, func() { p.next(made[:]) }); n != 0 {
		t.Errorf("playing.next: %v allocations", n)
	}
}
