package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/records"
)

// annsExport returns the export of somebody called Ann, whose sessions are not those of practisedFile.
func annsExport(t *testing.T, flags ...string) string {
	t.Helper()
	path := practisedFile(t)
	if _, errs, ended := called(t, "", "progress", "name", "Ann", "--progress", path); ended != command.Done {
		t.Fatal(errs)
	}
	export := exportFile(t, path, flags...)
	text, err := os.ReadFile(export)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(export, []byte(strings.NewReplacer(`"id":"s"`, `"id":"ann"`, `"session":"s"`, `"session":"ann"`).Replace(string(text))), 0o600); err != nil {
		t.Fatal(err)
	}
	return export
}

// Another's practice does not go into one's own memory unasked; --as-mine and --progress say that it is to.
func TestAnothersExportNeedsAWord(t *testing.T) {
	own, ann := practisedFile(t), annsExport(t)
	t.Setenv("SPARETONE_PROGRESS", own)
	says := "this is the practice of Ann and not yours, 12 answers that are new here; nothing was imported; --as-mine takes them in as yours, --progress FILE into a file of their own"
	out, errs, ended := called(t, "", "progress", "import", ann)
	if ended != command.InputWrong || out != "" || errs != "sparetone: "+ann+": "+says+"\n" {
		t.Errorf("ended %d with %q, %q", ended, out, errs)
	}
	out, _, ended = called(t, "", "progress", "import", "--json", ann)
	if rows := objects[command.Refused](t, out); ended != command.InputWrong || len(rows) != 1 || rows[0] != (command.Refused{Input: ann, Error: says}) {
		t.Errorf("ended %d with %s", ended, out)
	}
	text, err := os.ReadFile(ann)
	if err != nil {
		t.Fatal(err)
	}
	if _, errs, ended := called(t, string(text), "progress", "import", "-"); ended != command.InputWrong || !strings.Contains(errs, "--as-mine") {
		t.Errorf("ended %d with %q", ended, errs)
	}
	if out, _, _ := called(t, "", "progress", "check"); !strings.HasPrefix(out, "Sound: 12 answers") {
		t.Error(out)
	}
	out, errs, ended = called(t, "", "progress", "import", "--as-mine", ann)
	if want := "12 answers added, 0 were there already.\nThis is of the progress file of Ann, and is taken in as yours from now on; progress undo takes that back.\n"; ended != command.Done || out != want {
		t.Errorf("ended %d with %q, %q", ended, out, errs)
	}
	if _, errs, ended := called(t, "", "progress", "import", ann); ended != command.Done {
		t.Errorf("once it is one's own: ended %d with %q", ended, errs)
	}
	out, _, ended = called(t, "", "progress", "import", "--json", ann, "--progress", practisedFile(t))
	if rows := objects[records.ImportRow](t, out); ended != command.Done || len(rows) != 1 || rows[0].Added != 12 || rows[0].Goes || len(rows[0].Joined) != 1 || rows[0].Joined[0].Name != "Ann" || len(rows[0].Whose) != 1 {
		t.Errorf("into a file that was named: ended %d with %s", ended, out)
	}
}

// A file that is empty goes on from another's: one's own says so, one that was named need not.
func TestAnEmptyFileGoesOn(t *testing.T) {
	ann := annsExport(t)
	t.Setenv("SPARETONE_PROGRESS", filepath.Join(t.TempDir(), "own.db"))
	out, errs, ended := called(t, "", "progress", "import", ann)
	if want := "12 answers added, 0 were there already.\nYour progress file was empty, and goes on from the progress file of Ann; progress undo takes that back.\n"; ended != command.Done || out != want {
		t.Errorf("ended %d with %q, %q", ended, out, errs)
	}
	if out, _, _ := called(t, "", "progress", "name"); !strings.HasPrefix(out, "Ann, with the id ") {
		t.Error(out)
	}
	of := filepath.Join(t.TempDir(), "ann.db")
	if out, _, ended := called(t, "", "progress", "import", ann, "--progress", of); ended != command.Done || out != "12 answers added, 0 were there already.\n" {
		t.Errorf("ended %d with %q", ended, out)
	}
	out, _, ended = called(t, "", "progress", "import", "--json", ann, "--progress", of+".2")
	if rows := objects[records.ImportRow](t, out); ended != command.Done || len(rows) != 1 || !rows[0].Goes || len(rows[0].Joined) != 0 {
		t.Errorf("ended %d with %s", ended, out)
	}
}

func TestNameCommand(t *testing.T) {
	path := practisedFile(t)
	out, _, ended := called(t, "", "progress", "name", "--json", "--progress", path)
	rows := objects[records.WhoseRow](t, out)
	if ended != command.Done || len(rows) != 1 || rows[0].Name != "" || len(rows[0].ID) != 26 {
		t.Fatalf("ended %d with %s", ended, out)
	}
	id := rows[0].ID
	for _, c := range []struct {
		args []string
		says string
		ends command.Status
	}{
		{nil, "No name, with the id " + id + "\n", command.Done},
		{[]string{"Ann Lee"}, "Ann Lee, with the id " + id + "\n", command.Done},
		{nil, "Ann Lee, with the id " + id + "\n", command.Done},
		{[]string{"Ann", "Lee"}, "", command.WrongCall},
		{[]string{"A\x1b[2J"}, "", command.WrongCall},
		{[]string{strings.Repeat("x", 101)}, "", command.WrongCall},
		{[]string{""}, "No name, with the id " + id + "\n", command.Done},
	} {
		if out, _, ended := called(t, "", append(append([]string{"progress", "name"}, c.args...), "--progress", path)...); out != c.says || ended != c.ends {
			t.Errorf("%q: ended %d with %q", c.args, ended, out)
		}
	}
	if _, _, ended := called(t, "", "progress", "name", "--progress", path+".none"); ended != command.Faulty {
		t.Errorf("of no file it ended %d", ended)
	}
}

// On a terminal one is asked, and only yes is yes.
func TestAnothersExportIsAskedAbout(t *testing.T) {
	ann := annsExport(t)
	for said, answers := range map[string]string{"yes": "24 answers", "no": "12 answers", "": "12 answers"} {
		own := practisedFile(t)
		cmd := exec.Command(binaryPath(t), "progress", "import", ann)
		term := inTerminal(t, cmd, "SPARETONE_PROGRESS="+own, "TERM=xterm")
		term.await("yes or no:")
		term.press(said + "\r")
		if ended := term.ended(); (ended == int(command.Done)) != (said == "yes") {
			t.Errorf("%q: ended %d with %s", said, ended, term.text())
		}
		if out, _, _ := called(t, "", "progress", "check", "--progress", own); !strings.HasPrefix(out, "Sound: "+answers) {
			t.Errorf("%q: %s", said, out)
		}
	}
}
