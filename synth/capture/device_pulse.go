//go:build unix && !darwin

package capture

import (
	"context"
	"encoding/binary"
	"errors"
	"io"
	"math"
	"net"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/jfreymuth/pulse/proto"
)

// requestTime is how long a PulseAudio server may take to answer.
const requestTime = time.Second

// none is the number of a PulseAudio object that is not there.
const none = proto.Undefined

// openPulse opens the microphone of a PulseAudio server, or of what speaks its language, such as PipeWire's. The library's own client
// says nothing of a source that is taken away, so that its protocol is spoken here.
func openPulse(ctx context.Context, server string) (*feed, error) {
	conn, err := dialPulse(ctx, server)
	if err != nil {
		return nil, &Fault{NoServer, err.Error()}
	}
	// A server that hangs is not waited for longer than anybody wants.
	stopped := context.AfterFunc(ctx, func() { conn.Close() })
	f, err := recordPulse(conn)
	if !stopped() && err == nil {
		err = ctx.Err()
	}
	if err != nil {
		conn.Close()
		if errors.Is(err, context.DeadlineExceeded) {
			return nil, &Fault{Hung, err.Error()}
		}
		return nil, faultOf(err, NoServer)
	}
	return f, nil
}

// recordPulse has a server send what its microphone hears.
func recordPulse(conn net.Conn) (*feed, error) {
	f := newFeed(deviceRate, func() { conn.Close() })
	var stream, source uint32 = none, none // as soon as they are known
	client := &proto.Client{Callback: func(message any) {
		f.mu.Lock()
		stream, source := stream, source
		f.mu.Unlock()
		switch m := message.(type) {
		case *proto.DataPacket:
			f.put(floats(m.Data))
		case *proto.RecordStreamKilled:
			f.fail(&Fault{Gone, "the stream was ended"})
		case *proto.SubscribeEvent:
			if m.Event == proto.EventSource|proto.EventRemove && m.Index == source {
				f.fail(&Fault{Gone, "the source was removed"})
			}
		case *proto.RecordStreamMoved:
			if m.StreamIndex == stream {
				f.fail(&Fault{Gone, "the stream was moved to " + m.DestName}) // to be opened anew: it may be a monitor
			}
		case *proto.ConnectionClosed:
			f.fail(&Fault{Gone, "the server has ended"})
		}
	}}
	client.SetTimeout(requestTime)
	client.Open(struct {
		io.Reader
		io.Writer
	}{&knownMessages{from: conn}, conn})
	if err := greet(client); err != nil {
		return nil, err
	}
	name, err := sourceName(client)
	if err != nil {
		return nil, err
	}
	created := proto.CreateRecordStreamReply{}
	err = client.Request(&proto.CreateRecordStream{
		SampleSpec:  proto.SampleSpec{Format: proto.FormatFloat32LE, Channels: 1, Rate: deviceRate},
		ChannelMap:  proto.ChannelMap{proto.ChannelMono},
		SourceIndex: none, SourceName: name,
		BufferMaxLength: none, BufferFragSize: 4 * fragment, AdjustLatency: true,
		ChannelVolumes: proto.ChannelVolumes{proto.VolumeNorm},
		Properties:     proto.PropList{"media.name": proto.PropListString(application)}, DirectOnInputIndex: none,
	}, &created)
	if err != nil {
		return nil, err
	}
	f.change(func() { stream, source = created.StreamIndex, created.SourceIndex })
	return f, nil
}

// greet makes a client known to its server, and has it say when a source is removed.
func greet(client *proto.Client) error {
	var auth proto.AuthReply
	if err := client.Request(&proto.Auth{Version: client.Version(), Cookie: cookie()}, &auth); err != nil {
		return err
	}
	client.SetVersion(auth.Version)
	named := proto.PropList{"application.name": proto.PropListString(application)}
	if err := client.Request(&proto.SetClientName{Props: named}, &proto.SetClientNameReply{}); err != nil {
		return err
	}
	return client.Request(&proto.Subscribe{Mask: proto.SubscriptionMaskSource}, nil)
}

// sourceName returns the name of the source to listen to: PULSE_SOURCE, as everywhere with PulseAudio, else the one that the system has
// chosen, else another. One that is the sound of the loudspeakers is no microphone, unless it is named.
func sourceName(client *proto.Client) (string, error) {
	if name := os.Getenv("PULSE_SOURCE"); name != "" {
		return name, nil
	}
	var chosen proto.GetServerInfoReply
	if err := client.Request(&proto.GetServerInfo{}, &chosen); err != nil {
		return "", err
	}
	var sources proto.GetSourceInfoListReply
	if err := client.Request(&proto.GetSourceInfoList{}, &sources); err != nil {
		return "", err
	}
	return microphoneOf(sources, chosen.DefaultSourceName)
}

// microphoneOf returns the name of the source that the system has chosen, if it is a microphone, else that of another.
func microphoneOf(sources proto.GetSourceInfoListReply, chosen string) (string, error) {
	sources = slices.DeleteFunc(sources, func(s *proto.GetSourceInfoReply) bool { return s.MonitorSourceIndex != none })
	if len(sources) == 0 {
		return "", &Fault{NoServer, "the server has no source but monitors"}
	}
	for _, s := range sources {
		if s.SourceName == chosen {
			return s.SourceName, nil
		}
	}
	return sources[0].SourceName, nil
}

// floats returns 32-bit floating-point samples, little-endian, as numbers. What is no number is silence.
func floats(data []byte) []float64 {
	out := make([]float64, len(data)/4)
	for i := range out {
		x := float64(math.Float32frombits(binary.LittleEndian.Uint32(data[4*i:])))
		if x >= -1 && x <= 1 {
			out[i] = x
		} else if !math.IsNaN(x) {
			out[i] = math.Copysign(1, x)
		}
	}
	return out
}

// cookie returns what a client shows to a PulseAudio server of the same user; zeros where there is none.
func cookie() []byte {
	home, _ := os.UserHomeDir()
	for _, path := range []string{os.Getenv("PULSE_COOKIE"), filepath.Join(home, ".config", "pulse", "cookie")} {
		if b, err := os.ReadFile(path); path != "" && err == nil {
			return b
		}
	}
	return make([]byte, 256)
}

// pulsePort is the port of a PulseAudio server on another machine.
const pulsePort = "4713"

// dialPulse connects to the first server that answers of those that a server string names (freedesktop.org, "PulseAudio: server strings").
func dialPulse(ctx context.Context, server string) (net.Conn, error) {
	err := errors.New("no server is named")
	for _, s := range strings.Fields(server) {
		if strings.HasPrefix(s, "{") { // only for a machine of that name
			host, rest, _ := strings.Cut(s[1:], "}")
			if own, _ := os.Hostname(); own != host {
				continue
			}
			s = rest
		}
		network, address := "tcp", s
		if kind, rest, found := strings.Cut(s, ":"); found && slices.Contains([]string{"unix", "tcp", "tcp4", "tcp6"}, kind) {
			network, address = kind, rest
		} else if filepath.IsAbs(s) {
			network = "unix"
		}
		if network != "unix" {
			if _, _, wrong := net.SplitHostPort(address); wrong != nil {
				address = net.JoinHostPort(address, pulsePort)
			}
		}
		dialer := net.Dialer{Timeout: requestTime}
		var conn net.Conn
		if conn, err = dialer.DialContext(ctx, network, address); err == nil {
			return conn, nil
		}
	}
	return nil, err
}
