package drills

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"sparetone/theory/fret"
	"sparetone/theory/read"
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
	for some := fewKinds; len(pairs) < 2 && some < max(fewKinds, len(kinds))+moreKinds; some += moreKinds {
		known := d.shapes(r.On, kinds[:min(some, len(kinds))], 1)
		lists := fitting(known, len(all), func(v fret.Voicing, n int) bool { return doubles(v, all[n]) })
		pairs = nil
		for _, n := range meeting(lists, mostChoices, seenVoicing, r.Rand) {
			pairs = append(pairs, all[n])
		}
	}
	if len(pairs) < 2 {
		return nil, fmt.Errorf("%s doubles too few notes on two strings", r.On.Tuning.Name)
	}
	right := r.Rand.IntN(len(pairs))
	v, err := d.draw(r, kinds, right, len(pairs), func(v fret.Voicing, n int) bool { return doubles(v, pairs[n]) })
	if err != nil {
		return nil, err
	}
	q := &Question{Prompt: fmt.Sprintf("This is %s. Which two strings sound the same note?", v.Chord), Shown: &v}
	var offered []Choice
	for _, p := range pairs {
		label := stringNames(r.On.Tuning, p[:])
		offered = append(offered, Choice{ID: fmt.Sprintf("%d %d", p[0], p[1]), Label: label, Spoken: label, Typed: fmt.Sprintf("%d %d", p[0], p[1])})
	}
	q.offer(offered[right].ID, offered...)
	q.Accepts = []string{fmt.Sprintf("%d and %d", pairs[right][0], pairs[right][1]), fmt.Sprintf("%d,%d", pairs[right][1], pairs[right][0])}
	q.read = func(text string) (given, error) {
		numbers, ok := stringNumbers(r.On.Tuning, text)
		if !ok || len(numbers) != 2 || numbers[0] == numbers[1] {
			return given{}, errUnread
		}
		pair := [2]int{max(numbers[0], numbers[1]), min(numbers[0], numbers[1])}
		return given{id: fmt.Sprintf("%d %d", pair[0], pair[1]), label: stringNames(r.On.Tuning, pair[:]), result: rightIf(pair == pairs[right])}, nil
	}
	q.explain = func(g given, verdict *Verdict) {
		if !g.right() {
			if numbers, ok := stringNumbers(r.On.Tuning, g.id); ok {
				for _, n := range numbers {
					verdict.say(sounds(v, n))
				}
			}
		}
		verdict.say(spares(v))
	}
	return q, nil
}

// sounds says what the string with a number sounds.
func sounds(v fret.Voicing, number int) string {
	s, called := tone(v, number), v.Tuning.StringCalled(number)
	if s.Fret == fret.Muted {
		return fmt.Sprintf("The %s string does not sound.", called)
	}
	return fmt.Sprintf("The %s string sounds %s, %s.", called, s.Pitch.Note, s.Interval.Role())
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

// askSpare asks which string can be given up. Of the two that could, one stands among the choices.
func (d doubled) askSpare(r Request) (*Question, error) {
	var all []int
	for i := range r.On.Tuning.Strings {
		all = append(all, r.On.Tuning.StringNumber(i))
	}
	kinds := d.kinds(r)
	known := d.shapes(r.On, kinds[:min(fewKinds, len(kinds))], 1)
	var numbers []int
	fits := func(v fret.Voicing, n int) bool { return onlySpare(v, numbers, n) }
	// Not every three strings leave room for the others to double each of them at one place: draw until they do.
	for range 100 {
		numbers = someOf(all, 3, r.Rand)
		slices.Reverse(numbers) // the first string first: their numbers are then mostly those of the choices
		if len(inAll(fitting(known, len(numbers), fits), seenVoicing)) > 0 {
			break
		}
	}
	right := r.Rand.IntN(len(numbers))
	v, err := d.draw(r, kinds, right, len(numbers), fits)
	if err != nil {
		return nil, err
	}
	q := &Question{Prompt: fmt.Sprintf("This is %s. Which of these strings can be spared without losing a note of the chord?", v.Chord), Shown: &v}
	var offered []Choice
	for _, n := range numbers {
		label := stringList(r.On.Tuning, []int{n})
		offered = append(offered, Choice{ID: strconv.Itoa(n), Label: label, Spoken: label, Typed: fmt.Sprintf("string %d", n)})
	}
	q.offer(offered[right].ID, offered...)
	for _, n := range v.Doubled()[0].Strings {
		q.Accepts = append(q.Accepts, fmt.Sprintf("string %d", n))
	}
	q.read = func(text string) (given, error) {
		asked, ok := stringNumbers(r.On.Tuning, text)
		if !ok || len(asked) != 1 || tone(v, asked[0]).Fret == fret.Muted {
			return given{}, errUnread
		}
		return given{id: strconv.Itoa(asked[0]), label: stringList(r.On.Tuning, asked), result: rightIf(tone(v, asked[0]).Doubled)}, nil
	}
	q.explain = func(g given, verdict *Verdict) {
		if number, ok := stringNumbers(r.On.Tuning, g.id); ok && !g.right() {
			verdict.say(fmt.Sprintf("%s No other string does.", sounds(v, number[0])))
		}
		verdict.say(spares(v))
	}
	return q, nil
}
