package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/charmbracelet/x/term"
	"github.com/spf13/cobra"

	"sparetone/drills"
	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/tui"
)

// practiceFlags is what practice is called with.
type practiceFlags struct {
	minutes float64
	drills  []string
	lesson  string
	tuning  string
	plain   bool
	seed    uint64
	silent  bool
}

func newPractice() *cobra.Command {
	var p practiceFlags
	cmd := &cobra.Command{
		Use:   "practice",
		Short: "Practise: what sparetone alone does, with a choice of what and how long",
		Args:  noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return practise(cmd, p)
		},
	}
	f := cmd.Flags()
	f.Float64Var(&p.minutes, "minutes", 10, "how long, 1 to 120")
	f.StringSliceVar(&p.drills, "drill", nil, "only this drill; may be given more than once")
	f.StringVar(&p.lesson, "lesson", "", "ask what a lesson `file` says, not the built-in course")
	f.StringVar(&p.tuning, "tuning", "", "the instrument's `tuning` (kept for the next time)")
	f.BoolVar(&p.plain, "plain", false, "lines of text for screen readers and pipes, no drawing")
	f.BoolVar(&p.silent, "silent", false, "by eye only: no sound and no question that needs ears")
	f.Uint64Var(&p.seed, "seed", 0, "makes the same questions again; 0 draws one")
	return cmd
}

func practise(cmd *cobra.Command, p practiceFlags) error {
	if !(p.minutes >= 1 && p.minutes <= 120) {
		return callWrong("--minutes: %v; a session lasts 1 to 120 minutes", p.minutes)
	}
	for _, id := range p.drills {
		if _, ok := drills.ByID(id); !ok {
			return callWrong("--drill: %q is no drill; the drills are %s", printable(id), strings.Join(drills.IDs(), ", "))
		}
	}
	course, err := courseOf(p.lesson)
	if err != nil {
		return err
	}
	file, notice, err := openProgress(cmd)
	if err != nil {
		return err
	}
	defer file.Close()
	on, err := instrumentOf(file, p.tuning)
	if err != nil {
		return err
	}
	if p.seed == 0 {
		p.seed = rand.Uint64()
	}
	session, err := drills.NewSession(drills.Setup{
		File: file, On: on, Course: course, Drills: p.drills, Silent: p.silent,
		Length: time.Duration(p.minutes * float64(time.Minute)), Seed: p.seed, Now: time.Now,
	})
	if err != nil {
		return callWrong("%w", err)
	}
	speaker := synth.OpenSpeaker(volumeOf(file))
	defer speaker.Close()
	return present(cmd, p, tui.Practice{
		Session: session,
		Speaker: speaker,
		Silent:  p.silent,
		A4:      theory.StandardA4,
		Notice:  notice,
		KeepVolume: func(v float64) {
			// A volume that could not be kept is set again the next time; practice goes on.
			_ = file.SetSetting(volumeSetting, fmt.Sprint(v))
		},
	})
}

// present shows the practice on the full screen, or as lines where there is no screen.
func present(cmd *cobra.Command, p practiceFlags, practice tui.Practice) error {
	in, out := cmd.InOrStdin(), cmd.OutOrStdout()
	var err error
	if p.plain || !isTerminal(in) || !isTerminal(out) {
		err = tui.Plain(cmd.Context(), practice, in, out)
	} else {
		err = tui.Run(cmd.Context(), practice, in, out)
	}
	if errors.Is(err, context.Canceled) {
		return nil
	}
	return fault(err)
}

func isTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(f.Fd())
}

// courseOf reads a lesson file, or returns the built-in course if none is named.
func courseOf(lesson string) (drills.Course, error) {
	if lesson == "" {
		return drills.BuiltIn(), nil
	}
	f, err := os.Open(lesson)
	if err != nil {
		return nil, fault(err)
	}
	defer f.Close()
	c, err := drills.ReadCourse(lesson, io.Reader(f))
	if err != nil {
		return nil, withStatus{err, inputWrong}
	}
	return c, nil
}

// The settings that practice keeps.
const (
	tuningSetting = "tuning"
	volumeSetting = "volume"
)

// instrumentOf returns the instrument that was named, and keeps it; else the one that was kept; else the
// ukulele.
func instrumentOf(file *progress.File, named string) (*drills.Instrument, error) {
	name := named
	if name == "" {
		var err error
		if name, _, err = file.Setting(tuningSetting); err != nil {
			return nil, fault(err)
		}
	}
	if name == "" {
		name = fret.Tunings()[0].Name
	}
	t, err := fret.ParseTuning(name)
	if err != nil {
		return nil, callWrong("%w", err)
	}
	if named != "" {
		if err := file.SetSetting(tuningSetting, t.Name); err != nil {
			return nil, fault(err)
		}
	}
	return &drills.Instrument{Tuning: t, Voices: synth.Voices(), Hand: fret.DefaultHand}, nil
}

// volumeOf returns the volume the student set last, or a quiet one.
func volumeOf(file *progress.File) float64 {
	v := synth.StartVolume
	if text, ok, err := file.Setting(volumeSetting); ok && err == nil {
		if _, err := fmt.Sscan(text, &v); err != nil || !(v >= 0 && v <= 1) {
			v = synth.StartVolume
		}
	}
	return v
}

// openProgress opens the progress file. Where it cannot be used it is left as it is, practice goes on in
// memory, and notice says so in one line.
func openProgress(cmd *cobra.Command) (f *progress.File, notice string, err error) {
	path, err := progressPath(cmd)
	if err == nil {
		if f, err = progress.Open(path, time.Now); err == nil {
			return f, "", nil
		}
	}
	f, inMemory := progress.InMemory(time.Now)
	if inMemory != nil {
		return nil, "", fault(inMemory)
	}
	return f, "Not kept: " + printable(err.Error()), nil
}

// progressPath is where the progress file lies: --progress, else SPARETONE_PROGRESS, else
// sparetone/progress.db in the platform's data folder.
func progressPath(cmd *cobra.Command) (string, error) {
	if p, _ := cmd.Flags().GetString("progress"); p != "" {
		return p, nil
	}
	if p := os.Getenv("SPARETONE_PROGRESS"); p != "" {
		return p, nil
	}
	folder, err := dataFolder()
	if err != nil {
		return "", fmt.Errorf("no data folder: %w; name a file with --progress", err)
	}
	return filepath.Join(folder, "sparetone", "progress.db"), nil
}
