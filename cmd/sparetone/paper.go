package main

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/teaching"
	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/drills/paper"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
	"sparetone/tui/draw/papers"
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
	// In which version of the paper it is, such as A; left out where there is one.
	Version string `json:"version,omitempty"`
	// When its sound begins in the one recording, in seconds; left out where there is none.
	Begins float64 `json:"begins,omitempty"`
}

// mostQuestions is the longest paper: its files are numbered with three digits.
const mostQuestions = 999

func newPaper() *cobra.Command {
	var drill, file, out string
	var questions int
	var seed uint64
	cmd := &cobra.Command{
		Use:   "paper --drill ID|--lesson FILE --out DIR",
		Short: "Write a listening or reading test: sounds, a question sheet and an answer key",
		Example: "  sparetone paper --drill chord-ear --count 20 --seed 7 --out monday\n  sparetone paper --drill doubled --tuning baritone --print --left --out doubled\n" +
			"  sparetone paper --lesson my-lesson.toml --html --recording --versions 2 --out tuesday",
		Args: command.NoArgs,
	}
	f := cmd.Flags()
	f.StringVar(&drill, "drill", "", "the drill to ask: see sparetone drills")
	f.StringVar(&file, "lesson", "", "ask what a lesson file says, step by step, and from the start again until there are enough")
	f.IntVar(&questions, "count", 20, fmt.Sprintf("how many questions, 1 to %d", mostQuestions))
	f.Uint64Var(&seed, "seed", 0, "makes the same paper again; 0 draws one, and the answer key names it")
	f.StringVar(&out, "out", "", "the folder to write to: one that is empty, or not there yet")
	forms := addPaperForms(cmd)
	command.AddForce(cmd, "write into a folder that has files already: a paper that is there is replaced, all else stays")
	command.AddTuning(cmd)
	command.AddJSON(cmd)
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		d, ok := catalogue.ByID(drill)
		switch {
		case drill == "" && file == "":
			return command.Wrong("--drill: name the drill to ask, or a lesson with --lesson; the drills are %s", strings.Join(catalogue.IDs(), ", "))
		case drill != "" && !ok:
			return command.Wrong("--drill: %q is no drill; the drills are %s", theory.Clean(drill), strings.Join(catalogue.IDs(), ", "))
		case questions < 1 || questions > mostQuestions:
			return command.Wrong("--count: %d; a paper has 1 to %d questions", questions, mostQuestions)
		case out == "":
			return command.Wrong("--out: name the folder to write the paper to")
		}
		if err := forms.check(command.Forced(cmd)); err != nil {
			return err
		}
		if err := freeFolder(out, command.Forced(cmd)); err != nil {
			return err
		}
		t, err := command.TuningOf(cmd)
		if err != nil {
			return err
		}
		if seed == 0 {
			seed = rand.Uint64N(1e6) + 1 // short enough to write down
		}
		p := papers.Paper{On: &neck.Instrument{Tuning: t, Voices: synth.Voices(), Hand: fret.DefaultHand}, Seed: seed}
		var versions [][]*drills.Question
		var taught course.Course
		if file == "" {
			p.Title, p.Of = say.Of(d.About().Title), say.Of("drill {}", say.Foreign(drill))
			versions, err = paper.OfDrill(d, p.On, questions, seed, forms.versions)
		} else {
			l, err := teaching.ReadLesson(cmd.Context(), file)
			if err != nil {
				return err
			}
			here := l.On(p.On)
			if taught, err = onlyOf(here.Course, file, drill); err != nil {
				return err
			}
			for _, left := range here.Left {
				p.Left = append(p.Left, left.Says)
			}
			name := theory.Clean(filepath.Base(file))
			p.Title, p.Of = say.Of("{}", say.Foreign(cmp.Or(l.Name, strings.TrimSuffix(name, filepath.Ext(name))))), say.Of("lesson {}", say.Foreign(name))
			if versions, err = paper.OfLesson(taught, here.On, questions, seed, forms.versions); err != nil {
				return command.Wrong("%w", err)
			}
			p.Left = append(notAsked(taught, versions[0]), p.Left...)
		}
		if err != nil {
			return command.Wrong("%w", err)
		}
		all, err := forms.papers(p, versions)
		if err != nil {
			return err
		}
		if err := writePapers(cmd.Context(), out, all); err != nil {
			return command.Fault(err)
		}
		o := command.NewOutput(cmd)
		if o.AsJSON {
			for _, p := range all {
				for n := range p.Questions {
					o.Object(p.row(n))
				}
			}
			return o.Done()
		}
		o.Printf("%s: %s, seed %d\n", theory.Clean(out), all[0].Size().Screen(), seed)
		for _, l := range p.Left {
			o.Printf("Left out: %s.\n", l.Screen())
		}
		for n, shared := range sharedBy(versions) {
			o.Printf("Version %s has %s in common with those before it.\n", versionName(n+1), command.Count(shared, "question"))
		}
		return o.Done()
	}
	return cmd
}

// notAsked says which steps of a lesson a paper does not ask: those for which there are too few questions.
func notAsked(taught course.Course, questions []*drills.Question) (left []say.Text) {
	for _, s := range taught {
		if !slices.ContainsFunc(questions, func(q *drills.Question) bool { return q.Drill == s.Drill && slices.Contains(s.Asks, q.Target) }) {
			left = append(left, say.Of("step {}, for which there are too few questions", say.Foreign(s.Name())))
		}
	}
	return left
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

// row is a question as a script reads it.
func (p writtenPaper) row(n int) paperRow {
	q := p.Questions[n]
	r := paperRow{
		N: n + 1, Drill: q.Drill, Item: drills.ItemID(q.Drill, q.Target, p.On.Name()), Prompt: q.Prompt.Screen(),
		Choices: []string{}, Answer: q.Expected().Typed, Accepts: []string{}, Complete: q.Form != drills.Frets && q.Form != drills.Notes, Tuning: p.On.Tuning.Name, Pitches: [][]int{},
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
		r.Frets = command.FretsAsJSON(q.Shown.Shape)
	}
	for _, s := range q.Sounds {
		r.Pitches = append(r.Pitches, inOrder(s.Score))
	}
	if len(q.Sounds) > 0 {
		name := papers.SoundName(n)
		r.WAV = &name
	}
	r.Version = p.Version
	if p.Recorded != "" {
		r.Begins = math.Round(p.Begins[n].Seconds()*1000) / 1000
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
