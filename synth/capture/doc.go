// Package capture is where sound to listen to comes from: the machine's microphone, a file, a pipe. It hands on samples and says in a
// plain sentence when none come, and knows nothing of what is in them.
//
//	Opener ──Open──▶ Source ──Read──▶ samples
//	   ▲                │
//	   └── Microphone ──┘   opens it when switched on, watches it, opens it again when it has gone,
//	          │             and keeps the newest samples until they are taken
//	          ▼
//	    Take, State, Changed
//
// Nothing is written anywhere, and what was not taken is dropped when a microphone is switched off.
package capture
