// Package papers writes papers, what is asked and the answers, in the forms that a class needs: as Markdown, as one HTML page with the sounds
// in it, printed as PDF, and in words alone.
package papers

import (
	"fmt"
	"time"

	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/theory/fret"
	"sparetone/theory/say"
	"sparetone/tui/draw"
	"sparetone/tui/draw/sheet"
)

// Paper is a set of questions to be written down.
type Paper struct {
	Title     say.Text
	Of        say.Text // the drill or the lesson that it asks, for the answers
	Version   string   // which of several it is, such as B; "" if there is one
	On        *neck.Instrument
	Seed      uint64 // is in the answers alone, for it would make them
	Questions []*drills.Question
	Left      []say.Text // what of its lesson it does not ask

	Recorded string          // the file that all sounds are in; "" if there is none
	Begins   []time.Duration // when the sound of each question begins in it
	Pause    time.Duration   // how long it is silent after each sound
}

// Look is how papers look.
type Look struct {
	sheet.Options
	Words bool // shapes are said in words, not drawn
}

// Size says how many questions there are.
func (p Paper) Size() say.Text {
	return say.Of("{}", say.Count{N: len(p.Questions), One: "question", Many: "questions"})
}

// SoundName is the file of the n-th question's sound, counted from 0.
func SoundName(n int) string { return fmt.Sprintf("%03d.wav", n+1) }

// For says for which instrument the paper is, and which version it is.
func (p Paper) For() say.Text {
	on := say.Of("{}", say.Instrument{On: p.On.Tuning})
	if p.Version != "" {
		return say.Of("Version {}, for {}.", say.Foreign(p.Version), on)
	}
	return say.Of("For {}.", on)
}

// ForKey says what the answers are for, and how to make the same paper again.
func (p Paper) ForKey() say.Text {
	on := say.Of("{}", say.Instrument{On: p.On.Tuning})
	made := say.Of("{}, seed {}, {}", p.Of, say.Foreign(fmt.Sprint(p.Seed)), p.Size())
	if p.Version != "" {
		return say.Of("Version {}, for {}; {}.", say.Foreign(p.Version), on, made)
	}
	return say.Of("For {}; {}.", on, made)
}

// Recording says how the numbers are told in the recording; zero if there is none.
func (p Paper) Recording() say.Text {
	if p.Recorded == "" {
		return say.Text{}
	}
	return say.Of("All sounds are in {}, one after another, each with {} to answer in. Before each its number is knocked: a low knock for each ten, then a high one for each one, so that thirteen is one low and three high; for a hundred it is lower still.",
		say.Foreign(p.Recorded), say.Count{N: int(p.Pause.Seconds()), One: "second", Many: "seconds"})
}

// begins says when the sound of a question begins in the recording; zero if it does not.
func (p Paper) begins(n int) say.Text {
	if p.Recorded == "" || p.Begins[n] == 0 {
		return say.Text{}
	}
	at := int(p.Begins[n].Seconds())
	return say.Of("In {} at {}.", say.Foreign(p.Recorded), say.Foreign(fmt.Sprintf("%d:%02d", at/60, at%60)))
}

// write says what is to be written as an answer.
func write(q *drills.Question) say.Text { return say.Of("Write {}:", q.Typing()) }

// necksOf are the shapes to be drawn of an answer, and their captions.
func necksOf(q *drills.Question) []drills.Reveal { return q.Solution().AskedShapes() }

// shapeWords says a shape string by string.
func shapeWords(v fret.Voicing, named, fingers bool) say.Text {
	return say.Of("{}", say.Clauses(draw.Neck{Voicing: v, Named: named, Fingers: fingers}.Words()...))
}

// linesOf are the sentences of an answer.
func linesOf(q *drills.Question) (lines []say.Text) {
	if also := q.AlsoRight(); len(also) > 0 {
		lines = append(lines, say.Of("Also right: {}", say.Clauses(also...)))
	}
	for _, line := range append(q.Solution().Lines, q.MoreRight()) {
		if !line.IsZero() {
			lines = append(lines, line)
		}
	}
	return lines
}

// answerNeck is a shape of an answer as it is drawn.
func answerNeck(v fret.Voicing, look Look) sheet.Neck {
	n := sheet.Neck{Voicing: v, Fingers: true, Named: true, Left: look.Left}
	if v.Chord.Kind != nil { // two notes are no chord
		n.Title = v.Chord.String()
	}
	return n
}
