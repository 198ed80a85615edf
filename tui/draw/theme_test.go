package draw

import (
	"fmt"
	"math"
	"testing"

	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/colorprofile"
)

// luminance is the relative luminance of a colour by WCAG 2.2.
func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	var c [3]int
	if _, err := fmt.Sscanf(hex, "#%02X%02X%02X", &c[0], &c[1], &c[2]); err != nil {
		t.Fatalf("%s: %v", hex, err)
	}
	part := func(n int) float64 {
		s := float64(n) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*part(c[0]) + 0.7152*part(c[1]) + 0.0722*part(c[2])
}

// contrast is the contrast ratio of two colours by WCAG 2.2.
func contrast(t *testing.T, a, b string) float64 {
	x, y := luminance(t, a), luminance(t, b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// Black on white is 21:1, and #767676 is the lightest grey that reaches 4.5:1 on white (WCAG 2.2,
// understanding success criterion 1.4.3).
func TestContrastAsWCAGHasIt(t *testing.T) {
	if c := contrast(t, "#000000", "#FFFFFF"); math.Abs(c-21) > 1e-9 {
		t.Errorf("black on white is %.2f", c)
	}
	if at, beyond := contrast(t, "#767676", "#FFFFFF"), contrast(t, "#777777", "#FFFFFF"); at < 4.5 || beyond >= 4.5 {
		t.Errorf("greys on white are %.3f and %.3f", at, beyond)
	}
}

// shownAs is a colour as a terminal of some abilities shows it.
func shownAs(profile colorprofile.Profile, hex string) string {
	r, g, b, _ := profile.Convert(lipgloss.Color(hex)).RGBA()
	return fmt.Sprintf("#%02X%02X%02X", r>>8, g>>8, b>>8)
}

// Every colour is read at 4.5:1 or better on the backgrounds it is for: black and the greys that
// terminals have for it, white and paper.
func TestContrast(t *testing.T) {
	for name, set := range map[string]struct {
		shades
		on []string
	}{
		"dark":  {onDark, []string{"#000000", "#16181C", "#1E1E1E", "#282C34", "#002B36"}},
		"light": {onLight, []string{"#FFFFFF", "#FAFAFA", "#FDF6E3", "#F5F5F5"}},
	} {
		for job, ink := range map[string]string{"text": set.text, "quiet": set.quiet, "accent": set.accent, "right": set.right, "wrong": set.wrong} {
			for _, ground := range set.on {
				for _, profile := range []colorprofile.Profile{colorprofile.TrueColor, colorprofile.ANSI256} {
					if c := contrast(t, shownAs(profile, ink), ground); c < 4.5 {
						t.Errorf("%s %s on %s, %s: %.2f:1, wanted 4.5:1", name, job, ground, profile, c)
					}
				}
			}
		}
	}
}

// The sixteen colours as xterm has them (its XTerm-color resources, names of X11's rgb.txt) and as the Linux console
// does (the defaults of its vt module), those of them that are used.
var sixteen = map[string]map[string]string{
	"xterm":         {"1": "#CD0000", "4": "#0000EE", "5": "#CD00CD", "11": "#FFFF00", "13": "#FF00FF", "14": "#00FFFF"},
	"Linux console": {"1": "#AA0000", "4": "#0000AA", "5": "#AA00AA", "11": "#FFFF55", "13": "#FF55FF", "14": "#55FFFF"},
}

// Of sixteen colours those are used that are read at 4.5:1 or better where nobody has chosen other ones.
func TestContrastOfSixteen(t *testing.T) {
	for where, colours := range sixteen {
		for name, set := range map[string]struct {
			shades
			ground string
		}{"dark": {sixteenOnDark, "#000000"}, "light": {sixteenOnLight, "#FFFFFF"}} {
			for job, ink := range map[string]string{"accent": set.accent, "right": set.right, "wrong": set.wrong} {
				if c := contrast(t, colours[ink], set.ground); c < 4.5 {
					t.Errorf("%s, %s %s: %.2f:1, wanted 4.5:1", where, name, job, c)
				}
			}
		}
	}
}

// On a light background none of sixteen colours is bold, for in many terminals it would be pale.
func TestSixteenOnLightAreNotBold(t *testing.T) {
	th := NewTheme(false, colorprofile.ANSI)
	for _, style := range []lipgloss.Style{th.Accent, th.Right, th.Wrong} {
		if style.GetBold() {
			t.Errorf("%s is bold", style.Render("this"))
		}
	}
}
