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
		"Not this time: 0331, not x32010.":               "Not this time: 0 3 3 1, not x 3 2 0 1 0.",
		"10,12,12,10 on 2 strings in 120 seconds":        "10,12,12,10 on 2 strings in 120 seconds",
		"Type save to keep it in /home/me/p-2026-5.db":   "Type save to keep it in /home/me/p-2026-5.db",
		"Right: I vi IV V.":                              "Right: one six minor four five.",
		"In A minor i is Am, V is E and vii° is G♯dim":   "In A minor one minor is A minor, five is E and seven diminished is G sharp diminished",
		"The tonic, then I V7 I, ♭VII.":                  "The tonic, then one five 7 one, ♭ seven.",
		"“I don't know” is an answer.":                   "“I don't know” is an answer.",
	} {
		if got := Aloud(text); got != want {
			t.Errorf("%q is said %q, want %q", text, got, want)
		}
	}
}
