package teaching

import (
	"context"
	"errors"
	"io/fs"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills/lesson"
	"sparetone/drills/neck"
	"sparetone/synth"
	"sparetone/theory/fret"
)

// ReadLesson reads a lesson file. Charts that it names lie beside it.
func ReadLesson(ctx context.Context, path string) (lesson.Lesson, error) {
	f, err := command.OpenInput(ctx, path)
	if err != nil {
		return lesson.Lesson{}, command.Fault(err)
	}
	defer f.Close()
	l, err := lesson.Read(path, command.Interruptible(ctx, f), lesson.ChartsBeside(path, func(path string) (command.InterruptibleFile, error) {
		chart, err := command.OpenInput(ctx, path)
		return command.InterruptibleFile{Reader: command.Interruptible(ctx, chart), Closer: chart}, err
	}))
	if unread := (*fs.PathError)(nil); errors.As(err, &unread) {
		return l, command.Fault(err)
	}
	return l, command.OrStatus(err, command.InputWrong)
}

// instrumentsOf are the instruments that are named, or the lesson's own.
func instrumentsOf(names []string, l lesson.Lesson) (all []*neck.Instrument, err error) {
	if len(names) == 0 {
		return []*neck.Instrument{{Tuning: l.Tuning, Voices: synth.Voices(), Hand: fret.DefaultHand}}, nil
	}
	for _, name := range names {
		on, err := neck.NewInstrument(name, 0, "")
		if err != nil {
			return nil, command.Wrong("--tuning: %w", err)
		}
		all = append(all, on)
	}
	return all, nil
}
