package hear_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"sparetone/synth/hear"
	"sparetone/theory/fret"
)

// played is an instrument as it is played for the study.
type played struct {
	name    string
	tuning  string
	program int
}

var instruments = []played{
	{"ukulele", "ukulele", nylon},
	{"low G", "ukulele-low-g", nylon},
	{"baritone", "baritone", nylon},
	{"steel guitar", "guitar", steel},
	{"nylon guitar", "guitar", nylon},
}

// trial is a shape that is expected, what is really played, and how.
type trial struct {
	tuning   *fret.Tuning
	expect   []int
	truth    []int // what each string sounds
	fault    string
	inTurn   bool
	begins   float64 // seconds into the sound of all trials
	cents    float64 // of the whole instrument
	off      float64 // cents that its strings lie above that on average, as they were drawn and recorded; 0 if that was not looked at
	notes    []sounded
	length   float64
	step     float64
	inARoom  bool
	strummed []int // by index, in the order in which strings are plucked
}

// pitchesOf returns what each string of a shape sounds.
func pitchesOf(t *fret.Tuning, s fret.Shape) []int {
	out := make([]int, len(s))
	for i, f := range s {
		out[i] = hear.Silent
		if f != fret.Muted {
			out[i] = t.MIDI(i, f)
		}
	}
	return out
}

// firstBook returns the shapes that players of a tuning meet first and those of plain chords that come after.
func firstBook(t *fret.Tuning) (all []fret.Shape) {
	for _, l := range fret.Lessons(t) {
		if l.First || len(l.Chord.Kind.Formula) <= 4 {
			all = append(all, l.Shapes[0])
		}
	}
	return all
}

// bookOf is firstBook; the ukulele with a low fourth string is fretted as the other.
func bookOf(t *testing.T, tuning *fret.Tuning) []fret.Shape {
	t.Helper()
	book := firstBook(tuning)
	if len(book) == 0 {
		book = firstBook(tuningCalled(t, "ukulele"))
	}
	return book
}

func tuningCalled(t testing.TB, name string) *fret.Tuning {
	t.Helper()
	tuning, err := fret.ParseTuning(name)
	if err != nil {
		t.Fatal(err)
	}
	return tuning
}

// newTrial draws a trial: one in three is played right, one has a string a semitone off, not sounding or with its finger lifted, and
// one in nine of the rest is a neighbour chord.
func newTrial(r *rand.Rand, tuning *fret.Tuning, book []fret.Shape, inTurn bool) trial {
	shape := book[r.IntN(len(book))]
	expect := pitchesOf(tuning, shape)
	tr := trial{tuning: tuning, expect: expect, truth: slices.Clone(expect), inTurn: inTurn, fault: "none"}
	if r.IntN(3) > 0 {
		i := r.IntN(len(shape))
		for expect[i] == hear.Silent {
			i = r.IntN(len(shape))
		}
		switch kind := r.IntN(4); {
		case kind == 0:
			tr.fault = "semitone"
			tr.truth[i]++
			if shape[i] > 1 && r.IntN(2) == 0 {
				tr.truth[i] -= 2
			}
		case kind == 1 || kind == 2 && shape[i] == 0:
			tr.fault = "silent"
			tr.truth[i] = hear.Silent
		case kind == 2:
			tr.fault = "open"
			tr.truth[i] = tuning.MIDI(i, 0)
		default:
			tr.fault = "chord"
			for slices.Equal(tr.truth, expect) {
				tr.truth = pitchesOf(tuning, book[r.IntN(len(book))])
			}
		}
	}
	tr.cents = 60*r.Float64() - 30
	tr.step = 0.010 + 0.030*r.Float64()
	if inTurn {
		tr.step = 0.180 + 0.170*r.Float64()
	}
	up := !inTurn && r.IntN(4) == 0
	lead := 0.4
	for n := range tr.truth {
		i := n
		if up {
			i = len(tr.truth) - 1 - n
		}
		if tr.truth[i] == hear.Silent {
			continue
		}
		tr.notes = append(tr.notes, sounded{
			at: lead + float64(n)*tr.step, length: 2.2, channel: i, midi: tr.truth[i], velocity: 60 + r.IntN(60),
			cents: tr.cents + 20*r.Float64() - 10,
		})
	}
	tr.length = lead + float64(len(tr.truth))*tr.step + 1.5
	for i := range tr.notes {
		tr.notes[i].length = tr.length - tr.notes[i].at - 0.1
	}
	tr.inARoom = r.IntN(2) == 0
	return tr
}

// trialsOn plays trials on an instrument of a font and returns the sound of each.
func trialsOn(t testing.TB, f font, on played, trials []trial) [][]float64 {
	t.Helper()
	var notes []sounded
	now := 0.0
	for i, tr := range trials {
		trials[i].begins = now
		for _, n := range tr.notes {
			n.at += now
			notes = append(notes, n)
		}
		now += tr.length + 1.6 // until even long releases have died away
	}
	all := f.renderAfter(t, on.program, notes, now+1)
	out := make([][]float64, len(trials))
	for i, tr := range trials {
		from := int(trials[i].begins * fontRate)
		out[i] = slices.Clone(all[from : from+int(tr.length*fontRate)])
	}
	return out
}

// task is what a trial's listener is told.
func (tr trial) task(among [][]int, expected bool) hear.Task {
	task := hear.Task{Among: among}
	if expected {
		task.Expect = tr.expect
	}
	for i := range tr.tuning.Strings {
		s := hear.String{Number: tr.tuning.StringNumber(i), Open: tr.tuning.MIDI(i, 0)}
		for f := 0; f <= min(tr.tuning.Frets, 15); f++ {
			s.May = append(s.May, tr.tuning.MIDI(i, f))
		}
		task.Strings = append(task.Strings, s)
		if tr.inTurn {
			task.Order = append(task.Order, s.Number)
		}
	}
	return task
}

// tells is what was counted of trials.
type tells struct {
	trials, missed, twice int
	strings, right        int // of strings, unisons aside, read as they were
	sure, sureRight       int
	said, saidRight       int       // verdicts other than unsure, and those that were so
	rights, alarms        int       // right shapes; those of them that were called other
	chords, chordsRight   int       // the likeliest reading is of the expected pitches or not, as the truth is
	apart, apartRight     int       // of these, where no string that is amiss is in unison with another in the shape
	cents, within         []float64 // off the whole instrument's; and off what its strings are on average
	margins               []margin
}

// margin is how sure a string was, and whether it was right.
type margin struct {
	sure  float64
	right bool
}

func percent(n, of int) float64 { return 100 * float64(n) / math.Max(1, float64(of)) }

// count counts what was heard of a trial.
func (c *tells) count(tr trial, heard []hear.Reading) {
	c.trials++
	right := slices.Equal(sounding(tr.truth), sounding(tr.expect))
	if right {
		c.rights++
	}
	if len(heard) > 1 {
		c.twice++
	}
	c.chords++
	apart := !tr.unisonAmiss()
	if apart {
		c.apart++
	}
	if len(heard) == 0 {
		c.missed++
		c.strings += len(tr.truth)
		return
	}
	best := heard[0]
	c.cents = append(c.cents, math.Abs(best.Cents-tr.cents))
	c.within = append(c.within, math.Abs(best.Cents-tr.cents-tr.off))
	pitches := make([]int, len(tr.truth))
	for i, h := range best.Strings {
		pitches[i] = h.Pitch
		aside := false
		for k := range tr.truth {
			if k != i && !tr.inTurn && (tr.truth[k] == tr.expect[i] || tr.truth[k] == tr.truth[i]) && tr.truth[k] != hear.Silent {
				aside = true // another string sounds the same
			}
		}
		if aside {
			continue
		}
		c.strings++
		if h.Pitch == tr.truth[i] {
			c.right++
		}
		c.margins = append(c.margins, margin{h.Sure, h.Pitch == tr.truth[i]})
		if h.Certain() && best.AboveNoise >= hear.Quiet {
			c.sure++
			if h.Pitch == tr.truth[i] {
				c.sureRight++
			}
		}
	}
	if slices.Equal(sounding(pitches), sounding(tr.expect)) == right {
		c.chordsRight++
		if apart {
			c.apartRight++
		}
	}
	if best.Verdict != hear.Unsure {
		c.said++
		if (best.Verdict == hear.Right) == right {
			c.saidRight++
		}
	}
	if right && best.Verdict == hear.Other {
		c.alarms++
	}
}

// unisonAmiss reports whether a string that does not sound what it should is in unison with another in the shape.
func (tr trial) unisonAmiss() bool {
	for i, p := range tr.expect {
		if p == tr.truth[i] || p == hear.Silent {
			continue
		}
		for k, o := range tr.expect {
			if k != i && o == p {
				return true
			}
		}
	}
	return false
}

// sounding returns the different pitches that sound, rising: what is heard if unisons are not told apart.
func sounding(pitches []int) []int {
	out := slices.DeleteFunc(slices.Clone(pitches), func(p int) bool { return p == hear.Silent })
	slices.Sort(out)
	return slices.Compact(out)
}
