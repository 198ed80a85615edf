//go:build unix && !darwin

package capture

import (
	"bufio"
	"encoding/binary"
	"errors"
	"io"
	"slices"

	"github.com/jfreymuth/pulse/proto"
)

// knownMessages passes on what a PulseAudio server sends, but for the messages that the library does not know: of those it writes the
// numbers to standard output, across whatever is on the screen. Any end is io.EOF, the only one that the library tells of.
type knownMessages struct {
	from    io.Reader
	buffer  *bufio.Reader
	ready   []byte // of a message's beginning
	through int    // bytes of its rest
}

// The beginning of a message: its length, its channel, and three more words; behind that a command has a letter and its number.
const (
	headBytes    = 20
	opBytes      = 5
	ofCommands   = 0xFFFFFFFF // the channel of commands
	mostOfAPiece = 16 << 20   // as in PulseAudio's pstream.c, which refuses longer ones
)

// known are the commands that the library knows.
var known = []uint32{
	proto.OpError, proto.OpReply, proto.OpRequest, proto.OpOverflow, proto.OpUnderflow, proto.OpPlaybackStreamKilled,
	proto.OpRecordStreamKilled, proto.OpSubscribeEvent, proto.OpPlaybackStreamSuspended, proto.OpRecordStreamSuspended,
	proto.OpPlaybackStreamMoved, proto.OpRecordStreamMoved, proto.OpClientEvent, proto.OpPlaybackStreamEvent, proto.OpRecordStreamEvent,
	proto.OpStarted, proto.OpPlaybackBufferAttrChanged,
}

func (k *knownMessages) Read(p []byte) (int, error) {
	if k.buffer == nil {
		k.buffer = bufio.NewReader(k.from)
	}
	for len(k.ready) == 0 && k.through == 0 {
		if err := k.next(); err != nil {
			return 0, io.EOF
		}
	}
	if len(k.ready) > 0 {
		n := copy(p, k.ready)
		k.ready = k.ready[n:]
		return n, nil
	}
	n, err := k.buffer.Read(p[:min(len(p), k.through)])
	k.through -= n
	if err != nil {
		err = io.EOF
	}
	return n, err
}

// next begins the next message, or skips it.
func (k *knownMessages) next() error {
	head := make([]byte, headBytes)
	if _, err := io.ReadFull(k.buffer, head); err != nil {
		return err
	}
	length := int(binary.BigEndian.Uint32(head))
	if length > mostOfAPiece {
		return errors.New("a message is too long")
	}
	if binary.BigEndian.Uint32(head[4:]) == ofCommands && length >= opBytes {
		begins, err := k.buffer.Peek(opBytes)
		if err != nil {
			return err
		}
		if !slices.Contains(known, binary.BigEndian.Uint32(begins[1:])) {
			_, err := k.buffer.Discard(length)
			return err
		}
	}
	k.ready, k.through = head, length
	return nil
}
