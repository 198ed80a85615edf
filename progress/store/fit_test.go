package store

import "testing"

func TestASessionThatEndsFitsTheFile(t *testing.T) {
	f := inMemory(t, evening)
	tried := func() (n int) {
		f.aside.Wait()
		f.db.QueryRow("SELECT answers FROM fit").Scan(&n)
		return n
	}
	practised(t, f, 0, 20, 14, 1)
	if n := tried(); n != 0 {
		t.Errorf("fitted to %d answers", n)
	}
	practised(t, f, 20, 1, 30, 2)
	if n := tried(); n != 310 {
		t.Errorf("fitted to %d answers, want 310", n)
	}
	practised(t, f, 21, 10, 15, 3)
	if n := tried(); n != 310 {
		t.Errorf("fitted to %d answers, want 310", n)
	}
	sound(t, f, 460)
	practised(t, f, 31, 1, 10, 4) // goes on with whatever weights there are
	if n := tried(); n != 470 {
		t.Errorf("fitted to %d answers, want 470", n)
	}
	sound(t, f, 470)
}
