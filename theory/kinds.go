package theory

// kinds is the one table of chord kinds. To add a kind, add a row.
//
// The IDs are MusicXML 4.0's kind values (W3C) where it has the kind.
var kinds = []*Kind{
	{"major", "major", []string{"", "maj", "M", "Δ"}, formula("P1 M3 P5"), formula("P5")},
	{"minor", "minor", []string{"m", "min", "-"}, formula("P1 m3 P5"), formula("P5")},
	{"dominant", "seventh", []string{"7", "dom7"}, formula("P1 M3 P5 m7"), formula("P5 P1")},
	{"major-seventh", "major seventh", []string{"maj7", "M7", "Δ7"}, formula("P1 M3 P5 M7"), formula("P5 P1")},
	{"minor-seventh", "minor seventh", []string{"m7", "min7", "-7"}, formula("P1 m3 P5 m7"), formula("P5 P1")},
	{"added-ninth", "added ninth", []string{"add9", "(add9)", "add2"}, formula("P1 M3 P5 M9"), formula("P5")},
	{"minor-added-ninth", "minor added ninth", []string{"m(add9)", "madd9"}, formula("P1 m3 P5 M9"), formula("P5")},
	{"suspended-second", "suspended second", []string{"sus2"}, formula("P1 M2 P5"), nil},
	{"suspended-fourth", "suspended fourth", []string{"sus4", "sus"}, formula("P1 P4 P5"), nil},
	{"added-fourth", "added fourth", []string{"add4", "(add4)"}, formula("P1 M3 P4 P5"), formula("P5")},
	{"major-sixth", "sixth", []string{"6"}, formula("P1 M3 P5 M6"), formula("P5")},
	{"minor-sixth", "minor sixth", []string{"m6", "-6"}, formula("P1 m3 P5 M6"), formula("P5")},
	{"diminished", "diminished", []string{"dim", "°"}, formula("P1 m3 d5"), nil},
	{"augmented", "augmented", []string{"aug", "+"}, formula("P1 M3 A5"), nil},
	{"half-diminished", "minor seventh flat five", []string{"m7b5", "ø"}, formula("P1 m3 d5 m7"), formula("P1")},
	{"diminished-seventh", "diminished seventh", []string{"dim7", "°7"}, formula("P1 m3 d5 d7"), nil},
	{"dominant-ninth", "ninth", []string{"9"}, formula("P1 M3 P5 m7 M9"), formula("P5 P1")},
}

// formula reads a row of interval names. It panics on a name that is none: the table is ours.
func formula(names string) []Interval {
	var out []Interval
	for start := 0; start < len(names); {
		end := start
		for end < len(names) && names[end] != ' ' {
			end++
		}
		i, err := ParseInterval(names[start:end])
		if err != nil {
			panic("theory: kinds: " + err.Error())
		}
		out = append(out, i)
		start = end + 1
	}
	return out
}
