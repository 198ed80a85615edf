package capture

import (
	"context"
	"fmt"
	"runtime"
	"sync/atomic"
	"time"
	"unsafe"

	"golang.org/x/sys/windows"
)

// Windows' waveIn functions (mmeapi.h). They were built, and run nowhere yet.
var (
	winmm        = windows.NewLazySystemDLL("winmm.dll")
	waveInOpen   = winmm.NewProc("waveInOpen")
	waveInReady  = winmm.NewProc("waveInPrepareHeader")
	waveInAdd    = winmm.NewProc("waveInAddBuffer")
	waveInStart  = winmm.NewProc("waveInStart")
	waveInReset  = winmm.NewProc("waveInReset")
	waveInUnmake = winmm.NewProc("waveInUnprepareHeader")
	waveInClose  = winmm.NewProc("waveInClose")
)

// waveFormat is WAVEFORMATEX.
type waveFormat struct {
	tag, channels   uint16
	rate, byteRate  uint32
	align, bits, cb uint16
}

// waveHeader is WAVEHDR.
type waveHeader struct {
	data             *int16
	length, recorded uint32
	user             uintptr
	flags, loops     uint32
	next, reserved   uintptr
}

const (
	waveMapper = 0xFFFFFFFF // the device that the user has chosen
	wavePCM    = 1
	headerDone = 1
	waveBlocks = 8                    // that lie with the device, of a fragment each
	lookAgain  = 5 * time.Millisecond // whether a block is full
)

// wave is a device that records: its blocks, which stay where they are in memory until it is closed.
type wave struct {
	handle  uintptr
	headers [waveBlocks]waveHeader
	blocks  [waveBlocks][fragment]int16
	pinner  runtime.Pinner
}

// openDevice opens the machine's microphone.
func openDevice(context.Context) (Source, error) {
	if err := winmm.Load(); err != nil {
		return nil, &Fault{NoServer, err.Error()}
	}
	w := &wave{}
	w.pinner.Pin(w)
	format := waveFormat{tag: wavePCM, channels: 1, rate: deviceRate, byteRate: 2 * deviceRate, align: 2, bits: 16}
	if r, _, _ := waveInOpen.Call(uintptr(unsafe.Pointer(&w.handle)), waveMapper, uintptr(unsafe.Pointer(&format)), 0, 0, 0); r != 0 {
		w.pinner.Unpin()
		return nil, &Fault{NoServer, fmt.Sprintf("waveInOpen: %d", r)}
	}
	for i := range w.headers {
		h := &w.headers[i]
		h.data, h.length = &w.blocks[i][0], 2*fragment
		if w.call(waveInReady, h) != 0 || w.call(waveInAdd, h) != 0 {
			w.end()
			return nil, &Fault{NoServer, "its buffers are refused"}
		}
	}
	if r, _, _ := waveInStart.Call(w.handle); r != 0 {
		w.end()
		return nil, &Fault{NoServer, fmt.Sprintf("waveInStart: %d", r)}
	}
	closed := make(chan struct{})
	f := newFeed(deviceRate, func() { close(closed) })
	go w.hear(f, closed)
	return f, nil
}

// call calls one of the functions that take a header.
func (w *wave) call(proc *windows.LazyProc, h *waveHeader) uintptr {
	r, _, _ := proc.Call(w.handle, uintptr(unsafe.Pointer(h)), unsafe.Sizeof(*h))
	return r
}

// hear hands on blocks in turn, as they are full, until the feed is closed or the device takes none back.
func (w *wave) hear(f *feed, closed <-chan struct{}) {
	defer w.end()
	samples := make([]float64, fragment)
	for next := 0; ; {
		h := &w.headers[next]
		if atomic.LoadUint32(&h.flags)&headerDone == 0 {
			select {
			case <-closed:
				return
			case <-time.After(lookAgain):
			}
			continue
		}
		n := min(int(h.recorded)/2, fragment)
		for i, x := range w.blocks[next][:n] {
			samples[i] = float64(x) / (1 << 15)
		}
		f.put(samples[:n])
		if r := w.call(waveInAdd, h); r != 0 {
			f.fail(&Fault{Gone, fmt.Sprintf("waveInAddBuffer: %d", r)})
			return
		}
		next = (next + 1) % waveBlocks
	}
}

// end lets the device go.
func (w *wave) end() {
	waveInReset.Call(w.handle)
	for i := range w.headers {
		w.call(waveInUnmake, &w.headers[i])
	}
	waveInClose.Call(w.handle)
	w.pinner.Unpin()
}
