package tui

import (
	"sparetone/tui/draw"
	"sparetone/tui/page/trying"

	"strings"
	"testing"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"
)

// On the bench a chord can just be typed: its capital opens the line.
func TestBenchTakesAChord(t *testing.T) {
	a := sized(keyed(atFirst(t, true), "v", "C", "a", "d", "d", "9"), 80, 24)
	w := a.place.(*trying.Bench)
	if got := a.field.Value(); got != "Cadd9" || !a.typing {
		t.Fatalf("%q is typed", got)
	}
	if keyed(a, "enter"); a.typing || w.Grip.Chord.Symbol() != "Cadd9" {
		t.Errorf("the bench holds %s, %s", w.Hand.Shape, w.Grip.Chord)
	}
	// Small letters and digits are keys as before.
	keyed(a, "0", "0", "0", "3")
	if a.typing || w.Hand.Shape.String() != "0003" {
		t.Errorf("the bench holds %s", w.Hand.Shape)
	}
	// Completion fills the line in, and t opens it empty.
	keyed(a, "t")
	if a.field.Value() != "" {
		t.Errorf("%q is typed", a.field.Value())
	}
	keyed(a, "F", "s", "down", "tab", "enter")
	if got := w.Grip.Chord.Symbol(); got != "Fsus2" {
		t.Errorf("the second way to go on from Fs is %s", got)
	}
}

// What makes no sense is said under the line, and the line stays to be mended.
func TestBenchSaysWhatIsWrong(t *testing.T) {
	a := sized(keyed(atFirst(t, true), "v", "D", "f", "o", "o", "enter"), 60, 20)
	w := a.place.(*trying.Bench)
	if text := plainText(drawn(a)); !strings.Contains(text, "character 2") || !a.typing {
		t.Errorf("what is wrong is not said in\n%s", text)
	}
	keyed(a, "backspace", "backspace", "backspace", "7", "enter")
	if a.typing || w.Grip.Chord.Symbol() != "D7" {
		t.Errorf("the bench holds %s", w.Grip.Chord)
	}
	keyed(a, "D", "?")
	if !a.help || a.field.Value() != "D" {
		t.Errorf("a question mark leaves %q typed", a.field.Value())
	}
}

// A swap is seen before it is taken, and can be taken back.
func TestBenchSwaps(t *testing.T) {
	a := sized(keyed(atFirst(t, true), "v", "tab", "tab"), 80, 24)
	w := a.place.(*trying.Bench)
	row := ""
	for _, l := range strings.Split(plainText(drawn(a)), "\n") {
		if strings.Contains(l, "○") && strings.Contains(l, "│") {
			row = l
		}
	}
	if before, _, found := strings.Cut(row, "○"); !found || strings.Count(before, "│") != 3 {
		t.Errorf("C7 on string 1 is drawn as %q", row)
	}
	if keyed(a, "enter"); w.Hand.Shape.String() != "0001" {
		t.Errorf("C7 is held as %s", w.Hand.Shape)
	}
	if keyed(a, "backspace"); w.Hand.Shape.String() != "0003" || w.Grip.Before != nil {
		t.Errorf("taken back, it is %s", w.Hand.Shape)
	}
}

// A click on the neck or on a swap is taken though a line is open.
func TestBenchClickedWhileTyping(t *testing.T) {
	a := sized(keyed(atFirst(t, true), "v", "D"), 80, 24)
	w := a.place.(*trying.Bench)
	click(t, a, "Csus4")
	if a.typing || w.Swap < 0 || w.Grip.Swaps[w.Swap].Chord.Symbol() != "Csus4" {
		t.Errorf("swap %d is looked at", w.Swap)
	}
}

// megabyte is a paste of more than a megabyte, much of which does not print.
var megabyte = tea.PasteMsg{Content: strings.Repeat("C7\x1b[2J\x00\u202e\n世", 1<<17)}

func BenchmarkPaste(b *testing.B) {
	for b.Loop() {
		f := newField(func(string) []string { return nil })
		f.update(megabyte)
	}
}

// The line takes a paste of a megabyte and keeps the beginning, without what does not print; wide
// characters and a narrow window leave the cursor where the next letter goes.
func TestField(t *testing.T) {
	none := func(string) []string { return nil }
	f := newField(none)
	f.update(megabyte)
	if got := []rune(f.Value()); len(got) != longestAnswer || string(got[:12]) != "C7[2J 世C7[2J" {
		t.Errorf("%d characters, %q", len(got), string(got))
	}
	a := atFirst(t, true)
	for _, row := range []struct {
		text      string
		left      int // times the arrow
		col, want int // of the cursor
	}{
		{"Cadd9", 0, 40, 9}, {"Cadd9", 2, 40, 7}, {"世界", 0, 40, 8}, {"世界", 1, 40, 6},
		{strings.Repeat("x", 50), 0, 20, 19}, {strings.Repeat("x", 50), 50, 20, 4},
	} {
		f := newField(none)
		f.update(tea.PasteMsg{Content: row.text})
		for range row.left {
			f.update(pressed("left"))
		}
		b := newBody(a.sight, row.col+4, 10, draw.Usual)
		f.view(b, "Say ")
		if b.cursor == nil || b.cursor.X != row.want {
			t.Errorf("%q: the cursor is at %v, want %d", row.text, b.cursor, row.want)
		}
		if w := ansi.StringWidth(b.lines[0]); w > row.col {
			t.Errorf("%q is %d wide", row.text, w)
		}
	}
}

// On a narrow screen no word of what a swap trades is cut, not beside the neck of a guitar either.
func TestBenchCutsNoWord(t *testing.T) {
	a := atFirst(t, true)
	if err := a.Set("tuning", "guitar"); err != nil {
		t.Fatal(err)
	}
	a = sized(keyed(keyed(a, "v", "t"), strings.Split("Fm7", "")...), 60, 40)
	a = keyed(a, "enter")
	a.draw()
	if text := plainText(strings.Join(a.shown.lines, "\n")); !strings.Contains(text, "doubled") || strings.Contains(text, "doub\n") {
		t.Errorf("%s", text)
	}
}
