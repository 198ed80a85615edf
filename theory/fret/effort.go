package fret

// costs are what the effort of a shape is summed from, and what is added to it where shapes are put in order.
//
// They are fitted to what players are taught (taught.tsv). The lessons are divided into halves: of each kind of chord on
// each instrument every other one, in the order of a hash of its shape, but shapes that two instruments share into the
// same half. On one half the costs were moved one after the other, up and down, in steps that get smaller, for the least
// loss. The loss of a chord is -log of the share that its taught shapes have among all its playable ones where each has
// exp(-cost/0.7), and 6 at the most; a fingering that players do not use adds 0.3; the means of the instruments are
// added, the guitar's twice. The terms were chosen by looking at the half that an earlier division had to fit: it went by
// the hash alone, left no diminished triad on the guitar to fit, and was given up after figures of both its halves were
// seen. So the other half of today is not wholly unseen. Held as they were before, since it is fingerings that they
// decide and not what is taught: barre, under, arch and squeeze; finger is the unit, and miss is there so that all
// strings sound that can. Terms that came to nothing were taken out. TestEffortAgreesWithWhatIsTaught measures both
// halves, TestStudyOfEffort fits again.
type costs struct {
	finger   float64 // each finger that is down
	little   float64 // more for the little finger
	barre    float64 // a finger that lies across several strings; as much again for another than the index
	under    float64 // each string that a barre lies across; as much again under another finger than the index
	arch     float64 // a barre with a string nearer to the palm open or at a lower fret, which the finger has to arch over
	outside  float64 // each string, beyond easyReach, between a barre's end and a finger further from the palm than the barre
	span     float64 // each fret between the lowest and the highest stop
	stretch  float64 // each fret that two neighbouring fingers lie further apart than at rest; up the neck the frets are narrower
	squeeze  float64 // each fret that they are closer
	position float64 // each fret the hand is moved up from the nut, counted from where the index finger rests
	beside   float64 // each string that rings open, for each fret that the highest stop lies above openReach
	within   float64 // each string that rings open between stopped ones
	miss     float64 // each string to miss before the first that sounds
	deepMiss float64 // more for each beyond easyMisses
	topMute  float64 // each string to keep silent after the last that sounds
	midMute  float64 // each between strings that sound

	// The sound is none of the hand's, so these are no part of the effort.
	missing float64 // each tone left out
	twice   float64 // each string that repeats a tone which is none of root, third and fifth
	low     float64 // such a tone next to the lowest string, where there is a bass
}

// cost is a table and does not change; the tests that fit it move it.
var cost = costs{
	finger: 1, little: 0.9, barre: 1, under: 0.35, arch: 1.4, outside: 1.8, span: 0.9, stretch: 1.2, squeeze: 0.4, position: 0.9,
	beside: 1.4, within: 0.5, miss: 0.1, deepMiss: 3.9, topMute: 4, midMute: 9.8, missing: 2.7, twice: 0.6, low: 2.3,
}

const (
	openReach  = 2 // frets from the nut within which a stop lies by the open strings
	easyReach  = 3 // strings that fingers reach over from a barre's end as a matter of course
	easyMisses = 1 // strings that a strum begins after as a matter of course
)
