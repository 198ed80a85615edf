package sparetone_test

import (
	"go/ast"
	"strings"
	"testing"
)

// writesFiles are the functions of os that make a file, write it straight or move it: what ends the program in between
// leaves half a file, or none.
var writesFiles = map[string]bool{
	"Create": true, "CreateTemp": true, "WriteFile": true, "OpenFile": true, "Rename": true, "Truncate": true, "Link": true, "Symlink": true,
}

// mayWriteFiles is which files may call those, besides the room progress/whole, and why.
var mayWriteFiles = map[string]string{
	"progress/store/inspect.go":        "makes an empty progress file, which SQLite then fills",
	"progress/store/restore_finish.go": "moves whole files, each step of which can be finished later",
	"cmd/sparetone/paper_folder.go":    "moves the files of a paper, written whole, into a folder that is there",
	"cmd/sparetone/command/sound.go":   "opens the null device",
	"synth/playback/device_unix.go":    "opens the null device",
}

// Whatever writes a file that somebody named goes through progress/whole, so that it appears whole or not at all.
func TestFilesAreWrittenWhole(t *testing.T) {
	used := map[string]bool{}
	eachSource(t, func(file source) {
		path := file.path
		if strings.HasPrefix(path, "progress/whole/") || strings.Contains("/"+path, "/testdata/") {
			return
		}
		ast.Inspect(file.File, func(n ast.Node) bool {
			s, ok := n.(*ast.SelectorExpr)
			if !ok || !writesFiles[s.Sel.Name] {
				return true
			}
			if x, ok := s.X.(*ast.Ident); ok && x.Name == "os" {
				used[path] = true
				if mayWriteFiles[path] == "" {
					t.Errorf("%s: os.%s; progress/whole writes files whole", file.at(s.Pos()), s.Sel.Name)
				}
			}
			return true
		})
	})
	for path, why := range mayWriteFiles {
		if !used[path] {
			t.Errorf("%s no longer %s", path, why)
		}
	}
}
