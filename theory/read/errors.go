package read

import (
	"sparetone/theory"
	"sparetone/theory/say"
)

// The errors of this room are values: what was typed, and what is known of it. Their wording is in sentences.go.

// Thing is what a text was read as.
type Thing int

// What can be read by itself.
const (
	ANote Thing = iota
	AKey
	AnInterval
	ATone
)

// UnreadError is the error of a text that is not what it was read as.
type UnreadError struct {
	Typed string
	As    Thing
}

// NoSignatureError is the error of a key that would have more than seven sharps or flats.
type NoSignatureError struct{ Key theory.Key }

// NoNotesError is the error of a text that is to be notes and has none.
type NoNotesError struct{}

// TogetherError is the error of notes in small letters with nothing between them.
type TogetherError struct{ Typed string }

// GermanBError is the error of a B that could be B flat or B natural.
type GermanBError struct {
	B      string // as it was typed
	Beside string // the German word that puts it in doubt, as it was typed
}

// TwoChordsError is the error of a symbol that could be either of two chords.
type TwoChordsError struct {
	Typed string
	Could [2]theory.Chord
}

// SymbolError is the error of a chord symbol that cannot be read: what is wrong with it, where, and what is nearest to it.
type SymbolError struct {
	Symbol  string
	At      int // the character that is wrong, from 1
	Problem say.Text
	Nearest string // a symbol that is read; empty if none is near
}

func (e UnreadError) Error() string      { return e.Say().Screen() }
func (e NoSignatureError) Error() string { return e.Say().Screen() }
func (e NoNotesError) Error() string     { return e.Say().Screen() }
func (e TogetherError) Error() string    { return e.Say().Screen() }
func (e GermanBError) Error() string     { return e.Say().Screen() }
func (e TwoChordsError) Error() string   { return e.Say().Screen() }
func (e *SymbolError) Error() string     { return e.Say().Screen() }
