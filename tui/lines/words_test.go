package lines

import (
	"cmp"
	"context"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/practice"
	"sparetone/drills/practice/session"
	"sparetone/progress"
	"sparetone/theory/say"
	"sparetone/tui/page/asking"
	"sparetone/tui/page/home"
	"sparetone/tui/page/player"
)

// answering practises a drill in lines: some questions, each answered as it should be or as it should not.
type answering struct {
	*reader
	out *strings.Builder
}

func newAnswering(t *testing.T, drill, tuning string, seed uint64) *answering {
	t.Helper()
	p := player.Practising(t, drill, tuning, seed, time.Now)
	for _, term := range termIDs(t) { // words of the trade are explained once each, on top
		if err := p.Open(term); err != nil {
			t.Fatal(err)
		}
	}
	if err := p.Plan(false); err != nil {
		t.Fatal(err)
	}
	out := &strings.Builder{}
	a := &answering{&reader{Walk: home.NewWalk(p), ctx: context.Background(), out: out, lines: make(chan string)}, out}
	a.BeginAtOnce, a.Cautioned, a.Spoken = true, true, true
	a.apply(home.Start(a.Walk))
	return a
}

// termIDs are the ids of all words of the trade.
func termIDs(t *testing.T) (ids []string) {
	table, err := os.ReadFile(filepath.Join("..", "..", "drills", "meet", "terms.toml"))
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range regexp.MustCompile(`(?m)^id = "(.*)"`).FindAllSubmatch(table, -1) {
		ids = append(ids, string(id[1]))
	}
	return ids
}

// types types a line and returns what is said to it.
func (a *answering) types(line string) string {
	before := a.out.Len()
	a.apply(a.take(line))
	return a.out.String()[before:]
}

// amiss are wrong answers of those forms that have no choices.
var amiss = map[drills.Form]string{drills.Tones: "R", drills.Frets: "0", drills.Notes: "C D E"}

// answer answers the question that is asked, and returns its verdict and what is said.
func (a *answering) answer(t *testing.T, right bool) (r *asking.Reveal, said string) {
	t.Helper()
	q := a.place.(*asking.Question).Asked
	typed := q.Expected().Typed
	if !right {
		i := slices.IndexFunc(q.Choices, func(c drills.Choice) bool { return c.ID != q.Expected().ID })
		switch {
		case i >= 0:
			typed = q.Choices[i].Typed
		case q.Form == drills.Notes:
			typed = amiss[q.Form]
		case q.Form == drills.Tones:
			typed = strings.Repeat(amiss[q.Form]+" ", len(q.Shown.Pitches()))
		default:
			typed = strings.Repeat(amiss[q.Form]+" ", len(a.Session.On().Tuning.Strings))
		}
	}
	said = a.types(typed)
	r, ok := a.place.(*asking.Reveal)
	if !ok {
		t.Fatalf("%s: %q leads to %T: %s", q.Text(), typed, a.place, said)
	}
	return r, said
}

// How many words an answer takes in lines, over all drills, from the answer to the next question: a right one and a wrong one. What
// there is more to say waits behind "why".
const (
	mostAfterRight = 35
	mostAfterWrong = 60
)

func TestWordsOfAnAnswer(t *testing.T) {
	answers, tunings := 4, []string{"ukulele"}
	if os.Getenv("SPARETONE_STUDY") != "" {
		answers, tunings = 200, []string{"ukulele", "guitar"}
	}
	for _, tuning := range tunings {
		sums, counts, whole := [2]int{}, [2]int{}, [2]int{}
		byDrill := map[string][2]float64{}
		for n, id := range catalogue.IDs() {
			var sum, count [2]int
			a := newAnswering(t, id, tuning, uint64(n+1))
			for i := range answers {
				r, said := a.answer(t, i%2 == 0)
				words := len(strings.Fields(said))
				of := 0
				if r.Verdict.Result != progress.Right {
					of = 1
				}
				sum[of], count[of] = sum[of]+words, count[of]+1
				sums[of], counts[of] = sums[of]+words, counts[of]+1
				for _, line := range saidBefore(r) {
					whole[of] += line.Words()
				}
				a.types("")
			}
			byDrill[id] = [2]float64{float64(sum[0]) / float64(max(1, count[0])), float64(sum[1]) / float64(max(1, count[1]))}
		}
		mean := func(of int) float64 { return float64(sums[of]) / float64(counts[of]) }
		t.Logf("%s: %.1f words after %d right answers, %.1f after %d wrong ones; the whole explanation would be %.1f and %.1f", tuning,
			mean(0), counts[0], mean(1), counts[1], float64(whole[0])/float64(counts[0]), float64(whole[1])/float64(counts[1]))
		for _, id := range slices.SortedFunc(maps.Keys(byDrill), cmp.Compare[string]) {
			t.Logf("%s: %.1f, %.1f", id, byDrill[id][0], byDrill[id][1])
			if by := byDrill[id]; os.Getenv("SPARETONE_STUDY") != "" && (by[0] > mostAfterRight || by[1] > mostAfterWrong) {
				t.Errorf("%s, %s: %.1f words after a right answer, %.1f after a wrong one; at most %d and %d", tuning, id, by[0], by[1], mostAfterRight, mostAfterWrong)
			}
		}
		if mean(0) > mostAfterRight || mean(1) > mostAfterWrong {
			t.Errorf("%s: %.1f words after a right answer, %.1f after a wrong one; at most %d and %d", tuning, mean(0), mean(1), mostAfterRight, mostAfterWrong)
		}
	}
}

// saidBefore is what an answer was told with before there was a "why": what came of it, each shape of what was asked string by string,
// the whole explanation, and when it needs practice again.
func saidBefore(r *asking.Reveal) []say.Text {
	v := r.Verdict
	_, came := practice.Outcome(r.Asked.Form, v)
	out := []say.Text{came}
	for _, s := range v.AskedShapes() {
		out = append(out, say.Sentence("{}:", s.Caption))
		for _, tone := range s.Voicing.Strings {
			called := say.String{On: s.Voicing.Tuning, Number: tone.Number}
			is := say.Of("{}", say.Note(tone.Pitch.Note))
			if s.Voicing.Chord.Kind != nil { // two notes have no root
				is = say.Of("{}, {}", say.Note(tone.Pitch.Note), say.Role(tone.Interval))
			}
			switch {
			case tone.Fret < 0:
				out = append(out, say.Of("{} string, not played", called))
			case tone.Fret == 0:
				out = append(out, say.Of("{} string, open, {}", called, is))
			default:
				out = append(out, say.Of("{} string, fret {}, {}", called, say.Number(tone.Fret), is))
			}
		}
	}
	return append(append(out, v.Lines...), practice.NeededAgain(v), session.WhyText(r.Asked))
}

// Nothing is lost: whatever was said of an answer is said at once or behind "why".
func TestNothingIsLostBehindWhy(t *testing.T) {
	for n, id := range catalogue.IDs() {
		a := newAnswering(t, id, "ukulele", uint64(n+1))
		for i := range 6 {
			r, said := a.answer(t, i%3 == 0)
			said += a.types("why")
			for _, line := range saidBefore(r) {
				if !strings.Contains(said, line.Aloud()) {
					t.Errorf("%s: %q is not said in\n%s", id, line.Aloud(), said)
				}
			}
			a.types("")
		}
	}
}

// An answer is one line. From its reveal an empty line goes on; where the student wishes a right one goes on by itself.
func TestLinesAQuestion(t *testing.T) {
	for n, id := range catalogue.IDs() {
		for _, onward := range []bool{true, false} {
			a := newAnswering(t, id, "ukulele", uint64(n+1))
			a.Settings.Onward = onward
			for i := range 4 {
				right := i%2 == 0
				number := a.place.(*asking.Question).Asked.Number
				r, _ := a.answer(t, right)
				if by := a.onward != nil; by != (onward && right) {
					t.Errorf("%s, wished %v, right %v: it goes on by itself: %v", id, onward, right, by)
				}
				a.types("")
				if q, ok := a.place.(*asking.Question); !ok || q.Asked.Number != number+1 {
					t.Fatalf("%s: from the reveal of %s it goes on to %T", id, r.Asked.Text(), a.place)
				}
			}
		}
	}
}
