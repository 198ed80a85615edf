package meet

import (
	_ "embed"
	"strings"

	"github.com/pelletier/go-toml/v2"

	"sparetone/drills"
	"sparetone/theory/say"
)

//go:embed topics.toml
var topics string

// likes is what each topic is like, by what is written in topics.toml.
var likes = func() map[drills.Topic]say.Text {
	var table map[string]map[string]string
	if err := toml.NewDecoder(strings.NewReader(topics)).Decode(&table); err != nil {
		panic("meet: topics.toml: " + err.Error())
	}
	out := map[drills.Topic]say.Text{}
	for of, sentences := range table {
		for id, sentence := range sentences {
			out[drills.Topic{Of: of, ID: id}] = say.Of("{}", say.Words(sentence))
		}
	}
	return out
}()
