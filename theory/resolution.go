package theory

// Resolution is how a chord that wants to move on most strongly does: the triad that it becomes, and what those of its
// tones do that want to move by a step.
type Resolution struct {
	From  *Kind
	Up    Interval // from its root to the root of the triad
	To    *Kind
	Leads []Lead
}

// Lead is a tendency tone and where it goes.
type Lead struct {
	From Interval // above the root of the first chord
	To   Interval // above the root of the triad
}

// Goal returns the triad that a chord on a root becomes.
func (r Resolution) Goal(root Note) Chord { return NewChord(root.Up(r.Up), r.To) }

// Step returns by how many semitones a tendency tone moves, below zero if it falls: one or two, either way.
func (r Resolution) Step(l Lead) int {
	return mod(r.Up.Semitones+l.To.Semitones-l.From.Semitones+6, 12) - 6
}

// ResolutionOf returns how a kind of chord resolves, if it is one that wants to move on.
func ResolutionOf(k *Kind) (Resolution, bool) {
	for _, r := range resolutions {
		if r.From == k {
			return r, true
		}
	}
	return Resolution{}, false
}

// resolutions are the chords that want to move on. The suspended tone goes to the third that it stands for. In a
// dominant the third is the leading tone of the key and rises to its tonic, the seventh falls to the third, the ninth to
// the fifth. In a diminished chord on the leading tone the root rises to the tonic, the fifth falls to the third and the
// seventh to the fifth; with its seventh it is at home in a minor key, where its notes are those of the scale. The other
// tones go where it is near. For the dominant seventh: Mount, Fundamentals, Function, and Form, chapter 19; for the
// leading-tone seventh chord Benward and Saker, Music: In Theory and Practice, volume I, page 271, as others quote it;
// for the suspended chords and the ninth common practice, no source.
var resolutions = []Resolution{
	resolution("suspended-fourth", Unison, "major", "P4 M3"),
	resolution("suspended-second", Unison, "major", "M2 M3"),
	resolution("dominant", PerfectFourth, "major", "M3 P1 m7 M3"),
	resolution("dominant-ninth", PerfectFourth, "major", "M3 P1 m7 M3 M9 P5"),
	resolution("diminished", MinorSecond, "major", "P1 P1 d5 M3"),
	resolution("diminished-seventh", MinorSecond, "minor", "P1 P1 d5 m3 d7 P5"),
}

// resolution reads a row: the leads are pairs, a tone of the first chord and where it goes in the triad.
func resolution(from string, up Interval, to, leads string) Resolution {
	r := Resolution{From: kindByID[from], Up: up, To: kindByID[to]}
	tones := formula(leads)
	for n := 0; n < len(tones); n += 2 {
		r.Leads = append(r.Leads, Lead{tones[n], tones[n+1]})
	}
	return r
}
