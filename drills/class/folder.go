package class

import (
	"bufio"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"runtime"
	"slices"
	"strings"
	"sync"

	"sparetone/progress"
	"sparetone/progress/exchange"
	"sparetone/progress/whole"
	"sparetone/theory"
)

// mostFiles is how many files a folder may hold.
const mostFiles = 20_000

// ErrNoFiles is the error of a folder in which no file is.
var ErrNoFiles = errors.New("there is no file in it; put in what your students hand in, or what sparetone progress export writes")

// Read looks at a class by the files in a folder: exports and files that were handed in, whatever they are called. Files of one student
// count once. What is no such file is a problem, and the rest goes on. The error is of the folder as a whole.
func Read(ctx context.Context, folder fs.FS, o Options) (*Report, error) {
	entries, err := fs.ReadDir(folder, ".")
	if err != nil {
		return nil, whole.Brief(err)
	}
	r := &Report{Today: o.Today, Since: o.Since}
	groups := map[string]*handIn{}
	var order []*handIn
	files := 0
	for _, e := range entries {
		name := e.Name()
		if strings.HasPrefix(name, ".") {
			continue
		}
		if files++; files > mostFiles {
			return nil, fmt.Errorf("more than %d files: this is no folder of a class", mostFiles)
		}
		if ctx.Err() != nil {
			return nil, context.Cause(ctx)
		}
		of, err := peek(folder, name)
		if err != nil {
			r.problem(name, err)
			continue
		}
		if groups[of.ID] == nil {
			groups[of.ID] = &handIn{id: of.ID}
			order = append(order, groups[of.ID])
		}
		g := groups[of.ID]
		g.files = append(g.files, name)
		if g.name != "" && of.Name != "" && !sameName(g.name, of.Name) {
			r.Problems = append(r.Problems, Problem{theory.Clean(name), fmt.Sprintf("it is called %s, and is of the student of %s, who is called %s there: they count as one", theory.Clean(of.Name), theory.Clean(g.files[0]), theory.Clean(g.name)), true})
		}
		g.name = cmp.Or(g.name, of.Name)
	}
	if files == 0 {
		return nil, ErrNoFiles
	}
	if err := r.readAll(ctx, folder, order, o); err != nil {
		return nil, err
	}
	r.callTheRoll(o.Roster)
	r.sum()
	return r, nil
}

// handIn is the files of one student.
type handIn struct {
	id, name string
	files    []string
}

// regular opens a file of a folder, if it is one.
func regular(folder fs.FS, name string) (fs.File, error) {
	about, err := fs.Stat(folder, name)
	switch {
	case err != nil:
		return nil, whole.Brief(err)
	case about.IsDir():
		return nil, errors.New("this is a folder, and is not looked into")
	case !about.Mode().IsRegular():
		return nil, errors.New("this is no file")
	}
	f, err := folder.Open(name)
	if err != nil {
		return nil, whole.Brief(err)
	}
	return f, nil
}

func peek(folder fs.FS, name string) (progress.Whose, error) {
	f, err := regular(folder, name)
	if err != nil {
		return progress.Whose{}, err
	}
	defer f.Close()
	return exchange.Peek(f)
}

// readAll reads all students, as many at a time as there are processors.
func (r *Report) readAll(ctx context.Context, folder fs.FS, all []*handIn, o Options) error {
	type came struct {
		student  *Student
		problems []Problem
		err      error
	}
	out := make([]came, len(all))
	var work sync.WaitGroup
	next := make(chan int)
	var one sync.Mutex // of o.each
	for range min(len(all), runtime.GOMAXPROCS(0)) {
		work.Go(func() {
			for n := range next {
				c := &out[n]
				p, files, problems, err := all[n].read(ctx, folder)
				if c.problems, c.err = problems, err; err != nil || len(files) == 0 {
					continue
				}
				s := p.student(o)
				s.ID, s.Name, s.Files = all[n].id, theory.Clean(all[n].name), files
				c.student = &s
				if o.each != nil {
					one.Lock()
					c.err = o.each(s.ID, p)
					one.Unlock()
				}
			}
		})
	}
	for n := range all {
		if ctx.Err() != nil {
			break
		}
		next <- n
	}
	close(next)
	work.Wait()
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	for _, c := range out {
		if c.err != nil {
			return c.err
		}
		r.Problems = append(r.Problems, c.problems...)
		if c.student != nil {
			r.Students = append(r.Students, c.student)
		}
	}
	return nil
}

// read reads the files of a student. One with a fault counts for nothing, and the others are read again without it.
func (h *handIn) read(ctx context.Context, folder fs.FS) (p *practised, good []string, problems []Problem, err error) {
	good = slices.Clone(h.files)
again:
	p = newPractised()
	for n, name := range good {
		if ctx.Err() != nil {
			return nil, nil, nil, context.Cause(ctx)
		}
		f, err := regular(folder, name)
		if err == nil {
			err = p.read(untilDone{ctx, f}, h.id)
			f.Close()
		}
		if err != nil {
			problems = append(problems, problem(name, err))
			good = slices.Delete(good, n, n+1)
			goto again
		}
	}
	return p, good, problems, nil
}

// untilDone reads until a context ends.
type untilDone struct {
	ctx context.Context
	io.Reader
}

func (r untilDone) Read(b []byte) (int, error) {
	if r.ctx.Err() != nil {
		return 0, context.Cause(r.ctx)
	}
	return r.Reader.Read(b)
}

func problem(file string, err error) Problem {
	return Problem{theory.Clean(file), theory.Clean(err.Error()) + "; it does not count", false}
}

func (r *Report) problem(file string, err error) { r.Problems = append(r.Problems, problem(file, err)) }

// mostNames is how many names a roster may have, and longestName how long one may be, in characters.
const (
	mostNames   = 10_000
	longestName = 100
)

// ReadRoster reads a roster: a name a line; lines that are empty or begin with # are passed over.
func ReadRoster(r io.Reader) ([]string, error) {
	names := []string{}
	lines := bufio.NewScanner(r)
	for n := 1; lines.Scan(); n++ {
		line := strings.TrimSpace(theory.Clean(strings.TrimPrefix(lines.Text(), "\ufeff")))
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if len([]rune(line)) > longestName {
			return nil, fmt.Errorf("line %d: a name of more than %d characters; a roster has a name a line", n, longestName)
		}
		if slices.ContainsFunc(names, func(other string) bool { return sameName(other, line) }) {
			return nil, fmt.Errorf("line %d: %s is there twice; call them apart, as their files do", n, line)
		}
		if names = append(names, line); len(names) > mostNames {
			return nil, fmt.Errorf("line %d: more than %d names; a roster has a name a line", n, mostNames)
		}
	}
	if err := lines.Err(); err != nil {
		return nil, errors.New("a line is too long; a roster has a name a line")
	}
	if len(names) == 0 {
		return nil, errors.New("there is no name in it; a roster has a name a line")
	}
	return names, nil
}

// sameName reports whether two names are one, whatever the case and the spaces.
func sameName(a, b string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(a), " "), strings.Join(strings.Fields(b), " "))
}
