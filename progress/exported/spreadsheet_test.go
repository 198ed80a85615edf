package exported

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
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

// What a spreadsheet has made of the cells of a row is read if nothing is lost by that, and refused by name otherwise.
func TestARowAsASpreadsheetSavesIt(t *testing.T) {
	out := AnswerOf(answered, true)
	out.Owner = Owner{"FILE", "Ada"}
	var names []string
	for _, c := range Columns {
		names = append(names, c.Name)
	}
	const again = ": export again, and have the spreadsheet take every column for text"
	for _, c := range []struct{ column, cell, want, says string }{
		{"hints", "1", "1", ""}, {"hints", " 1 ", "1", ""}, {"hints", "1.00", "1", ""}, {"hints", "1,0", "1", ""}, {"hints", "'1", "1", ""},
		{"took_ms", "4.250,00", "4250", ""}, {"took_ms", "4,250.0", "4250", ""}, {"took_ms", "14 250 000", "14250000", ""}, {"took_ms", "4'250", "4250", ""},
		{"took_ms", "4.250", "4250", ""}, {"took_ms", "4,000", "", "took_ms is 4,000, which may be 4 or 4000" + again}, {"took_ms", "4.000", "", "took_ms is 4.000, which may be 4 or 4000" + again},
		{"took_ms", "4.000.000", "4000000", ""},
		{"seed", "1.84E+19", "", "seed is 1.84E+19, as a spreadsheet writes a number that is too long for it, and has lost digits" + again},
		{"hints", "1E+2", "", "hints is 1E+2, as a spreadsheet writes a number that is too long for it, and has lost digits" + again},
		{"id", "1.02E+30", "", "id is 1.02E+30, as a spreadsheet writes a number that is too long for it, and has lost digits" + again},
		{"session", "1E5", "", "session is 1E5, as a spreadsheet writes a number that is too long for it, and has lost digits" + again},
		{"given", "1E5", "1E5", ""}, {"given", "'0003", "0003", ""}, {"given", "C\xff", "", "given is not in UTF-8: save the file as CSV in UTF-8"},
		{"doubted", "TRUE", "true", ""}, {"doubted", "WAHR", "false", ""}, {"day", "4.3.2026", "2026-03-04", ""},
	} {
		table, err := TableOf([]byte(strings.Join(append(names, "mood"), ";"))) // what is unknown is passed over
		if err != nil {
			t.Fatal(err)
		}
		var row []string
		for _, column := range Columns {
			if column.Name == c.column {
				row = append(row, c.cell)
			} else {
				row = append(row, column.Cell(column.Get(&out)))
			}
		}
		l, is, err := table.Answer([]byte(strings.Join(row, ";")+";glad"), 2)
		if c.says != "" {
			if err == nil || err.Error() != c.says {
				t.Errorf("%s as %q: %v, want %q", c.column, c.cell, err, c.says)
			}
			continue
		}
		column, _ := ColumnNamed(c.column)
		if got := column.Get(&l); got != c.want || !is || err != nil {
			t.Errorf("%s as %q: %q, %v, %v; want %q", c.column, c.cell, got, is, err, c.want)
		}
		if c.column == "doubted" && l.Judged != (c.cell == "TRUE") {
			t.Errorf("doubted as %q: judged %v", c.cell, l.Judged)
		}
	}
	for head, says := range map[string]string{
		strings.Join(names, ","):                                     "",
		strings.Join(names, ",") + ",mood,mood":                      "",
		strings.Join(names, ",") + ",voice":                          "voice is there twice",
		strings.Replace(strings.Join(names, ","), ",voice", "", 1):   "voice is missing; every export has it",
		strings.Replace(strings.Join(names, ","), ",choices", "", 1): "",
		"a,b": ErrNoExport.Error(),
	} {
		if _, err := TableOf([]byte(head)); says == "" && err != nil || says != "" && (err == nil || err.Error() != says) {
			t.Errorf("%s: %v, want %q", head, err, says)
		}
	}
	table, err := TableOf([]byte(strings.Join(names, ",")))
	if err != nil {
		t.Fatal(err)
	}
	if _, is, err := table.Answer([]byte(strings.Repeat(",", len(names)-1)), 3); is || err != nil {
		t.Errorf("an empty row: %v, %v", is, err)
	}
	if _, is, err := table.Answer([]byte("a,b"), 3); is || err == nil || err.Error() != "not a row of 26 columns" {
		t.Errorf("a short row: %v, %v", is, err)
	}
}

// A spreadsheet has rounded the seeds of a file if all that are long end in noughts; the first row where one does is named.
func TestSeedsThatASpreadsheetRounded(t *testing.T) {
	const short, exact, round = "123456789012345", "1234567890123456", "12345678901234500000"
	for _, c := range []struct {
		seeds []string
		line  int
	}{
		{[]string{short}, 0}, {[]string{short, exact}, 0}, {[]string{short, round, round}, 3}, {[]string{round, exact}, 0}, {[]string{exact, round}, 0}, {[]string{" " + round + " "}, 2}, {nil, 0},
	} {
		var table Table
		seed, _ := ColumnNamed("seed")
		took, _ := ColumnNamed("took_ms")
		for n, cell := range c.seeds {
			table.note(took, round, n+2) // no long number is expected there
			table.note(seed, cell, n+2)
		}
		err := table.Fault()
		if c.line == 0 && err != nil || c.line > 0 && (err == nil || err.Error() != fmt.Sprintf("line %d: seed ends in noughts, as in every row, for a spreadsheet holds 15 digits, and has lost the others: export again, and have the spreadsheet take every column for text", c.line)) {
			t.Errorf("%q: %v", c.seeds, err)
		}
	}
	if seed, _ := ColumnNamed("seed"); seed.Cell(round) != "'"+round || seed.Cell(exact) != exact || seed.Cell(short) != short {
		t.Error("a seed that only looks rounded is not guarded")
	}
}
