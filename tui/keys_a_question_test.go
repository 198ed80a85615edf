package tui

import (
	"fmt"
	"slices"
	"strconv"
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/progress"
	"sparetone/tui/page/asking"
)

// keysBeside is how many keys a question takes beside what its answer is made of: to give it and to go on. A choice is one key, which gives
// it as well.
func keysBeside(t *testing.T, f *screenFace, right bool) (beside, answer int) {
	t.Helper()
	q := f.asked()
	number := q.Asked.Number
	typed := given(q.Asked, right)
	if q.Asked.Form == drills.Choose {
		at := slices.IndexFunc(q.Asked.Choices, func(c drills.Choice) bool { return c.Typed == typed })
		keyed(f.a, strconv.Itoa(at+1)) // what it asks to be told of later is told below
		answer = 1
	} else {
		keys := f.keysFor(typed)
		keyed(keyed(f.a, keys...), "enter")
		answer, beside = len(keys), 1
	}
	r, ok := f.a.place.(*asking.Reveal)
	if !ok || (r.Verdict.Result == progress.Right) != right {
		t.Fatalf("%s: %q leads to %T, %s", q.Asked.Text(), typed, f.a.place, f.a.note)
	}
	if f.a.page().GoesOn != nil { // and it has sounded
		f.a.Update(onwardMsg{f.a.place})
	} else {
		keyed(f.a, "enter")
		beside++
	}
	if next, ok := f.a.place.(*asking.Question); !ok || next.Asked.Number != number+1 {
		t.Fatalf("%s: after the reveal there is %T", q.Asked.Text(), f.a.place)
	}
	return beside, answer
}

// A choice takes one key, and one more to go on from its reveal; where the student wishes a right one takes one key, for it goes on by
// itself. What is put together string by string or note by note takes its own keys, and one more to give it.
func TestKeysAQuestion(t *testing.T) {
	t.Parallel()
	for _, d := range catalogue.All() {
		id := d.About().ID
		log := id + ":"
		for _, onward := range []bool{true, false} {
			for _, right := range []bool{true, false} {
				f := &screenFace{t: t, a: asked(t, id)}
				f.a.Settings.Onward = onward
				most := 0
				for range 3 {
					form := f.asked().Asked.Form
					beside, answer := keysBeside(t, f, right)
					want := 1
					if onward && right {
						want = 0
					}
					if form != drills.Choose {
						want++
					} else if answer != 1 {
						t.Errorf("%s: a choice takes %d keys", id, answer)
					}
					if beside != want {
						t.Errorf("%s, goes on by itself %v, right %v: %d keys beside those of the answer, not %d", id, onward, right, beside, want)
					}
					most = max(most, beside+answer)
				}
				if right {
					log += fmt.Sprintf(" goes on by itself %v, %d keys at the most;", onward, most)
				}
			}
		}
		t.Log(log)
	}
}
