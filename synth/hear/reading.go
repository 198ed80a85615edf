package hear

// Verdict is what a reading comes to, given what was expected.
type Verdict string

const (
	Right  Verdict = "right"  // every string is surely as expected; of strings in unison, one of them
	Other  Verdict = "other"  // a string is surely not as expected
	Unsure Verdict = "unsure" // neither can be said
)

// Reading is what was heard of one stroke over the strings, or of one time through them in turn.
type Reading struct {
	At         float64 // when it began, in seconds from the first sample
	Cents      float64 // how far the whole instrument is above the pitches for A4, -50 to 50
	AboveNoise float64 // dB that what was played lies above the noise; below Quiet nothing is sure
	Strings    []Heard // in the order of Task.Strings
	Among      int     // the index in Task.Among of what was played, as a whole; -1 if it is none of them, or not likely one
	Sure       float64 // how likely it is that every string was read right, strings in unison aside: 0 to 1
	Verdict    Verdict // without Expect: Right if surely one of Among, else Unsure
	Foreign    bool    // more sounds in it than the instrument's strings, or what no shape of it sounds: nothing is said of it
}

// Heard is what one string sounded.
type Heard struct {
	Number   int     // of the string
	Expected int     // a MIDI number or Silent; Silent if nothing was expected
	Pitch    int     // a MIDI number, or Silent
	Cents    float64 // how far it is above that pitch for A4, with what the whole instrument is off; 0 if it is silent
	Sure     float64 // how likely it is that the string was read right: 0 to 1
	Unison   int     // the number of another string that sounds the same: which of them sounds cannot be told; 0 if there is none
}

// Certain is how likely a string must be read right to be spoken of.
const Certain = 0.93

// Quiet is how many dB the noise must lie below what is played for anything to be said of it.
const Quiet = 8.0

// Certain reports whether what the string sounded may be spoken of as heard.
func (h Heard) Certain() bool { return h.Sure >= Certain }

// sounding returns how many strings surely sound.
func (r Reading) sounding() (n int) {
	for _, h := range r.Strings {
		if h.Pitch != Silent && h.Certain() {
			n++
		}
	}
	return n
}
