package shapes

import (
	"slices"
	"strconv"
	"strings"

	"sparetone/drills"
	"sparetone/drills/fair"
	"sparetone/drills/wording"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// askWhere asks which two strings sound the same note.
func (d Doubled) askWhere(r drills.Request) (*drills.Question, error) {
	strs := r.On.Tuning.Strings
	var all [][2]int // numbers of two strings
	for i := range strs {
		for j := i + 1; j < len(strs); j++ {
			all = append(all, [2]int{r.On.Tuning.StringNumber(i), r.On.Tuning.StringNumber(j)})
		}
	}
	// Only pairs that can be met at one place stand together, on the same strings: a pair with a string that is muted is none at sight.
	kinds := d.kinds(r)
	var pairs [][2]int
	sound := "" // which strings do
	together := func(known []fret.Voicing, most int) {
		tried := map[string]bool{}
		for _, at := range r.Rand.Perm(len(known)) {
			if sound = strung(known[at].Shape); tried[sound] {
				continue
			}
			tried[sound], pairs = true, nil
			lists := fitting(known, len(all), func(v fret.Voicing, n int) bool { return strung(v.Shape) == sound && doubles(v, all[n]) })
			for _, n := range fair.AlikeLists(lists, most, fair.SeenVoicing, r.Rand) {
				pairs = append(pairs, all[n])
			}
			if len(pairs) > 1 {
				return
			}
		}
	}
	most := drills.MostChoices
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
	v, each, err := d.pickVoicing(r, kinds, right, len(pairs), func(v fret.Voicing, n int) bool { return strung(v.Shape) == sound && doubles(v, pairs[n]) })
	if err != nil {
		return nil, err
	}
	return insteadOf(v, each, func(v fret.Voicing) *drills.Question { return d.where(v, pairs) }).BeforeFirst(r), nil
}

// where asks which of some pairs of strings sound the same note in a voicing.
func (d Doubled) where(v fret.Voicing, pairs [][2]int) *drills.Question {
	right := slices.IndexFunc(pairs, func(p [2]int) bool { return doubles(v, p) })
	q := &drills.Question{Prompt: askWhere(v.Chord), Shown: &v}
	var offered []drills.Choice
	for _, p := range pairs {
		offered = append(offered, drills.Choice{ID: writePair(p, " "), Said: sayPair(v.Tuning, p), Typed: writePair(p, " ")})
	}
	q.Offer(offered[right].ID, offered...)
	q.Accepts = []string{writePair(pairs[right], " and "), writePair([2]int{pairs[right][1], pairs[right][0]}, ",")}
	q.Answers = drills.Answers[[2]int]{
		Offered: pairs,
		Read: func(text string) ([2]int, error) {
			numbers, ok := stringNumbers(v.Tuning, text)
			if !ok || len(numbers) != 2 || numbers[0] == numbers[1] {
				return [2]int{}, drills.ErrUnread
			}
			return [2]int{max(numbers[0], numbers[1]), min(numbers[0], numbers[1])}, nil
		},
		Mark: func(pair [2]int) drills.Given {
			return drills.Given{ID: writePair(pair, " "), Said: sayPair(v.Tuning, pair), Result: drills.RightIf(pair == pairs[right])}
		},
		Explain: func(pair [2]int, g drills.Given, verdict *drills.Verdict) {
			d.reveal(v, verdict)
			verdict.Short = saySpares(v)
			if !g.Right() {
				for _, n := range pair {
					verdict.Say(saySounds(v, n))
				}
				verdict.Contrast = drills.Contrast{Right: stringsAlone(v, doubledStrings(v)...), Given: stringsAlone(v, pair[:]...)}
			}
			verdict.Say(saySpares(v))
		},
	}
	return q
}

// writePair writes the numbers of two strings as they are typed.
func writePair(pair [2]int, between string) string {
	return strconv.Itoa(pair[0]) + between + strconv.Itoa(pair[1])
}

// strung tells of each string of a shape whether it sounds: o does, x is muted.
func strung(s fret.Shape) string {
	out := make([]byte, len(s))
	for i, at := range s {
		if out[i] = 'o'; at == fret.Muted {
			out[i] = 'x'
		}
	}
	return string(out)
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
		if drills.SameWords(t.StringCalled(n+1), called) {
			return n + 1, true
		}
	}
	return 0, false
}

// onlySpare reports whether of some strings of a voicing the n-th can be spared and no other, and all sound.
func onlySpare(v fret.Voicing, numbers []int, n int) bool {
	for m, number := range numbers {
		if s := wording.ToneOn(v, number); s.Fret == fret.Muted || s.Doubled != (m == n) {
			return false
		}
	}
	return true
}

// mostSpared is of how many strings it is asked which can be given up.
const mostSpared = 3

// askSpare asks which string can be given up. Of the two that could, one stands among the choices.
func (d Doubled) askSpare(r drills.Request) (*drills.Question, error) {
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
		numbers = fair.SomeOf(all, some, r.Rand)
		slices.Reverse(numbers) // the first string first: their numbers are then mostly those of the choices
		if len(fair.InAll(fitting(known, len(numbers), fits), fair.SeenVoicing)) > 0 {
			break
		}
	}
	right := r.Rand.IntN(len(numbers))
	v, each, err := d.pickVoicing(r, kinds, right, len(numbers), fits)
	if err != nil {
		return nil, err
	}
	return insteadOf(v, each, func(v fret.Voicing) *drills.Question { return d.spare(v, numbers) }).BeforeFirst(r), nil
}

// spare asks which of some strings of a voicing can be given up: just one of them can.
func (d Doubled) spare(v fret.Voicing, numbers []int) *drills.Question {
	right := slices.IndexFunc(numbers, func(n int) bool { return wording.ToneOn(v, n).Doubled })
	q := &drills.Question{Prompt: askSpare(v.Chord), Shown: &v}
	var offered []drills.Choice
	for _, n := range numbers {
		offered = append(offered, drills.Choice{ID: strconv.Itoa(n), Said: sayString(v.Tuning, n), Typed: "string " + strconv.Itoa(n)})
	}
	q.Offer(offered[right].ID, offered...)
	for _, n := range v.Doubled()[0].Strings {
		q.Accepts = append(q.Accepts, "string "+strconv.Itoa(n))
	}
	q.Answers = drills.Answers[int]{ // the number of a string
		Offered: numbers,
		Read: func(text string) (int, error) {
			asked, ok := stringNumbers(v.Tuning, text)
			if !ok || len(asked) != 1 || wording.ToneOn(v, asked[0]).Fret == fret.Muted {
				return 0, drills.ErrUnread
			}
			return asked[0], nil
		},
		Mark: func(n int) drills.Given {
			return drills.Given{ID: strconv.Itoa(n), Said: sayString(v.Tuning, n), Result: drills.RightIf(wording.ToneOn(v, n).Doubled)}
		},
		Explain: func(n int, g drills.Given, verdict *drills.Verdict) {
			d.reveal(v, verdict)
			verdict.Short = saySpares(v)
			if !g.Right() {
				verdict.Short = sayAlone(v, n)
				verdict.Say(verdict.Short)
				verdict.Contrast = drills.Contrast{Right: stringsWithout(v, numbers[right]), Given: stringsWithout(v, n)}
			}
			verdict.Say(saySpares(v))
		},
	}
	return q
}
