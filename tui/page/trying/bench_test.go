package trying

import (
	"slices"
	"testing"

	"sparetone/tui/page"
	"sparetone/tui/page/player"
)

// atBench is somebody at the bench with C on a ukulele.
func atBench(t *testing.T) (*player.Player, *Bench) {
	t.Helper()
	p := player.New(t, "build", "ukulele", 1)
	next := Open(p.Walk, func() page.Place { return nil })
	bench, is := next.To.(*Bench)
	if !is || bench.Grip.Chord.Symbol() != "C" {
		t.Fatalf("%+v opens %v", next, bench)
	}
	p.At = bench
	return p, bench
}

// held is what the bench holds: the frets, the same on the hand, the chord, and whether there is a swap to take back.
type held struct {
	frets, chord string
	back         bool
}

func holds(t *testing.T, b *Bench) held {
	t.Helper()
	if !slices.Equal(b.Hand.Shape, b.Grip.Shape) {
		t.Errorf("the hand is on %s and the grip on %s", b.Hand.Shape, b.Grip.Shape)
	}
	return held{b.Grip.Shape.String(), b.Grip.Chord.Symbol(), b.Grip.Before != nil}
}

// A chord, frets and the number of a swap are taken, each with as many sounds as there are to hear. What is wrong changes nothing.
func TestTheBenchTakesWhatIsTyped(t *testing.T) {
	p, b := atBench(t)
	for _, row := range []struct {
		typed  string
		want   held
		sounds int
		says   string
	}{
		{"0232", held{"0232", "G", false}, 1, ""},
		{"Am", held{"2000", "Am", false}, 1, ""},
		{"0", held{"2000", "Am", false}, 0, saySwaps(len(b.Grip.Swaps)).Screen()},
		{"C", held{"0003", "C", false}, 1, ""},
		{"2", held{"0001", "C7", true}, 2, ""}, // the plain chord before it
		{"99", held{"0001", "C7", true}, 0, ""},
		{"Cfoo", held{"0001", "C7", true}, 0, ""},
		{"0009x", held{"0001", "C7", true}, 0, ""},
	} {
		next := p.PageOf(b).Take(row.typed)
		if got := holds(t, b); got != row.want || len(next.Sounds) != row.sounds {
			t.Errorf("%s: %+v with %d sounds, want %+v with %d", row.typed, got, len(next.Sounds), row.want, row.sounds)
		}
		if wrong := row.sounds == 0; next.Wrong != wrong || next.Said.IsZero() == wrong || !wrong && next.Voice == nil {
			t.Errorf("%s: wrong %v, says %q", row.typed, next.Wrong, next.Said.Screen())
		}
	}
	if says := p.PageOf(b).Take("99").Said.Screen(); says != saySwaps(len(b.Grip.Swaps)).Screen() {
		t.Errorf("a swap that is not there: %q", says)
	}
}

// Swaps are looked at in turn, round to the first, and heard after the plain shape. The one that is looked at is taken, and can be taken back.
func TestSwapsAreLookedAtAndTaken(t *testing.T) {
	p, b := atBench(t)
	plain := holds(t, b)
	all := len(b.Grip.Swaps)
	for n := range all + 1 {
		p.Does(t, "next")
		if want := n % all; b.Swap != want {
			t.Fatalf("after %d steps swap %d is looked at, want %d", n+1, b.Swap, want)
		}
		if got := holds(t, b); got != plain {
			t.Fatalf("to look at swap %d changes the grip to %+v", b.Swap, got)
		}
	}
	if next := b.look(0); len(next.Sounds) != 2 || next.Voice == nil {
		t.Errorf("a swap has %d sounds, want the plain shape and it; voice %v", len(next.Sounds), next.Voice)
	}
	p.Does(t, "next")
	swap := b.Grip.Swaps[b.Swap]
	p.Does(t, "take")
	if got := holds(t, b); got != (held{swap.To.String(), swap.Chord.Symbol(), true}) || b.Swap != -1 || b.Hand.At != len(swap.To)-swap.String {
		t.Errorf("it is taken as %+v, swap %d looked at, the finger on string %d; want %s, none, string %d", got, b.Swap, len(swap.To)-b.Hand.At, swap.To, swap.String)
	}
	p.Does(t, "undo")
	if got := holds(t, b); got != plain {
		t.Errorf("taken back it is %+v, want %+v", got, plain)
	}
	for _, id := range []string{"undo", "take"} {
		if hasAct(p, b, id) {
			t.Errorf("there is nothing to %s, and it can be done", id)
		}
	}
}

// A finger that is set is heard on its string, and the grip follows it.
func TestTheGripFollowsTheHand(t *testing.T) {
	_, b := atBench(t)
	b.look(1)
	b.Hand.At = 3
	next := b.Hand.Put(2)
	if got := holds(t, b); got.frets != "0002" || got.chord != "Cmaj7" || b.Swap != -1 || len(next.Sounds) != 1 || next.Voice == nil {
		t.Errorf("%+v with %d sounds, swap %d looked at", got, len(next.Sounds), b.Swap)
	}
}

// In lines it is said once what may be typed, until something was.
func TestTheBenchAsksOnce(t *testing.T) {
	p, b := atBench(t)
	if p.PageOf(b).Ask != leadBench {
		t.Errorf("it asks %q", p.PageOf(b).Ask)
	}
	p.PageOf(b).Take("Am")
	if now := p.PageOf(b); now.Ask != "" || now.HelpBegins != leadBench {
		t.Errorf("it asks %q again, and the help begins %q", now.Ask, now.HelpBegins)
	}
}

// hasAct reports whether something can be done at the bench.
func hasAct(p *player.Player, b *Bench, id string) bool {
	return slices.ContainsFunc(p.PageOf(b).Acts, func(a page.Act) bool { return a.ID == id })
}
