// Command bench measures how fast the program is and how much memory it takes,
// against the aims of the house, and writes docs/PERFORMANCE.md. It fails when an
// aim is missed.
//
//	go run ./bench                             prints the page
//	go run ./bench -write docs/PERFORMANCE.md  writes it (make bench)
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"
)

// row is one measured thing.
type row struct {
	what, how string
	value     float64 // [unit]
	aim       float64 // less than this [unit]
	unit      string
	digits    int
}

func main() {
	out := flag.String("write", "", "`file` to write the page to")
	only := flag.String("only", "", "measure this `part` alone: "+strings.Join(names(), ", "))
	flag.Parse()
	load := loadBefore()
	runtime.GOMAXPROCS(min(2, runtime.NumCPU())) // the shop PC that the aims are for
	rows, err := measureAll(context.Background(), *only)
	if err != nil {
		fmt.Fprintln(os.Stderr, "bench:", err)
		os.Exit(1)
	}
	text := page(rows, load)
	fmt.Print(text)
	if *out != "" {
		if err := os.WriteFile(*out, []byte(text), 0o644); err != nil {
			fmt.Fprintln(os.Stderr, "bench:", err)
			os.Exit(1)
		}
	}
	for _, r := range rows {
		if r.value >= r.aim {
			fmt.Fprintf(os.Stderr, "bench: %s: %.*f %s, the aim is below %g %s\n", r.what, r.digits, r.value, r.unit, r.aim, r.unit)
			os.Exit(1)
		}
	}
}

// part is what is measured together.
type part struct {
	name    string
	measure func(context.Context, string) ([]row, error)
}

// parts in the order of the page.
var parts = []part{{"studies", studies}, {"papers", papers}, {"typing", typing}, {"program", wholeProgram}, {"screen", screen}, {"years", years}}

func names() []string {
	out := make([]string, len(parts))
	for i, p := range parts {
		out[i] = p.name
	}
	return out
}

func measureAll(ctx context.Context, only string) ([]row, error) {
	dir, err := os.MkdirTemp("", "jounce-bench-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	var rows []row
	for _, p := range parts {
		if only != "" && only != p.name {
			continue
		}
		r, err := p.measure(ctx, dir)
		if err != nil {
			return nil, err
		}
		rows = append(rows, r...)
	}
	return rows, nil
}

func page(rows []row, load string) string {
	var b strings.Builder
	b.WriteString("# How fast it is\n\nWritten by `make bench`, which runs `go run ./bench -write docs/PERFORMANCE.md` and fails when an aim is missed.\n\n")
	b.WriteString("| what | measured | aim | met | how |\n|---|---|---|---|---|\n")
	for _, r := range rows {
		met := "yes"
		if r.value >= r.aim {
			met = "**no**"
		}
		fmt.Fprintf(&b, "| %s | %.*f %s | below %g %s | %s | %s |\n", r.what, r.digits, r.value, r.unit, r.aim, r.unit, met, r.how)
	}
	fmt.Fprintf(&b, "\nMachine: %s, %d cores used, %s, %s/%s, on %s.\n%s", processor(), runtime.GOMAXPROCS(0), runtime.Version(), runtime.GOOS, runtime.GOARCH, time.Now().Format("2006-01-02"), load)
	return b.String()
}

// loadBefore says how busy the machine was before anything was measured: times
// taken beside other work are too long.
func loadBefore() string {
	text, err := os.ReadFile("/proc/loadavg")
	if err != nil {
		return ""
	}
	one, _, _ := strings.Cut(string(text), " ")
	return fmt.Sprintf("The machine's own load before the start was %[2]s on %[1]d cores; times taken beside other work are too long.\n", runtime.NumCPU(), one)
}

// processor is the name of the processor, where the system says it.
func processor() string {
	text, err := os.ReadFile("/proc/cpuinfo")
	if err == nil {
		for _, line := range strings.Split(string(text), "\n") {
			if name, value, ok := strings.Cut(line, ":"); ok && strings.TrimSpace(name) == "model name" {
				return strings.TrimSpace(value)
			}
		}
	}
	return "processor not named"
}

// build makes the program as it is handed out.
func build(ctx context.Context, dir string) (string, error) {
	name := filepath.Join(dir, "jounce")
	c := exec.CommandContext(ctx, "go", "build", "-trimpath", "-o", name, "./cmd/jounce")
	c.Stderr = os.Stderr
	return name, c.Run()
}

// at is the value below which a share of the list lies.
func at(list []float64, share float64) float64 {
	s := slices.Clone(list)
	slices.Sort(s)
	return s[min(int(share*float64(len(s))), len(s)-1)]
}

// ms is a duration in milliseconds.
func ms(d time.Duration) float64 { return float64(d) / float64(time.Millisecond) }
