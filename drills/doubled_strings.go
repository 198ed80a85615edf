package drills

import (
	"slices"
	"strconv"
	"strings"

	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// askWhere asks which two strings sound the same note.
func (d doubled) askWhere(r Request) (*Question, error) {
	strs := r.On.Tuning.Strings
	var all [][2]int // numbers of two strings
	for i := range strs {
		for j := i + 1; j < len(strs); j++ {
			all = append(all, [2]int{r.On.Tuning.StringNumber(i), r.On.Tuning.StringNumber(j)})
		}
	}
	// Only pairs that can be met at one place stand together.
	kinds := d.kinds(r)
	var pairs [][2]int
	together := func(known []fret.Voicing, most int) {
		lists := fitting(known, len(all), func(v fret.Voicing, n int) bool { return doubles(v, all[n]) })
		pairs = nil
		for _, n := range meeting(lists, most, seenVoicing, r.Rand) {
			pairs = append(pairs, all[n])
		}
	}
	most := mostChoices
	if r.First {
		most = 2
	}
	for n := 0; r.First && len(pairs) < 2 && n < len(all); n++ { // not every pair has another at its place
		together(d.shapes(r.On, kinds, 0), most)
	}
	for some := fewKinds; len(pairs) < 2 && some < max(fewKinds, len(kinds))+moreKinds; some += moreKinds {
		together(d.shapes(r.On, kinds[:min(some, len(kinds))], 1), most)
	}
	if len(pairs) < 2 {
		return nil, say.Wrong("{} doubles too few notes on two strings", say.Foreign(r.On.Tuning.Name))
	}
	right := r.Rand.IntN(len(pairs))
	v, each, err := d.pickVoicing(r, kinds, right, len(pairs), func(v fret.Voicing, n int) bool { return doubles(v, pairs[n]) })
	if err != nil {
		return nil, err
	}
	return insteadOf(v, each, func(v fret.Voicing) *Question { return d.where(v, pairs) }).beforeFirst(r), nil
}

// where asks which of some pairs of strings sound the same note in a voicing.
func (d doubled) where(v fret.Voicing, pairs [][2]int) *Question {
	right := slices.IndexFunc(pairs, func(p [2]int) bool { return doubles(v, p) })
	q := &Question{Prompt: askWhere(v.Chord), Shown: &v}
	var offered []Choice
	for _, p := range pairs {
		offered = append(offered, Choice{ID: writePair(p, " "), Said: sayPair(v.Tuning, p), Typed: writePair(p, " ")})
	}
	q.offer(offered[right].ID, offered...)
	q.Accepts = []string{writePair(pairs[right], " and "), writePair([2]int{pairs[right][1], pairs[right][0]}, ",")}
	q.answers = answers[[2]int]{
		offered: pairs,
		read: func(text string) ([2]int, error) {
			numbers, ok := stringNumbers(v.Tuning, text)
			if !ok || len(numbers) != 2 || numbers[0] == numbers[1] {
				return [2]int{}, errUnread
			}
			return [2]int{max(numbers[0], numbers[1]), min(numbers[0], numbers[1])}, nil
		},
		mark: func(pair [2]int) given {
			return given{id: writePair(pair, " "), said: sayPair(v.Tuning, pair), result: rightIf(pair == pairs[right])}
		},
		explain: func(pair [2]int, g given, verdict *Verdict) {
			d.reveal(v, verdict)
			verdict.Short = saySpares(v)
			if !g.right() {
				for _, n := range pair {
					verdict.say(saySounds(v, n))
				}
				verdict.Contrast = Contrast{stringsAlone(v, doubledStrings(v)...), stringsAlone(v, pair[:]...)}
			}
			verdict.say(saySpares(v))
		},
	}
	return q
}

// writePair writes the numbers of two strings as they are typed.
func writePair(pair [2]int, between string) string {
	return strconv.Itoa(pair[0]) + between + strconv.Itoa(pair[1])
}

// doubles reports whether two strings of a voicing sound the same note.
func doubles(v fret.Voicing, pair [2]int) bool {
	twice := v.Doubled()
	return len(twice) == 1 && slices.Contains(twice[0].Strings, pair[0]) && slices.Contains(twice[0].Strings, pair[1])
}

// stringNumbers reads which strings a text means, by their numbers or by what they are called: 4 and 2, g and E. It
// does not know a letter that several strings have, without low or high before it.
func stringNumbers(t *fret.Tuning, text string) ([]int, bool) {
	var out []int
	which := ""
	for _, w := range strings.FieldsFunc(read.Words(text), func(r rune) bool { return strings.ContainsRune(" +&/;", r) }) {
		switch w {
		case "the", "string", "strings", "and":
			continue
		case "low", "middle", "high":
			which = w + " "
			continue
		}
		n, ok := read.Number(w)
		if !ok {
			n, ok = stringOfName(t, which+w)
		}
		if !ok || n < 1 || n > len(t.Strings) {
			return nil, false
		}
		out, which = append(out, n), ""
	}
	return out, len(out) > 0
}

// stringOfName returns the number of the string that is called so.
func stringOfName(t *fret.Tuning, called string) (int, bool) {
	for n := range len(t.Strings) {
		if sameWords(t.StringCalled(n+1), called) {
			return n + 1, true
		}
	}
	return 0, false
}

// onlySpare reports whether of some strings of a voicing the n-th can be spared and no other, and all sound.
func onlySpare(v fret.Voicing, numbers []int, n int) bool {
	for m, number := range numbers {
		if s := tone(v, number); s.Fret == fret.Muted || s.Doubled != (m == n) {
			return false
		}
	}
	return true
}

// mostSpared is of how many strings it is asked which can be given up.
const mostSpared = 3

// askSpare asks which string can be given up. Of the two that could, one stands among the choices.
func (d doubled) askSpare(r Request) (*Question, error) {
	var all []int
	for i := range r.On.Tuning.Strings {
		all = append(all, r.On.Tuning.StringNumber(i))
	}
	kinds := d.kinds(r)
	known, some := d.shapes(r.On, kinds[:min(fewKinds, len(kinds))], 1), mostSpared
	if r.First {
		known, some = d.shapes(r.On, kinds, 0), 2
	}
	var numbers []int
	fits := func(v fret.Voicing, n int) bool { return onlySpare(v, numbers, n) }
	// Not every three strings leave room for the others to double each of them at one place: pick until they do.
	for range 100 {
		numbers = someOf(all, some, r.Rand)
		slices.Reverse(numbers) // the first string first: their numbers are then mostly those of the choices
		if len(inAll(fitting(known, len(numbers), fits), seenVoicing)) > 0 {
			break
		}
	}
	right := r.Rand.IntN(len(numbers))
	v, each, err := d.pickVoicing(r, kinds, right, len(numbers), fits)
	if err != nil {
		return nil, err
	}
	return insteadOf(v, each, func(v fret.Voicing) *Question { return d.spare(v, numbers) }).beforeFirst(r), nil
}

// spare asks which of some strings of a voicing can be given up: just one of them can.
func (d doubled) spare(v fret.Voicing, numbers []int) *Question {
	right := slices.IndexFunc(numbers, func(n int) bool { return tone(v, n).Doubled })
	q := &Question{Prompt: askSpare(v.Chord), Shown: &v}
	var offered []Choice
	for _, n := range numbers {
		offered = append(offered, Choice{ID: strconv.Itoa(n), Said: sayString(v.Tuning, n), Typed: "string " + strconv.Itoa(n)})
	}
	q.offer(offered[right].ID, offered...)
	for _, n := range v.Doubled()[0].Strings {
		q.Accepts = append(q.Accepts, "string "+strconv.Itoa(n))
	}
	q.answers = answers[int]{ // the number of a string
		offered: numbers,
		read: func(text string) (int, error) {
			asked, ok := stringNumbers(v.Tuning, text)
			if !ok || len(asked) != 1 || tone(v, asked[0]).Fret == fret.Muted {
				return 0, errUnread
			}
			return asked[0], nil
		},
		mark: func(n int) given {
			return given{id: strconv.Itoa(n), said: sayString(v.Tuning, n), result: rightIf(tone(v, n).Doubled)}
		},
		explain: func(n int, g given, verdict *Verdict) {
			d.reveal(v, verdict)
			verdict.Short = saySpares(v)
			if !g.right() {
				verdict.Short = sayAlone(v, n)
				verdict.say(verdict.Short)
				verdict.Contrast = Contrast{stringsWithout(v, numbers[right]), stringsWithout(v, n)}
			}
			verdict.say(saySpares(v))
		},
	}
	return q
}
