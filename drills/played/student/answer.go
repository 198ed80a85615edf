package student

import (
	"slices"

	"sparetone/drills"
	"sparetone/progress"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// Answer is what a student plays for a question.
type Answer struct {
	Right bool
	Typed string                      // the same as it would be typed, where that is a shape; else empty
	Plays func(order []int) []float64 // what is heard of it: of a shape in one stroke, or with an order string after string
}

// Answers makes up an answer to a question: a right one, or one with a fault.
func (s *Student) Answers(q *drills.Question, fault bool) Answer {
	a := Answer{Right: !fault}
	switch q.Form {
	case drills.Frets:
		shape, err := fret.ParseShape(q.Expected().Typed)
		if err != nil {
			panic("student: " + err.Error())
		}
		if fault {
			shape = s.faulty(q, shape)
		}
		a.Typed = shape.String()
		a.Plays = func(order []int) []float64 {
			if order == nil {
				return s.Strum(shape)
			}
			return s.Turn(shape, order)
		}
	case drills.Tones:
		a.Plays = func([]int) []float64 { return s.tones(*q.Shown, fault) }
	case drills.Notes:
		midis := []int{}
		for _, n := range q.Answer.Tones() {
			midis = append(midis, s.lowest()+((n.Class()-s.lowest())%12+12)%12)
		}
		a.Plays = s.withLast(midis, fault)
	case drills.Choose:
		if q.Drill != "spell" {
			midis := []int{}
			for _, n := range q.Sounds[0].Plucked() {
				midis = append(midis, n.Pitch.MIDI())
			}
			a.Plays = s.withLast(midis, fault)
			break
		}
		// By ear: the root, then the note, or with a fault another tone.
		root, note := q.Sounds[0].Plucked()[0].Pitch.MIDI(), q.Sounds[1].Plucked()[0].Pitch.MIDI()
		for _, n := range q.Sounds[0].Plucked() {
			root = min(root, n.Pitch.MIDI())
		}
		if fault {
			note = root + 7
			if result, err := q.Result("fifth"); err == nil && result == progress.Right {
				note = root + 12
			}
		}
		a.Plays = func([]int) []float64 { return s.Notes(root, note) }
	}
	return a
}

// withLast plucks notes, the last a semitone off where there is a fault.
func (s *Student) withLast(midis []int, fault bool) func([]int) []float64 {
	if last := &midis[len(midis)-1]; fault {
		*last++
		if slices.Contains(midis[:len(midis)-1], *last) {
			*last++
		}
	}
	return func([]int) []float64 { return s.Notes(midis...) }
}

// lowest is the lowest open string.
func (s *Student) lowest() int {
	low := s.on.MIDI(0, 0)
	for i := range s.on.Strings {
		low = min(low, s.on.MIDI(i, 0))
	}
	return low
}

// faulty is a shape with a string a fret off, so that it is not right.
func (s *Student) faulty(q *drills.Question, shape fret.Shape) fret.Shape {
	for {
		out := slices.Clone(shape)
		i := s.random.IntN(len(out))
		if out[i] == fret.Muted {
			continue
		}
		out[i] = max(out[i], s.on.Start(i)) + 1
		if result, err := q.Result(out.String()); err == nil && result != progress.Right {
			return out
		}
	}
}

// tones plucks the strings of a shape, tone after tone of its chord with a pause between; with a fault, the first two tones are taken for each
// other.
func (s *Student) tones(v fret.Voicing, fault bool) (out []float64) {
	var tones []theory.Interval
	strings := map[theory.Interval][]int{}
	for _, tone := range v.Chord.Kind.Formula {
		for _, st := range v.Strings {
			if st.Fret != fret.Muted && st.Interval == tone {
				strings[tone] = append(strings[tone], st.Number)
			}
		}
		if strings[tone] != nil {
			tones = append(tones, tone)
		}
	}
	if fault {
		tones[0], tones[1] = tones[1], tones[0]
	}
	for _, tone := range tones {
		out = append(out, s.Turn(v.Shape, strings[tone])...)
	}
	return out
}
