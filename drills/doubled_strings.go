package drills

import (
	"fmt"
	"slices"
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
		label := stringList(p[:])
		offered = append(offered, Choice{ID: label, Label: label, Spoken: label, Typed: fmt.Sprintf("%d %d", p[0], p[1])})
	}
	q.offer(offered[right].ID, offered...)
	q.Accepts = []string{fmt.Sprintf("%d and %d", pairs[right][0], pairs[right][1]), fmt.Sprintf("%d,%d", pairs[right][1], pairs[right][0])}
	q.read = func(text string) (given, error) {
		numbers, ok := stringNumbers(text, len(strs))
		if !ok || len(numbers) != 2 || numbers[0] == numbers[1] {
			return given{}, errUnread
		}
		pair := [2]int{max(numbers[0], numbers[1]), min(numbers[0], numbers[1])}
		return given{id: stringList(pair[:]), label: stringList(pair[:]), result: rightIf(pair == pairs[right])}, nil
	}
	q.explain = func(g given, verdict *Verdict) {
		if !g.right() {
			if numbers, ok := stringNumbers(g.id, len(strs)); ok {
				for _, n := range numbers {
					verdict.say(sounds(tone(v, n)))
				}
			}
		}
		verdict.say(spares(v))
	}
	return q, nil
}

// sounds says what a string sounds.
func sounds(s fret.StringTone) string {
	if s.Fret == fret.Muted {
		return fmt.Sprintf("String %d does not sound.", s.Number)
	}
	return fmt.Sprintf("String %d sounds %s, %s.", s.Number, s.Pitch.Note, s.Interval.Role())
}

// doubles reports whether two strings of a voicing sound the same note.
func doubles(v fret.Voicing, pair [2]int) bool {
	twice := v.Doubled()
	return len(twice) == 1 && slices.Contains(twice[0].Strings, pair[0]) && slices.Contains(twice[0].Strings, pair[1])
}

// stringNumbers reads the numbers of strings out of a text.
func stringNumbers(text string, most int) ([]int, bool) {
	var out []int
	for _, w := range strings.FieldsFunc(read.Words(text), func(r rune) bool { return strings.ContainsRune(" +&/;", r) }) {
		if w == "string" || w == "strings" || w == "and" {
			continue
		}
		n, ok := read.Number(w)
		if !ok || n > most {
			return nil, false
		}
		out = append(out, n)
	}
	return out, len(out) > 0
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
	q := &Question{Prompt: fmt.Sprintf("This is %s. Which of these strings can be spared, with no note of the chord lost?", v.Chord), Shown: &v}
	var offered []Choice
	for _, n := range numbers {
		label := fmt.Sprintf("string %d", n)
		offered = append(offered, Choice{ID: label, Label: label, Spoken: label, Typed: label})
	}
	q.offer(offered[right].ID, offered...)
	for _, n := range v.Doubled()[0].Strings {
		q.Accepts = append(q.Accepts, fmt.Sprintf("string %d", n))
	}
	q.read = func(text string) (given, error) {
		asked, ok := stringNumbers(text, len(all))
		if !ok || len(asked) != 1 || tone(v, asked[0]).Fret == fret.Muted {
			return given{}, errUnread
		}
		label := fmt.Sprintf("string %d", asked[0])
		return given{id: label, label: label, result: rightIf(tone(v, asked[0]).Doubled)}, nil
	}
	q.explain = func(g given, verdict *Verdict) {
		if number, ok := stringNumbers(g.id, len(all)); ok && !g.right() {
			verdict.say(fmt.Sprintf("%s Nothing else sounds it.", sounds(tone(v, number[0]))))
		}
		verdict.say(spares(v))
	}
	return q, nil
}
