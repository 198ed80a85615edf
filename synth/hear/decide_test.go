package hear

import (
	"math"
	"testing"
)

// ukulele is the strings of a ukulele to fret 12.
func ukulele(order ...int) Task {
	task := Task{Order: order}
	for i, open := range []int{67, 60, 64, 69} {
		s := String{Number: 4 - i, Open: open}
		for p := open; p <= open+12; p++ {
			s.May = append(s.May, p)
		}
		task.Strings = append(task.Strings, s)
	}
	return task
}

// odds gives every pitch odds of e^-8 but for some.
func odds(task Task, some map[int]float64) map[int]float64 {
	out := map[int]float64{}
	for _, p := range task.pitches() {
		out[p] = -8
	}
	for p, o := range some {
		out[p] = o
	}
	return out
}

// likeliest returns what a string most likely sounds, and how likely that is.
func (t *tally) likeliest(i int) (pitch int, sure float64) {
	for p, v := range t.strings[i] {
		if v/t.all > sure {
			pitch, sure = p, v/t.all
		}
	}
	return pitch, sure
}

// C is expected on the ukulele: G4 C4 E4 C5.
func TestStruckIsWeighed(t *testing.T) {
	for _, c := range []struct {
		name  string
		sound map[int]float64
		want  [4]int
		sure  [4]bool
	}{
		{"as expected", map[int]float64{67: 6, 60: 6, 64: 6, 72: 6}, [4]int{67, 60, 64, 72}, [4]bool{true, true, true, true}},
		{"string 1 a semitone low", map[int]float64{67: 6, 60: 6, 64: 6, 71: 6}, [4]int{67, 60, 64, 71}, [4]bool{true, true, true, true}},
		{"string 1 with its finger lifted", map[int]float64{67: 6, 60: 6, 64: 6, 69: 6}, [4]int{67, 60, 64, 69}, [4]bool{true, true, true, true}},
		{"string 2 silent", map[int]float64{67: 6, 60: 6, 72: 6}, [4]int{67, 60, Silent, 72}, [4]bool{true, true, true, true}},
		{"string 2 hardly heard", map[int]float64{67: 6, 60: 6, 64: -2, 72: 6}, [4]int{67, 60, 64, 72}, [4]bool{true, true, false, true}},
		{"a little doubt about string 1 is no fault", map[int]float64{67: 6, 60: 6, 64: 6, 72: 1, 71: 2}, [4]int{67, 60, 64, 72}, [4]bool{true, true, true, true}},
	} {
		task := ukulele()
		task.Expect = []int{67, 60, 64, 72}
		got := struck(task, odds(task, c.sound))
		for i, want := range c.want {
			if pitch, sure := got.likeliest(i); pitch != want || (sure >= Certain) != c.sure[i] {
				t.Errorf("%s: string %d is read as %d, %.3f; want %d", c.name, 4-i, pitch, sure, want)
			}
		}
	}
}

// Of G as 0232 strings 4 and 2 sound the same: that one is silent is not heard, and never sure.
func TestUnisonIsNotTold(t *testing.T) {
	task := ukulele()
	task.Expect = []int{67, 62, 67, 71}
	got := struck(task, odds(task, map[int]float64{67: 8, 62: 8, 71: 8}))
	for _, i := range []int{0, 2} {
		if pitch, sure := got.likeliest(i); pitch != 67 || sure < 0.8 || sure > 0.97 {
			t.Errorf("string %d is read as %d, %.3f", 4-i, pitch, sure)
		}
	}
	if note := got.notes[67] / got.all; note < 0.999 {
		t.Errorf("that the pitch sounds is %.4f likely", note)
	}
}

// Another chord as a whole is likelier than four faults.
func TestAnotherChordIsFound(t *testing.T) {
	task := ukulele()
	task.Expect, task.Among = []int{67, 60, 64, 72}, [][]int{{69, 62, 65, 69}, {67, 60, 65, 69}} // C; Dm, and none
	got := struck(task, odds(task, map[int]float64{69: 6, 62: 6, 65: 6}))
	for i, want := range task.Among[0] {
		if pitch, _ := got.likeliest(i); pitch != want {
			t.Errorf("string %d is read as %d, want %d", 4-i, pitch, want)
		}
	}
	if got.among[0] < got.among[1] || !math.IsInf(struck(Task{Strings: task.Strings, Expect: task.Expect, Among: [][]int{task.Expect}}, odds(task, nil)).among[0], -1) {
		t.Errorf("of the others: %v", got.among)
	}
}

// Plucks are laid to strings in order: what is none is passed over, and a string that was not plucked is silent.
func TestInTurnIsWeighed(t *testing.T) {
	for _, c := range []struct {
		name   string
		plucks []map[int]float64
		want   [4]int
	}{
		{"each once", []map[int]float64{{67: 6}, {60: 6}, {64: 6}, {72: 6}}, [4]int{67, 60, 64, 72}},
		{"a finger on the body", []map[int]float64{{67: 6}, {}, {60: 6}, {64: 6}, {}, {72: 6}}, [4]int{67, 60, 64, 72}},
		{"string 3 is not plucked", []map[int]float64{{67: 6}, {64: 6}, {72: 6}}, [4]int{67, Silent, 64, 72}},
		{"string 2 a tone high", []map[int]float64{{67: 6}, {60: 6}, {66: 6}, {72: 6}}, [4]int{67, 60, 66, 72}},
		{"string 1 open", []map[int]float64{{67: 6}, {60: 6}, {64: 6}, {69: 6}}, [4]int{67, 60, 64, 69}},
		{"strings 4 and 1 alone", []map[int]float64{{67: 6}, {72: 6}}, [4]int{67, Silent, Silent, 72}},
	} {
		task := ukulele(4, 3, 2, 1)
		task.Expect = []int{67, 60, 64, 72}
		var plucks []map[int]float64
		for _, p := range c.plucks {
			plucks = append(plucks, odds(task, p))
		}
		got := inTurn(task, plucks)
		for i, want := range c.want {
			pitch, sure := got.likeliest(i)
			if pitch != want || sure < Certain {
				t.Errorf("%s: string %d is read as %d, %.3f; want %d", c.name, 4-i, pitch, sure, want)
			}
			var sum float64
			for _, v := range got.strings[i] {
				sum += v
			}
			if math.Abs(sum/got.all-1) > 1e-9 {
				t.Errorf("%s: of string %d all together is %v likely", c.name, 4-i, sum/got.all)
			}
		}
	}
}

// Of two strings in unison that are plucked in turn it is told which is silent.
func TestUnisonIsToldInTurn(t *testing.T) {
	task := ukulele(4, 3, 2, 1)
	task.Expect = []int{67, 62, 67, 71}
	got := inTurn(task, []map[int]float64{odds(task, map[int]float64{67: 6}), odds(task, map[int]float64{62: 6}), odds(task, map[int]float64{71: 6})})
	if pitch, sure := got.likeliest(2); pitch != Silent || sure < Certain {
		t.Errorf("string 2 is read as %d, %.3f", pitch, sure)
	}
}

func TestTaskIsChecked(t *testing.T) {
	expecting := func(change func(*Task)) Task {
		task := ukulele(4, 3, 2, 1)
		task.Expect = []int{67, 60, 64, 72}
		change(&task)
		return task
	}
	for want, task := range map[string]Task{
		"": expecting(func(*Task) {}),
		"0 strings to listen for: it must be 1 to 12":                                     {},
		"string 4 is there twice":                                                         expecting(func(t *Task) { t.Strings[1].Number = 4 }),
		"string 4 may not sound open, at 66: it must be among what it may sound":          expecting(func(t *Task) { t.Strings[0].Open = 66 }),
		"string 4 at MIDI number 200: it must be 24 to 108":                               expecting(func(t *Task) { t.Strings[0].May = []int{67, 200} }),
		"nothing to listen for: give what is expected, or among what it is":               expecting(func(t *Task) { t.Expect = nil }),
		"3 pitches for 4 strings: there must be one for each":                             expecting(func(t *Task) { t.Expect = t.Expect[:3] }),
		"string 3 at MIDI number 59: that is none of the pitches that it may sound":       expecting(func(t *Task) { t.Among = [][]int{{67, 59, 64, 69}} }),
		"nothing would sound: one string must":                                            expecting(func(t *Task) { t.Expect = []int{Silent, Silent, Silent, Silent} }),
		"string 5 in the order: each must be one that is listened for, and be there once": expecting(func(t *Task) { t.Order[0] = 5 }),
		"string 3 in the order: each must be one that is listened for, and be there once": expecting(func(t *Task) { t.Order[0] = 3 }),
		"an order of 3 strings: it must have all 4 that are listened for":                 expecting(func(t *Task) { t.Order = t.Order[:3] }),
		"A4 at 44 Hz: it must be 380 to 500 Hz":                                           expecting(func(t *Task) { t.A4 = 44 }),
	} {
		if _, err := Listen(48000, task); (err == nil) != (want == "") || err != nil && err.Error() != want {
			t.Errorf("%v, want %s", err, want)
		}
	}
	if _, err := Listen(100, ukulele()); err == nil {
		t.Error("100 samples a second are taken")
	}
}
