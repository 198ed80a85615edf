package main

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

// sheetOptions is where sheets go, and how they look.
type sheetOptions struct {
	option      string   // that names the files
	paths       []string // of the files
	paper       string
	left, large bool
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
func addSheet(cmd *cobra.Command) *sheetOptions {
	f, o := cmd.Flags(), &sheetOptions{option: "--sheet"}
	f.StringArrayVar(&o.paths, "sheet", nil, "write a sheet of the shapes and the song, as FILE.svg, FILE.html or FILE.pdf; may be given again")
	f.StringVar(&o.paper, "paper", "a4", "the size of the sheet's paper: a4 or letter")
	f.BoolVar(&o.left, "left", false, "necks for left-handed players on the sheet")
	f.BoolVar(&o.large, "large", false, "large print on the sheet")
	return o
}

// check says what in the options is wrong.
func (o *sheetOptions) check() error {
	for _, path := range o.paths {
		if sheetKinds[kindOfSheet(path)] == nil {
			return command.Wrong("%s: %s: the file's name ends with .svg, .html or .pdf", o.option, theory.Clean(path))
		}
	}
	if _, ok := paperSizes[o.paper]; !ok {
		return command.Wrong("--paper: %q; it is a4 or letter", theory.Clip(o.paper))
	}
	return nil
}

func kindOfSheet(path string) string { return strings.ToLower(filepath.Ext(path)) }

// files are the sheets that are to be written. The error says what cannot be.
func (o *sheetOptions) files(a arrange.Arrangement) (files []songFile, err error) {
	look := sheet.Options{Paper: paperSizes[o.paper], Left: o.left, Large: o.large}
	if slices.ContainsFunc(o.paths, func(path string) bool { return kindOfSheet(path) == ".pdf" }) {
		if err := sheet.Printable(a, look); err != nil {
			return nil, err
		}
	}
	for _, path := range o.paths {
		write := sheetKinds[kindOfSheet(path)]
		files = append(files, songFile{o.option, path, func(f *os.File) error { return write(f, a, look) }})
	}
	return files, nil
}
