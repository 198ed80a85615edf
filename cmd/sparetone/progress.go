package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"sparetone/progress"
)

func newProgress() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "progress",
		Short: "Say what is remembered, and look after the file it is kept in",
		Args:  noArgs,
		RunE:  showProgress,
	}
	addJSON(cmd)
	cmd.AddCommand(newWeak(), newExport(), newImport(), newBackup(), newCheck())
	return cmd
}

// progressRow is a part of what is known, as --json prints it: everything, one drill, one target of a
// drill, or one tuning.
type progressRow struct {
	Part  string    `json:"part"` // all, drill, target or tuning
	Name  string    `json:"name"`
	Items int       `json:"items"` // that were ever asked
	Known float64   `json:"known"` // of these, as many as would be right today
	Due   int       `json:"due"`
	Weak  int       `json:"weak"`
	Asked int       `json:"asked"` // in the last eight weeks
	Right int       `json:"right"`
	Low   float64   `json:"low"` // the ends of the 95 % interval of their share
	High  float64   `json:"high"`
	Weeks []weekRow `json:"weeks"` // all there are
}

// weekRow is how a week's answers came out.
type weekRow struct {
	Begins string `json:"begins"`
	Asked  int    `json:"asked"`
	Right  int    `json:"right"`
}

// parts takes an item's id apart: the drill, the target and the tuning. See drills.ItemID.
func parts(item string) (drill, target, tuning string) {
	drill, rest, _ := strings.Cut(item, "/")
	i := strings.LastIndexByte(rest, '/')
	if i < 0 {
		return drill, rest, ""
	}
	return drill, rest[:i], rest[i+1:]
}

// partings are the ways in which what is known is divided.
var partings = []struct {
	part string
	name func(item string) string
}{
	{"all", func(string) string { return "all" }},
	{"drill", func(item string) string { d, _, _ := parts(item); return d }},
	{"target", func(item string) string { d, t, _ := parts(item); return d + "/" + t }},
	{"tuning", func(item string) string { _, _, t := parts(item); return t }},
}

// divide sums up standings by part.
func divide(standings []progress.Standing, now time.Time) []progressRow {
	var rows []progressRow
	for _, p := range partings {
		byName := map[string]*progressRow{}
		weeks := map[string]map[string]progress.Tally{}
		for _, s := range standings {
			name := p.name(s.Item)
			row := byName[name]
			if row == nil {
				row = &progressRow{Part: p.part, Name: name, Weeks: []weekRow{}}
				byName[name], weeks[name] = row, map[string]progress.Tally{}
			}
			row.Items++
			row.Known += s.Chance
			row.Asked += s.Latest.Asked
			row.Right += s.Latest.Held
			if !s.Due.After(now) {
				row.Due++
			}
			if s.Weak {
				row.Weak++
			}
			for _, w := range s.Weeks {
				begins := w.Begins.Format(time.DateOnly)
				t := weeks[name][begins]
				t.Asked += w.Asked
				t.Held += w.Held
				weeks[name][begins] = t
			}
		}
		first := len(rows)
		for name, row := range byName {
			rate := progress.RateOf(progress.Tally{Asked: row.Asked, Held: row.Right})
			row.Low, row.High = rate.Low, rate.High
			for begins, t := range weeks[name] {
				row.Weeks = append(row.Weeks, weekRow{begins, t.Asked, t.Held})
			}
			slices.SortFunc(row.Weeks, func(a, b weekRow) int { return strings.Compare(a.Begins, b.Begins) })
			rows = append(rows, *row)
		}
		slices.SortFunc(rows[first:], func(a, b progressRow) int { return strings.Compare(a.Name, b.Name) })
	}
	return rows
}

func showProgress(cmd *cobra.Command, _ []string) error {
	file, err := readProgress(cmd)
	if err != nil {
		return err
	}
	defer file.Close()
	standings, err := file.Standings()
	if err != nil {
		return fault(err)
	}
	o := newOutput(cmd)
	rows := divide(standings, time.Now())
	if o.json {
		for _, row := range rows {
			if err := o.object(row); err != nil {
				return err
			}
		}
		return o.done()
	}
	if len(rows) == 0 {
		o.printf("Nothing has been practised yet.\n")
		return o.done()
	}
	sessions, err := file.Sessions()
	if err != nil {
		return fault(err)
	}
	if len(sessions) > 0 {
		o.printf("%s since %s. ", count(len(sessions), "session"), sessions[0].Began.Local().Format("2 January 2006"))
	}
	o.printf("%d due now, %d weak.\n", rows[0].Due, rows[0].Weak)
	part := ""
	for _, row := range rows {
		if row.Part == "target" {
			continue
		}
		if row.Part != part {
			part = row.Part
			o.printf("\n%-18s %5s %5s  %-26s %s\n", heading[part], "items", "known", "right in eight weeks", "last weeks")
		}
		o.printf("%-18s %5d %5.0f  %-26s %s\n", printable(row.Name), row.Items, row.Known, rate(row.Right, row.Asked), trend(row.Weeks))
	}
	return o.done()
}

// heading stands above the names of a part.
var heading = map[string]string{"drill": "by drill", "tuning": "by tuning"}

// rate writes a share with its interval.
func rate(right, asked int) string {
	if asked == 0 {
		return "not asked"
	}
	r := progress.RateOf(progress.Tally{Asked: asked, Held: right})
	return fmt.Sprintf("%d of %d (%.0f to %.0f %%)", right, asked, 100*r.Low, 100*r.High)
}

// trend writes the share of right answers of the last weeks, the latest last.
func trend(weeks []weekRow) string {
	var out []string
	for _, w := range weeks[max(0, len(weeks)-3):] {
		out = append(out, fmt.Sprintf("%3.0f", 100*float64(w.Right)/float64(w.Asked)))
	}
	return strings.Join(out, " ")
}

func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// weakRow is a weak item as --json prints it.
type weakRow struct {
	Item     string     `json:"item"`
	Drill    string     `json:"drill"`
	Target   string     `json:"target"`
	Tuning   string     `json:"tuning"`
	Chance   float64    `json:"chance"` // of being right today
	Asked    int        `json:"asked"`  // in the last eight weeks
	Right    int        `json:"right"`
	Low      float64    `json:"low"` // the ends of the 95 % interval of their share
	High     float64    `json:"high"`
	Due      time.Time  `json:"due"`
	TakenFor []takenRow `json:"taken_for"` // three times or more
}

// takenRow is what an item is taken for.
type takenRow struct {
	Item  string  `json:"item"`
	Times int     `json:"times"`
	Low   float64 `json:"low"` // the ends of the 95 % interval of the share of the answers
	High  float64 `json:"high"`
}

func newWeak() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "weak",
		Short: "List what is missed more than chance explains, and what it is taken for",
		Args:  noArgs,
		RunE:  showWeak,
	}
	addJSON(cmd)
	return cmd
}

func showWeak(cmd *cobra.Command, _ []string) error {
	file, err := readProgress(cmd)
	if err != nil {
		return err
	}
	defer file.Close()
	standings, err := file.Standings()
	if err != nil {
		return fault(err)
	}
	o := newOutput(cmd)
	weak := slices.DeleteFunc(standings, func(s progress.Standing) bool { return !s.Weak })
	if len(weak) == 0 && !o.json {
		o.printf("Nothing is weak: no item was missed more than chance explains.\n")
	}
	for _, s := range weak {
		row := weakRow{Item: s.Item, Chance: s.Chance, Asked: s.Latest.Asked, Right: s.Latest.Held, Low: s.Latest.Low, High: s.Latest.High, Due: s.Due, TakenFor: []takenRow{}}
		row.Drill, row.Target, row.Tuning = parts(s.Item)
		for _, t := range s.Taken {
			if t.Claimed() {
				row.TakenFor = append(row.TakenFor, takenRow{t.Item, t.Times, t.Low, t.High})
			}
		}
		if o.json {
			if err := o.object(row); err != nil {
				return err
			}
			continue
		}
		o.printf("%s, %s (%s)\n  right %s\n", printable(row.Drill), printable(row.Target), printable(row.Tuning), rate(row.Right, row.Asked))
		for _, t := range row.TakenFor {
			_, target, _ := parts(t.Item)
			o.printf("  taken for %s %d times: %.0f to %.0f %% of its answers\n", printable(target), t.Times, 100*t.Low, 100*t.High)
		}
	}
	return o.done()
}

func newExport() *cobra.Command {
	var asCSV bool
	cmd := &cobra.Command{
		Use:   "export [FILE]",
		Short: "Write all sessions and answers as JSON lines, or the answers as CSV",
		Args:  atMostOne,
		RunE: func(cmd *cobra.Command, args []string) error {
			file, err := readProgress(cmd)
			if err != nil {
				return err
			}
			defer file.Close()
			export := file.ExportJSON
			if asCSV {
				export = file.ExportCSV
			}
			if len(args) == 0 || args[0] == "-" {
				return fault(export(cmd.OutOrStdout()))
			}
			return fault(writeNew(args[0], export))
		},
	}
	cmd.Flags().BoolVar(&asCSV, "csv", false, "answers only, as comma-separated values")
	return cmd
}

// writeNew writes a file that was not there before, or leaves none.
func writeNew(path string, write func(io.Writer) error) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	if err := errors.Join(write(f), f.Sync(), f.Close()); err != nil {
		return errors.Join(err, os.Remove(path))
	}
	return nil
}

// importRow is what came of an import, as --json prints it.
type importRow struct {
	Input string `json:"input"`
	Added int    `json:"added"`
	Known int    `json:"known"` // were there already
}

func newImport() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "import FILE…",
		Short: "Add what an export holds: all of it, or nothing; what is there stays",
		Long: "Add what an export holds, as JSON lines or CSV. What is there already stays as it is, so an\n" +
			"export may come twice, and two machines that take in each other's hold the same.\n" +
			"An export with a fault in it changes nothing. - reads standard input.",
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return callWrong("%s needs a file, or - for standard input", cmd.CommandPath())
			}
			file, err := openStrictly(cmd)
			if err != nil {
				return err
			}
			defer file.Close()
			o := newOutput(cmd)
			for _, arg := range args {
				got, err := importFrom(cmd, file, arg)
				if err != nil {
					return err
				}
				if o.json {
					if err := o.object(importRow{arg, got.Added, got.Known}); err != nil {
						return err
					}
					continue
				}
				o.printf("%s added, %d were there already.\n", count(got.Added, "answer"), got.Known)
			}
			return o.done()
		},
	}
	addJSON(cmd)
	return cmd
}

func importFrom(cmd *cobra.Command, file *progress.File, arg string) (progress.Imported, error) {
	in := cmd.InOrStdin()
	if arg != "-" {
		f, err := os.Open(arg)
		if err != nil {
			return progress.Imported{}, fault(err)
		}
		defer f.Close()
		in = f
	}
	got, err := file.Import(in)
	if err != nil {
		return got, withStatus{fmt.Errorf("%s: %w", printable(arg), err), inputWrong}
	}
	return got, nil
}

func newBackup() *cobra.Command {
	return &cobra.Command{
		Use:   "backup [FILE]",
		Short: "Copy the progress file, beside it or to a file that is not there yet",
		Args:  atMostOne,
		RunE: func(cmd *cobra.Command, args []string) error {
			file, err := openThere(cmd)
			if err != nil {
				return err
			}
			defer file.Close()
			path := ""
			if len(args) > 0 {
				path, err = args[0], file.SaveAs(args[0])
			} else {
				path, err = file.Backup()
			}
			if err != nil {
				return fault(err)
			}
			o := newOutput(cmd)
			o.printf("%s\n", printable(path))
			return o.done()
		},
	}
}

func newCheck() *cobra.Command {
	return &cobra.Command{
		Use:   "check",
		Short: "Prove that the progress file is sound",
		Args:  noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			file, err := openThere(cmd)
			if err != nil {
				return err
			}
			defer file.Close()
			h, err := file.Check()
			if err != nil {
				return fault(err)
			}
			if len(h.Damaged) > 0 {
				more := ""
				if n := len(h.Damaged) - 1; n > 0 {
					more = fmt.Sprintf(" and %d more", n)
				}
				return fault(fmt.Errorf("%s is damaged: %s%s; the last seven backups lie in the folder backups beside it", file.Path(), h.Damaged[0], more))
			}
			o := newOutput(cmd)
			o.printf("Sound: %s of %s in %s.\n", count(h.Answers, "answer"), count(h.Items, "item"), count(h.Sessions, "session"))
			if h.Stale {
				if err := file.Rebuild(); err != nil {
					return fault(err)
				}
				o.printf("What is worked out from the answers did not follow from them; it was made again.\n")
			}
			return o.done()
		},
	}
}

// atMostOne refuses a second argument.
func atMostOne(cmd *cobra.Command, args []string) error {
	if len(args) > 1 {
		return callWrong("%s takes one file", cmd.CommandPath())
	}
	return nil
}

// openStrictly opens the progress file, and makes it if it is not there.
func openStrictly(cmd *cobra.Command) (*progress.File, error) {
	path, err := progressPath(cmd)
	if err != nil {
		return nil, fault(err)
	}
	f, err := progress.Open(path, time.Now)
	return f, fault(err)
}

// openThere opens a progress file that has to be there.
func openThere(cmd *cobra.Command) (*progress.File, error) {
	path, err := progressPath(cmd)
	if err != nil {
		return nil, fault(err)
	}
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return nil, fault(fmt.Errorf("there is no progress file at %s yet", path))
	}
	return openStrictly(cmd)
}

// readProgress opens the progress file to read it; where there is none yet, it reads as empty.
func readProgress(cmd *cobra.Command) (*progress.File, error) {
	path, err := progressPath(cmd)
	if err != nil {
		return nil, fault(err)
	}
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		f, err := progress.InMemory(time.Now)
		return f, fault(err)
	}
	return openStrictly(cmd)
}
