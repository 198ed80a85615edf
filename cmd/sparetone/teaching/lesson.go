package teaching

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/songs"
	"sparetone/drills/lesson"
	"sparetone/drills/practice"
	"sparetone/drills/practice/session"
	"sparetone/drills/practice/setting"
	"sparetone/drills/practice/songwork"
	"sparetone/progress"
	"sparetone/progress/store"
	"sparetone/theory"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
	"sparetone/theory/song/musicxml"
)

func NewLesson() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "lesson",
		Short: "Lessons: made from songs, checked, taken as today's practice, and handed in",
		Args:  command.NoArgs,
		RunE:  func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newLessonMake(), newLessonCheck(), newLessonTake(), newLessonList(), newLessonLeave(), newHandIn(), newLessonSheet())
	return cmd
}

func newLessonMake() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "make SONG",
		Short:   "Write a lesson from a chart: its chords, their colours, and the steps to learn them",
		Example: "  sparetone lesson make loop.txt --out loop.toml\n  sparetone lesson make loop.txt --tuning guitar",
	}
	command.AddTuning(cmd)
	command.AddKey(cmd, "the key, such as Eb or F#m (default: what the chart says, or what is found)")
	out := cmd.Flags().String("out", "", "the file to write to; standard output if none is named")
	command.AddForce(cmd, "replace a file that is there")
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		if len(args) != 1 {
			return command.Wrong("%s needs one SONG, a chart, or - to read it from standard input", cmd.CommandPath())
		}
		wishes := arrange.Wishes{Rich: songs.UsualRich}
		t, key, err := command.TuningAndKeyOf(cmd)
		if err != nil {
			return err
		}
		if wishes.Key = key; cmd.Flags().Changed("tuning") || cmd.Flags().Changed("capo") {
			wishes.Tuning, wishes.Capoed = t, cmd.Flags().Changed("capo")
		}
		chart, err := songs.ReadChart(cmd, args[0])
		if err != nil {
			return err
		}
		text, err := madeLesson(chart, wishes, args[0])
		if err != nil {
			return command.BadInput(fmt.Errorf("%s: %w", theory.Clean(args[0]), err))
		}
		o := command.NewOutput(cmd)
		if *out == "" {
			o.Printf("%s", text)
			return o.Done()
		}
		if err := command.WriteFiles([]command.NamedFile{{Option: "--out", Path: *out, Write: func(f *os.File) error {
			_, err := f.WriteString(text)
			return err
		}}}, command.Forced(cmd)); err != nil {
			return err
		}
		o.Printf("%s: a lesson. sparetone lesson take makes it today's practice.\n", theory.Clean(*out))
		return o.Done()
	}
	return cmd
}

// madeLesson is the text of a lesson made from a chart, or from a MusicXML file.
func madeLesson(chart string, w arrange.Wishes, path string) (string, error) {
	a, err := songs.Arranged(chart, w)
	if err != nil {
		return "", err
	}
	name := cmp.Or(theory.Clean(a.Song.Header.Title), strings.TrimSuffix(theory.Clean(filepath.Base(path)), filepath.Ext(path)), "Song")
	if path == "-" {
		name = cmp.Or(theory.Clean(a.Song.Header.Title), "Song")
	}
	if songwork.IsPacked(chart) || musicxml.Is(chart) {
		chart = song.Write(a.Song) // it is read more easily so
	}
	return lesson.OfSong(a, name, chart)
}

// taughtRow is a lesson as --json prints it.
type taughtRow struct {
	ID      string    `json:"id"`
	Name    string    `json:"name"`
	From    string    `json:"from"`
	Due     string    `json:"due"` // "" if never
	Minutes int       `json:"minutes"`
	Tuning  string    `json:"tuning"`
	Key     string    `json:"key"`
	Chords  []string  `json:"chords"`
	Moves   []string  `json:"moves"` // such as 2010>0010
	Steps   []stepRow `json:"steps"`
	Left    []string  `json:"left"`    // what the instrument cannot ask, a sentence each
	Differs []string  `json:"differs"` // what is otherwise than on the lesson's own instrument
	Things  int       `json:"things"`  // that are asked for
	Done    int       `json:"done"`    // of these; 0 of a lesson that was not taken
	State   string    `json:"state"`   // running, done, over or left; "" of a lesson that was not taken
	Taken   string    `json:"taken"`   // practice day; "" of a lesson that was not taken
}

// stepRow is a step of a lesson.
type stepRow struct {
	ID    string   `json:"id"`
	Title string   `json:"title"`
	Drill string   `json:"drill"`
	Asks  []string `json:"asks"`
}

// taughtRowOf returns a lesson as it is on an instrument.
func taughtRowOf(t lesson.Taught) taughtRow {
	r := taughtRow{ID: t.Lesson.ID, Name: t.Name, From: t.From, Due: DayOf(t.Due), Minutes: t.Minutes, Tuning: t.On.Tuning.Name,
		Chords: []string{}, Moves: []string{}, Steps: []stepRow{}, Left: []string{}, Differs: []string{}, Things: t.Things()}
	if t.Key != nil {
		r.Key = t.Key.Symbol()
	}
	for _, h := range t.Hold.Chords {
		r.Chords = append(r.Chords, h.Chord.Symbol())
	}
	for _, m := range t.Hold.Moves {
		r.Moves = append(r.Moves, m.From.String()+">"+m.To.String())
	}
	for _, s := range t.Course {
		r.Steps = append(r.Steps, stepRow{s.ID, s.Name(), s.Drill, s.Asks})
	}
	for _, l := range t.Left {
		r.Left = append(r.Left, l.Says.Screen())
	}
	for _, d := range t.Differs {
		r.Differs = append(r.Differs, d.Screen())
	}
	return r
}

// DayOf writes a practice day, "" for none.
func DayOf(d progress.Day) string {
	if d == 0 {
		return ""
	}
	return d.Date().Format(time.DateOnly)
}

func newLessonCheck() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "check FILE",
		Short:   "Say what is wrong with a lesson, by line and column, or what it asks, on each instrument that is named",
		Example: "  sparetone lesson check loop.toml\n  sparetone lesson check loop.toml --tuning ukulele-low-g --tuning baritone --tuning guitar",
	}
	tunings := cmd.Flags().StringArray("tuning", nil, "an instrument to lay it on; may be given again (default: the lesson's own)")
	command.AddJSON(cmd)
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		if len(args) != 1 {
			return command.Wrong("%s needs one FILE with a lesson", cmd.CommandPath())
		}
		l, err := ReadLesson(cmd.Context(), args[0])
		if err != nil {
			return err
		}
		on, err := instrumentsOf(*tunings, l)
		if err != nil {
			return err
		}
		o := command.NewOutput(cmd)
		for _, i := range on {
			if err := showLesson(o, l.On(i)); err != nil {
				return err
			}
		}
		return o.Done()
	}
	return cmd
}

func showLesson(o *command.Output, t lesson.Taught) error {
	if o.AsJSON {
		return o.Object(taughtRowOf(t))
	}
	o.Printf("%s, on %s: %s", theory.Clean(t.Name), t.On.Tuning.Name, command.Count(t.Things(), "thing"))
	if t.Due != 0 {
		o.Printf(", due %s", DayOf(t.Due))
	}
	o.Printf("\n")
	if len(t.Hold.Chords) > 0 {
		var chords []string
		for _, h := range t.Hold.Chords {
			says := h.Chord.String()
			for _, s := range h.Shapes {
				says += " " + s.String()
			}
			chords = append(chords, says)
		}
		o.Printf("Held to %s\n", strings.Join(chords, ", "))
	}
	for _, s := range t.Course {
		o.Printf("  %s: %s: %s\n", theory.Clean(s.Name()), s.Drill, strings.Join(s.Asks, ", "))
	}
	for _, d := range t.Differs {
		o.Printf("Otherwise: %s\n", d.Screen())
	}
	for _, l := range t.Left {
		o.Printf("Left out: %s.\n", l.Says.Screen())
	}
	return nil
}

func newLessonTake() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "take FILE",
		Short: "Take a lesson: from now on it is today's practice, until it is due or done",
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return command.Wrong("%s needs one FILE with a lesson", cmd.CommandPath())
			}
			l, err := ReadLesson(cmd.Context(), args[0])
			if err != nil {
				return err
			}
			return withLessons(cmd, func(f *store.File) error {
				switch err := session.TakeLesson(f, l, today()); {
				case errors.Is(err, session.ErrTaken):
					return command.BadInput(fmt.Errorf("%s: %w; sparetone lesson list says how it stands", theory.Clean(args[0]), err))
				case err != nil:
					return command.Fault(err)
				}
				return listLessons(cmd, f, func(t session.Lesson) bool { return t.ID == l.ID })
			})
		},
	}
	command.AddJSON(cmd)
	return cmd
}

// today is the practice day of now.
func today() progress.Day { return progress.DayOf(time.Now()) }

// withLessons does something with the progress file.
func withLessons(cmd *cobra.Command, do func(*store.File) error) error {
	f, err := command.OpenStrictly(cmd)
	if err != nil {
		return err
	}
	return errors.Join(do(f), command.Fault(f.Close()))
}

func newLessonList() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "list",
		Short: "List the lessons that were taken, and how much of each is done",
		Args:  command.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return command.ReadProgress(cmd, func(f *store.File) error {
				return listLessons(cmd, f, func(session.Lesson) bool { return true })
			})
		},
	}
	command.AddJSON(cmd)
	return cmd
}

// listLessons lists lessons that were taken.
func listLessons(cmd *cobra.Command, f *store.File, which func(session.Lesson) bool) error {
	all, err := session.Lessons(f)
	if err != nil {
		return command.Fault(err)
	}
	s := setting.Read(f)
	on, err := s.Instrument()
	if err != nil {
		return command.Fault(err)
	}
	o := command.NewOutput(cmd)
	shown := 0
	for _, l := range all {
		if !which(l) {
			continue
		}
		shown++
		r, err := session.Runs(f, l, on)
		if err != nil {
			return command.Fault(err)
		}
		done, _ := r.Done()
		state := practice.StateOf(l, r, today())
		if o.AsJSON {
			row := taughtRowOf(r.Taught)
			row.Done, row.State, row.Taken = done, string(state), DayOf(l.Taken)
			o.Object(row)
			continue
		}
		o.Printf("%s %s\n", r.Says().Screen(), state.Says().Screen())
		for _, d := range r.Differs {
			o.Printf("  On %s: %s\n", on.Tuning.Name, d.Screen())
		}
		for _, left := range r.Taught.Left {
			o.Printf("  Left out: %s.\n", left.Says.Screen())
		}
	}
	if shown == 0 && !o.AsJSON {
		o.Printf("No lesson was taken yet: sparetone lesson take FILE takes one.\n")
	}
	return o.Done()
}

func newLessonLeave() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "leave NAME",
		Short: "Give a lesson up; its answers stay, and it can be taken again",
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return command.Wrong("%s needs the name of one lesson, or its id; sparetone lesson list names them", cmd.CommandPath())
			}
			return withLessons(cmd, func(f *store.File) error {
				all, err := session.Lessons(f)
				if err != nil {
					return command.Fault(err)
				}
				var names []string
				for _, l := range all {
					if l.ID == args[0] || strings.EqualFold(l.Name, args[0]) {
						if err := session.LeaveLesson(f, l); err != nil {
							return command.Fault(err)
						}
						return listLessons(cmd, f, func(t session.Lesson) bool { return t.ID == l.ID })
					}
					names = append(names, theory.Clean(l.Name))
				}
				if names == nil {
					return command.BadInput(errors.New("no lesson was taken yet"))
				}
				return command.BadInput(fmt.Errorf("%q: no lesson of that name was taken; there are %s", theory.Clip(args[0]), strings.Join(names, ", ")))
			})
		},
	}
	command.AddJSON(cmd)
	return cmd
}
