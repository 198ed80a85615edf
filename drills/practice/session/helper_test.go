package session

import (
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
)

// drill is one of the drills by its id.
func drill(t testing.TB, id string) drills.Drill {
	t.Helper()
	d, ok := catalogue.ByID(id)
	if !ok {
		t.Fatalf("there is no drill %s", id)
	}
	return d
}
