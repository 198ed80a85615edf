package drills

import (
	"strings"

	"sparetone/theory/read"
	"sparetone/theory/say"
)

// commonKeys are the keys that are written with at most six signs, round the circle of fifths, by their symbols.
const commonKeys = "C G D A E B F# Gb Db Ab Eb Bb F Am Em Bm F#m C#m G#m Ebm Bbm Fm Cm Gm Dm"

// KeySymbols lists the keys that are common, as ReadKeySymbol returns them.
func KeySymbols() []string { return strings.Fields(commonKeys) }

// ReadKeySymbol reads a key as people write or say it, such as B♭ minor, Bbm or B flat minor, and returns its symbol in
// ASCII: Bbm. The error says what was read and what would be right.
func ReadKeySymbol(s string) (string, error) {
	k, err := read.Key(s)
	if err != nil {
		return "", err
	}
	return k.Symbol(), nil
}

// SayKey is a key by its symbol, as it is typed in full, Bb minor, and said, B flat minor. The error is that of
// ReadKeySymbol.
func SayKey(symbol string) (say.Text, error) {
	k, err := read.Key(symbol)
	if err != nil {
		return say.Text{}, err
	}
	return say.Of("{}", say.TypedKey(k)), nil
}
