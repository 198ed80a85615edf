package teaching

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills/class"
	"sparetone/progress"
	"sparetone/progress/exported"
	"sparetone/progress/memory"
	"sparetone/progress/whole"
	"sparetone/theory"
	"sparetone/tui/draw/classes"
)

// classOptions is what a class is looked at with.
type classOptions struct {
	roster, since, on     string
	html, lessons, tables string
	csv, force            bool
}

func NewClass() *cobra.Command {
	var o classOptions
	cmd := &cobra.Command{
		Use:   "class FOLDER",
		Short: "See how a class is doing, from the files that students hand in",
		Long: "See how a class is doing, from the files in a folder: what students hand in, and what sparetone progress\n" +
			"export writes. Files of one student count once; nothing is taken into any progress file. Who was silent\n" +
			"for a week comes first; what is weak is counted by students. Of guessing only what it hardly explains is said.",
		Example: "  sparetone class monday\n  sparetone class monday --roster names.txt --since 2026-03-04 --html monday.html\n  sparetone class monday --write-lessons next",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return command.Wrong("%s takes one folder, with the files that students handed in", cmd.CommandPath())
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return showClass(cmd, args[0], o) },
	}
	f := cmd.Flags()
	f.StringVar(&o.roster, "roster", "", "a file with the names of all who belong to the class, one a line")
	f.StringVar(&o.since, "since", "", "say what changed since a day, such as 2026-03-04")
	f.StringVar(&o.on, "on", "", "look at the class as on a day, such as 2026-03-11; else today")
	f.StringVar(&o.html, "html", "", "write a page of it that needs no other file")
	f.StringVar(&o.lessons, "write-lessons", "", "write the proposed lessons into a folder that is not there yet")
	f.StringVar(&o.tables, "tables", "", "write students, sessions, answers and items as tables for PostgreSQL into a folder that is not there yet")
	f.BoolVar(&o.csv, "csv", false, "a row a student, as comma-separated values")
	command.AddForce(cmd, "replace a page that is there already")
	command.AddJSON(cmd)
	cmd.MarkFlagsMutuallyExclusive("csv", "json")
	return cmd
}

// dayOption reads a day that an option names.
func dayOption(name, text string) (progress.Day, error) {
	date, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return 0, command.Wrong("--%s: %q is no day; one is written 2026-03-04", name, theory.Clip(text))
	}
	return progress.DayOf(date.Add(12 * time.Hour)), nil
}

// look reads the options of a class.
func (o classOptions) look(cmd *cobra.Command) (how class.Options, err error) {
	how.Today = progress.DayOf(time.Now())
	if o.on != "" {
		if how.Today, err = dayOption("on", o.on); err != nil {
			return how, err
		}
	}
	if o.since != "" {
		if how.Since, err = dayOption("since", o.since); err != nil {
			return how, err
		}
		if how.Since > how.Today {
			return how, command.Wrong("--since: %s is after the day that the class is looked at, %s", o.since, how.Today.Date().Format(time.DateOnly))
		}
	}
	if o.roster != "" {
		f, err := command.OpenInput(cmd.Context(), o.roster)
		if err != nil {
			return how, command.Fault(err)
		}
		defer f.Close()
		if how.Roster, err = class.ReadRoster(command.Interruptible(cmd.Context(), f)); err != nil {
			return how, command.OrStatus(fmt.Errorf("%s: %w", theory.Clean(o.roster), err), command.InputWrong)
		}
	}
	return how, nil
}

func showClass(cmd *cobra.Command, folder string, o classOptions) error {
	o.force = command.Forced(cmd)
	how, err := o.look(cmd)
	if err != nil {
		return err
	}
	for _, f := range []struct{ option, path string }{{"html", o.html}, {"write-lessons", o.lessons}, {"tables", o.tables}} {
		if f.path != "" && !whole.NotThere(f.path) && !(f.option == "html" && o.force) {
			other := ""
			if f.option == "html" {
				other = ", or replace it with --force"
			}
			return command.Wrong("--%s: %s is there already; name another%s", f.option, theory.Clean(f.path), other)
		}
	}
	if about, err := os.Stat(folder); errors.Is(err, fs.ErrNotExist) {
		return command.Fault(fmt.Errorf("%s: there is no such folder; name the one with the files that students handed in", theory.Clean(folder)))
	} else if err != nil {
		return command.Fault(err)
	} else if !about.IsDir() {
		return command.Wrong("%s is a file; name the folder that it lies in", theory.Clean(folder))
	}
	read := func(how class.Options) (*class.Report, error) {
		return class.Read(cmd.Context(), os.DirFS(folder), how)
	}
	var r *class.Report
	if o.tables == "" {
		r, err = read(how)
	} else {
		err = whole.Folder(o.tables, 0o777, func(dir string) error {
			r, err = class.WriteTables(dir, how, read)
			return err
		})
	}
	if err != nil {
		return command.OrStatus(fmt.Errorf("%s: %w", theory.Clean(folder), err), command.InputWrong)
	}
	out := command.NewOutput(cmd)
	for _, p := range r.Problems {
		said := p.Says
		if p.File != "" {
			said = p.File + ": " + p.Says
		}
		if out.AsJSON {
			if err := out.Object(command.Refused{Input: p.File, Error: p.Says}); err != nil {
				return err
			}
		} else if _, err := fmt.Fprintln(out.Errs, "sparetone:", theory.Clean(said)); err != nil {
			return command.Fault(err)
		}
	}
	if err := o.write(r); err != nil {
		return err
	}
	switch {
	case out.AsJSON:
		err = classJSON(out, r)
	case o.csv:
		err = classCSV(out, r)
	default:
		classText(out, r)
		o.sayWritten(out, r)
	}
	if err != nil {
		return err
	}
	if err := out.Done(); err != nil {
		return err
	}
	if slices.ContainsFunc(r.Problems, func(p class.Problem) bool { return !p.Counts }) {
		return command.ErrReported
	}
	return nil
}

// write writes the files that were asked for.
func (o classOptions) write(r *class.Report) error {
	if o.html != "" {
		if err := command.WriteFile(o.html, o.force, func(f *os.File) error { _, err := f.WriteString(classes.HTML(r)); return err }); err != nil {
			return command.Fault(err)
		}
	}
	if o.lessons == "" || proposed(r) == 0 {
		return nil
	}
	return command.Fault(whole.Folder(o.lessons, 0o777, func(dir string) error {
		for _, g := range r.Groups {
			text := g.File()
			if text == nil {
				continue
			}
			if err := whole.Synced(dir+string(os.PathSeparator)+g.ID+".toml", command.ForAll, func(f *os.File) error { _, err := f.Write(text); return err }); err != nil {
				return err
			}
		}
		return nil
	}))
}

// proposed counts the lessons that are proposed.
func proposed(r *class.Report) (n int) {
	for _, g := range r.Groups {
		if g.File() != nil {
			n++
		}
	}
	return n
}

// sayWritten says what was written beside the text.
func (o classOptions) sayWritten(out *command.Output, r *class.Report) {
	if o.html != "" {
		out.Printf("\n%s: the class as a page.\n", theory.Clean(o.html))
	}
	switch n := proposed(r); {
	case o.lessons == "":
	case n == 0:
		out.Printf("\nNo lesson is proposed to anybody: %s was not written.\n", theory.Clean(o.lessons))
	default:
		out.Printf("\n%s: the proposed lessons, %s.\n", theory.Clean(o.lessons), command.Count(n, "file"))
	}
}

// StudentRow is a student as --json prints one.
type StudentRow struct {
	Kind    string     `json:"kind"` // student
	Name    string     `json:"name"`
	ID      string     `json:"id"` // of the progress file; "" if there is none
	Files   []string   `json:"files"`
	Listed  bool       `json:"listed"` // on the roster, or there is none
	Silent  bool       `json:"silent"`
	Last    string     `json:"last"` // practice day; "" if there is none
	Days    int        `json:"days"`
	Minutes float64    `json:"minutes"`
	Answers int        `json:"answers"`
	Played  int        `json:"played"` // of these, played on an instrument or sung
	Back    backRow    `json:"taken_back"`
	Lesson  *lessonRow `json:"lesson"`  // the latest; null if none was taken
	Verdict string     `json:"verdict"` // what the numbers show
	Says    string     `json:"says"`
	Ear     knownRow   `json:"ear"` // in the last eight weeks
	Eye     knownRow   `json:"eye"`
	Ever    knownRow   `json:"first_ever"` // the first answer ever to each thing
	Change  *changeRow `json:"change"`     // null if there is none
	Tunings []string   `json:"tunings"`
	Weak    []weakItem `json:"weak"`
	Doubted int        `json:"doubted"` // answers that were given while a clock was wrong
}

// backRow is how much of what was played was taken back: before it counted, and after.
type backRow progress.TakenBack

type lessonRow struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Due  string `json:"due"`
	Done int    `json:"done"`
	Of   int    `json:"of"`
}

// knownRow is how much of what was asked is known.
type knownRow struct {
	Asked   int     `json:"asked"`
	Right   int     `json:"right"`
	Guessed float64 `json:"guessed"` // right on average by guessing alone
	Known   int     `json:"known"`   // of a hundred, guessing taken out
	Low     int     `json:"low"`     // the ends of the 95 % interval
	High    int     `json:"high"`
}

type changeRow struct {
	By     float64 `json:"by"`  // points of a hundred
	Low    float64 `json:"low"` // the ends of the 95 % interval
	High   float64 `json:"high"`
	Things int     `json:"things"` // asked as closely before and after
	Told   bool    `json:"told"`   // from no change
}

type weakItem struct {
	Item    string `json:"item"`
	Asked   int    `json:"asked"`
	Right   int    `json:"right"`
	Chance  bool   `json:"at_chance"`
	TakenAs string `json:"taken_for"` // name of what it is mostly taken for; "" if of nothing
}

func knownRowOf(t memory.Tally) knownRow {
	s, _ := class.KnownOf(t)
	return knownRow{t.Asked, t.Right, float64(int(100*t.Guessed+0.5)) / 100, s.Known, s.Low, s.High}
}

// tenth rounds to a tenth.
func tenth(x float64) float64 {
	t, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'f', 1, 64), 64)
	return t
}

func studentRowOf(s *class.Student) StudentRow {
	r := StudentRow{
		Kind: "student", Name: s.Name, ID: s.ID, Files: append([]string{}, s.Files...), Listed: s.Listed, Silent: s.IsSilent(), Last: dateOf(s.Last), Days: s.Days,
		Minutes: tenth(s.Minutes), Answers: s.Answers, Played: s.Played, Back: backRow(s.Back), Verdict: string(s.Finding.Verdict), Says: s.Finding.Says().Screen(), Ear: knownRowOf(s.Ear), Eye: knownRowOf(s.Eye),
		Ever: knownRowOf(s.Ever), Tunings: append([]string{}, s.Tunings...), Weak: []weakItem{}, Doubted: s.Doubted,
	}
	if l := s.Lesson; l.Things > 0 {
		r.Lesson = &lessonRow{l.ID, l.Name, l.Due, l.Done, l.Things}
	}
	if c := s.Change; c != nil {
		r.Change = &changeRow{tenth(100 * c.By), tenth(100 * c.Low), tenth(100 * c.High), c.Things, c.Says()}
	}
	for _, i := range s.Items {
		if i.Weak {
			r.Weak = append(r.Weak, weakItem{i.Thing.Item, i.Asked, i.Right, i.Chance, i.Mostly})
		}
	}
	return r
}

func dateOf(d progress.Day) string {
	if d == 0 {
		return ""
	}
	return d.Date().Format(time.DateOnly)
}

// The other rows that --json prints.
type (
	WeakThingRow struct {
		Kind     string   `json:"kind"` // weak
		Item     string   `json:"item"`
		Name     string   `json:"name"`
		Tuning   string   `json:"tuning"`
		Ear      bool     `json:"ear"`
		Tested   int      `json:"tested"` // students who were asked it often enough
		Weak     int      `json:"weak"`   // of these
		Low      float64  `json:"low"`    // the ends of the 95 % interval of their share
		High     float64  `json:"high"`
		Chance   int      `json:"at_chance"` // of the weak
		Mostly   string   `json:"taken_for"`
		Students []string `json:"students"`
	}
	classGroupRow struct {
		Kind     string   `json:"kind"` // group
		Group    string   `json:"group"`
		Title    string   `json:"title"`
		Students []string `json:"students"`
		Asks     []string `json:"asks"` // of the proposed lesson
	}
	playRow struct {
		Kind string   `json:"kind"` // play
		Item string   `json:"item"`
		Weak int      `json:"weak"`
		Told []string `json:"told"`
	}
	everRow struct {
		Kind string `json:"kind"` // first_ever
		knownRow
	}
)

func classJSON(o *command.Output, r *class.Report) error {
	var rows []any
	for _, s := range r.Students {
		rows = append(rows, studentRowOf(s))
	}
	for _, w := range r.Weak {
		rows = append(rows, WeakThingRow{"weak", w.Item, w.Name, w.Tuning, w.Ear, w.Tested, w.Weak, w.Low, w.High, w.Chance, w.Mostly, w.Students})
	}
	rows = append(rows, everRow{"first_ever", knownRowOf(r.Ever)})
	for _, g := range r.Groups {
		row := classGroupRow{"group", g.ID, g.Title().Screen(), append([]string{}, g.Students...), []string{}}
		for _, a := range g.Asks() {
			row.Asks = append(row.Asks, a.Screen())
		}
		rows = append(rows, row)
	}
	for _, p := range r.Play {
		row := playRow{"play", p.Thing.Item, p.Weak, nil}
		for _, t := range p.Told {
			row.Told = append(row.Told, t.Screen())
		}
		rows = append(rows, row)
	}
	for _, row := range rows {
		if err := o.Object(row); err != nil {
			return err
		}
	}
	return nil
}

// classColumns are the columns of --csv.
var classColumns = []struct {
	name string
	of   func(r StudentRow) string
}{
	{"name", func(r StudentRow) string { return exported.Cell(r.Name) }},
	{"id", func(r StudentRow) string { return exported.Cell(r.ID) }},
	{"silent", func(r StudentRow) string { return strconv.FormatBool(r.Silent) }},
	{"last", func(r StudentRow) string { return r.Last }},
	{"days", func(r StudentRow) string { return strconv.Itoa(r.Days) }},
	{"minutes", func(r StudentRow) string { return fmt.Sprint(r.Minutes) }},
	{"answers", func(r StudentRow) string { return strconv.Itoa(r.Answers) }},
	{"played", func(r StudentRow) string { return strconv.Itoa(r.Played) }},
	{"lesson", func(r StudentRow) string {
		if r.Lesson == nil {
			return ""
		}
		return exported.Cell(theory.Clean(r.Lesson.Name))
	}},
	{"lesson_done", func(r StudentRow) string {
		if r.Lesson == nil {
			return ""
		}
		return strconv.Itoa(r.Lesson.Done)
	}},
	{"lesson_of", func(r StudentRow) string {
		if r.Lesson == nil {
			return ""
		}
		return strconv.Itoa(r.Lesson.Of)
	}},
	{"verdict", func(r StudentRow) string { return r.Verdict }},
	{"ear_asked", func(r StudentRow) string { return strconv.Itoa(r.Ear.Asked) }},
	{"ear_right", func(r StudentRow) string { return strconv.Itoa(r.Ear.Right) }},
	{"ear_known", func(r StudentRow) string { return strconv.Itoa(r.Ear.Known) }},
	{"eye_asked", func(r StudentRow) string { return strconv.Itoa(r.Eye.Asked) }},
	{"eye_right", func(r StudentRow) string { return strconv.Itoa(r.Eye.Right) }},
	{"eye_known", func(r StudentRow) string { return strconv.Itoa(r.Eye.Known) }},
	{"weak", func(r StudentRow) string {
		var items []string
		for _, w := range r.Weak {
			items = append(items, w.Item)
		}
		return exported.Cell(strings.Join(items, " "))
	}},
	{"taken_back_heard", func(r StudentRow) string { return strconv.Itoa(r.Back.Heard) }},
	{"taken_back_counted", func(r StudentRow) string { return strconv.Itoa(r.Back.Counted) }},
}

func classCSV(o *command.Output, r *class.Report) error {
	w := csv.NewWriter(o.Text)
	row := make([]string, len(classColumns))
	for i, c := range classColumns {
		row[i] = c.name
	}
	w.Write(row)
	for _, s := range r.Students {
		of := studentRowOf(s)
		for i, c := range classColumns {
			row[i] = c.of(of)
		}
		w.Write(row)
	}
	w.Flush()
	return command.Fault(w.Error())
}
