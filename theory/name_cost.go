package theory

// Right names are many, so they are ranked by what they ask of the person who reads them. The costs add up. They are our
// own, set from judgement and mended by the shapes of testdata/theory/guitar-names.tsv and ukulele-names.tsv.
//
//	the kind of chord               its place in the table of kinds: 0 for major, 100 and more for the rarest
//	a fifth left out                20: five-tone chords lose it without a word
//	the same, of a chord with an    40: that leaves little of 7sus4 or Cadd9
//	added or suspended note
//	a third left out                45, and it is said: C7(no3)
//	a ninth left out                30 under an eleventh or a thirteenth; 60 if the fifth sounds, for then the
//	                                chord has an exact name, Cm7add11, which comes before Cm11
//	another tone left out           35
//	a triad or a seventh chord      60, or 3 on an instrument without a bass: the lowest root counts for more than how
//	turned                          rare the kind is
//	another chord turned            85, or 3: who plays A over C E G says Am7, not C6/A
//	a bass foreign to a triad       45: E/A, Am/D and B♭/C are plainer than Amaj9(no3), D7sus2 and C9sus4(no5)
//	the same, a seventh             70: G7/F is the plainer name
//	a bass foreign to another chord 95
//	the same, the major seventh     110: x2001x is Gadd4/B, which has its third in the bass, before Csus2/B
//	under a suspended second
//	the root left out               1000, so that these come last; 2000 without the third or the seventh, or of a kind that
//	                                players do not play so (withoutRoot): these are right names, but nobody would say them
//	the root is the tonic           -25
//	the root is not of the key      15
//	the leading diminished seventh  -10, and -65 more if it is of a minor key: four roots sound alike
//	the chord before leads to it    -20: its root lies a fifth above
//	the chord before has the        -10
//	same root
//	a triad or a seventh chord      -35 if the key has its root as tonic or the chord before leads to it
//	turned, and expected
const (
	costFifth      = 20
	costFifthAdded = 40
	costThird      = 45
	costNinth      = 30
	costNinthOnly  = 60
	costTone       = 35
	costTurned     = 3
	costInversion  = 60
	costInverted   = 85
	costSlash      = 45
	costSlashedSev = 70
	costForeign    = 95
	costForeignSus = 110
	costRootless   = 1000
	costTonic      = -25
	costOutsideKey = 15
	costLeading    = -10
	costLeadingOwn = -65
	costResolves   = -20
	costSameRoot   = -10
	costExpected   = -35
	mostAbove      = 40 // a name that costs so much more than the plainest is one that nobody would say
	mostAbovePlain = 70 // the same of a triad or a seventh chord turned: Am7/C beside C6
	mostAboveLess  = 25 // the same of a name of which a tone is left out
)

// reason is a set of the things that rank a name.
type reason uint16

const (
	rootInBass reason = 1 << iota
	inversion
	foreignBass
	fifthMissing
	toneMissing
	rootMissing
	tonicRoot
	outsideKey
	resolves
	sameRoot
	thirdMissing
	leadingRoot
)

// reasonWords are the reasons in words, in the order of the bits.
var reasonWords = [...]string{
	"its root is the lowest note",
	"its root is not the lowest note",
	"the lowest note is foreign to it",
	"its fifth is left out",
	"a tone other than its fifth is left out",
	"its root does not sound",
	"its root is the tonic of the key",
	"its root is not of the key",
	"the chord before leads to it by a fifth",
	"the chord before has the same root",
	"its third is left out",
	"it is the diminished seventh that leads in the key",
}

// Reasons says in words what ranked the name, beside how common its kind is.
func (n Naming) Reasons() []string {
	var out []string
	for i, words := range reasonWords {
		if n.why&(1<<i) != 0 {
			out = append(out, words)
		}
	}
	return out
}
