package exported

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"

	"sparetone/progress"

	"pgregory.net/rapid"
)

// Cells that a spreadsheet would take for a formula, a number or a date are texts there; the others stay as they are.
func TestGuardedCells(t *testing.T) {
	for text, cell := range map[string]string{
		"":                 "",
		"C♯m7♭5":           "C♯m7♭5",
		"5 R 3 R":          "5 R 3 R",
		"x32010":           "x32010",
		"it's":             "it's",
		"'tis":             "'tis",
		"a=b":              "a=b",
		"=1+1":             "'=1+1",
		"+C":               "'+C",
		"-7":               "'-7",
		"@SUM(A1)":         "'@SUM(A1)",
		" =1+1":            "' =1+1",
		"＝1+1":             "'＝1+1",
		"'=1+1":            "''=1+1",
		"0003":             "'0003",
		"'0003":            "''0003",
		"0 0 0 3":          "'0 0 0 3",
		"10,12,12,10":      "'10,12,12,10",
		"3/4":              "'3/4",
		"1E5":              "'1E5",
		"2026-03-04":       "'2026-03-04",
		"18:30":            "'18:30",
		"50 %":             "'50 %",
		"C;=cmd|'/c x'!A1": "C;'=cmd|'/c x'!A1",
		"C; '+1":           "C; ''+1",
		"C;D":              "C;D",
		".":                ".",
	} {
		if got := guarded(text); got != cell {
			t.Errorf("%q: %q, want %q", text, got, cell)
		}
		if got := unguarded(cell); got != text {
			t.Errorf("%q: %q, want %q", cell, got, text)
		}
	}
}

// Whatever a text is, it comes back from a cell as it was, and no cell begins like a formula.
func TestEveryTextComesBackFromItsCell(t *testing.T) {
	pieces := []string{"=", "+", "-", "@", "'", ";", " ", "\u00a0", "＝", "0", "7", "E", ",", ".", "/", "x", "C", "♯", "\"", "\t", "\r"}
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.OneOf(rapid.SampledFrom(pieces), rapid.String()), 0, 8).Draw(t, "pieces"), "")
		cell := guarded(text)
		if back := unguarded(cell); back != text {
			t.Fatalf("%q came back from %q as %q", text, cell, back)
		}
		for i, part := range strings.Split(cell, ";") { // where a semicolon parts cells, each piece is one
			if begins := strings.TrimLeft(part, " \u00a0"); begins != "" && strings.Contains("=+-@＝＋－＠", string([]rune(begins)[0])) {
				t.Fatalf("cell %d of %q begins with %q", i+1, cell, begins)
			}
		}
	})
}

// A row of anything under a head of anything is read or refused in a line, and an answer that is read is written down again as
// itself, as CSV and as JSON.
//
//	go test -run xxx -fuzz FuzzRow -fuzztime 1m ./progress/exported
func FuzzRow(f *testing.F) {
	const head = "id,session,item,drill,seed,at,day,question,given,expected,taken_for,result,took_ms,replays,hints,voice,choices,file,whose,doubted"
	row := strings.Repeat("0", 31) + "1,s,d/t/u,d,17,2026-03-04T23:30:00.000Z,2026-03-04,which?,C,C7,d/major/u,wrong,3000,1,0,soft,5,,,false"
	for _, separator := range separators {
		f.Add(strings.ReplaceAll(head, ",", string(separator)), strings.ReplaceAll(row, ",", string(separator)))
	}
	f.Add(head, strings.NewReplacer("2026-03-04,which", "4/3/26,which", ",3000,", `,"3.000,00",`, ",17,", ",'12340000000000000000,").Replace(row))
	f.Add("sep=;", "\xff\xfe")
	f.Fuzz(func(t *testing.T, head, row string) {
		table, err := TableOf([]byte(head))
		if err != nil {
			return
		}
		l, is, err := table.Answer([]byte(row), 2)
		if err != nil || !is {
			return
		}
		k, err := l.Row()
		if err != nil {
			if strings.ContainsFunc(err.Error(), progress.Control) || len(err.Error()) > 500 {
				t.Errorf("not one clear line: %q", err)
			}
			return
		}
		l = AnswerOf(k, false)
		var names, values []string
		o := Object{}
		for _, c := range Columns {
			names, values = append(names, c.Name), append(values, c.Cell(c.Get(&l)))
			o[c.Name], _ = json.Marshal(c.Get(&l))
			if c.Form == OfNumber {
				o[c.Name] = json.RawMessage(c.Get(&l))
			}
			if c.Form == OfFlag {
				o[c.Name] = json.RawMessage("false")
			}
		}
		l.Judged = true
		var out bytes.Buffer
		w := csv.NewWriter(&out)
		_ = w.Write(values)
		w.Flush()
		table, err = TableOf([]byte(strings.Join(names, ",")))
		if err != nil {
			t.Fatal(err)
		}
		back, is, err := table.Answer(bytes.TrimRight(out.Bytes(), "\n"), 2)
		if back.Kind = l.Kind; err != nil || !is || back != l {
			t.Errorf("%+v came back as %+v, %v", l, back, err)
		}
		back, err = o.Answer()
		if back.Kind = l.Kind; err != nil || back != l {
			t.Errorf("%+v came back as %+v, %v", l, back, err)
		}
	})
}

// A spreadsheet may put every name of a column into quotes, with its own sign between them.
func TestNamesOfColumnsAreFoundBehindAnySeparator(t *testing.T) {
	for _, separator := range separators {
		for _, quote := range []string{"", `"`} {
			line := quote + strings.Join([]string{"id", "session", " item "}, quote+string(separator)+quote) + quote
			if names, got := namesOf([]byte(line)); got != separator || strings.Join(names, " ") != "id session item" {
				t.Errorf("%s: %q, %q", line, names, got)
			}
		}
	}
}

// A day is read in every habit, with two digits of the year or four, as long as the time of the answer tells which.
func TestDaysByTheHabitsOfACountry(t *testing.T) {
	const at = "2026-03-04T18:40:00Z"
	for day, want := range map[string]string{
		"2026-03-04": "2026-03-04", "4.3.2026": "2026-03-04", "04.03.26": "2026-03-04", "3/4/26": "2026-03-04", "3/4/2026": "2026-03-04", "26/3/4": "2026-03-04",
		" 4-3-2026 ": "2026-03-04", "4.3.2026.": "2026-03-04", "6.3.2026": "2026-03-06", "7.3.2026": "7.3.2026", "30.2.2026": "30.2.2026", "4 March": "4 March",
	} {
		if got := dayOf(day, at); got != want {
			t.Errorf("%s: %s, want %s", day, got, want)
		}
	}
	if got := dayOf("4.3.2026", "soon"); got != "4.3.2026" {
		t.Errorf("without a time: %s", got)
	}
}
