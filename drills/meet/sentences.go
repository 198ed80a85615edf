package meet

import "sparetone/theory/say"

// All wording of this room stands here and, for what each topic is like, in topics.toml.

// sayPlaced is a chord of a progression: chord 2: IV, F.
func sayPlaced(place, chord say.Text) say.Text { return say.Of("{}: {}", place, chord) }
