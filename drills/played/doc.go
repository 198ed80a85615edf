// Package played turns what is played on an instrument, or sung, into answers. It is pure: it has no microphone, no clock and no screen.
//
//	Attempt ──Listens──▶ Listening ──NewEar──▶ Ear
//	   ▲                                        │ samples
//	   └────────── Take ◀──────── Heard ◀───────┘
//	                │
//	                ▼
//	     Came: a sentence, or an answer as it would be typed
//
// A shape is asked for by one stroke first. Where that leaves doubt, the strings are plucked in turn. Strings that sound the same, or an
// octave apart, leave doubt always: struck together they cannot be told apart. What was heard is never wrong by itself: an answer that is
// not right is one only when it was heard again, or when somebody says that it was played.
package played
