package player

import "os"

// SessionsRead is how many sessions of a beginner are read: ten in a study, else as many as are ordinary.
func SessionsRead(ordinary int) int {
	if os.Getenv("SPARETONE_STUDY") != "" {
		return 10
	}
	return ordinary
}

// InstrumentsRead are the instruments on which a beginner's sessions are read: six in a study, else two.
func InstrumentsRead() []string {
	if os.Getenv("SPARETONE_STUDY") != "" {
		return []string{"ukulele", "guitar", "baritone", "mandolin", "banjo", "ukulele-low-g"}
	}
	return []string{"ukulele", "guitar"}
}
