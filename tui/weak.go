package tui

import tea "charm.land/bubbletea/v2"
import "charm.land/bubbles/v2/key"

type weak struct{ menu }

func newWeak(a *app) screen                                  { return &weak{} }
func (w *weak) keys(a *app) []key.Binding                    { return []key.Binding{labelled(keyLeave, "back")} }
func (w *weak) update(a *app, msg tea.Msg) (screen, tea.Cmd) { return &today{}, nil }
func (w *weak) view(a *app, b *body)                         { b.say(a.theme.Strong, "Weak spots") }
