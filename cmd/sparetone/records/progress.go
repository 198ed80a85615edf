package records

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/progress"
	"sparetone/progress/memory"
	"sparetone/progress/store"
	"sparetone/theory"
)

func NewProgress() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "progress",
		Short: "Say what is remembered, and look after the file it is kept in",
		Long: "Say what is remembered, and look after the file it is kept in.\n" +
			"Known are the items whose last answer was right, each counted by its chance of being right again\n" +
			"today, or tomorrow where it was asked today. Below stands how often you were right where that was\n" +
			"foretold with some chance.",
		Args: command.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return command.ReadProgress(cmd, func(f *store.File) error { return showProgress(cmd, f) })
		},
	}
	command.AddJSON(cmd)
	cmd.AddCommand(newWeak(), newExport(), newImport(), newUndo(), newSync(), newName(), newBackup(), newCheck(), newRestore(), newRescue())
	return cmd
}

// ProgressRow is a part of what is known, as --json prints it: everything, one drill, one target of a
// drill, or one tuning.
type ProgressRow struct {
	Part  string    `json:"part"` // all, drill, target or tuning
	Name  string    `json:"name"`
	Items int       `json:"items"` // that were ever asked
	Known float64   `json:"known"` // of these, right the last time, as many as would be again today, or tomorrow where asked today
	Due   int       `json:"due"`
	Weak  int       `json:"weak"`
	Asked int       `json:"asked"` // in the last eight weeks
	Right int       `json:"right"`
	Low   float64   `json:"low"` // the ends of the 95 % interval of their share
	High  float64   `json:"high"`
	Weeks []weekRow `json:"weeks"` // all there are
}

// TakenBackRow counts what was played or sung and taken back, as --json prints it, where anything was.
type TakenBackRow struct {
	Part string `json:"part"` // taken back
	progress.TakenBack
}

// weekRow is how a week's answers came out.
type weekRow struct {
	Begins string `json:"begins"`
	Asked  int    `json:"asked"`
	Right  int    `json:"right"`
}

// partings are the ways in which what is known is divided.
var partings = []struct {
	part string
	name func(item string) string
}{
	{"all", func(string) string { return "all" }},
	{"drill", func(item string) string { d, _, _ := drills.SplitItem(item); return d }},
	{"target", func(item string) string { d, t, _ := drills.SplitItem(item); return d + "/" + t }},
	{"tuning", func(item string) string { _, _, t := drills.SplitItem(item); return t }},
}

// divide sums up standings by part.
func divide(standings []memory.Standing, now time.Time) []ProgressRow {
	var rows []ProgressRow
	for _, p := range partings {
		byName := map[string]*ProgressRow{}
		weeks := map[string]map[string]memory.Tally{}
		for _, s := range standings {
			name := p.name(s.Item)
			row := byName[name]
			if row == nil {
				row = &ProgressRow{Part: p.part, Name: name, Weeks: []weekRow{}}
				byName[name], weeks[name] = row, map[string]memory.Tally{}
			}
			row.Items++
			if s.Holds {
				row.Known += s.Chance
			}
			row.Asked += s.Latest.Asked
			row.Right += s.Latest.Right
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
				t.Right += w.Right
				weeks[name][begins] = t
			}
		}
		first := len(rows)
		for name, row := range byName {
			rate := memory.RateOf(memory.Tally{Asked: row.Asked, Right: row.Right})
			row.Low, row.High = rate.Low, rate.High
			for begins, t := range weeks[name] {
				row.Weeks = append(row.Weeks, weekRow{begins, t.Asked, t.Right})
			}
			slices.SortFunc(row.Weeks, func(a, b weekRow) int { return strings.Compare(a.Begins, b.Begins) })
			rows = append(rows, *row)
		}
		slices.SortFunc(rows[first:], func(a, b ProgressRow) int { return strings.Compare(a.Name, b.Name) })
	}
	return rows
}

func showProgress(cmd *cobra.Command, file *store.File) error {
	standings, err := file.Standings()
	if err != nil {
		return command.Fault(err)
	}
	o := command.NewOutput(cmd)
	clock, err := file.Clock()
	if err != nil {
		return command.Fault(err)
	}
	known, _, err := file.Known()
	if err != nil {
		return command.Fault(err)
	}
	back, err := file.TakenBack()
	if err != nil {
		return command.Fault(err)
	}
	rows, held := divide(standings, clock.Now), foretold(known)
	if o.AsJSON {
		for _, row := range rows {
			o.Object(row)
		}
		for _, row := range held {
			o.Object(row)
		}
		if !back.IsZero() {
			o.Object(TakenBackRow{"taken back", back})
		}
		return o.Done()
	}
	doubted, err := file.Doubted()
	if err != nil {
		return command.Fault(err)
	}
	if len(rows) == 0 && doubted == 0 && back.IsZero() {
		o.Printf("Nothing has been practised yet.\n")
		return o.Done()
	}
	sessions, err := file.Sessions()
	if err != nil {
		return command.Fault(err)
	}
	if n := len(sessions); n > 0 {
		o.Printf("%s", command.Count(n, "session"))
		if i := slices.IndexFunc(sessions, func(s progress.Session) bool { return !s.Doubted }); i >= 0 {
			o.Printf(" since %s", sessions[i].Began.Local().Format("2 January 2006"))
		}
		o.Printf(". ")
	}
	if len(rows) > 0 {
		o.Printf("%s\n", sayDue(rows[0].Due, rows[0].Weak))
	}
	if doubted > 0 {
		o.Printf("%s\n", SayDoubted(doubted))
	}
	if said := practice.SayTakenBack(back); !said.IsZero() {
		o.Printf("%s\n", said.Screen())
	}
	if len(rows) == 0 {
		return o.Done()
	}
	part := ""
	for _, row := range rows {
		if row.Part == "target" {
			continue
		}
		if row.Part != part {
			part = row.Part
			o.Printf("\n%-18s %5s %5s  %-26s %s\n", heading[part], "items", "known", "right in eight weeks", "last weeks, %")
		}
		o.Printf("%-18s %5d %5.0f  %-26s %s\n", theory.Clean(row.Name), row.Items, row.Known, Rate(row.Right, row.Asked), trend(row.Weeks))
	}
	o.Printf("\nKnown is what was right the last time, less what has faded since.\n")
	o.Printf("In brackets: where the share truly lies, 95 times in 100.\n")
	sayForetold(o, held)
	return o.Done()
}

// sayDue says how many things need practice and how many are weak.
func sayDue(due, weak int) string {
	need := "things need"
	if due == 1 {
		need = "thing needs"
	}
	return fmt.Sprintf("%d %s practice now, %d weak.", due, need, weak)
}

// heading stands above the names of a part.
var heading = map[string]string{"drill": "by drill", "tuning": "by tuning"}

// trend writes the share of right answers of the last weeks, the latest last.
func trend(weeks []weekRow) string {
	var out []string
	for _, w := range weeks[max(0, len(weeks)-3):] {
		out = append(out, fmt.Sprintf("%3.0f", 100*float64(w.Right)/float64(w.Asked)))
	}
	return strings.Join(out, " ")
}
