package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/cmd/sparetone/command"
)

// A folder where a file is to be named, and a file where a folder is, are told in one line that says what would be right; nothing is made or
// replaced.
func TestFoldersAndFilesAreToldApart(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	t.Setenv("SPARETONE_PROGRESS", filepath.Join(dir, "p.db"))
	if err := os.Mkdir("folder", 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile("loop.txt", []byte("| C | F |\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, errs, ended := called(t, "", "lesson", "make", "loop.txt", "--out", "loop.toml"); ended != command.Done {
		t.Fatal(errs)
	}
	if err := os.WriteFile("chart.toml", []byte("name = \"Monday\"\nsongs = [\"folder\"]\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	const folder, file = "is a folder; name a file", "is a file; name "
	for call, want := range map[string]struct {
		says  string
		ended command.Status
	}{
		"lesson check folder":                                   {folder, command.Faulty},
		"lesson take folder":                                    {folder, command.Faulty},
		"lesson make folder":                                    {folder, command.Faulty},
		"lesson sheet folder --out x.pdf":                       {folder, command.Faulty},
		"lesson check chart.toml":                               {folder, command.InputWrong},
		"practice --plain --lesson folder":                      {folder, command.Faulty},
		"song folder":                                           {folder, command.Faulty},
		"hear folder":                                           {folder, command.Faulty},
		"progress import folder":                                {folder, command.Faulty},
		"progress restore folder":                               {folder, command.Faulty},
		"progress rescue folder --out x.db":                     {folder, command.Faulty},
		"progress --progress folder":                            {folder, command.Faulty},
		"progress name Ann --progress folder":                   {folder, command.Faulty},
		"class folder --roster folder":                          {folder, command.Faulty},
		"lesson make loop.txt --out folder":                     {folder, command.WrongCall},
		"lesson make loop.txt --out folder --force":             {folder, command.WrongCall},
		"song loop.txt --midi folder":                           {folder, command.WrongCall},
		"song loop.txt --midi folder --force":                   {folder, command.WrongCall},
		"play C --out folder":                                   {folder, command.WrongCall},
		"play C --out folder --force":                           {folder, command.WrongCall},
		"class loop.txt":                                        {file, command.WrongCall},
		"progress sync loop.txt":                                {file, command.Faulty},
		"paper --drill spell --count 2 --seed 1 --out loop.txt": {file, command.WrongCall},
	} {
		_, errs, ended := called(t, "", strings.Fields(call)...)
		if ended != want.ended || strings.Count(errs, "\n") != 1 || !strings.Contains(errs, want.says) {
			t.Errorf("%s ended %d with %q", call, ended, errs)
		}
	}
	if all, err := os.ReadDir("folder"); err != nil || len(all) > 0 {
		t.Error(all, err)
	}
}
