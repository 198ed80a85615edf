package sparetone_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// source is a Go file of the house that is no test.
type source struct {
	path string // with slashes
	set  *token.FileSet
	*ast.File
}

// at is where something stands in the file.
func (s source) at(pos token.Pos) token.Position { return s.set.Position(pos) }

// eachSource goes through every Go file of the house that is no test, with its comments; a room's alone by sourcesOf.
func eachSource(t *testing.T, do func(source)) {
	t.Helper()
	err := filepath.WalkDir(".", func(path string, entry fs.DirEntry, err error) error {
		if err == nil && !entry.IsDir() {
			parseSource(t, path, do)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// sourcesOf goes through the Go files of a room that are no tests. A room that has none is an error.
func sourcesOf(t *testing.T, room string, do func(source)) {
	t.Helper()
	paths, err := filepath.Glob(room + "/*.go")
	if err != nil || len(paths) == 0 {
		t.Fatalf("%s: %d files, %v", room, len(paths), err)
	}
	for _, path := range paths {
		parseSource(t, path, do)
	}
}

func parseSource(t *testing.T, path string, do func(source)) {
	t.Helper()
	if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
		return
	}
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, path, nil, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	do(source{filepath.ToSlash(path), set, file})
}
