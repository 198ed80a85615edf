package trying

import "sparetone/theory/say"

// leadBench is what can be typed.
const leadBench = "Type a chord such as \"Cadd9\", or a fret for each string such as \"0003\", or a number, to hear that swap after the plain shape and take it."

var howToTry = say.Of("Type a chord, or set fingers with arrows and digits.")

// saySwaps says which numbers of swaps there are.
func saySwaps(n int) say.Text {
	switch n {
	case 0:
		return say.Of("There is no swap from this shape.")
	case 1:
		return say.Of("There is one swap: 1.")
	}
	return say.Of("There are swaps 1 to {}.", say.Number(n))
}

// titleBench is what the bench is called on the screen.
const titleBench = "Try things"
