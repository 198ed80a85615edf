package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"time"

	"github.com/gopxl/beep/v2"
	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/songs"
	"sparetone/drills"
	"sparetone/drills/inturn"
	"sparetone/drills/paper"
	"sparetone/progress/whole"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/tui/draw/papers"
)

// The files of a paper beside the WAV file of each question. The first three are always there.
const (
	questionSheet = "questions.md"
	answerKey     = "answers.md"
	questionRows  = "questions.jsonl"
	questionPage  = "questions.html"
	answerPage    = "answers.html"
	questionPrint = "questions.pdf"
	answerPrint   = "answers.pdf"
	questionWords = "questions.txt"
	answerWords   = "answers.txt"
	recording     = "sounds.wav"
)

// paperFiles are all of them.
var paperFiles = []string{questionSheet, answerKey, questionRows, questionPage, answerPage, questionPrint, answerPrint, questionWords, answerWords, recording}

// paperForms is in which forms a paper is written, and how these look.
type paperForms struct {
	html, print, record bool
	look                papers.Look
	size                string
	pause               int // seconds
	versions            int
}

// The longest pause after a sound of a recording, in seconds, and the most versions of a paper.
const (
	longestPause = 120
	mostVersions = 9
)

// addPaperForms adds the options of paperForms.
func addPaperForms(cmd *cobra.Command) *paperForms {
	f, o := cmd.Flags(), &paperForms{}
	f.BoolVar(&o.html, "html", false, "write the questions as a page with the sounds in it as well, and the answers as another")
	f.BoolVar(&o.print, "print", false, "write the questions and the answers as PDF as well, with the shapes drawn")
	f.BoolVar(&o.record, "recording", false, "write all sounds into one WAV file as well: a number is knocked before each, and there is a pause after it")
	f.IntVar(&o.pause, "pause", 10, "how many seconds of silence come after each sound of the recording, 1 to 120")
	f.BoolVar(&o.look.Words, "words", false, "say shapes in words in place of drawing them, and write the questions and the answers as plain text as well")
	f.BoolVar(&o.look.Left, "left", false, "necks for left-handed players")
	f.BoolVar(&o.look.Large, "large", false, "large print")
	f.StringVar(&o.size, "paper", "a4", "the size of the paper that is printed on: a4 or letter")
	f.IntVar(&o.versions, "versions", 1, "how many versions to write that are as hard as each other, 1 to 9: each into a folder of its own, A, B and so on")
	return o
}

// check says what in the options is wrong.
func (o *paperForms) check(force bool) error {
	size, ok := songs.PaperSizes[o.size]
	switch {
	case !ok:
		return command.Wrong("--paper: %q; it is a4 or letter", theory.Clip(o.size))
	case o.pause < 1 || o.pause > longestPause:
		return command.Wrong("--pause: %d; it is 1 to %d seconds", o.pause, longestPause)
	case o.versions < 1 || o.versions > mostVersions:
		return command.Wrong("--versions: %d; a paper has 1 to %d versions", o.versions, mostVersions)
	case o.versions > 1 && force:
		return command.Wrong("--versions: several versions go into a folder that is empty or not there yet; leave --force out")
	}
	o.look.Paper = size
	return nil
}

// writtenPaper is a paper as it is written to a folder.
type writtenPaper struct {
	papers.Paper
	forms *paperForms
}

// versionName is what the n-th version is called, counted from 0.
func versionName(n int) string { return string(rune('A' + n)) }

// papers are the versions of a paper in the forms that are wanted. The error says what cannot be written.
func (o *paperForms) papers(of papers.Paper, versions [][]*drills.Question) (all []writtenPaper, err error) {
	for n, questions := range versions {
		p := writtenPaper{of, o}
		p.Questions = questions
		if len(versions) > 1 {
			p.Version = versionName(n)
		}
		if o.record {
			if !slices.ContainsFunc(questions, func(q *drills.Question) bool { return len(q.Sounds) > 0 }) {
				return nil, command.Wrong("--recording: nothing is heard in this paper; leave it out, or ask a drill by ear")
			}
			p.Recorded, p.Pause = recording, time.Duration(o.pause)*time.Second
			_, p.Begins = paper.Recording(questions, p.Pause)
		}
		all = append(all, p)
	}
	return all, nil
}

// sharedBy counts, of each version from the second on, the questions that one before it has as well.
func sharedBy(versions [][]*drills.Question) (shared []int) {
	for n := 1; n < len(versions); n++ {
		shared = append(shared, paper.Shared(versions[n], slices.Concat(versions[:n]...)))
	}
	return shared
}

// fill writes the files of the paper to a folder that is empty.
func (p writtenPaper) fill(ctx context.Context, dir string) error {
	put := func(name string, write func(f *os.File) error) error {
		if ctx.Err() != nil {
			return context.Cause(ctx)
		}
		return whole.Synced(filepath.Join(dir, name), command.ForAll, write)
	}
	for n, q := range p.Questions {
		if len(q.Sounds) == 0 {
			continue
		}
		if err := put(papers.SoundName(n), func(f *os.File) error {
			sound, err := inturn.Render(q.Voice, q.Sounds, theory.StandardA4)
			if err != nil {
				return err
			}
			return synth.WriteWAV(f, sound, 16)
		}); err != nil {
			return err
		}
	}
	for _, form := range p.written(ctx) {
		if err := put(form.name, form.write); err != nil {
			return err
		}
	}
	whole.SyncFolder(dir)
	return nil
}

// form is a file of a paper.
type form struct {
	name  string
	write func(f *os.File) error
}

// written are the files of a paper beside the sounds, its rows last.
func (p writtenPaper) written(ctx context.Context) []form {
	text := func(name string, text func() []byte) form {
		return form{name, func(f *os.File) error { _, err := f.Write(text()); return err }}
	}
	forms := []form{text(questionSheet, func() []byte { return p.Markdown(p.forms.look) }), text(answerKey, p.KeyMarkdown)}
	if p.forms.look.Words {
		forms = append(forms, text(questionWords, p.Text), text(answerWords, p.KeyText))
	}
	if p.forms.html {
		forms = append(forms,
			form{questionPage, func(f *os.File) error { return p.HTML(f, p.forms.look, p.packed(ctx)) }},
			form{answerPage, func(f *os.File) error { return p.KeyHTML(f, p.forms.look) }})
	}
	if p.forms.print {
		forms = append(forms,
			form{questionPrint, func(f *os.File) error { return p.PDF(f, p.forms.look) }},
			form{answerPrint, func(f *os.File) error { return p.KeyPDF(f, p.forms.look) }})
	}
	if p.forms.record {
		forms = append(forms, form{recording, func(f *os.File) error {
			all, _ := paper.Recording(p.Questions, p.Pause)
			return synth.WriteMonoWAV(f, stopping{ctx, all})
		}})
	}
	return append(forms, form{questionRows, p.rows})
}

// packed returns what makes the sound of a question for a page.
func (p writtenPaper) packed(ctx context.Context) func(n int) ([]byte, error) {
	return func(n int) ([]byte, error) {
		if ctx.Err() != nil {
			return nil, context.Cause(ctx)
		}
		sound, err := inturn.Render(p.Questions[n].Voice, p.Questions[n].Sounds, theory.StandardA4)
		if err != nil {
			return nil, err
		}
		return synth.MonoWAV(sound)
	}
}

// rows writes what a script reads.
func (p writtenPaper) rows(f *os.File) error {
	var rows bytes.Buffer
	enc := json.NewEncoder(&command.SafeText{To: &rows, AsJSON: true})
	enc.SetEscapeHTML(false)
	for n := range p.Questions {
		if err := enc.Encode(p.row(n)); err != nil {
			return err
		}
	}
	_, err := f.Write(rows.Bytes())
	return err
}

// stopping is what is streamed until the command is stopped.
type stopping struct {
	ctx context.Context
	beep.Streamer
}

func (s stopping) Stream(samples [][2]float64) (n int, ok bool) {
	if s.ctx.Err() != nil {
		return 0, false
	}
	return s.Streamer.Stream(samples)
}

func (s stopping) Err() error {
	if s.ctx.Err() != nil {
		return context.Cause(s.ctx)
	}
	return s.Streamer.Err()
}
