package say

// Sayer is an error that has facts, and says what is wrong as a text of them.
type Sayer interface {
	error
	Say() Text
}

// Error is an error that says what is wrong as a text.
type Error struct{ Text }

// Say returns the text.
func (e Error) Say() Text { return e.Text }

func (e Error) Error() string { return e.Screen() }

// Wrong makes an error of wording and facts.
func Wrong(form string, facts ...Fact) error { return Error{Of(form, facts...)} }

// Said returns what an error says: its text if it has one, and else its words as they are.
func Said(err error) Text {
	if e, ok := err.(Sayer); ok { // and not errors.As: whatever wraps it has more to say
		return e.Say()
	}
	return Of(slot, Foreign(err.Error()))
}
