package drills

import (
	"strings"

	"sparetone/theory/read"
	"sparetone/theory/say"
)

// commonKeys are the keys that are written with at most six signs, round the circle of fifths.
const commonKeys = "C G D A E B F# Gb Db Ab Eb Bb F Am Em Bm F#m C#m G#m Ebm Bbm Fm Cm Gm Dm"

// KeyNames lists the keys that are common, as ReadKeyName returns them.
func KeyNames() []string {
	var out []string
	for _, s := range strings.Fields(commonKeys) {
		name, err := ReadKeyName(s)
		if err != nil {
			panic("drills: " + err.Error())
		}
		out = append(out, name)
	}
	return out
}

// ReadKeyName reads a key as people write or say it, such as B♭ minor, Bbm or B flat minor, and returns its name
// as it is typed: Bb minor. The error says what was read and what would be right.
func ReadKeyName(s string) (string, error) {
	k, err := read.Key(s)
	if err != nil {
		return "", err
	}
	return k.ASCII(), nil
}

// SayKey is a key that was typed, as it is said: B flat minor. The error is that of ReadKeyName.
func SayKey(typed string) (say.Text, error) {
	k, err := read.Key(typed)
	if err != nil {
		return say.Text{}, err
	}
	return say.Of("{}", say.TypedKey(k)), nil
}
