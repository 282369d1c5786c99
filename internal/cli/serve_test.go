package cli

import (
	"bufio"
	"bytes"
	"context"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"jounce/internal/demo"
)

// running is a server that a test has started.
type running struct {
	address string
	opened  chan string
	stop    context.CancelFunc
	code    chan int
	said    *bytes.Buffer // all it said to the standard output; read after it ended
}

// serveIn runs the program in this process until its address is known.
func serveIn(t *testing.T, env map[string]string, args ...string) *running {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	r := &running{opened: make(chan string, 1), stop: cancel, code: make(chan int, 1), said: new(bytes.Buffer)}
	out, in := io.Pipe()
	var errs bytes.Buffer
	go func() {
		r.code <- Run(ctx, Env{Args: args, In: strings.NewReader(""), Out: in, Err: &errs,
			Getenv: func(k string) string { return env[k] }, Now: time.Now,
			Open: func(a string) error { r.opened <- a; return nil }})
		in.Close()
	}()
	lines := bufio.NewScanner(io.TeeReader(out, r.said))
	for lines.Scan() {
		if _, a, ok := strings.Cut(lines.Text(), "This machine:"); ok {
			r.address = strings.TrimSpace(a)
			break
		}
	}
	if r.address == "" {
		t.Fatalf("no address; code %d; %s", <-r.code, errs.String())
	}
	go func() { // the rest of what it says
		for lines.Scan() {
		}
	}()
	t.Cleanup(cancel)
	return r
}

// end stops the server and gives its exit code.
func (r *running) end(t *testing.T) int {
	t.Helper()
	r.stop()
	select {
	case code := <-r.code:
		return code
	case <-time.After(2 * patience):
		t.Fatal("the server did not stop")
		return 0
	}
}

func fetch(t *testing.T, address string) string {
	t.Helper()
	res, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer res.Body.Close()
	text, err := io.ReadAll(res.Body)
	if err != nil || res.StatusCode != http.StatusOK {
		t.Fatalf("%s: %s, %v", address, res.Status, err)
	}
	return string(text)
}

// TestDemo starts the demo, reads its three jobs, stops it and finds its folder
// gone.
func TestDemo(t *testing.T) {
	temp := t.TempDir()
	t.Setenv("TMPDIR", temp)
	r := serveIn(t, nil, "demo", "--no-open", "--listen", "127.0.0.1:0")
	text := fetch(t, r.address)
	for _, want := range []string{"0398", "0405", "0412"} {
		if !strings.Contains(text, want) {
			t.Errorf("the first page has no job %s", want)
		}
	}
	for _, paper := range []string{"jobs/0412/papers/design.pdf", "jobs/0412/papers/leak/" + lastTest(t) + ".pdf"} {
		if pdf := fetch(t, r.address+paper); !strings.HasPrefix(pdf, "%PDF-") {
			t.Errorf("%s is no PDF", paper)
		}
	}
	if left, _ := filepath.Glob(filepath.Join(temp, "jounce-demo-*")); len(left) != 1 {
		t.Errorf("while it runs: %v", left)
	}
	if code := r.end(t); code != exitDone {
		t.Errorf("exit code %d", code)
	}
	if left, _ := filepath.Glob(filepath.Join(temp, "*")); len(left) != 0 {
		t.Errorf("left behind: %v", left)
	}
}

// TestServe starts an empty shop in the folder that the environment names, opens
// a browser where there is a desktop, and keeps the folder.
func TestServe(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "record")
	env := map[string]string{"JOUNCE_DATA": dir, "DISPLAY": ":0"}
	r := serveIn(t, env, "serve", "--listen", "127.0.0.1:0")
	select {
	case a := <-r.opened:
		if a != r.address {
			t.Errorf("opened %s, serves %s", a, r.address)
		}
	case <-time.After(5 * time.Second):
		t.Error("no browser was opened")
	}
	fetch(t, r.address)
	var errs bytes.Buffer
	taken := strings.TrimSuffix(strings.TrimPrefix(r.address, "http://"), "/")
	code := Run(t.Context(), Env{Args: []string{"serve", "--no-open", "--listen", taken, "--data", t.TempDir()}, Out: io.Discard, Err: &errs, Getenv: func(string) string { return "" }, Now: time.Now})
	if code != exitNotDone || !strings.Contains(errs.String(), "is taken") {
		t.Errorf("a second server at the same address: code %d, %q", code, errs.String())
	}
	if code := r.end(t); code != exitDone {
		t.Errorf("exit code %d", code)
	}
	if _, err := os.Stat(filepath.Join(dir, "jounce.db")); err != nil {
		t.Error(err)
	}
}

// TestServeEndsWithAStreamOpen does not wait for pages that listen.
func TestServeEndsWithAStreamOpen(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	r := serveIn(t, nil, "demo", "--no-open", "--listen", "127.0.0.1:0")
	a, err := http.Get(r.address + "jobs/0412/events")
	if err != nil {
		t.Fatal(err)
	}
	defer a.Body.Close()
	if first, err := bufio.NewReader(a.Body).ReadString('\n'); err != nil || first != "retry: 2000\n" {
		t.Fatalf("the stream begins with %q, %v", first, err)
	}
	began := time.Now()
	if code := r.end(t); code != exitDone {
		t.Errorf("exit code %d", code)
	}
	if took := time.Since(began); took >= patience {
		t.Errorf("the end took %v: it waited for the stream", took)
	}
}

// TestServeNoBrowser opens none where nobody sits, or nobody wants one.
func TestServeNoBrowser(t *testing.T) {
	for _, c := range []struct {
		env  map[string]string
		args []string
	}{
		{map[string]string{}, nil},
		{map[string]string{"DISPLAY": ":0"}, []string{"--no-open"}},
	} {
		r := serveIn(t, c.env, append([]string{"serve", "--listen", "127.0.0.1:0", "--data", t.TempDir()}, c.args...)...)
		fetch(t, r.address)
		if r.end(t); len(r.opened) != 0 {
			t.Errorf("%v: a browser was opened", c)
		}
	}
}

// TestExactAddresses lists what other machines of the network reach.
func TestExactAddresses(t *testing.T) {
	var own []net.Addr
	for _, cidr := range []string{"127.0.0.1/8", "192.168.1.20/24", "10.0.0.5/8", "::1/128", "fe80::1/64", "fd00::5/64", "169.254.3.4/16"} {
		ip, n, err := net.ParseCIDR(cidr)
		if err != nil {
			t.Fatal(err)
		}
		own = append(own, &net.IPNet{IP: ip, Mask: n.Mask})
	}
	want := []string{"http://192.168.1.20:4600/", "http://10.0.0.5:4600/"}
	if got := reachable(own, "4600"); !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	if got := reachable(own[3:6], "4600"); !slices.Equal(got, []string{"http://[fd00::5]:4600/"}) {
		t.Errorf("without the fourth version: %v", got)
	}
	if here, network := addresses(&net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 80}); here != "http://127.0.0.1:80/" || network != nil {
		t.Errorf("%s, %v", here, network)
	}
	if here, _ := addresses(&net.TCPAddr{IP: net.IPv6unspecified, Port: 80}); here != "http://localhost:80/" {
		t.Error(here)
	}
}

// TestExactDataFolder finds the data folder by flag, environment and system.
func TestExactDataFolder(t *testing.T) {
	env := map[string]string{"HOME": "/home/ada", "LocalAppData": `C:\Data`}
	p := &program{Env: Env{Getenv: func(k string) string { return env[k] }}}
	for system, want := range map[string]string{
		"linux":   filepath.Join("/home/ada", ".local", "share"),
		"darwin":  filepath.Join("/home/ada", "Library", "Application Support"),
		"windows": `C:\Data`,
	} {
		if got := p.userData(system); got != want {
			t.Errorf("%s: %s, want %s", system, got, want)
		}
	}
	env["XDG_DATA_HOME"] = "/data"
	if got := p.userData("linux"); got != "/data" {
		t.Error(got)
	}
	env["JOUNCE_DATA"] = "/elsewhere"
	if got, err := p.dataFolder(""); got != "/elsewhere" || err != nil {
		t.Error(got, err)
	}
	if got, err := p.dataFolder("here"); got != "here" || err != nil {
		t.Error(got, err)
	}
	clear(env)
	if _, err := p.dataFolder(""); err == nil {
		t.Error("no home, and yet a folder")
	}
}

// lastTest is the id of the saloon's last leak test.
func lastTest(t *testing.T) string {
	t.Helper()
	jobs, err := demo.Jobs()
	if err != nil {
		t.Fatal(err)
	}
	for _, j := range jobs {
		if n := len(j.LeakTests); j.ID == "0412" && n > 0 {
			return j.LeakTests[n-1].ID
		}
	}
	t.Fatal("job 0412 has no leak test")
	return ""
}
