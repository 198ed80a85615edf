package fret

// costs are what the effort of a shape is summed from, and what is added to it where shapes are put in order.
//
// They are fitted to what players are taught (taught.tsv). The lessons are divided into halves: of each kind of chord on
// each instrument every other one, in the order of a hash of its shape, but shapes that two instruments share into the
// same half. On one half the costs were moved, several at a time by random steps, for the least loss. The loss of a chord
// is -log of the share that its taught shapes have among all its playable ones where each has exp(-cost/0.5), and 6 at the
// most; a fingering that players do not use adds 0.3, and each cost 0.004 of itself; the means of the instruments are
// added, the guitar's twice. At 0.5 in that share the median effort of all textbook shapes is 7.4, near the 7.1 that it
// was before this fit, so that what is called too hard elsewhere stays what it was.
//
// Which terms there are was chosen by looking at the half that is fitted, and in the end by fitting two thirds of the
// guitar's part of it and trying the third. The other half is not wholly unseen. An earlier division, given up, went by the
// hash alone, and figures of both its halves were seen. Of today's other half the figures were seen nine times, never its
// chords: four times before this fit, once when the search began to find wider shapes, and four times with these terms or
// more (on the guitar first 86.9, then thrice 90.2 %, in the first three 95.1, then thrice 98.4 %). Held as they were,
// since it is fingerings that they decide and not what is taught: barre, under, arch and squeeze; finger is the unit,
// miss is there so that all strings sound that can, missing so that no tone is left out that need not be, and wide so that
// what covers more than four frets, as hardly anything does that is taught, comes late: from judgement, all three. Terms that
// came to nothing were taken out. TestEffortAgreesWithWhatIsTaught measures both halves, TestStudyOfEffort fits again.
type costs struct {
	finger   float64 // each finger that is down
	little   float64 // more for the little finger
	barre    float64 // a finger that lies across several strings; as much again for another than the index
	under    float64 // each string that a barre lies across; as much again under another finger than the index
	long     float64 // each string beyond easyBarre that a barre lies across
	arch     float64 // a barre with a string nearer to the palm open or at a lower fret, which the finger has to arch over
	span     float64 // each fret between the lowest and the highest stop
	wide     float64 // more for each of these beyond a finger's own, of which there are leastReach
	stretch  float64 // each fret that two neighbouring fingers lie further apart than at rest; up the neck the frets are narrower
	squeeze  float64 // each fret that they are closer
	position float64 // each fret the hand is moved up from the nut, counted from where the index finger rests
	beside   float64 // each string that rings open, for each fret that the highest stop lies above openReach
	miss     float64 // each string to miss before the first that sounds
	deepMiss float64 // more for each beyond easyMisses
	topMute  float64 // each string to keep silent after the last that sounds
	midMute  float64 // each string to keep silent between strings that sound

	// The sound and what is known are none of the hand's, so these are no part of the effort.
	missing float64 // each tone left out
	low     float64 // where there is a bass, a tone on the string after the lowest that is none of root, third and fifth
	moved   float64 // each fret that strings are moved from a taught shape of the triad that the chord is learned from (triads.go)
	alone   float64 // without such a triad and over a stopped bass, open strings: such a form is learned for one root alone
	rootUp  float64 // without such a triad and open strings, each fret that the bass lies above the lowest stop
}

// cost is a table and does not change; the tests that fit it move it.
var cost = costs{
	finger: 1, little: 1.7, barre: 1, under: 0.35, long: 0.69, arch: 1.4, span: 0.83, wide: 4, stretch: 0.56, squeeze: 0.4, position: 1.38,
	beside: 1.77, miss: 0.1, deepMiss: 2.31, topMute: 4.55, midMute: 10.9,
	missing: 2.7, low: 4.38, moved: 0.48, alone: 4.92, rootUp: 2.9,
}

const (
	openReach  = 2 // frets from the nut within which a stop lies by the open strings
	mostBeside = 2 // open strings beside the highest stop: more cost no more
	easyBarre  = 4 // strings that a finger lies across as a matter of course
	easyMisses = 1 // strings that a strum begins after as a matter of course
)
