package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/drills/lesson"
	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
	"sparetone/tui/draw"
)

// paperRow is a question of a paper as questions.jsonl has it.
type paperRow struct {
	N       int      `json:"n"`
	Drill   string   `json:"drill"`
	Item    string   `json:"item"`
	Prompt  string   `json:"prompt"`
	Choices []string `json:"choices"` // as they are typed; empty where the answer is put together
	Answer  string   `json:"answer"`
	Accepts []string `json:"accepts"` // what else is right
	// No other answer is right, but for other ways to write these. It is false where any shape of the chord is right,
	// or its notes in any order.
	Complete bool    `json:"complete"`
	Tuning   string  `json:"tuning"`
	Frets    []*int  `json:"frets"`   // of the shape shown, null for a muted string; null if none is
	Pitches  [][]int `json:"pitches"` // MIDI numbers in the order plucked, of each sound in turn
	WAV      *string `json:"wav"`     // null where there is nothing to hear
}

// The files of a paper beside its WAV files.
const (
	questionSheet = "questions.md"
	answerKey     = "answers.md"
	questionRows  = "questions.jsonl"
)

// mostQuestions is the longest paper: its files are numbered with three digits.
const mostQuestions = 999

func newPaper() *cobra.Command {
	var drill, file, out string
	var count int
	var seed uint64
	cmd := &cobra.Command{
		Use:     "paper --drill ID|--lesson FILE --out DIR",
		Short:   "Write a listening or reading test: sounds, a question sheet and an answer key",
		Example: "  sparetone paper --drill chord-ear --count 20 --seed 7 --out monday\n  sparetone paper --drill doubled --tuning baritone --out doubled\n  sparetone paper --lesson my-lesson.toml --out tuesday",
		Args:    noArgs,
	}
	f := cmd.Flags()
	f.StringVar(&drill, "drill", "", "the drill to ask: see sparetone drills")
	f.StringVar(&file, "lesson", "", "ask what a lesson file says, step by step, and from the start again until there are enough")
	f.IntVar(&count, "count", 20, fmt.Sprintf("how many questions, 1 to %d", mostQuestions))
	f.Uint64Var(&seed, "seed", 0, "makes the same paper again; 0 draws one, and the answer key names it")
	f.StringVar(&out, "out", "", "the folder to write to: one that is empty, or not there yet")
	addForce(cmd, "write into a folder that has files already: a paper that is there is replaced, all else stays")
	addTuning(cmd)
	addJSON(cmd)
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		d, ok := drills.ByID(drill)
		switch {
		case drill == "" && file == "":
			return callWrong("--drill: name the drill to ask, or a lesson with --lesson; the drills are %s", strings.Join(drills.IDs(), ", "))
		case drill != "" && !ok:
			return callWrong("--drill: %q is no drill; the drills are %s", theory.Clean(drill), strings.Join(drills.IDs(), ", "))
		case count < 1 || count > mostQuestions:
			return callWrong("--count: %d; a paper has 1 to %d questions", count, mostQuestions)
		case out == "":
			return callWrong("--out: name the folder to write the paper to")
		}
		if err := freeFolder(out, forced(cmd)); err != nil {
			return err
		}
		t, err := tuningOf(cmd)
		if err != nil {
			return err
		}
		if seed == 0 {
			seed = rand.Uint64N(1e6) + 1 // short enough to write down
		}
		on := &drills.Instrument{Tuning: t, Voices: synth.Voices(), Hand: fret.DefaultHand}
		p := paper{on: on, seed: seed}
		if file == "" {
			p.title, p.of = say.Of(d.About().Title), say.Of("drill {}", say.Foreign(drill))
			p.questions, err = practice.Paper(d, on, count, seed)
		} else {
			l, err := readLesson(cmd.Context(), file)
			if err != nil {
				return err
			}
			t := l.On(on)
			taught, err := onlyOf(t.Course, file, drill)
			if err != nil {
				return err
			}
			name := theory.Clean(filepath.Base(file))
			p.title, p.of = say.Of("Lesson: {}", say.Foreign(strings.TrimSuffix(name, filepath.Ext(name)))), say.Of("lesson {}", say.Foreign(name))
			if p.questions, err = practice.LessonPaper(taught, t.On, count, seed); err != nil {
				return callWrong("%w", err)
			}
			p.leaveOut(taught, t.Left)
		}
		if err != nil {
			return callWrong("%w", err)
		}
		if err := p.write(cmd.Context(), out); err != nil {
			return fault(err)
		}
		o := newOutput(cmd)
		if !o.json {
			o.printf("%s: %s, seed %d\n", theory.Clean(out), p.size(), seed)
			for _, l := range p.left {
				o.printf("Left out: %s.\n", l.Screen())
			}
		} else {
			for n := range p.questions {
				if err := o.object(p.row(n)); err != nil {
					return err
				}
			}
		}
		return o.done()
	}
	return cmd
}

// leaveOut notes what of a lesson the paper does not ask: steps for which there were too few questions, and what the instrument has not.
func (p *paper) leaveOut(taught course.Course, left []lesson.LeftOut) {
	for _, s := range taught {
		if !slices.ContainsFunc(p.questions, func(q *drills.Question) bool { return q.Drill == s.Drill && slices.Contains(s.Asks, q.Target) }) {
			p.left = append(p.left, say.Of("step {}, for which there are too few questions", say.Foreign(s.Name())))
		}
	}
	for _, l := range left {
		p.left = append(p.left, l.Says)
	}
}

// onlyOf returns the steps of a lesson of one drill; "" takes all.
func onlyOf(taught course.Course, path, drill string) (course.Course, error) {
	if drill == "" {
		return taught, nil
	}
	if err := haveSteps(taught, path, []string{drill}); err != nil {
		return nil, err
	}
	return slices.DeleteFunc(taught, func(s course.Step) bool { return s.Drill != drill }), nil
}

// paper is a set of questions to be written to a folder.
type paper struct {
	title     say.Text
	of        say.Text // the drill or the lesson that it asks, for the answer key
	on        *drills.Instrument
	seed      uint64
	questions []*drills.Question
	left      []say.Text // what of its lesson it does not ask
}

// size says how many questions there are.
func (p paper) size() string { return count(len(p.questions), "question") }

// wavName is the file of the n-th question's sound, counted from 0.
func wavName(n int) string { return fmt.Sprintf("%03d.wav", n+1) }

// row is a question as a script reads it.
func (p paper) row(n int) paperRow {
	q := p.questions[n]
	r := paperRow{
		N: n + 1, Drill: q.Drill, Item: drills.ItemID(q.Drill, q.Target, p.on.Name()), Prompt: q.Prompt.Screen(),
		Choices: []string{}, Answer: q.Expected().Typed, Accepts: []string{}, Complete: q.Form != drills.Frets && q.Form != drills.Notes, Tuning: p.on.Tuning.Name, Pitches: [][]int{},
	}
	for _, c := range q.Choices {
		r.Choices = append(r.Choices, c.Typed)
	}
	for _, a := range q.Accepts {
		if a != r.Answer && !slices.Contains(r.Accepts, a) {
			r.Accepts = append(r.Accepts, a)
		}
	}
	if q.Shown != nil {
		r.Frets = frets(q.Shown.Shape)
	}
	for _, s := range q.Sounds {
		r.Pitches = append(r.Pitches, inOrder(s.Score))
	}
	if len(q.Sounds) > 0 {
		name := wavName(n)
		r.WAV = &name
	}
	return r
}

// inOrder lists the MIDI numbers of a score in the order in which they are plucked.
func inOrder(s synth.Score) []int {
	out := []int{}
	for _, p := range s.InTime() {
		out = append(out, p.Pitch.MIDI())
	}
	return out
}

// sheet is what the students get. It does not name the seed, which would make the answers.
func (p paper) sheet() []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "# %s\n\nFor %s. Name: ______________________\n", p.title.Sheet(), say.Of("{}", say.Instrument{On: p.on.Tuning}).Sheet())
	for n, q := range p.questions {
		fmt.Fprintf(&b, "\n## %d\n\n", n+1)
		if len(q.Sounds) > 0 {
			fmt.Fprintf(&b, "Listen: [%s](%[1]s)\n\n", wavName(n))
		}
		fmt.Fprintf(&b, "%s\n", q.Prompt.Sheet())
		if q.Shown != nil {
			fmt.Fprintf(&b, "\n```\n%s```\n", trimmed(draw.Neck{Voicing: *q.Shown, Named: q.Named}.Render(draw.Theme{})))
		}
		if len(q.Choices) == 0 {
			fmt.Fprintf(&b, "\nWrite %s:\n\n______________________\n", q.Typing().Sheet())
			continue
		}
		fmt.Fprintln(&b)
		for _, c := range q.Choices {
			fmt.Fprintf(&b, "- [ ] %s\n", c.Said.Sheet())
		}
	}
	return b.Bytes()
}

// key is what the teacher gets.
func (p paper) key() []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "# Answers: %s\n\nFor %s; %s, seed %d, %s.\n", p.title.Sheet(), say.Of("{}", say.Instrument{On: p.on.Tuning}).Sheet(), p.of.Sheet(), p.seed, p.size())
	for _, l := range p.left {
		fmt.Fprintf(&b, "\nLeft out: %s.\n", l.Sheet())
	}
	for n, q := range p.questions {
		fmt.Fprintf(&b, "\n## %d\n\n%s\n\n**%s**\n", n+1, q.Prompt.Sheet(), q.Expected().Said.Sheet())
		if also := q.AlsoRight(); len(also) > 0 {
			fmt.Fprintf(&b, "\nAlso right: %s\n", say.Of("{}", say.Clauses(also...)).Sheet())
		}
		for _, line := range append(q.Solution().Lines, q.MoreRight()) {
			if !line.IsZero() {
				fmt.Fprintf(&b, "\n%s\n", line.Sheet())
			}
		}
	}
	return b.Bytes()
}
