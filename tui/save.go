package tui

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"sparetone/progress"
)

// keySave leads to saving practice in another file. It works where there is something to save.
var keySave = bind("save", "s", "s")

// save writes practice to a new progress file, whose path a person typed, and goes on in it. Where nothing
// was typed the file is the one that is proposed. It returns a line that says what came of it.
func (p *Practice) save(typed string) (said string, err error) {
	path := strings.TrimSpace(printed(typed))
	if path == "" {
		path = p.proposed()
	}
	if rest, ok := strings.CutPrefix(path, "~/"); ok {
		path = filepath.Join(home(), rest)
	}
	if path, err = filepath.Abs(path); err != nil {
		return "", err
	}
	err = p.file().GoOnIn(path)
	if err != nil && !errors.Is(err, progress.ErrOnlySince) {
		return "", fmt.Errorf("not saved: %w", err)
	}
	p.Notice = "" // it was that nothing is kept
	said = "Saved in " + path + "; practice goes on in it. The option progress opens it the next time."
	if err != nil {
		said = sentence(err.Error()) + " " + said
	}
	return said, nil
}

// proposed is where practice could be saved: a file that is not there yet, in the home folder.
func (p *Practice) proposed() string {
	begun := filepath.Join(home(), "sparetone-"+p.Setup.Now().Format("2006-01-02"))
	path := begun + ".db"
	for n := 2; ; n++ {
		if _, err := os.Lstat(path); err != nil {
			return path
		}
		path = fmt.Sprintf("%s-%d.db", begun, n)
	}
}

// home is the home folder, or where there is none the folder the program was called in.
func home() string {
	h, err := os.UserHomeDir()
	if err != nil {
		return "."
	}
	return h
}

// unkept says how many answers would be lost if the program ended now, and why; it is empty if none would.
func (p *Practice) unkept() string {
	n, why := p.file().AtRisk()
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("%s not kept in any file: %s.", count(n, "answer is", "answers are"), why)
}

// close closes the session in the file, whatever ended the program. The error says what is lost.
func (p *Practice) close() error {
	err := p.Session.End()
	if lost := p.unkept(); lost != "" {
		return errors.New(strings.TrimSuffix(lost, "."))
	}
	return err
}

// longestPath is how many characters of a path can be typed.
const longestPath = 1000

// saving is the screen on which the place is named where practice is to be saved.
type saving struct {
	field
	back   *ending
	failed string
}

func newSaving(a *app, back *ending) *saving {
	s := &saving{field: newField(func(string) []string { return nil }), back: back}
	s.CharLimit = longestPath
	s.SetValue(a.proposed())
	return s
}

func (s *saving) typing() bool { return true }

func (s *saving) keys(a *app) []key.Binding {
	return []key.Binding{labelled(keyGoOn, "save"), labelled(keyEscape, "back")}
}

func (s *saving) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	press, ok := msg.(tea.KeyPressMsg)
	switch {
	case ok && key.Matches(press, keyEscape):
		return s.back, nil
	case ok && key.Matches(press, keyHelp):
		a.help = true
		return s, nil
	case ok && key.Matches(press, keyGoOn):
		said, err := a.save(s.text())
		if err != nil {
			s.failed = sentence(err.Error())
			return s, nil
		}
		s.back.lost, s.back.saved = a.unkept(), said
		a.quiet = ""
		return s.back, nil
	}
	s.failed = ""
	s.field.update(msg)
	return s, nil
}

func (s *saving) view(a *app, b *body) {
	b.say(a.theme.Strong, "Where is practice to be saved?")
	b.gap()
	b.say(a.theme.Text, "A new progress file is made there, with all that was practised, and practice goes on in it. Nothing is written over.")
	b.gap()
	s.field.view(a, b, "File  ")
	if s.failed != "" {
		b.gap()
		b.say(a.theme.Wrong, "✗ "+s.failed)
	}
}
