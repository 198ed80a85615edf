package draw

// Size is how large a neck is drawn. The picture is the same at every size: a fret is the space above its wire, and what is stopped
// there stands in that space.
type Size int

// The sizes of necks.
const (
	Usual Size = iota
	Small      // a line a fret
	Large      // to be read from afar
)

// Sizes lists the sizes, the largest first.
var Sizes = []Size{Large, Usual, Small}

// grid is how many characters the parts of a neck take at a size.
type grid struct {
	gap    int      // columns from string to string
	space  int      // lines between two wires
	wired  bool     // a wire has a line of its own; else it lies at the foot of its fret's only line
	stop   dot      // a stopped string
	target dot      // where a finger would go
	bar    []string // between strings that one finger stops, line by line
}

// dot is a sign in the middle of a fret's space, line by line.
type dot []string

var grids = map[Size]grid{
	Small: {gap: 4, space: 1, stop: dot{"●"}, target: dot{"○"}, bar: []string{"━"}},
	Usual: {gap: 6, space: 1, wired: true, stop: dot{"●"}, target: dot{"○"}, bar: []string{"━"}},
	Large: {
		gap: 10, space: 3, wired: true,
		stop:   dot{"▗▄▄▄▖", "▐███▌", "▝▀▀▀▘"},
		target: dot{"╭───╮", "│   │", "╰───╯"},
		bar:    []string{"▄", "█", "▀"},
	},
}

// height is how many lines a fret takes, its wire included.
func (g grid) height() int {
	if g.wired {
		return g.space + 1
	}
	return g.space
}

// overhang is how many columns a dot is wider than its string, to the right.
func (g grid) overhang() int { return width(g.stop[0]) / 2 }
