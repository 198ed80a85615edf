package drills

// Clarity is what is held fixed so that a question sounds clearly. Contrasts are met at their clearest and grow closer as they are told: so
// ears learn better than with close ones from the start (Wisniewski and others, PLoS ONE 2017). Its zero value is any form there is.
type Clarity struct {
	OneRoot    bool // the chord comes after the plain one on its root; two chords stand on one root
	Among      bool // the chord stands between two others, which are major and lie a fourth and a fifth above its root
	RootLowest bool // no note lies below a chord's root, wherever the neck has such shapes of all the choices
	Turned     bool // the lowest note is another of the chord's than its root, wherever the neck has such shapes of all the choices
	Plainly    bool // chords are strummed, and two notes rise
	Slowly     bool // a chord that is strummed is strummed slowly
	Lasting    bool // a chord rings for long enough to be listened into
	InTurn     bool // two notes come one after the other, never together
	OwnVoice   bool // it sounds in the instrument's own voice
	Apart      int  // how far apart two notes lie that are told apart: 2 far, 1 nearer, 0 close
}

// Clearest is how a thing is shown that is met.
var Clearest = Clarity{Plainly: true, Slowly: true, Lasting: true, InTurn: true, OwnVoice: true, Apart: 2}
