package capture

import (
	"context"
	"fmt"
	"sync"
	"unsafe"

	"github.com/ebitengine/purego"
)

// audioToolbox is where macOS' audio queues are (AudioQueue.h). They were built, and run nowhere yet.
const audioToolbox = "/System/Library/Frameworks/AudioToolbox.framework/AudioToolbox"

// audioFormat is AudioStreamBasicDescription.
type audioFormat struct {
	rate                                                                              float64
	id, flags, packetBytes, packetFrames, frameBytes, channels, channelBits, reserved uint32
}

// audioBuffer is AudioQueueBuffer, as far as it is read.
type audioBuffer struct {
	capacity uint32
	data     *int16
	size     uint32 // bytes that are filled
}

const (
	linearPCM    = 'l'<<24 | 'p'<<16 | 'c'<<8 | 'm'
	packedSigned = 4 | 8 // kAudioFormatFlagIsSignedInteger, kAudioFormatFlagIsPacked
	queueBuffers = 8     // that lie with the device, of a fragment each
)

// The functions, once they are loaded.
var (
	queueNew      func(format *audioFormat, callback, user, runLoop, mode uintptr, flags uint32, queue *uintptr) int32
	queueAllocate func(queue uintptr, size uint32, buffer **audioBuffer) int32
	queueEnqueue  func(queue uintptr, buffer *audioBuffer, count uint32, packets uintptr) int32
	queueStart    func(queue, when uintptr) int32
	queueDispose  func(queue uintptr, atOnce bool) int32
	queueHears    uintptr // the one callback of all queues
)

var loadQueues = sync.OnceValue(func() error {
	lib, err := purego.Dlopen(audioToolbox, purego.RTLD_NOW|purego.RTLD_GLOBAL)
	if err != nil {
		return err
	}
	purego.RegisterLibFunc(&queueNew, lib, "AudioQueueNewInput")
	purego.RegisterLibFunc(&queueAllocate, lib, "AudioQueueAllocateBuffer")
	purego.RegisterLibFunc(&queueEnqueue, lib, "AudioQueueEnqueueBuffer")
	purego.RegisterLibFunc(&queueStart, lib, "AudioQueueStart")
	purego.RegisterLibFunc(&queueDispose, lib, "AudioQueueDispose")
	queueHears = purego.NewCallback(hearQueue)
	return nil
})

// queues are the feeds of the queues that are open, by what the callback is told of each.
var queues struct {
	sync.Mutex
	last  uintptr
	feeds map[uintptr]*feed
}

// hearQueue takes a buffer that is full, and gives it back.
func hearQueue(user, queue uintptr, buffer *audioBuffer, _ uintptr, _ uint32, _ uintptr) {
	queues.Lock()
	f := queues.feeds[user]
	queues.Unlock()
	if f == nil {
		return
	}
	samples := make([]float64, min(buffer.size/2, fragment))
	for i, x := range unsafe.Slice(buffer.data, len(samples)) {
		samples[i] = float64(x) / (1 << 15)
	}
	f.put(samples)
	if r := queueEnqueue(queue, buffer, 0, 0); r != 0 {
		f.fail(&Fault{Gone, fmt.Sprintf("AudioQueueEnqueueBuffer: %d", r)})
	}
}

// openDevice opens the machine's microphone.
func openDevice(context.Context) (Source, error) {
	if err := loadQueues(); err != nil {
		return nil, &Fault{NoServer, err.Error()}
	}
	format := audioFormat{rate: deviceRate, id: linearPCM, flags: packedSigned, packetBytes: 2, packetFrames: 1, frameBytes: 2, channels: 1, channelBits: 16}
	queues.Lock()
	queues.last++
	user := queues.last
	queues.Unlock()
	var queue uintptr
	if r := queueNew(&format, queueHears, user, 0, 0, 0, &queue); r != 0 {
		return nil, &Fault{NoServer, fmt.Sprintf("AudioQueueNewInput: %d", r)}
	}
	f := newFeed(deviceRate, func() {
		queues.Lock()
		delete(queues.feeds, user)
		queues.Unlock()
		queueDispose(queue, true)
	})
	queues.Lock()
	if queues.feeds == nil {
		queues.feeds = map[uintptr]*feed{}
	}
	queues.feeds[user] = f
	queues.Unlock()
	for range queueBuffers {
		var buffer *audioBuffer
		r := queueAllocate(queue, 2*fragment, &buffer)
		if r == 0 {
			r = queueEnqueue(queue, buffer, 0, 0)
		}
		if r != 0 {
			f.Close()
			return nil, &Fault{NoServer, fmt.Sprintf("its buffers are refused: %d", r)}
		}
	}
	if r := queueStart(queue, 0); r != 0 {
		f.Close()
		return nil, &Fault{NoServer, fmt.Sprintf("AudioQueueStart: %d", r)}
	}
	return f, nil
}
