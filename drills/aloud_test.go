package drills

import "testing"

func TestAloud(t *testing.T) {
	for text, want := range map[string]string{
		"Right: Fm.":                                     "Right: F minor.",
		"Fm, minor:":                                     "F minor:",
		"D♭, major:":                                     "D flat, major:",
		"C♯m7♭5":                                         "C sharp minor seventh flat five",
		"Cadd♯11 and Gsus4, the fourth.":                 "C added sharp eleventh and G suspended fourth, the fourth.",
		"Build Bdim, diminished.":                        "Build B diminished.",
		"Bm becomes Bm(add9).":                           "B minor becomes B minor added ninth.",
		"G7 goes to C.":                                  "G7 goes to C.",
		"A♭7 goes to D♭, F6 to B♭6.":                     "A flat 7 goes to D flat, F6 to B flat 6.",
		"D4 up to G5 is a perfect eleventh.":             "D4 up to G5 is a perfect eleventh.",
		"Am7/G or C/E":                                   "A minor seventh over G or C over E",
		"type one of: F, Fm, Db, C#m.":                   "type one of: F, F minor, D flat, C sharp minor.",
		"Build a chord. Do you know “Ebm”? Again.":       "Build a chord. Do you know “E flat minor”? Again.",
		"Am, minor seventh away":                         "A minor, minor seventh away",
		"A major chord would have E, the fifth; As, Go.": "A major chord would have E, the fifth; As, Go.",
	} {
		if got := Aloud(text); got != want {
			t.Errorf("%q is said %q, want %q", text, got, want)
		}
	}
}
