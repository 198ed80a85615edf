package arrange

import (
	"slices"

	"sparetone/theory/fret"
	"sparetone/theory/song"
)

// Picking returns a picking order for a song, once over the strings that sound throughout: one in which as often as may be the string that a
// colour moves is plucked right after or before one that doubles it in the plain chord. So the plain chord repeats a note there, and the coloured
// one moves. Of orders that do so alike, that is taken which leaps most as thumb and index in turn do: 4 2 3 1. Without colours
// it is that one.
func (a Arrangement) Picking() song.Pattern {
	numbers := a.picked()
	pairs := a.doubledPairs()
	best, most := numbers, 0
	permute(numbers, 1, func(order []int) {
		score := 0
		for n, number := range order {
			next := order[(n+1)%len(order)]
			score += 100 * pairs[[2]int{number, next}]
			score += evenness(numbers, order, n)
		}
		if score > most {
			best, most = slices.Clone(order), score
		}
	})
	var p song.Pattern
	for _, number := range best {
		p.Steps = append(p.Steps, song.Step{Pluck: []int{number}})
	}
	return p
}

// fewestPicked is how many strings are picked at the least: of two no chord is heard. From judgement.
const fewestPicked = 3

// picked returns the numbers of the strings that are picked, in the tuning's order: those that sound throughout, and where these are too few
// all that sound at half of the places or more; else all there are. One that does not sound somewhere is passed over there.
func (a Arrangement) picked() (numbers []int) {
	places := 0
	sounds := make([]int, len(a.Tuning.Strings))
	for _, p := range a.Places {
		if p.Rests() {
			continue
		}
		places++
		for i := range sounds {
			if p.Plain.Shape[i] != fret.Muted && p.Path.Shape[i] != fret.Muted {
				sounds[i]++
			}
		}
	}
	for _, least := range []int{places, (places + 1) / 2, 0} {
		numbers = nil
		for i, n := range sounds {
			if n >= least {
				numbers = append(numbers, a.Tuning.StringNumber(i))
			}
		}
		if len(numbers) >= min(fewestPicked, len(sounds)) {
			break
		}
	}
	return numbers
}

// evenness is 1 if a string of an order is the one that thumb and index in turn take there.
func evenness(numbers, order []int, n int) int {
	half := (len(numbers) + 1) / 2
	even := numbers[n/2]
	if n%2 == 1 {
		even = numbers[half+n/2]
	}
	if order[n] == even {
		return 1
	}
	return 0
}

// doubledPairs counts for each two strings at how many places one of them is moved by the colour of the path and the other sounds what
// it sounded before.
func (a Arrangement) doubledPairs() map[[2]int]int {
	pairs := map[[2]int]int{}
	for _, p := range a.Places {
		c := p.Path.Colour
		if c == nil {
			continue
		}
		moved := len(a.Tuning.Strings) - c.String
		before := a.Tuning.MIDI(moved, c.From[moved])
		for i, f := range c.From {
			if i != moved && f != fret.Muted && (a.Tuning.MIDI(i, f)-before)%12 == 0 {
				other := a.Tuning.StringNumber(i)
				pairs[[2]int{c.String, other}]++
				pairs[[2]int{other, c.String}]++
			}
		}
	}
	return pairs
}

// permute calls do with every order of numbers whose first so many stay.
func permute(numbers []int, fixed int, do func([]int)) {
	if fixed >= len(numbers) {
		do(numbers)
		return
	}
	for i := fixed; i < len(numbers); i++ {
		order := slices.Clone(numbers)
		order[fixed], order[i] = order[i], order[fixed]
		permute(order, fixed+1, do)
	}
}
