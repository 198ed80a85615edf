package read

import "strings"

// sign is a word of the grammar of suffixes.
type sign int

const (
	major    sign = iota // the word; a major seventh if a number follows
	delta                // the triangle: a major seventh whether or not a number follows
	minor                //
	dim                  //
	halfDim              //
	aug                  //
	dominant             // says nothing that the number does not
	sus                  //
	add                  //
	no                   //
	sharp                //
	flat                 //
	natural              // before a number: the plain tone
	alt                  // fifth and ninth of a seventh chord are altered
	minus                // minor, or a flat before a number
	plus                 // augmented, or a sharp before a number
)

// signWords are the ways in which people write each sign in letters, in any case, the longer before those they start
// with.
var signWords = []struct {
	written string
	sign    sign
}{
	{"dominant", dominant}, {"dom", dominant}, {"diminished", dim}, {"dim", dim}, {"half-dim", halfDim}, {"half dim", halfDim},
	{"halfdim", halfDim}, {"augmented", aug}, {"aug", aug}, {"suspended", sus}, {"sus", sus}, {"added", add}, {"add", add},
	{"altered", alt}, {"alt", alt}, {"omitted", no}, {"omit", no}, {"without", no}, {"no", no},
	{"major", major}, {"minor", minor}, {"maj", major}, {"min", minor}, {"ma", major}, {"mi", minor},
}

// signMarks are the single signs. The case of M and m tells major from minor.
var signMarks = []struct {
	written string
	sign    sign
}{
	{"M", major}, {"j", major}, {"J", major}, {"m", minor}, {"Δ", delta}, {"^", delta}, {"°", dim}, {"o", dim}, {"ø", halfDim}, {"h", halfDim},
	{"#", sharp}, {"b", flat}, {"♮", natural}, {"-", minus}, {"+", plus},
}

func hasFold(s, prefix string) bool {
	return len(s) >= len(prefix) && strings.EqualFold(s[:len(prefix)], prefix)
}
