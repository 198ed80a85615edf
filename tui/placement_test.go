package tui

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/drills/practice"
	"sparetone/drills/practice/setting"
	"sparetone/tui/lines"
	"sparetone/tui/page/asking"
	"sparetone/tui/page/home"
)

// What was found is marked, and enter takes it: the course then begins there. It is not practice: nothing is
// recorded.
func TestFirstRunFindsOut(t *testing.T) {
	a, c := placing(t)
	placedBy(a, c, func(int) bool { return true })
	w, ok := a.place.(*home.Welcome)
	if !ok {
		t.Fatalf("finding out leads to %T", a.place)
	}
	found := w.Found.Found()
	if len(found.Eye.Known) < 20 || found.Ear.Answered {
		t.Fatalf("%d steps known by eye; anything asked by ear: %v", len(found.Eye.Known), found.Ear.Answered)
	}
	text := plainText(drawn(a))
	for _, want := range []string{"By eye you know", "By ear nothing was asked", found.Eye.From.Name()} {
		if !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
			t.Errorf("%q is not on\n%s", want, text)
		}
	}
	keyed(a, "enter", "enter")
	if _, ok := a.place.(*home.Today); !ok {
		t.Fatalf("two enters later there is %T", a.place)
	}
	if got := setting.Read(a.File()).Level; got != found.Level() || got.Eye == "" {
		t.Errorf("kept is %v, found was %v", got, found.Level())
	}
	if health, err := a.File().Check(); err != nil || health.Answers != 0 {
		t.Errorf("%d answers are recorded, %v", health.Answers, err)
	}
	keyed(a, "enter")
	q, ok := a.place.(*asking.Question)
	if !ok {
		t.Fatalf("practice begins with %T", a.place)
	}
	known := false
	for _, s := range found.Eye.Known {
		drill, target, _ := drills.SplitItem(q.Asked.Item)
		for _, asks := range s.Asks {
			known = known || s.Drill == drill && asks == target
		}
	}
	if known {
		t.Errorf("%s is asked first, and is known", q.Asked.Item)
	}
}

// Enter alone says that nothing is known, and begins at the beginning.
func TestEnterAloneBeginsAtTheBeginning(t *testing.T) {
	a, _ := placing(t)
	for n := 0; ; n++ {
		if _, ok := a.place.(*home.Today); ok {
			break
		}
		if n > 20 {
			t.Fatal("enter does not lead to an end")
		}
		keyed(a, "enter")
	}
	if got := a.Settings.Level; got != (course.Level{}) {
		t.Errorf("the course begins at %v", got)
	}
}

// One may go back in the middle, and choose otherwise at the end.
func TestFindingOutCanBeLeft(t *testing.T) {
	a, c := placing(t)
	q := a.place.(*home.Placement).Asked
	right := slices.IndexFunc(q.Choices, func(c drills.Choice) bool { return c.ID == q.Expected().ID })
	keyed(a, strconv.Itoa(right+1), "esc")
	if w, ok := a.place.(*home.Welcome); !ok || w.Step != practice.StepLevel || w.Found != nil {
		t.Fatalf("back leads to %T", a.place)
	}
	keyed(a, "5", "enter")
	placedBy(a, c, func(int) bool { return true })
	keyed(a, "3", "enter")
	if got := a.Settings.Level.ID(); got != setting.ByID("level").Choices()[1] {
		t.Errorf("the third line, under what was found, is %q", got)
	}
}

// The same in lines: "I don't know" is an empty line, and what was found is taken by one.
func TestPlainFindsOut(t *testing.T) {
	for _, c := range []struct {
		name, answer string
		want         string
	}{
		{"nothing known", "", "Set to from the beginning."},
		{"always the first", "1", "Set to "},
	} {
		p, _ := practiceOf(t, true)
		p.New = true
		in, typed := io.Pipe()
		out := &heardLines{}
		ended := make(chan error, 1)
		go func() { ended <- inMemory(lines.Run(context.Background(), p, in, out)) }()
		for range 3 {
			fmt.Fprintln(typed)
		}
		out.await(t, "5: find out in two minutes", 1)
		fmt.Fprintln(typed, "5")
		for n := 1; ; n++ {
			out.await(t, fmt.Sprintf("Finding out, question %d\\.|This is an estimate", n), 1)
			if strings.Contains(out.String(), "This is an estimate") {
				break
			}
			fmt.Fprintln(typed, c.answer)
			time.Sleep(time.Millisecond)
		}
		out.await(t, "An empty line takes", 4)
		fmt.Fprintln(typed)
		out.await(t, "Before you begin", 1)
		fmt.Fprintln(typed, "leave")
		if err := <-ended; err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(out.String(), c.want) {
			t.Errorf("%s: %q was not read in\n%s", c.name, c.want, out.String())
		}
		t.Log(out.String())
	}
}
