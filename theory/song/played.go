package song

import (
	"slices"
	"strings"

	"sparetone/theory"
	"sparetone/theory/say"
)

// MostBars is how many bars a song has at the most when its repeats are written out.
const MostBars = 2000

// Change is a chord where it comes in a song as it is played, with repeats and endings written out.
type Change struct {
	Chord   theory.Chord
	Silent  bool        // no chord is played
	Bar     int         // from 1, as it is played
	Written int         // the bar as it is written, from 1
	At      float64     // beat of the bar, from 1
	Beats   float64     // until the next
	Section int         // index
	Key     *theory.Key // in which it stands; nil for the song's own
	Sung    Sung        // until the next
}

// measure is a bar in the order in which bars are written, whatever the form of their line.
type measure struct {
	Bar
	section, written int
	key              *theory.Key // nil for the song's own
	sung             []Sung      // by entry; shorter where nothing is sung
}

// Played returns the chords of a song as it is played, and how many bars that is. A bar is divided evenly among what stands
// in it, and where that does not come out, what comes first is longer: of three chords in four beats the first has two. A chord over
// words that have no bar lines lasts a bar. The error says that the song is too long.
func Played(s Song) (changes []Change, bars int, err error) {
	beats := s.Meter().Beats
	order, err := unrolled(measures(s))
	if err != nil {
		return nil, 0, err
	}
	for n, m := range order {
		if last := len(changes) - 1; len(m.Entries) == 0 && last >= 0 {
			changes[last].Beats += float64(beats)
			if len(m.sung) > 0 {
				changes[last].Sung.join(m.sung[0])
			}
			continue
		}
		lengths := shares(len(m.Entries), beats)
		at := 1.0
		for i, entry := range m.Entries {
			last := len(changes) - 1
			switch {
			case entry.What == Hold && last >= 0:
				changes[last].Beats += lengths[i]
			case entry.What == Hold:
				changes = append(changes, Change{Silent: true, Bar: n + 1, Written: m.written, At: at, Beats: lengths[i], Section: m.section, Key: m.key})
			default:
				changes = append(changes, Change{Chord: entry.Chord, Silent: entry.What == Silent, Bar: n + 1, Written: m.written, At: at, Beats: lengths[i], Section: m.section, Key: m.key})
			}
			if i < len(m.sung) {
				changes[len(changes)-1].Sung.join(m.sung[i])
			}
			at += lengths[i]
		}
	}
	return changes, len(order), nil
}

// shares divides the beats of a bar among so many entries: by whole beats, or halves of them, and so on, the first ones longer.
func shares(entries, beats int) []float64 {
	unit, units := 1.0, beats
	for units < entries {
		unit, units = unit/2, units*2
	}
	out := make([]float64, entries)
	for i := range out {
		out[i] = unit * float64(units/entries)
		if i < units%entries {
			out[i] += unit
		}
	}
	return out
}

// measures returns the bars of a song as they are written, sections that stand for earlier ones included.
func measures(s Song) (out []measure) {
	written := 0
	all := s.keys()
	for n, section := range s.Sections {
		lines, keys := section.Lines, all[n]
		if len(lines) == 0 {
			for e, earlier := range s.Sections[:n] {
				if section.Name != "" && strings.EqualFold(earlier.Name, section.Name) && len(earlier.Lines) > 0 {
					lines, keys = earlier.Lines, all[e]
				}
			}
		}
		sung := sungIn(lines)
		for i, line := range lines {
			for _, b := range line.measures() {
				if b.Same && len(out) > 0 {
					b.Entries = out[len(out)-1].Entries
				}
				written++
				out = append(out, measure{b, n, written, keys[i], sung[0]})
				sung = sung[1:]
			}
		}
	}
	return out
}

// measures returns the bars of a line. Over words each chord has a bar of its own, unless bar lines stand in them.
func (l Line) measures() (bars []Bar) {
	if l.Form == Bars {
		return l.Bars
	}
	barred := slices.ContainsFunc(l.Over, func(o Over) bool { return o.What == BarLine })
	open := false
	for _, o := range l.Over {
		switch {
		case o.What == BarLine:
			open = false
		case barred && open:
			last := &bars[len(bars)-1]
			last.Entries = append(last.Entries, o.Entry)
		default:
			bars, open = append(bars, Bar{Entries: []Entry{o.Entry}}), true
		}
	}
	if l.Times > 0 && len(bars) > 0 {
		bars[0].Start, bars[len(bars)-1].End, bars[len(bars)-1].Times = true, true, l.Times
	}
	return bars
}

// unrolled writes repeats and endings out.
func unrolled(bars []measure) (out []measure, err error) {
	start, pass, closed := 0, 1, false // where the repeat begins, for the how-manieth time it is played, whether its last ending has begun
	for i := 0; i < len(bars); {
		b := bars[i]
		if b.Start && i != start {
			start, pass, closed = i, 1, false
		}
		if len(b.Endings) > 0 {
			if !slices.Contains(b.Endings, pass) && !closed {
				for i++; i < len(bars) && len(bars[i].Endings) == 0 && !bars[i-1].End; i++ {
				}
				continue
			}
			closed = closed || pass >= lastEnding(bars[start:])
		}
		if len(out) == MostBars {
			return nil, say.Wrong("the song plays more than {} bars with its repeats", say.Number(MostBars))
		}
		out = append(out, b)
		i++
		if !b.End {
			continue
		}
		total := max(b.Times, 2)
		if len(b.Endings) > 0 || endingOpen(bars[start:i]) {
			total = max(b.Times, lastEnding(bars[start:]))
		}
		if pass < total && !closed {
			pass, i = pass+1, start
			continue
		}
		start, pass, closed = i, 1, false
	}
	return out, nil
}

// lastEnding returns the highest number of the endings of a repeat that bars begin with.
func lastEnding(bars []measure) int {
	highest := 0
	for n, b := range bars {
		if b.Start && n > 0 {
			break
		}
		for _, e := range b.Endings {
			highest = max(highest, e)
		}
	}
	return highest
}

// endingOpen reports whether an ending has begun in bars.
func endingOpen(bars []measure) bool {
	return slices.ContainsFunc(bars, func(b measure) bool { return len(b.Endings) > 0 })
}
