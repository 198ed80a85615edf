//go:build unix && !darwin

package capture

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"slices"
	"testing"
	"testing/iotest"

	"github.com/jfreymuth/pulse/proto"
)

// message is a message as a server sends it.
func message(channel uint32, body ...byte) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	out = binary.BigEndian.AppendUint32(out, channel)
	return append(append(out, make([]byte, 12)...), body...)
}

// command is the message of a command.
func command(op uint32, more ...byte) []byte {
	return message(ofCommands, append(binary.BigEndian.AppendUint32([]byte{'L'}, op), more...)...)
}

func TestUnknownMessagesAreLeftOut(t *testing.T) {
	sent := slices.Concat(command(proto.OpReply, 1, 2, 3), command(proto.OpRecordBufferAttrChanged, 4, 5), message(7, 0, 0, 0, 0, 95, 9), command(200),
		message(ofCommands), command(proto.OpStarted, 6))
	want := slices.Concat(command(proto.OpReply, 1, 2, 3), message(7, 0, 0, 0, 0, 95, 9), message(ofCommands), command(proto.OpStarted, 6))
	for name, from := range map[string]io.Reader{"whole": bytes.NewReader(sent), "byte by byte": iotest.OneByteReader(bytes.NewReader(sent))} {
		if got, err := io.ReadAll(&knownMessages{from: from}); err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s: %v, %v; want %v", name, got, err, want)
		}
	}
	long := command(proto.OpReply)
	binary.BigEndian.PutUint32(long, mostOfAPiece+1)
	if got, err := io.ReadAll(&knownMessages{from: bytes.NewReader(long)}); err != nil || len(got) != 0 {
		t.Errorf("a message that is too long gives %v, %v", got, err)
	}
	if _, err := (&knownMessages{from: iotest.ErrReader(errors.New("reset"))}).Read(make([]byte, 8)); err != io.EOF {
		t.Errorf("a connection that breaks ends with %v; want io.EOF", err)
	}
}

func TestServersAreDialled(t *testing.T) {
	for server, want := range map[string]string{
		"":                         "no server is named",
		"{another-machine}unix:/x": "no server is named",
		"/nonexistent":             "dial unix /nonexistent: connect: no such file or directory",
		"unix:/nonexistent/a":      "dial unix /nonexistent/a: connect: no such file or directory",
		"tcp4:127.0.0.1:1":         "dial tcp4 127.0.0.1:1: connect: connection refused",
		"127.0.0.1:1":              "dial tcp 127.0.0.1:1: connect: connection refused",
		"/none tcp:127.0.0.1:1":    "dial tcp 127.0.0.1:1: connect: connection refused",
	} {
		if _, err := dialPulse(t.Context(), server); err == nil || err.Error() != want {
			t.Errorf("%q: %v; want %s", server, err, want)
		}
	}
}
