package read

import (
	"strings"

	"sparetone/theory"
)

// mostSigns is how many sharps or flats a key has at most.
const mostSigns = 7

// Key reads a key as people write or say it: C, Cm, C major, Bb minor, F#m, B flat minor, a-Moll, mi bémol majeur. The
// error says what was read and what would be right.
func Key(text string) (theory.Key, error) {
	wrong := UnreadError{text, AKey}
	if tooLong(text) {
		return theory.Key{}, wrong
	}
	for _, r := range roots(strings.TrimSpace(asciiSigns(text))) {
		minor, ok := mode(r.rest)
		if !ok {
			continue
		}
		if err := germanB(r); err != nil {
			return theory.Key{}, err
		}
		k := theory.Key{Tonic: r.note, Minor: minor}
		if s := k.Signature(); s < -mostSigns || s > mostSigns {
			return theory.Key{}, NoSignatureError{k}
		}
		return k, nil
	}
	return theory.Key{}, wrong
}

// mode reads what follows the tonic of a key; nothing is major.
func mode(text string) (minor, ok bool) {
	text = strings.TrimSpace(text)
	switch {
	case text == "" || text == "M":
		return false, true
	case text == "m" || text == "-":
		return true, true
	}
	switch k := kindInFull()[InFull(Words(text))]; {
	case k == nil:
		return false, false
	case k.ID == "minor":
		return true, true
	default:
		return false, k.ID == "major"
	}
}
