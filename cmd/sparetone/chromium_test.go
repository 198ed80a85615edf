//go:build linux

package main

import (
	"bufio"
	"encoding/base64"
	"encoding/json"
	"os"
	"os/exec"
	"testing"
	"time"
)

// browser is Chromium with one tab, driven by its own protocol over a pipe.
type browser struct {
	t       *testing.T
	to      *os.File
	from    *bufio.Reader
	last    int
	session string
	asked   []string // addresses that were asked for
	said    []string // dialogs that a page opened
}

// chromium starts a browser that finds no other machine.
func chromium(t *testing.T) *browser {
	t.Helper()
	need(t, "chromium")
	home, err := os.MkdirTemp("", "sparetone-chromium")
	if err != nil {
		t.Fatal(err)
	}
	in, to, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	from, out, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--user-data-dir="+home, "--host-resolver-rules=MAP * ~NOTFOUND",
		"--disable-component-update", "--disable-background-networking", "--remote-debugging-pipe", "about:blank")
	cmd.ExtraFiles = []*os.File{in, out} // 3 and 4
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	in.Close()
	out.Close()
	t.Cleanup(func() {
		to.Close()
		gone := make(chan error, 1)
		go func() { gone <- cmd.Wait() }()
		select {
		case <-gone:
		case <-time.After(5 * time.Second):
			cmd.Process.Kill()
			<-gone
		}
		os.RemoveAll(home)
	})
	from.SetReadDeadline(time.Now().Add(3 * time.Minute))
	b := &browser{t: t, to: to, from: bufio.NewReaderSize(from, 1<<20)}
	var target struct {
		TargetID string `json:"targetId"`
	}
	b.do("Target.createTarget", map[string]any{"url": "about:blank"}, &target)
	var session struct {
		SessionID string `json:"sessionId"`
	}
	b.do("Target.attachToTarget", map[string]any{"targetId": target.TargetID, "flatten": true}, &session)
	b.session = session.SessionID
	for _, domain := range []string{"Page", "Network", "Runtime"} {
		b.do(domain+".enable", nil, nil)
	}
	return b
}

// message is what the browser says: the answer to a command, or an event.
type message struct {
	ID     int             `json:"id"`
	Method string          `json:"method"`
	Result json.RawMessage `json:"result"`
	Params json.RawMessage `json:"params"`
	Error  *struct {
		Message string `json:"message"`
	} `json:"error"`
}

// next reads a message, and notes what was asked for and what was said.
func (b *browser) next() message {
	b.t.Helper()
	text, err := b.from.ReadBytes(0)
	if err != nil {
		b.t.Fatal(err)
	}
	var m message
	if err := json.Unmarshal(text[:len(text)-1], &m); err != nil {
		b.t.Fatal(err)
	}
	var of struct {
		Request struct {
			URL string `json:"url"`
		} `json:"request"`
		Message string `json:"message"`
	}
	switch json.Unmarshal(m.Params, &of); m.Method {
	case "Network.requestWillBeSent":
		b.asked = append(b.asked, of.Request.URL)
	case "Page.javascriptDialogOpening":
		b.said = append(b.said, of.Message)
	}
	return m
}

// do gives a command and reads its answer.
func (b *browser) do(method string, params map[string]any, into any) {
	b.t.Helper()
	b.last++
	command := map[string]any{"id": b.last, "method": method}
	if params != nil {
		command["params"] = params
	}
	if b.session != "" {
		command["sessionId"] = b.session
	}
	text, err := json.Marshal(command)
	if err != nil {
		b.t.Fatal(err)
	}
	if _, err := b.to.Write(append(text, 0)); err != nil {
		b.t.Fatal(err)
	}
	for {
		m := b.next()
		if m.ID != b.last {
			continue
		}
		if m.Error != nil {
			b.t.Fatalf("%s: %s", method, m.Error.Message)
		}
		if into != nil {
			if err := json.Unmarshal(m.Result, into); err != nil {
				b.t.Fatal(err)
			}
		}
		return
	}
}

// open opens a file in a window so many pixels wide, and forgets what was asked for before.
func (b *browser) open(path string, width int) {
	b.t.Helper()
	b.do("Emulation.setDeviceMetricsOverride", map[string]any{"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": false}, nil)
	b.asked, b.said = nil, nil
	b.do("Page.navigate", map[string]any{"url": "file://" + path}, nil)
	b.await("document.readyState === 'complete' && location.protocol === 'file:'")
}

// await waits until something holds on the page.
func (b *browser) await(expression string) {
	b.t.Helper()
	for range 600 {
		var holds bool
		if b.evaluate(expression, &holds); holds {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	b.t.Fatalf("%s does not become so", expression)
}

// evaluate works out an expression on the page.
func (b *browser) evaluate(expression string, into any) {
	b.t.Helper()
	var got struct {
		Result struct {
			Value json.RawMessage `json:"value"`
		} `json:"result"`
		Exception *struct {
			Text string `json:"text"`
		} `json:"exceptionDetails"`
	}
	b.do("Runtime.evaluate", map[string]any{"expression": expression, "returnByValue": true}, &got)
	if got.Exception != nil {
		b.t.Fatalf("%s: %s", expression, got.Exception.Text)
	}
	if err := json.Unmarshal(got.Result.Value, into); err != nil {
		b.t.Fatalf("%s: %v", expression, err)
	}
}

// tab presses the tabulator key.
func (b *browser) tab() {
	b.t.Helper()
	for _, kind := range []string{"rawKeyDown", "keyUp"} {
		b.do("Input.dispatchKeyEvent", map[string]any{"type": kind, "key": "Tab", "code": "Tab", "windowsVirtualKeyCode": 9}, nil)
	}
}

// taken returns what a command makes of the page: a picture, or its print.
func (b *browser) taken(method string, params map[string]any) []byte {
	b.t.Helper()
	var got struct {
		Data string `json:"data"`
	}
	b.do(method, params, &got)
	data, err := base64.StdEncoding.DecodeString(got.Data)
	if err != nil {
		b.t.Fatal(err)
	}
	return data
}
