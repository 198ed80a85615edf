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

// The subject of a doc comment is what it stands at, by its name: a comment that names something else has outlived a change of names.
// Tests are told by what they show, and groups of constants and variables as a whole.
func TestCommentsNameWhatTheyStandAt(t *testing.T) {
	set := token.NewFileSet()
	check := func(doc *ast.CommentGroup, name string) {
		if doc == nil {
			return
		}
		first, _, _ := strings.Cut(strings.TrimPrefix(doc.List[0].Text, "// "), " ")
		if first = strings.TrimRight(first, ",.:;"); first != name && !strings.HasPrefix(first, "//go:") {
			t.Errorf("%s: the comment at %s begins with %q", set.Position(doc.Pos()), name, first)
		}
	}
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(set, path, nil, parser.ParseComments)
		if err != nil {
			return err
		}
		for _, d := range file.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				check(d.Doc, d.Name.Name)
			case *ast.GenDecl:
				if d.Lparen.IsValid() {
					continue
				}
				for _, s := range d.Specs {
					switch s := s.(type) {
					case *ast.TypeSpec:
						check(d.Doc, s.Name.Name)
					case *ast.ValueSpec:
						check(d.Doc, s.Names[0].Name)
					}
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
