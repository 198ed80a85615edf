package main

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// licenceName is what files are called that say under which terms something may be passed on.
var licenceName = regexp.MustCompile(`(?i)^(licen[cs]e|copying|copyright|notice|patents|authors|ofl)([-._].*)?$`)

// licencesOf returns the texts under which everything that is built into the program for a platform may be passed on: of each
// module its own files, and the one of Go's library. A module that has none is an error.
func licencesOf(ctx context.Context, p platform) (files []file, err error) {
	const form = "{{with .Module}}{{if not .Main}}{{.Path}}\t{{.Version}}\t{{.Dir}}\t{{$.Dir}}{{end}}{{end}}"
	said, err := run(ctx, environment(p), "go", "list", "-deps", "-f", form, program)
	if err != nil {
		return nil, err
	}
	texts := map[string][]byte{}
	modules := map[string]string{} // and where each lies
	for line := range strings.Lines(said) {
		fields := strings.Split(strings.TrimSpace(line), "\t")
		if len(fields) != 4 {
			continue
		}
		name, dir, at := fields[0]+"@"+fields[1], fields[2], fields[3]
		modules[name] = dir
		// Of a module that has others' work in it, the folder of that work has the text.
		for {
			if err := readLicences(texts, name, dir, at); err != nil {
				return nil, err
			}
			if at == dir || len(at) <= len(dir) {
				break
			}
			at = filepath.Dir(at)
		}
	}
	for name, dir := range modules {
		if !slices.ContainsFunc(keysOf(texts), func(at string) bool { return strings.HasPrefix(at, "licences/"+name+"/") }) {
			return nil, fmt.Errorf("%s has no licence in %s", name, dir)
		}
	}
	root, err := run(ctx, nil, "go", "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	if texts["licences/go/LICENSE"], err = os.ReadFile(filepath.Join(strings.TrimSpace(root), "LICENSE")); err != nil {
		return nil, err
	}
	for _, at := range keysOf(texts) {
		files = append(files, file{at, texts[at], false})
	}
	return files, nil
}

// readLicences reads the licences that lie in a folder of a module.
func readLicences(texts map[string][]byte, module, dir, at string) error {
	entries, err := os.ReadDir(at)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if !licenceName.MatchString(e.Name()) || strings.HasSuffix(e.Name(), ".go") || e.Type()&fs.ModeType != 0 {
			continue
		}
		within, err := filepath.Rel(dir, filepath.Join(at, e.Name()))
		if err != nil {
			return err
		}
		if texts[path.Join("licences", module, filepath.ToSlash(within))], err = os.ReadFile(filepath.Join(at, e.Name())); err != nil {
			return err
		}
	}
	return nil
}

// keysOf lists the keys of a map in order.
func keysOf(m map[string][]byte) (keys []string) {
	for key := range m {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}
