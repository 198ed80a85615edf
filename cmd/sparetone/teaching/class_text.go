package teaching

import (
	"fmt"
	"strings"

	"github.com/clipperhouse/displaywidth"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills/class"
	"sparetone/drills/practice"
	"sparetone/progress/memory"
)

// classText says how a class is doing, for people.
func classText(o *command.Output, r *class.Report) {
	silent := 0
	for _, s := range r.Students {
		if s.IsSilent() {
			silent++
		}
	}
	o.Printf("%s on %s, %d of them silent.\n\n", command.Count(len(r.Students), "student"), r.Today.Date().Format("2 January 2006"), silent)
	rows := [][]string{{"student", "last seen", "days", "min", "lesson", "ear %", "eye %", ""}}
	if r.Since > 0 {
		rows[0][7] = "since " + r.Since.Date().Format("2 January")
	}
	for _, s := range r.Students {
		row := []string{s.Name, "never", fmt.Sprint(s.Days), fmt.Sprintf("%.0f", s.Minutes), "", knownText(s.Ear), knownText(s.Eye), ""}
		if s.Days > 0 {
			row[1] = s.Last.Date().Format("2 Jan")
		}
		if s.Lesson.Things > 0 {
			row[4] = fmt.Sprintf("%d of %d", s.Lesson.Done, s.Lesson.Things)
		}
		if s.Change != nil {
			row[7] = changeText(*s.Change)
		}
		rows = append(rows, row, []string{"  " + s.Finding.Says().Screen()})
		if s.Played > 0 {
			rows = append(rows, []string{fmt.Sprintf("  Played on an instrument or sung: %d of %s.", s.Played, command.Count(s.Answers, "answer"))})
		}
		if back := practice.SayTakenBack(s.Back); !back.IsZero() {
			rows = append(rows, []string{"  " + back.Screen()})
		}
	}
	inColumns(o, rows)
	o.Printf("\nKnown of what was asked in the last eight weeks, guessing taken out; in brackets where it truly lies, 95 times in 100.\n")
	for _, ear := range []bool{true, false} {
		o.Printf("\n%s\n", map[bool]string{true: "Weak by ear", false: "Weak by eye"}[ear])
		listed := 0
		for _, w := range r.Weak {
			if w.Ear != ear {
				continue
			}
			if listed++; listed > 10 {
				continue
			}
			o.Printf("  %s\n", weakText(w))
		}
		switch {
		case listed == 0:
			o.Printf("  nothing of which luck is excluded\n")
		case listed > 10:
			o.Printf("  and %d more; --json lists them\n", listed-10)
		}
	}
	if s, any := class.KnownOf(r.Ever); any {
		o.Printf("\nFirst answers ever: %d of %d right, where guessing gives %.0f; so %d %% were known by then (%d to %d): from before, or from being shown.\n", r.Ever.Right, r.Ever.Asked, r.Ever.Guessed, s.Known, s.Low, s.High)
	}
	o.Printf("\nGroups\n")
	for _, g := range r.Groups {
		names := "nobody"
		if len(g.Students) > 0 {
			names = strings.Join(g.Students, ", ")
		}
		o.Printf("  %s (%s): %s\n", g.Title().Screen(), g.Says().Screen(), names)
		for _, a := range g.Asks() {
			o.Printf("    %s\n", a.Screen())
		}
	}
	if len(r.Play) > 0 {
		o.Printf("\nTo play in the next lesson\n")
		for _, p := range r.Play {
			for n, t := range p.Told {
				lead := map[bool]string{true: "  " + p.Thing.Name + ": ", false: "    "}[n == 0]
				o.Printf("%s%s\n", lead, t.Screen())
			}
		}
	}
}

// knownText is how much is known.
func knownText(t memory.Tally) string {
	s, any := class.KnownOf(t)
	if !any {
		return "-"
	}
	return fmt.Sprintf("%d (%d-%d)", s.Known, s.Low, s.High)
}

// changeText is a change in points, with its interval.
func changeText(c class.Change) string {
	said := fmt.Sprintf("%s (%s to %s)", class.Points(c.By), class.Points(c.Low), class.Points(c.High))
	if !c.Says() {
		said += ", not told from none"
	}
	return said
}

// weakText is a thing that students are weak at.
func weakText(w class.Weakness) string {
	said := fmt.Sprintf("%s, %s (%s): %d of %s", w.Name, w.Drill, w.Tuning, w.Weak, command.Count(w.Tested, "student"))
	if w.Mostly != "" {
		said += fmt.Sprintf(", mostly taken for “%s”", w.Mostly)
	}
	if w.Chance > 0 {
		said += fmt.Sprintf(", %d at chance", w.Chance)
	}
	return said
}

// inColumns sets rows in columns; a row of one cell stands alone.
func inColumns(o *command.Output, rows [][]string) {
	var widths []int
	for _, row := range rows {
		if len(row) == 1 {
			continue
		}
		for i, cell := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], displaywidth.String(cell))
		}
	}
	for _, row := range rows {
		var b strings.Builder
		for i, cell := range row {
			b.WriteString(cell)
			if i < len(row)-1 {
				b.WriteString(strings.Repeat(" ", widths[i]-displaywidth.String(cell)+2))
			}
		}
		o.Printf("%s\n", strings.TrimRight(b.String(), " "))
	}
}
