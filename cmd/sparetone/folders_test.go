package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
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
	if _, errs, ended := called(t, "", "lesson", "make", "loop.txt", "--out", "loop.toml"); ended != done {
		t.Fatal(errs)
	}
	if err := os.WriteFile("chart.toml", []byte("name = \"Monday\"\nsongs = [\"folder\"]\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	const folder, file = "is a folder; name a file", "is a file; name "
	for call, want := range map[string]struct {
		says  string
		ended status
	}{
		"lesson check folder":                                   {folder, faulty},
		"lesson take folder":                                    {folder, faulty},
		"lesson make folder":                                    {folder, faulty},
		"lesson sheet folder --out x.pdf":                       {folder, faulty},
		"lesson check chart.toml":                               {folder, inputWrong},
		"practice --plain --lesson folder":                      {folder, faulty},
		"song folder":                                           {folder, faulty},
		"hear folder":                                           {folder, faulty},
		"progress import folder":                                {folder, faulty},
		"progress restore folder":                               {folder, faulty},
		"progress rescue folder --out x.db":                     {folder, faulty},
		"progress --progress folder":                            {folder, faulty},
		"progress name Ann --progress folder":                   {folder, faulty},
		"class folder --roster folder":                          {folder, faulty},
		"lesson make loop.txt --out folder":                     {folder, wrongCall},
		"lesson make loop.txt --out folder --force":             {folder, wrongCall},
		"song loop.txt --midi folder":                           {folder, wrongCall},
		"song loop.txt --midi folder --force":                   {folder, wrongCall},
		"play C --out folder":                                   {folder, wrongCall},
		"play C --out folder --force":                           {folder, wrongCall},
		"class loop.txt":                                        {file, wrongCall},
		"progress sync loop.txt":                                {file, faulty},
		"paper --drill spell --count 2 --seed 1 --out loop.txt": {file, wrongCall},
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
