package tui

import (
	"strings"
	"testing"

	"sparetone/drills/practice/setting"
	"sparetone/tui/page/asking"
	"sparetone/tui/page/home"
)

// A part of practice stays as chosen: for the next practice, and for the next day, until all of it is chosen again.
func TestPartStaysAsChosen(t *testing.T) {
	for _, row := range []struct {
		key, word, id, says string
		hears               bool
	}{{"e", "ear", "ear", "by ear only", true}, {"i", "eye", "eye", "by eye only", false}} {
		p, _ := practiceOf(t, false)
		a := keyed(newApp(p), row.key)
		for n := range 3 {
			q, asks := a.place.(*asking.Question)
			if !asks {
				t.Fatalf("%s, practice %d begins with %T", row.key, n+1, a.place)
			}
			if (len(q.Asked.Sounds) > 0) != row.hears {
				t.Errorf("%s, practice %d: %q", row.key, n+1, q.Asked.Prompt)
			}
			keyed(a, "q", "enter") // to its end, and back to today
			if text := plainText(drawn(sized(a, 80, 24))); !strings.Contains(text, row.says+".") || !strings.Contains(text, "by ear and eye again") {
				t.Errorf("after practice %d today says\n%s", n+1, text)
			}
			keyed(a, "enter")
		}
		if s := setting.Read(p.File()); s.Part != row.id {
			t.Errorf("of %s is kept %q", row.key, s.Part)
		}
		keyed(a, "q", "enter", row.key)
		if s := setting.Read(p.File()); s.Part != setting.AllParts {
			t.Errorf("of %s twice is kept %q", row.key, s.Part)
		}
		p, _ = practiceOf(t, false)
		says(t, plainly(t, p, row.word, "stop", row.word, "stop", "leave", ""), "Question 1.", "practice: "+row.says, "By ear and eye.")
	}
}

// What was chosen is no reason to ask nothing: where there is no sound for a part by ear, all is asked that needs none.
func TestPartWithoutSound(t *testing.T) {
	p, _ := practiceOf(t, true)
	if err := p.Set("part", "ear"); err != nil {
		t.Fatal(err)
	}
	if err := p.Begin(p.Called); err != nil {
		t.Fatal(err)
	}
	if q, asks := keyed(newApp(p), "enter").place.(*asking.Question); !asks || len(q.Asked.Sounds) > 0 {
		t.Errorf("%v is asked", q)
	}
}

// Every drill has a key of its own in the list.
func TestEveryDrillHasAKey(t *testing.T) {
	a := sized(keyed(atFirst(t, true), "d"), 80, 24)
	list := choice(a)
	seen := map[string]bool{}
	for n, l := range list.Lines {
		if l.Key == "" || seen[l.Key] {
			t.Errorf("drill %d has key %q", n+1, l.Key)
		}
		seen[l.Key] = true
		b := keyed(atFirst(t, true), "d")
		keyed(b, l.Key)
		if _, still := b.place.(*home.Drills); still && b.said.IsZero() {
			t.Errorf("key %s begins no drill and says nothing", l.Key)
		}
	}
	if len(list.Lines) < 13 {
		t.Errorf("%d drills are listed", len(list.Lines))
	}
}
