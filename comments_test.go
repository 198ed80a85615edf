package sparetone_test

import (
	"go/ast"
	"strings"
	"testing"
)

// The subject of a doc comment is what it stands at, by its name: a comment that names something else has outlived a change of names.
// Tests are told by what they show, and groups of constants and variables as a whole.
func TestCommentsNameWhatTheyStandAt(t *testing.T) {
	check := func(file source, doc *ast.CommentGroup, name string) {
		if doc == nil {
			return
		}
		first, _, _ := strings.Cut(strings.TrimPrefix(doc.List[0].Text, "// "), " ")
		if first = strings.TrimRight(first, ",.:;"); first != name && !strings.HasPrefix(first, "//go:") {
			t.Errorf("%s: the comment at %s begins with %q", file.at(doc.Pos()), name, first)
		}
	}
	eachSource(t, func(file source) {
		for _, d := range file.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				check(file, d.Doc, d.Name.Name)
			case *ast.GenDecl:
				if d.Lparen.IsValid() {
					continue
				}
				for _, s := range d.Specs {
					switch s := s.(type) {
					case *ast.TypeSpec:
						check(file, d.Doc, s.Name.Name)
					case *ast.ValueSpec:
						check(file, d.Doc, s.Names[0].Name)
					}
				}
			}
		}
	})
}
