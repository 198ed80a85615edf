package papers

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"sparetone/drills/catalogue"
	"sparetone/drills/neck"
	"sparetone/drills/paper"
	"sparetone/synth"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Every drill's papers are written in every form, with each question and each answer in them, on instruments of four and six strings.
func TestEveryDrillInEveryForm(t *testing.T) {
	for _, tuning := range []string{"ukulele", "guitar"} {
		on, err := fret.ParseTuning(tuning)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range catalogue.All() {
			p := Paper{Title: say.Of(d.About().Title), Of: say.Of("drill {}", say.Foreign(d.About().ID)), Version: "B", Seed: 4711, Recorded: "sounds.wav", Pause: 9 * time.Second,
				On: &neck.Instrument{Tuning: on, Voices: synth.Voices(), Hand: fret.DefaultHand}, Left: []say.Text{say.Of("step {}", say.Foreign("a<b>"))}}
			versions, err := paper.OfDrill(d, p.On, 3, 2, 1)
			if err != nil {
				continue // it asks nothing there
			}
			p.Questions = versions[0]
			_, p.Begins = paper.Recording(p.Questions, p.Pause)
			for _, look := range []Look{{}, {Words: true}} {
				var page, key, print, printed bytes.Buffer
				if err := p.HTML(&page, look, func(int) ([]byte, error) { return []byte("sound"), nil }); err != nil {
					t.Fatal(err)
				}
				if err := p.KeyHTML(&key, look); err != nil {
					t.Fatal(err)
				}
				if tuning == "guitar" && !look.Words {
					if err := p.PDF(&print, look); err != nil {
						t.Fatal(err)
					}
					if err := p.KeyPDF(&printed, look); err != nil {
						t.Fatal(err)
					}
				}
				for form, text := range map[string]string{"Markdown": string(p.Markdown(look)), "text": string(p.Text()), "page": page.String(),
					"answers in Markdown": string(p.KeyMarkdown()), "answers as text": string(p.KeyText()), "answers as a page": key.String()} {
					for n, q := range p.Questions {
						prompt, answer := q.Prompt.Screen(), q.Expected().Said.Screen()
						switch form {
						case "Markdown", "answers in Markdown":
							prompt, answer = q.Prompt.Sheet(), q.Expected().Said.Sheet()
						case "text", "answers as text":
							prompt, answer = q.Prompt.Aloud(), q.Expected().Said.Aloud()
						default:
							prompt, answer = escaped(prompt), escaped(answer)
						}
						if !strings.Contains(text, prompt) || strings.HasPrefix(form, "answers") && !strings.Contains(text, answer) {
							t.Errorf("%s on %s: question %d is not in %s", d.About().ID, tuning, n+1, form)
						}
					}
					if !strings.Contains(text, "Version B") || strings.Contains(text, "4711") != strings.HasPrefix(form, "answers") || strings.HasSuffix(form, "page") && strings.Contains(text, "<b>") {
						t.Errorf("%s on %s: %s does not say which version it is, or what it should not: %.300s", d.About().ID, tuning, form, text)
					}
				}
				if c := bytes.Count(page.Bytes(), []byte("<audio ")); c != map[bool]int{true: 3}[d.About().Ears] && d.About().Ears {
					t.Errorf("%s on %s: %d sounds in the page", d.About().ID, tuning, c)
				}
			}
		}
	}
}
