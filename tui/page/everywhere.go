package page

// Leave ends the program.
func (w *Walk) Leave() Next {
	w.Listen(false)
	w.end()
	return Next{Hush: true, Ends: true}
}

// Everywhere are the acts of all places; at is the one that they lead back to.
func (w *Walk) Everywhere(at Place) []Act {
	_, asks := at.(*Prompt)
	return only(
		called("louder", func(string) Next { return w.louder(1) }),
		called("softer", func(string) Next { return w.louder(-1) }),
		w.listens(),
		called("help", nil),
		called("save", func(path string) Next { return w.saves(at, path) }).where(!asks).off(w.kept(), sayAllKept(w.File().Path())),
		called("leave", func(string) Next { return w.Leave() }),
	)
}

// louder sets the volume some tenths up or down, and keeps it.
func (w *Walk) louder(tenths int) Next {
	n := min(10, max(0, int(10*w.Speaker.Volume()+0.5)+tenths))
	w.Settings.Volume = float64(n) / 10
	w.Speaker.SetVolume(w.Settings.Volume)
	if err := w.Keep("volume"); err != nil {
		return Next{Said: sayVolumeUnkept(n, err)}
	}
	return Next{Said: sayVolume(n)}
}

// listens switches the microphone on or off.
func (w *Walk) listens() Act {
	switches := called("listen", func(string) Next {
		w.Listen(true)
		return Next{Said: nowListening, Aloud: true}
	})
	if w.Listens() {
		switches = called("no listening", func(string) Next {
			w.Listen(false)
			return Next{Said: noMoreListening}
		})
	}
	return switches.where(w.Microphone != nil)
}
