package theory

// Standing is how a note stands in a key. The scale of a minor key is the natural one. Its sixth and seventh are
// raised as well: the seventh in the chords that lead to the tonic, the sixth on the way to that seventh. So both are
// of the key and not of its scale (common practice, no source).
type Standing int

// The standings, as Key.Standing returns them.
const (
	Outside       Standing = iota // not of the key
	OfScale                       // of the scale: major, or natural minor
	RaisedSixth                   // of a minor key, F♯ in A minor
	RaisedSeventh                 // of a minor key, G♯ in A minor
)

// standings are the standings in words, in the order of the constants.
var standings = [...]string{"outside the key", "of the scale", "the raised sixth", "the raised seventh"}

// String says the standing in words: of the scale, the raised seventh.
func (s Standing) String() string { return standings[s] }

// Standing tells how a note stands in the key, by its spelling: A♭ is outside A minor, of which G♯ is the raised seventh.
func (k Key) Standing(n Note) Standing {
	switch {
	case k.Contains(n):
		return OfScale
	case !k.Minor:
		return Outside
	case n == k.Tonic.Up(MajorSixth):
		return RaisedSixth
	case n == k.Tonic.Up(MajorSeventh):
		return RaisedSeventh
	}
	return Outside
}

// StandingBySound tells how what a note sounds stands in the key, and which note of the key that is. A chord may force
// a spelling on a tone that the key spells otherwise: the ♯9 of E7 is F𝄪, which sounds G, a note of the scale of A minor.
// A note outside the key is returned as it is.
func (k Key) StandingBySound(n Note) (Standing, Note) {
	if s := k.Standing(n); s != Outside {
		return s, n
	}
	own := k.Notes()
	if k.Minor {
		own = append(own, k.Tonic.Up(MajorSixth), k.Tonic.Up(MajorSeventh))
	}
	for _, note := range own {
		if note.Same(n) {
			return k.Standing(note), note
		}
	}
	return Outside, n
}

// ScaleName writes the key's scale as it is called: C major, A natural minor.
func (k Key) ScaleName() string {
	if k.Minor {
		return k.Tonic.String() + " natural minor"
	}
	return k.String()
}

// Holds reports whether a chord is of the key: all its tones are of the scale, or, in a minor key, it leads to the
// tonic with the raised seventh. That is a chord on the fifth degree with a major third, or a diminished one on the
// raised seventh, and its other tones are of the scale: V, V7, V7♭9, vii°, vii°7. The raised sixth makes no chord
// of the key by itself. Tones left out and the bass are not asked about.
func (k Key) Holds(c Chord) bool {
	for _, tone := range c.Kind.Formula {
		n := c.Root.Up(tone)
		switch k.Standing(n) {
		case OfScale:
		case RaisedSeventh:
			if !k.leads(c) {
				return false
			}
		default:
			return false
		}
	}
	return true
}

// leads reports whether a chord stands where one leads to the tonic: on the fifth degree with a major third, or diminished
// on the leading note.
func (k Key) leads(c Chord) bool {
	switch {
	case c.Root == k.Tonic.Up(PerfectFifth):
		third, ok := c.Kind.Tone(MajorThird)
		return ok && third == MajorThird
	case c.Root == k.Tonic.Up(MajorSeventh):
		fifth, ok := c.Kind.Tone(DiminishedFifth)
		return ok && fifth == DiminishedFifth
	}
	return false
}
