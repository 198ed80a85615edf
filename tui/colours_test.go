package tui

import (
	"fmt"
	"strings"
	"testing"

	"sparetone/tui/draw"

	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/colorprofile"
	"github.com/charmbracelet/x/ansi"
)

// look is a way in which a terminal shows colours.
type look struct {
	name    string // the folder of its pictures; empty for those without colours
	dark    bool
	profile colorprofile.Profile
}

// looks are those of which there are pictures.
var looks = []look{
	{"", true, colorprofile.ASCII},
	{"dark", true, colorprofile.TrueColor},
	{"light", false, colorprofile.TrueColor},
	{"dark-sixteen", true, colorprofile.ANSI},
	{"light-sixteen", false, colorprofile.ANSI},
}

// on puts a screen on a terminal of this look.
func (l look) on(a *app) {
	a.dark, a.profile = l.dark, l.profile
	a.applyTheme()
}

// job is one of the theme's jobs with the letter that stands for it in pictures.
type job struct {
	letter, name string
	style        lipgloss.Style
}

func jobs(th draw.Theme) []job {
	return []job{
		{" ", "text", th.Text}, {"q", "quiet", th.Quiet}, {"s", "strong", th.Strong},
		{"a", "accent", th.Accent}, {"r", "right", th.Right}, {"w", "wrong", th.Wrong},
	}
}

// code is what switches a style on: the parameters of SGR in ECMA-48, such as 1;38;2;230;159;0; empty if the
// style is the terminal's own.
func code(s lipgloss.Style) string {
	at := styled.FindStringSubmatch(s.Render("x"))
	if at == nil {
		return ""
	}
	return at[1]
}

// unstyled stands below what has no style, and so the colour that the terminal gives to text.
const unstyled = "."

// legend says which letter stands for which job and how that looks.
func legend(th draw.Theme) string {
	var b strings.Builder
	for _, j := range jobs(th) {
		letter := j.letter
		if letter == " " {
			letter = "blank"
		}
		shown := code(j.style)
		if shown == "" {
			shown = "the terminal's own"
		}
		fmt.Fprintf(&b, "%-5s  %-6s  %s\n", letter, j.name, shown)
	}
	if code(th.Text) != "" {
		fmt.Fprintf(&b, "%-5s  %-6s  the terminal's own\n", unstyled, "none")
	}
	return b.String()
}

// noJob stands below what is in a style of its own. No screen has it, neither below a line nor in one.
const noJob = "¿"

// inked writes a screen so that its colours can be read: below each line that is not all plain text, the
// letter of the job that each character has there. What is in no style of the theme's has noJob.
func inked(th draw.Theme, screen string) string {
	letters := map[string]string{"": unstyled}
	all := jobs(th)
	for i := range all { // of jobs that look alike the first one counts
		j := all[len(all)-1-i]
		letters[code(j.style)] = j.letter
	}
	var b strings.Builder
	for _, line := range strings.Split(screen, "\n") {
		fmt.Fprintln(&b, strings.TrimRight(ansi.Strip(line), " "))
		if under := strings.TrimRight(underline(letters, line), " "); under != "" {
			fmt.Fprintln(&b, under)
		}
	}
	return b.String()
}

// underline writes the letters that belong below a line.
func underline(letters map[string]string, line string) string {
	var b strings.Builder
	now := ""
	put := func(text string) {
		letter, ok := letters[now]
		if !ok {
			letter = noJob
		}
		for _, r := range text {
			if r == ' ' {
				b.WriteByte(' ')
			} else {
				b.WriteString(strings.Repeat(letter, ansi.StringWidth(string(r))))
			}
		}
	}
	for {
		at := styled.FindStringSubmatchIndex(line)
		if at == nil {
			put(line)
			return b.String()
		}
		put(line[:at[0]])
		if now = line[at[2]:at[3]]; now == "0" {
			now = ""
		}
		line = line[at[1]:]
	}
}

// The letters are those of the styles that are there, not of those that should be.
func TestInked(t *testing.T) {
	th := draw.NewTheme(true, colorprofile.TrueColor)
	line := th.Text.Render("C ") + th.Accent.Render("9 ×") + th.Quiet.Render("3") + lipgloss.NewStyle().Underline(true).Render("?!") + "›"
	if got, want := inked(th, line), "C 9 ×3?!›\n  a aq¿¿.\n"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
