package perform

import (
	"slices"
	"sync"
	"time"

	"sparetone/synth"
	"sparetone/theory/fret"
	"sparetone/theory/song/arrange"
)

// Live is a song that goes round and round while its tempo, its shapes and what is heard of it are changed: each change takes effect at
// the next bar line. Its methods may be called from any goroutine.
type Live struct {
	mu      sync.Mutex
	a       arrange.Arrangement
	w       Wishes // Rounds and Rand are not looked at
	bars    [][]segment
	sound   *fret.Tuning
	pattern synth.Pattern
	from    int        // bar from which the song is played
	next    int        // bar that is asked for next, counted from 0 on, over all rounds
	step    int        // of the pattern, with which it begins
	held    synth.Held // what was held last
	now     Now
}

// Now is where a song is that is played.
type Now struct {
	Bar   int     // as it is played, from 1; 0 while it is counted in, or has not begun
	Path  bool    // the path is heard, and not the plain shapes
	Tempo float64 // beats a minute
}

// segment is a part of a bar over which a chord is held.
type segment struct {
	place int
	beats float64
}

// NewLive is a song that is ready to be played from a bar on, counted from 1.
func NewLive(a arrange.Arrangement, w Wishes, from int) (*Live, error) {
	l := &Live{from: max(0, from-1)}
	return l, l.Change(a, w)
}

// Change has the song go on otherwise from the next bar line. Where another song comes it goes on with the bar that would have come. The error says
// why it cannot be played.
func (l *Live) Change(a arrange.Arrangement, w Wishes) error {
	tuning, err := soundingTuning(a)
	if err != nil {
		return err
	}
	pattern := patternOf(a, a.Song.Meter().Beats)
	l.mu.Lock()
	defer l.mu.Unlock()
	if !slices.EqualFunc(pattern.Steps, l.pattern.Steps, sameStep) || pattern.PerBeat != l.pattern.PerBeat {
		l.step = 0
	}
	l.a, l.w, l.sound, l.pattern, l.bars = a, w, tuning, pattern, barsOf(a)
	return nil
}

func sameStep(a, b synth.Step) bool {
	return a.Stroke == b.Stroke && a.Hammer == b.Hammer && a.Still == b.Still && slices.Equal(a.Strings, b.Strings)
}

// barsOf divides the places of a song into its bars.
func barsOf(a arrange.Arrangement) [][]segment {
	beats := float64(a.Song.Meter().Beats)
	out := make([][]segment, a.Bars)
	for n, p := range a.Places {
		for bar, at, left := p.Bar-1, p.At-1, p.Beats; left > 1e-9 && bar < len(out); bar, at = bar+1, 0 {
			part := min(left, beats-at)
			out[bar] = append(out[bar], segment{n, part})
			left -= part
		}
	}
	return out
}

// Now returns where the song is that is played. It is ahead of what is heard by what lies with the sound device.
func (l *Live) Now() Now {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.now
}

// longestMeasured is how much of a song is played beforehand to find how loud it is.
const longestMeasured = 20 * time.Second

// Sound returns the song as it sounds, from its beginning: each Live has one. The errors are those of Play.
func (l *Live) Sound(v synth.Voice, opt synth.Options) (*synth.Sound, error) {
	var samples []synth.Score
	for _, sounds := range []Sounds{Plain, Path} {
		w := l.w
		w.Sounds, w.Rounds, w.CountIn = sounds, 1, false
		p, err := Play(l.a, w)
		if err != nil {
			return nil, err
		}
		samples = append(samples, shortened(p.Score))
	}
	return synth.RenderLive(l.bar, v, opt, samples...)
}

// shortened is the beginning of a score.
func shortened(s synth.Score) synth.Score {
	s.Length = min(s.Length, longestMeasured)
	s.Plucks = slices.DeleteFunc(slices.Clone(s.Plucks), func(p synth.Pluck) bool { return p.At >= s.Length })
	return s
}

// bar returns the n-th bar that is played, the one that counts in among them.
func (l *Live) bar(n int) (synth.Score, []synth.Stilled) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if n == 0 { // it begins anew
		l.next, l.step, l.held = l.from, 0, synth.Held{}
	}
	tempo, beats := l.w.TempoOf(l.a.Song), l.a.Song.Meter().Beats
	l.now = Now{Tempo: tempo}
	if n == 0 && l.w.CountIn {
		return synth.Score{Plucks: click(beats, beats, tempo), Length: inTime(float64(beats), tempo)}, nil
	}
	if len(l.bars) == 0 {
		return synth.Score{}, nil
	}
	bar, round := l.next%len(l.bars), l.next/len(l.bars)
	l.next++
	l.now.Bar = bar + 1
	hand := synth.Hand{Tempo: tempo, Ring: lastRing}
	var all []synth.Held
	var stills []synth.Stilled
	before, at := l.held, 0.0
	still := func(at float64, numbers ...int) {
		for _, number := range numbers {
			stills = append(stills, synth.Stilled{String: number, At: inTime(at, tempo)})
		}
	}
	for _, part := range l.bars[bar] {
		p := l.a.Places[part.place]
		path := l.w.pathHeard(round, p.Bar)
		one := l.w.heldAt(p, path, l.sound, part.beats)
		l.now.Path = path && len(all) == 0 || l.now.Path
		still(at, synth.Leaving(before.Notes, one.Notes)...)
		all, before, at = append(all, one), one, at+part.beats
	}
	pattern := l.pattern
	pattern.Steps = slices.Concat(pattern.Steps[l.step:], pattern.Steps[:l.step])
	score := hand.Along(pattern, all...)
	steps := int(at*float64(pattern.PerBeat) + 0.5)
	for i := range steps {
		if pattern.Steps[i%len(pattern.Steps)].Still {
			for s := range l.a.Tuning.Strings {
				still(float64(i)/float64(pattern.PerBeat), l.a.Tuning.StringNumber(s))
			}
		}
	}
	l.held, l.step = before, (l.step+steps)%len(pattern.Steps)
	if l.w.Click {
		score.Plucks = append(score.Plucks, click(beats, beats, tempo)...)
	}
	score.Length = inTime(at, tempo)
	return score, stills
}
