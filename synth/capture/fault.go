package capture

import "errors"

// FaultKind is in which way a source fails.
type FaultKind int

// The ways.
const (
	NoServer FaultKind = iota + 1 // there is no sound server or device that opens
	Refused                       // all samples are exactly zero: a microphone that is switched off, or that the system keeps from us
	Gone                          // the device was taken away, or its server ended
	Hung                          // no samples come
	Ended                         // a file or a pipe has no more
)

// Fault is what is wrong with a source.
type Fault struct {
	Kind   FaultKind
	Detail string // what the system said of it, for whoever mends it; may be empty
}

// sentences are what is said of each kind.
var sentences = map[FaultKind]string{
	NoServer: "there is no microphone that opens",
	Refused:  "the microphone is switched off, or the system does not let sparetone hear it",
	Gone:     "the microphone is gone",
	Hung:     "no sound comes from the microphone",
	Ended:    "the sound has ended",
}

// Error returns the fault in a plain clause, without a full stop.
func (f *Fault) Error() string { return sentences[f.Kind] }

// faultOf returns an error as a fault: itself if it is one, else one of a kind.
func faultOf(err error, kind FaultKind) *Fault {
	if f, is := errors.AsType[*Fault](err); is {
		return f
	}
	return &Fault{Kind: kind, Detail: err.Error()}
}
