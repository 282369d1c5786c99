package cli

import (
	"net"
	"net/netip"
	"os/exec"
	"runtime"
	"slices"
	"strconv"
)

// addresses are the web addresses of a listener: one for this machine, and those
// that other machines of the local network reach it by.
func addresses(a net.Addr) (here string, network []string) {
	at, err := netip.ParseAddrPort(a.String())
	if err != nil {
		return "http://" + a.String() + "/", nil
	}
	port := strconv.Itoa(int(at.Port()))
	ip := at.Addr().Unmap()
	switch {
	case ip.IsLoopback():
		return page(ip.String(), port), nil
	case !ip.IsUnspecified():
		return page(ip.String(), port), []string{page(ip.String(), port)}
	}
	own, err := net.InterfaceAddrs()
	if err != nil {
		own = nil
	}
	return page("localhost", port), reachable(own, port)
}

func page(host, port string) string { return "http://" + net.JoinHostPort(host, port) + "/" }

// reachable picks the addresses of a local network out of a machine's own: the
// fourth version first, none that ends at the machine or the cable.
func reachable(own []net.Addr, port string) []string {
	var four, six []string
	for _, a := range own {
		prefix, err := netip.ParsePrefix(a.String())
		if err != nil {
			continue
		}
		ip := prefix.Addr().Unmap()
		switch {
		case ip.IsLoopback(), ip.IsLinkLocalUnicast(), !ip.IsGlobalUnicast():
		case ip.Is4():
			four = append(four, page(ip.String(), port))
		default:
			six = append(six, page(ip.String(), port))
		}
	}
	if len(four) > 0 {
		return slices.Compact(four)
	}
	return slices.Compact(six)
}

// desktop tells whether somebody sits at a screen of this machine.
func (p *program) desktop() bool {
	switch runtime.GOOS {
	case "windows", "darwin":
		return p.Getenv("SSH_CONNECTION") == ""
	}
	return p.Getenv("DISPLAY") != "" || p.Getenv("WAYLAND_DISPLAY") != ""
}

// openBrowser shows an address in the user's browser.
func openBrowser(address string) error {
	name, args := "xdg-open", []string{address}
	switch runtime.GOOS {
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
	case "darwin":
		name = "open"
	}
	c := exec.Command(name, args...)
	if err := c.Start(); err != nil {
		return err
	}
	go c.Wait() // so that it leaves no process behind
	return nil
}
