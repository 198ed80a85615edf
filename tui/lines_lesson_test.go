package tui

import (
	"context"
	"strings"
	"testing"

	"sparetone/tui/lines"
)

// A lesson is taken, looked at, given up and taken up again in lines alone.
func TestALessonInLines(t *testing.T) {
	p, _ := practiceOf(t, false)
	file := lessonAt(t, ninths)
	script := []string{"lessons", "take nowhere.toml", "take", "", "stop", "take " + file, "take " + file, "1", "give up", "give up", "1", "take up", "stop", "lessons", "ninths in a loop", "stop", "stop", "leave"}
	out := &heardLines{}
	if err := lines.Run(context.Background(), p, strings.NewReader(strings.Join(script, "\n")+"\n"), out); inMemory(err) != nil {
		t.Fatal(err)
	}
	says(t, out.String(),
		"No lesson was taken yet.", "Type take and a file to take a lesson.", "\nnowhere.toml: no such file", "Which file?", "Type it, or stop, to go back.\nType it, or stop, to go back.", "“Ninths in a loop” is today's practice now.",
		"1: Lesson Ninths in a loop, from Ida: 0 of ", "due Monday 1 June. It runs.", "his lesson was taken already", "Their sounds: 0 of 2 done.",
		"Once more gives “Ninths in a loop” up.", "“Ninths in a loop” is given up.", "It was left.", "“Ninths in a loop” goes on.",
	)
	all, err := p.Standings()
	if err != nil || len(all) != 1 || all[0].State != "running" {
		t.Errorf("%+v, %v", all, err)
	}
}
