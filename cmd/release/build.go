package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"time"
)

// build builds the program without a trace of where and when, and returns where it lies.
func build(ctx context.Context, c commit, p platform, folder string) (path string, err error) {
	path = filepath.Join(folder, p.os+"-"+p.arch)
	_, err = run(ctx, environment(p), "go", "build", "-trimpath", "-buildvcs=false", "-ldflags", "-s -w -buildid= -X main.released=v"+c.version, "-o", path, program)
	return path, err
}

// documents are the files that are the same on every platform.
type documents struct {
	readme, licence, man []byte
	completions          []file
}

// completions are the shells whose completions are released, and what each calls such a file.
var completions = []struct{ shell, name string }{{"bash", "sparetone.bash"}, {"fish", "sparetone.fish"}, {"powershell", "sparetone.ps1"}, {"zsh", "_sparetone"}}

// documentsOf builds the program for this machine and has it write its man page and its completions.
func documentsOf(ctx context.Context, c commit, folder string) (d documents, err error) {
	if d.readme, err = os.ReadFile("README.md"); err != nil {
		return d, fmt.Errorf("to be run in the project's folder: %w", err)
	}
	if d.licence, err = os.ReadFile("LICENSE"); err != nil {
		return d, err
	}
	here, err := build(ctx, c, platform{runtime.GOOS, runtime.GOARCH}, folder)
	if err != nil {
		return d, err
	}
	man, err := run(ctx, nil, here, "man")
	if err != nil {
		return d, err
	}
	if d.man, err = dated(man, c.at); err != nil {
		return d, err
	}
	for _, c := range completions {
		script, err := run(ctx, nil, here, "completion", c.shell)
		if err != nil {
			return d, err
		}
		d.completions = append(d.completions, file{"completions/" + c.name, []byte(script), false})
	}
	return d, nil
}

// title is the title of a man page, with the date on which it was written.
var title = regexp.MustCompile(`(?m)^(\.TH \S+ 1 )"\d{4}-\d\d-\d\d"`)

// dated gives a man page the date of the commit: the program writes the day's.
func dated(man string, at time.Time) ([]byte, error) {
	if len(title.FindAllString(man, -1)) != 1 {
		return nil, errors.New("the man page has no title with a date")
	}
	return []byte(title.ReplaceAllString(man, `${1}"`+at.UTC().Format(time.DateOnly)+`"`)), nil
}

// filesOf builds the program for a platform and returns all files that go with it there.
func filesOf(ctx context.Context, c commit, p platform, d documents, folder string) (files []file, err error) {
	at, err := build(ctx, c, p, folder)
	if err != nil {
		return nil, err
	}
	bytes, err := os.ReadFile(at)
	if err != nil {
		return nil, err
	}
	name := "sparetone"
	if p.os == "windows" {
		name += ".exe"
	}
	files = []file{{name, bytes, true}, {"README.md", d.readme, false}, {"LICENSE", d.licence, false}, {"man/sparetone.1", d.man, false}}
	files = append(files, d.completions...)
	licences, err := licencesOf(ctx, p)
	return append(files, licences...), err
}

// packed returns what is released of a platform, by name.
func packed(c commit, p platform, files []file) map[string]func() ([]byte, error) {
	name := strings.Join([]string{"sparetone", c.version, p.os, p.arch}, "-")
	out := map[string]func() ([]byte, error){}
	if p.os == "windows" {
		out[name+".zip"] = func() ([]byte, error) { return zipOf(name, files, c.at) }
	} else {
		out[name+".tar.gz"] = func() ([]byte, error) { return tarOf(name+"/", files, c.at) }
	}
	if p.os == "linux" {
		out["sparetone_"+debianVersion(c.version)+"_"+p.arch+".deb"] = func() ([]byte, error) { return debOf(c, p.arch, files) }
	}
	return out
}

// rfc5322 is how Debian writes a time in a changelog: RFC 5322.
func rfc5322(t time.Time) string { return t.UTC().Format("Mon, 02 Jan 2006 15:04:05 -0700") }
