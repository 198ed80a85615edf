// Command release builds what players download: for Linux, macOS and Windows an archive with the program, its man page,
// completions and the licences of all that is in it, for Debian a package, and the checksums of these. The same commit gives
// the same bytes, wherever and whenever it is built with the same version of Go.
//
//	go run ./cmd/release --out dist
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"

	"sparetone/progress/whole"
)

func main() {
	out := flag.String("out", "dist", "the `folder` to write, which must not be there yet")
	only := flag.String("only", "", "only these `platforms`, such as linux/amd64,windows/arm64")
	unclean := flag.Bool("unclean", false, "build although files are not as they were committed; that is no release")
	flag.Parse()
	ctx, end := signal.NotifyContext(context.Background(), os.Interrupt)
	defer end()
	if err := release(ctx, *out, *only, *unclean, flag.Args()); err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(1)
	}
}

// release writes a release into a folder that is not there yet, all of it or nothing.
func release(ctx context.Context, out, only string, unclean bool, rest []string) error {
	if len(rest) > 0 {
		return fmt.Errorf("%q is no option; see --help", rest[0])
	}
	for_, err := wanted(only)
	if err != nil {
		return err
	}
	at, err := commitOf(ctx, unclean)
	if err != nil {
		return err
	}
	return whole.Folder(out, 0o755, func(folder string) error {
		built, err := os.MkdirTemp("", "release")
		if err != nil {
			return err
		}
		defer os.RemoveAll(built)
		docs, err := documentsOf(ctx, at, built)
		if err != nil {
			return err
		}
		var sums []sum
		for _, p := range for_ {
			files, err := filesOf(ctx, at, p, docs, built)
			if err != nil {
				return fmt.Errorf("%s: %w", p, err)
			}
			for name, content := range packed(at, p, files) {
				bytes, err := content()
				if err == nil {
					sums = append(sums, sumOf(name, bytes))
					err = written(filepath.Join(folder, name), bytes)
				}
				if err != nil {
					return fmt.Errorf("%s: %w", name, err)
				}
			}
			fmt.Println(p)
		}
		return written(filepath.Join(folder, "SHA256SUMS"), sumsOf(sums))
	})
}

// written writes a file.
func written(path string, bytes []byte) error {
	return whole.Synced(path, 0o644, func(f *os.File) error {
		_, err := f.Write(bytes)
		return err
	})
}
