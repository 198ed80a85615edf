// Command empty is a Bubble Tea program that shows one line: what the first frame is measured against.
package main

import (
	"os"

	tea "charm.land/bubbletea/v2"
)

type model struct{}

func (model) Init() tea.Cmd { return nil }

func (m model) Update(msg tea.Msg) (tea.Model, tea.Cmd) { return m, nil }

func (model) View() tea.View {
	v := tea.NewView("begin")
	v.AltScreen = true
	return v
}

func main() {
	if _, err := tea.NewProgram(model{}).Run(); err != nil {
		os.Exit(1)
	}
}
