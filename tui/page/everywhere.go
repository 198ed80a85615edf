package page

// Leave ends the program.
func (w *Walk) Leave() Next {
	w.Listen(false)
	w.end()
	return Next{Silence: true, Ends: true}
}

// Everywhere are the acts of all places; at is the one that they lead back to.
func (w *Walk) Everywhere(at Place) []Act {
	_, asks := at.(*Prompt)
	return Only(
		Called("louder", func(string) Next { return w.Louder(1) }),
		Called("softer", func(string) Next { return w.Louder(-1) }),
		w.listens(),
		Called("help", nil),
		Called("save", func(path string) Next { return w.SaveElsewhere(at, path) }).If(!asks).OffIf(w.allKept(), sayAllKept(w.File().Path())),
		Called("leave", func(string) Next { return w.Leave() }),
	)
}

// Louder sets the volume some tenths up or down, and keeps it.
func (w *Walk) Louder(tenths int) Next {
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
	switches := Called("listen", func(string) Next {
		w.Listen(true)
		return Next{Said: nowListening, OnlyInLines: true}
	})
	if w.Listens() {
		switches = Called("no listening", func(string) Next {
			w.Listen(false)
			return Next{Said: noMoreListening}
		})
	}
	return switches.If(w.Microphone != nil)
}
