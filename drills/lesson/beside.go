package lesson

import (
	"errors"
	"io"
	"io/fs"
	"path/filepath"
)

// LongestChart is how many bytes of a chart beside a lesson are read at the most.
const LongestChart = 1 << 20

// ChartsBeside returns the charts that the lesson at a path may name: those in its folder, or below it. open opens the file at a path.
func ChartsBeside[F io.ReadCloser](path string, open func(path string) (F, error)) Beside {
	return func(name string) (string, error) {
		if !filepath.IsLocal(name) {
			return "", errors.New("it does not lie beside the lesson")
		}
		f, err := open(filepath.Join(filepath.Dir(path), name))
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return "", errors.New("no such file")
		case err != nil:
			return "", err
		}
		defer f.Close()
		text, err := io.ReadAll(io.LimitReader(f, LongestChart))
		return string(text), err
	}
}
