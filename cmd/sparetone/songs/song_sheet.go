package songs

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/theory"
	"sparetone/theory/song/arrange"
	"sparetone/tui/draw/sheet"
)

// SheetOptions is where sheets go, and how they look.
type SheetOptions struct {
	Option      string   // that names the files
	Paths       []string // of the files
	Paper       string
	Left, Large bool
}

// sheetKinds writes a sheet, by the end of its file's name.
var sheetKinds = map[string]func(*os.File, arrange.Arrangement, sheet.Options) error{
	".svg": func(f *os.File, a arrange.Arrangement, o sheet.Options) error {
		_, err := f.WriteString(sheet.SVG(a, o))
		return err
	},
	".html": func(f *os.File, a arrange.Arrangement, o sheet.Options) error {
		_, err := f.WriteString(sheet.HTML(a, o))
		return err
	},
	".pdf": func(f *os.File, a arrange.Arrangement, o sheet.Options) error { return sheet.PDF(f, a, o) },
}

// addSheet adds the options of sheetOptions.
func addSheet(cmd *cobra.Command) *SheetOptions {
	f, o := cmd.Flags(), &SheetOptions{Option: "--sheet"}
	f.StringArrayVar(&o.Paths, "sheet", nil, "write a sheet of the shapes and the song, as FILE.svg, FILE.html or FILE.pdf; may be given again")
	f.StringVar(&o.Paper, "paper", "a4", "the size of the sheet's paper: a4 or letter")
	f.BoolVar(&o.Left, "left", false, "necks for left-handed players on the sheet")
	f.BoolVar(&o.Large, "large", false, "large print on the sheet")
	return o
}

// Check says what in the options is wrong.
func (o *SheetOptions) Check() error {
	for _, path := range o.Paths {
		if sheetKinds[kindOfSheet(path)] == nil {
			return command.Wrong("%s: %s: the file's name ends with .svg, .html or .pdf", o.Option, theory.Clean(path))
		}
	}
	if _, ok := PaperSizes[o.Paper]; !ok {
		return command.Wrong("--paper: %q; it is a4 or letter", theory.Clip(o.Paper))
	}
	return nil
}

func kindOfSheet(path string) string { return strings.ToLower(filepath.Ext(path)) }

// Files are the sheets that are to be written. The error says what cannot be.
func (o *SheetOptions) Files(a arrange.Arrangement) (files []command.NamedFile, err error) {
	look := sheet.Options{Paper: PaperSizes[o.Paper], Left: o.Left, Large: o.Large}
	if slices.ContainsFunc(o.Paths, func(path string) bool { return kindOfSheet(path) == ".pdf" }) {
		if err := sheet.Printable(a, look); err != nil {
			return nil, err
		}
	}
	for _, path := range o.Paths {
		write := sheetKinds[kindOfSheet(path)]
		files = append(files, command.NamedFile{Option: o.Option, Path: path, Write: func(f *os.File) error { return write(f, a, look) }})
	}
	return files, nil
}

// PaperSizes are the sizes of paper by their names.
var PaperSizes = map[string]sheet.Paper{"a4": sheet.A4, "letter": sheet.Letter}
