package practice

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"unicode"
	"unicode/utf8"

	"sparetone/progress/store"
	files "sparetone/progress/whole"
	"sparetone/theory"
	"sparetone/theory/say"
)

// Save writes practice to a new progress file, whose path a person typed, and goes on in it. Where nothing
// was typed the file is the one that is proposed. It returns a line that says what came of it.
func (p *App) Save(typed string) (said string, err error) {
	path := fromHome(theory.Clean(typed))
	if path == "" {
		path = p.Proposed()
	}
	if path, err = filepath.Abs(path); err != nil {
		return "", err
	}
	err = p.File().GoOnIn(path)
	if err != nil && !errors.Is(err, store.ErrOnlySince) {
		return "", fmt.Errorf("not saved: %w", err)
	}
	p.Notice = "" // it was that nothing is kept
	said = "Saved in " + path + "; practice goes on in it. The option --progress opens it the next time."
	if err != nil {
		said = Sentence(err.Error()) + " " + said
	}
	return said, nil
}

// Proposed is where practice could be saved: a file that is not there yet, in the home folder.
func (p *App) Proposed() string {
	return free(filepath.Join(home(), "sparetone-"+p.Setup.Now().Format("2006-01-02")), ".db")
}

// free returns a path that begins and ends so and where nothing is yet, with a number between if need be.
func free(begun, ending string) string {
	path := begun + ending
	for n := 2; ; n++ {
		if _, err := os.Lstat(path); err != nil {
			return path
		}
		path = fmt.Sprintf("%s-%d%s", begun, n, ending)
	}
}

// fromHome returns a path that a person typed, without the blanks around it, with the home folder in the place of a ~ before it.
func fromHome(typed string) string {
	path := strings.TrimSpace(typed)
	if rest, ok := strings.CutPrefix(path, "~/"); ok {
		return filepath.Join(home(), rest)
	}
	return path
}

// home is the home folder, or where there is none the folder the program was called in.
func home() string {
	h, err := os.UserHomeDir()
	if err != nil {
		return "."
	}
	return h
}

// Unkept says how many answers would be lost if the program ended now, and why; it is empty if none would.
func (p *App) Unkept() string {
	lost := p.unkept()
	if lost.IsZero() {
		return ""
	}
	return say.Of("{}.", lost).Screen()
}

// unkept is the same in a clause.
func (p *App) unkept() say.Text {
	n, why := p.File().AtRisk()
	if n == 0 {
		return say.Text{}
	}
	return say.Of("{} not kept in any file: {}", say.Count{N: n, One: "answer is", Many: "answers are"}, say.Said(why))
}

// Close closes the session in the file, whatever ended the program. The error says what is lost.
func (p *App) Close() error {
	err := p.Session.End()
	if lost := p.unkept(); !lost.IsZero() {
		return say.Error{Text: lost}
	}
	return err
}

// WriteFile writes a file that is not there yet, whole or not at all, whose path a person typed. It returns a sentence that says where
// it lies.
func (p *App) WriteFile(typed string, write func(*os.File) error) (said say.Text, err error) {
	path := fromHome(theory.Clean(typed))
	if path, err = filepath.Abs(path); err != nil {
		return say.Text{}, err
	}
	if err := files.New(path, readableByAll, write); err != nil {
		return say.Text{}, fmt.Errorf("not written: %w", files.Brief(err))
	}
	return say.Of("Written to {}.", say.Foreign(path)), nil
}

// readableByAll are the permissions of a file that is made for others.
const readableByAll = 0o644

// ProposedFile is where a file of a name could be written: one that is not there yet, in the home folder.
func (p *App) ProposedFile(name, ending string) string {
	return free(filepath.Join(home(), fileName(name, "song")), ending)
}

// longestFileName is how many bytes of a name a file is called by at most.
const longestFileName = 60

// fileName makes of a name one that any file may have: its letters and digits, with a hyphen for all but apostrophes that lies
// between them; instead where it has none.
func fileName(name, instead string) string {
	name = strings.NewReplacer("'", "", "’", "").Replace(strings.ToLower(name))
	words := strings.FieldsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r) })
	name = strings.Join(words, "-")
	for len(name) > longestFileName {
		_, size := utf8.DecodeLastRuneInString(name)
		name = strings.TrimRight(name[:len(name)-size], "-")
	}
	if name == "" {
		return instead
	}
	return name
}
