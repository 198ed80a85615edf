package main

import (
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"os/signal"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/lookup"
	"sparetone/cmd/sparetone/records"
	"sparetone/cmd/sparetone/songs"
	"sparetone/cmd/sparetone/teaching"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/lesson"
	"sparetone/drills/practice"
	"sparetone/drills/practice/session"
	"sparetone/drills/practice/setting"
	"sparetone/progress/store"
	"sparetone/synth/capture"
	"sparetone/synth/playback"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/tui"
	"sparetone/tui/lines"
)

// practiceFlags is what practice is called with.
type practiceFlags struct {
	minutes float64
	drills  []string
	lesson  string
	song    string
	tuning  string
	lines   bool
	seed    uint64
	silent  bool
	weak    bool
	atOnce  bool
}

func newPractice() *cobra.Command {
	var p practiceFlags
	cmd := &cobra.Command{
		Use:   "practice",
		Short: "Practise: what sparetone alone does, with a choice of what and how long",
		Args:  command.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return practise(cmd, p)
		},
	}
	f := cmd.Flags()
	f.Float64Var(&p.minutes, "minutes", 0, "how long, 1 to 120; else as it is set, 10 at first")
	f.StringSliceVar(&p.drills, "drill", nil, "only this drill; may be given more than once")
	f.StringVar(&p.lesson, "lesson", "", "ask what a lesson file says, not the built-in course")
	f.StringVar(&p.song, "song", "", "ask about the chords and shapes of a song: a file with a chart")
	f.StringVar(&p.tuning, "tuning", "", "the instrument's tuning (kept for the next time)")
	f.BoolVar(&p.weak, "weak", false, "only what is weak, and what it is mistaken for")
	f.BoolVar(&p.atOnce, "at-once", false, "ask at once: what is new is not shown first")
	f.BoolVar(&p.lines, "plain", false, "lines of text for screen readers and pipes, no drawing")
	f.BoolVar(&p.silent, "silent", false, "by eye only: no sound and no question that needs ears")
	f.Uint64Var(&p.seed, "seed", 0, "makes the same questions again; 0 draws one")
	cmd.MarkFlagsMutuallyExclusive("song", "lesson")
	cmd.MarkFlagsMutuallyExclusive("song", "weak")
	return cmd
}

func practise(cmd *cobra.Command, p practiceFlags) (err error) {
	if cmd.Flags().Changed("minutes") && !(p.minutes >= 1 && p.minutes <= 120) {
		return command.Wrong("--minutes: %v; a practice lasts 1 to 120 minutes", p.minutes)
	}
	for _, id := range p.drills {
		if _, ok := catalogue.ByID(id); !ok {
			return command.Wrong("--drill: %q is no drill; the drills are %s", theory.Clean(id), strings.Join(catalogue.IDs(), ", "))
		}
	}
	if cmd.Flags().Changed("drill") && len(p.drills) == 0 {
		return command.Wrong("--drill: name a drill; the drills are %s", strings.Join(catalogue.IDs(), ", "))
	}
	steps, alone := course.BuiltIn(), (*lesson.Lesson)(nil)
	if p.lesson != "" {
		l, err := teaching.ReadLesson(cmd.Context(), p.lesson)
		if err != nil {
			return err
		}
		steps, alone = l.Steps, &l
	}
	if err := haveSteps(steps, p.lesson, p.drills); err != nil {
		return err
	}
	chart := ""
	if p.song != "" {
		if chart, err = songs.ReadChart(cmd, p.song); err != nil {
			return err
		}
	}
	file, notice, err := command.OpenProgress(cmd)
	if err != nil {
		return err
	}
	notice = strings.TrimSpace(notice + " " + records.KeepAlikeAtStart(file))
	defer func() {
		if _, wrong := records.KeepAlike(file); wrong != nil {
			err = errors.Join(err, command.Fault(wrong))
		}
		// What went wrong with the file while practice went on was told then; the end and the exit status tell it too.
		if wrong := file.Close(); wrong != nil {
			err = errors.Join(err, command.Fault(command.WithAdvice(wrong)))
		}
	}()
	settings, err := settingsOf(file, p)
	if err != nil {
		return err
	}
	if p.seed == 0 {
		p.seed = rand.Uint64()
	}
	speaker := speakerOf(settings, p)
	defer speaker.Close()
	mic := capture.NewMicrophone(lookup.Microphone())
	defer mic.Off()
	watched, over := context.WithCancel(cmd.Context())
	defer over()
	named := p.drills != nil || p.lesson != "" || p.song != "" || p.weak
	app := practice.App{
		Setup: session.Setup{
			File: file, Course: steps, Drills: p.drills, ByName: p.drills != nil, Silent: p.silent,
			Length: lengthOf(settings, p), Seed: p.seed, Now: time.Now,
			Suspended: session.WatchSuspension(watched, time.Now).Total,
		},
		Speaker:    speaker,
		Microphone: mic,
		Settings:   settings,
		Named:      named,
		// Whoever says what to practise has begun already.
		New:    setting.IsNew(file) && !named,
		Notice: notice,
		Timed:  p.minutes > 0,
		Alone:  alone,
	}
	if p.song != "" {
		if app.Called, err = app.SongWay(chart); err != nil {
			return command.Wrong("--song: %s: %w", theory.Clean(p.song), err)
		}
	}
	if err := app.Plan(p.weak); err != nil {
		return command.Wrong("%w", err)
	}
	return present(cmd, p, app)
}

// speakerOf is where sound goes: nowhere, where the practice is to be silent.
func speakerOf(s setting.Values, p practiceFlags) playback.Speaker {
	if p.silent {
		return playback.None(s.Volume)
	}
	return command.OpenSpeaker(s.Volume)
}

// present shows the practice on the full screen, or as lines where there is no screen.
func present(cmd *cobra.Command, p practiceFlags, app practice.App) error {
	in, out := cmd.InOrStdin(), cmd.OutOrStdout()
	if !p.lines && canDraw(in, out) {
		command.EndsByItself(cmd.Context())
		return command.Fault(tui.Run(cmd.Context(), app, in, out))
	}
	signal.Ignore(syscall.SIGPIPE) // a reader that has gone is an error like a full disk
	return command.Fault(lines.Run(cmd.Context(), app, in, command.Stdout(cmd)))
}

// canDraw reports whether there is a terminal at both ends that a screen can be drawn on: one that tells what it is
// (TERM, which Windows does not have), and is not called dumb.
func canDraw(in, out any) bool {
	kind := os.Getenv("TERM")
	return command.IsTerminal(in) && command.IsTerminal(out) && kind != "dumb" && (kind != "" || runtime.GOOS == "windows")
}

// haveSteps refuses a drill for which the course has no step.
func haveSteps(course course.Course, lesson string, ids []string) error {
	var has []string
	for _, s := range course {
		if !slices.Contains(has, s.Drill) {
			has = append(has, s.Drill)
		}
	}
	for _, id := range ids {
		if !slices.Contains(has, id) {
			return command.Wrong("--drill: %s has no step for %s; it has steps for %s", theory.Clean(lesson), id, strings.Join(has, ", "))
		}
	}
	return nil
}

// settingsOf returns the settings that are kept, with the instrument that was named, which is then kept.
func settingsOf(file *store.File, p practiceFlags) (setting.Values, error) {
	s := setting.Read(file)
	if p.tuning != "" {
		t, err := fret.ParseTuning(p.tuning)
		if err != nil {
			return s, command.Wrong("%w", err)
		}
		s.Tuning = t.Name
		if err := s.Keep(file, "tuning"); err != nil {
			return s, command.Fault(err)
		}
	}
	s.AtOnce = s.AtOnce || p.atOnce // for this time
	return s, nil
}

// lengthOf is how long the practice is to be: what was asked for, else what is set.
func lengthOf(s setting.Values, p practiceFlags) time.Duration {
	if p.minutes > 0 {
		return time.Duration(p.minutes * float64(time.Minute))
	}
	return time.Duration(s.Minutes) * time.Minute
}
