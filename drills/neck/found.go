package neck

import (
	"sync"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// found keeps what was found on an instrument's neck, so that each chord is searched once.
type found struct {
	lock    sync.Mutex
	shapes  map[theory.Chord][]Held
	swaps   map[theory.Chord][]Change // by the plain chord
	swapsTo map[recolouring][]Change
	leads   map[theory.Chord][]Resolved
	goals   map[theory.Chord][]fret.Voicing // every shape of a triad that a hand can hold
	taught  map[*theory.Kind]Taught
}
