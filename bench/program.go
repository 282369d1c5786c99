package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"time"
)

// wholeProgram times the built program from its start to its first page, and
// weighs it when nobody asks for anything.
func wholeProgram(ctx context.Context, dir string) ([]row, error) {
	program, err := build(ctx, dir)
	if err != nil {
		return nil, err
	}
	data := filepath.Join(dir, "data")
	s, err := filled(ctx, data)
	if err != nil {
		return nil, err
	}
	if err := s.Close(); err != nil {
		return nil, err
	}
	const starts = 15
	var took []float64
	for range starts {
		d, stop, _, err := start(ctx, program, data)
		if err != nil {
			return nil, err
		}
		if err := stop(); err != nil {
			return nil, err
		}
		took = append(took, ms(d))
	}
	rows := []row{{what: "start of the program to its first page", how: fmt.Sprintf("median of %d starts, the list of jobs over HTTP", starts), value: at(took, 0.5), aim: 200, unit: "ms", digits: 0}}
	weight, err := idle(ctx, program, data)
	if err != nil {
		return nil, err
	}
	return append(rows, row{what: "memory when idle", how: "resident set 5 s after 60 pages were asked for", value: weight, aim: 60, unit: "MB", digits: 0}), nil
}

// start runs the server until its first page has come.
func start(ctx context.Context, program, data string) (took time.Duration, stop func() error, address string, err error) {
	c := exec.CommandContext(ctx, program, "serve", "--no-open", "--listen", "127.0.0.1:0", "--data", data)
	c.Stderr = os.Stderr
	out, err := c.StdoutPipe()
	if err != nil {
		return 0, nil, "", err
	}
	begun := time.Now()
	if err := c.Start(); err != nil {
		return 0, nil, "", err
	}
	pid = c.Process.Pid
	stop = func() error {
		if err := c.Process.Signal(syscall.SIGTERM); err != nil {
			return err
		}
		io.Copy(io.Discard, out)
		return c.Wait()
	}
	for lines := bufio.NewScanner(out); address == "" && lines.Scan(); {
		if _, a, ok := strings.Cut(lines.Text(), "This machine:"); ok {
			address = strings.TrimSpace(a)
		}
	}
	if address == "" {
		c.Process.Kill()
		return 0, nil, "", fmt.Errorf("the server said no address: %w", c.Wait())
	}
	if err := get(address); err != nil {
		stop()
		return 0, nil, "", err
	}
	return time.Since(begun), stop, address, nil
}

// pid is the process of the server that was started last.
var pid int

func get(address string) error {
	res, err := http.Get(address)
	if err != nil {
		return err
	}
	defer res.Body.Close()
	if _, err := io.Copy(io.Discard, res.Body); err != nil {
		return err
	}
	if res.StatusCode != http.StatusOK {
		return fmt.Errorf("%s: %s", address, res.Status)
	}
	return nil
}

// idle is the memory of a server that has answered pages and waits [MB].
func idle(ctx context.Context, program, data string) (float64, error) {
	_, stop, address, err := start(ctx, program, data)
	if err != nil {
		return 0, err
	}
	defer stop()
	for range 20 {
		for _, path := range []string{"", "jobs/0412", "jobs/0398"} {
			if err := get(address + path); err != nil {
				return 0, err
			}
		}
	}
	time.Sleep(5 * time.Second)
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		return 0, err
	}
	for _, line := range strings.Split(string(text), "\n") {
		if f := strings.Fields(line); len(f) == 3 && f[0] == "VmRSS:" {
			kb, err := strconv.ParseFloat(f[1], 64)
			return kb * 1024 / 1e6, err
		}
	}
	return 0, fmt.Errorf("the system does not say how much memory a process has")
}
