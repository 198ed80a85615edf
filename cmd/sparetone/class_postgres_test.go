//go:build linux

package main

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/teaching"
)

// postgres starts a server of its own in a folder of its own, which is reached by a socket there and by nothing else, and returns what runs
// psql in a folder.
func postgres(t *testing.T) func(in string, args ...string) string {
	t.Helper()
	found, _ := filepath.Glob("/usr/lib/postgresql/*/bin/initdb")
	if len(found) == 0 {
		need(t, "initdb") // says that it is missing
	}
	need(t, "psql")
	bin := filepath.Dir(found[len(found)-1])
	home, err := os.MkdirTemp("", "sparetone-pg")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(home) })
	as, name := (*syscall.SysProcAttr)(nil), "tester"
	if os.Geteuid() == 0 { // a server does not run as root
		u, err := user.Lookup("postgres")
		if err != nil {
			t.Fatal(err)
		}
		uid, _ := strconv.Atoi(u.Uid)
		gid, _ := strconv.Atoi(u.Gid)
		as = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}}
		if err := os.Chown(home, uid, gid); err != nil {
			t.Fatal(err)
		}
	}
	server := func(tool string, args ...string) *exec.Cmd {
		cmd := exec.Command(filepath.Join(bin, tool), args...)
		cmd.Dir, cmd.SysProcAttr = home, as
		return cmd
	}
	data := filepath.Join(home, "data")
	if out, err := server("initdb", "-D", data, "-U", name, "-A", "trust", "-E", "UTF8", "--no-sync", "--locale=C.UTF-8").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	run := server("postgres", "-D", data, "-k", home, "-h", "", "-F")
	log, err := os.Create(filepath.Join(home, "log"))
	if err != nil {
		t.Fatal(err)
	}
	run.Stderr = log
	if err := run.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { run.Process.Signal(syscall.SIGINT); run.Wait() })
	psql := func(in string, args ...string) (string, error) {
		cmd := exec.Command("psql", append([]string{"-h", home, "-U", name, "-d", "postgres", "-X", "-q", "-v", "ON_ERROR_STOP=1"}, args...)...)
		cmd.Dir = in
		out, err := cmd.CombinedOutput()
		return string(out), err
	}
	for tries := 0; ; tries++ {
		if _, err := psql(home, "-c", "SELECT 1"); err == nil {
			break
		} else if tries == 600 {
			said, _ := os.ReadFile(log.Name())
			t.Fatalf("the server does not answer: %s", said)
		}
		time.Sleep(100 * time.Millisecond)
	}
	return func(in string, args ...string) string {
		t.Helper()
		out, err := psql(in, args...)
		if err != nil {
			t.Fatalf("psql %v: %v\n%s", args, err, out)
		}
		return out
	}
}

// csvRows are the rows of a query, without their names.
func csvRows(t *testing.T, out string) [][]string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// The tables load into a real server with the command of the README, and its views give the figures of the class page: of each student and
// of what the class is weak at. A million answers with SPARETONE_STUDY.
func TestClassTablesGiveThePagesFigures(t *testing.T) {
	psql := postgres(t)
	folder, dir := t.TempDir(), filepath.Join(t.TempDir(), "tables")
	students, answers := 6, 700
	if os.Getenv("SPARETONE_STUDY") != "" {
		students, answers = 50, 20_000
	}
	generateClass(t, folder, students, answers)
	handIn(t, folder, "odd.jsonl", `Ann, "the\N" <b>`, 40, 44, 1)
	again, err := os.ReadFile(filepath.Join(folder, "0001.jsonl"))
	if err != nil || os.WriteFile(filepath.Join(folder, "twice.jsonl"), again, 0o644) != nil {
		t.Fatal(err)
	}
	roster := filepath.Join(t.TempDir(), "names.txt")
	names := "Zoe\nAnn, \"the\\N\" <b>\n"
	for n := range students {
		names += fmt.Sprintf("Student %d\n", n)
	}
	if err := os.WriteFile(roster, []byte(names), 0o644); err != nil {
		t.Fatal(err)
	}
	out, errs, ended := called(t, "", on(folder, "--json", "--tables", dir, "--roster", roster)...)
	if ended != command.Done || errs != "" {
		t.Fatal(ended, errs)
	}
	began := time.Now()
	psql(dir, "-f", "schema.sql")
	psql(dir, "-f", "schema.sql") // and again, in its place
	t.Logf("loaded twice in %v", time.Since(began).Round(time.Millisecond))
	count := strings.TrimSpace(psql(dir, "-At", "-c", "SELECT count(*) FROM sparetone_class.answers"))
	if want := fmt.Sprint(students*answers + 44); count != want {
		t.Errorf("%s answers in the table, not %s", count, want)
	}
	var kinds struct{ student, weak string }
	for line := range strings.Lines(out) {
		switch {
		case strings.HasPrefix(line, `{"kind":"student"`):
			kinds.student += line
		case strings.HasPrefix(line, `{"kind":"weak"`):
			kinds.weak += line
		}
	}
	of := map[string]teaching.StudentRow{}
	for _, r := range objects[teaching.StudentRow](t, kinds.student) {
		of[r.Name] = r
	}
	rows := csvRows(t, psql(dir, "--csv", "-t", "-c", `SET search_path TO sparetone_class; SELECT name, listed, days, minutes, answers, coalesce(last::text, ''), silent,
		ear_asked, ear_right, ear_guessed, eye_asked, eye_right, eye_guessed, first_asked, first_right FROM class_students`))
	if len(rows) != len(of) || len(rows) != students+2 {
		t.Errorf("%d students in the view, %d on the page", len(rows), len(of))
	}
	for _, row := range rows {
		r := of[row[0]]
		yes := func(b bool) string { return map[bool]string{true: "t", false: "f"}[b] }
		want := []string{r.Name, yes(r.Listed), fmt.Sprint(r.Days), "", fmt.Sprint(r.Answers), r.Last, yes(r.Silent),
			fmt.Sprint(r.Ear.Asked), fmt.Sprint(r.Ear.Right), "", fmt.Sprint(r.Eye.Asked), fmt.Sprint(r.Eye.Right), "", fmt.Sprint(r.Ever.Asked), fmt.Sprint(r.Ever.Right)}
		for i, cell := range row {
			if want[i] != "" && cell != want[i] {
				t.Errorf("%s: column %d is %s, on the page %s", r.Name, i+1, cell, want[i])
			}
		}
		for i, figure := range map[int]float64{3: r.Minutes, 9: r.Ear.Guessed, 12: r.Eye.Guessed} {
			if got, err := strconv.ParseFloat(row[i], 64); err != nil || math.Abs(got-figure) > 0.051 {
				t.Errorf("%s: column %d is %s, on the page %v", r.Name, i+1, row[i], figure)
			}
		}
	}
	weak := map[string]string{}
	for _, w := range objects[teaching.WeakThingRow](t, kinds.weak) {
		weak[w.Item] = fmt.Sprintf("%d of %d %v", w.Weak, w.Tested, w.Ear)
	}
	rows = csvRows(t, psql(dir, "--csv", "-t", "-c", "SET search_path TO sparetone_class; SELECT item, weak, tested, ear FROM class_weak"))
	if len(rows) != len(weak) || len(rows) < 10 {
		t.Errorf("%d weak things in the view, %d on the page", len(rows), len(weak))
	}
	for _, row := range rows {
		if got := fmt.Sprintf("%s of %s %v", row[1], row[2], row[3] == "t"); weak[row[0]] != got {
			t.Errorf("%s: %s in the view, %s on the page", row[0], got, weak[row[0]])
		}
	}
}
