package cli

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"jounce/internal/press"
	"jounce/internal/store"
	"jounce/internal/web"
)

// usualAddress is where a server listens when nothing else is asked for.
const usualAddress = ":4600"

// patience is how long a stopping server waits for answers under way.
const patience = 5 * time.Second

type serving struct {
	listen string
	noOpen bool
}

func serveFlags(c *cobra.Command) *serving {
	s := new(serving)
	c.Flags().StringVar(&s.listen, "listen", usualAddress, "`address` to listen at; port 0 takes any free one")
	c.Flags().BoolVar(&s.noOpen, "no-open", false, "open no browser")
	return s
}

func (p *program) serve() *cobra.Command {
	c := &cobra.Command{
		Use:   "serve",
		Short: "Serve the workshop's jobs to its browsers",
		Long: `Serves the pages on this machine and on the local network, and prints both
addresses. Where there is a desktop, a browser opens.

The record lies in the data folder and nowhere else. The folder must be on a
disk of this machine, not on a network share. Ctrl-C stops the server once
the answers under way are given.

The pages ask for a name to sign entries with and for no password: the local
network must be one that only the workshop uses.`,
		Args: names(),
	}
	data, how := dataFlag(c), serveFlags(c)
	c.RunE = func(c *cobra.Command, _ []string) error {
		s, err := p.openStore(c.Context(), *data)
		if err != nil {
			return err
		}
		defer s.Close()
		fmt.Fprintf(p.Out, "Record:        %s\n", s.Dir())
		return p.listen(c.Context(), s, how)
	}
	return c
}

// listen serves a store's jobs until the context ends.
func (p *program) listen(ctx context.Context, s *store.Store, how *serving) error {
	shop, err := shopOf(ctx, s)
	if err != nil {
		return err
	}
	l, err := net.Listen("tcp", how.listen)
	if errors.Is(err, syscall.EADDRINUSE) {
		return fmt.Errorf("%s is taken, perhaps by another jounce; --listen names another address, --listen :0 takes a free one", how.listen)
	}
	if err != nil {
		return fmt.Errorf("cannot listen at %s: %w", how.listen, err)
	}
	log := slog.New(slog.NewTextHandler(p.Err, nil))
	server := &http.Server{
		Handler:           rested(ctx, web.New(web.Options{Records: s, Files: s, Papers: web.Papers{Design: press.Design, Certificate: press.Certificate}, Shop: shop, Clock: p.Now, Logger: log, Version: Version, Quit: ctx.Done()})),
		ReadHeaderTimeout: 10 * time.Second,
		IdleTimeout:       2 * time.Minute,
		ErrorLog:          slog.NewLogLogger(log.Handler(), slog.LevelWarn),
	}
	here, network := addresses(l.Addr())
	fmt.Fprintf(p.Out, "This machine:  %s\n", here)
	for _, a := range network {
		fmt.Fprintf(p.Out, "Local network: %s\n", a)
	}
	fmt.Fprintln(p.Out, "Ctrl-C stops it.")
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(l) }()
	if !how.noOpen && p.desktop() {
		if err := p.Open(here); err != nil {
			fmt.Fprintf(p.Err, "jounce: no browser could be opened (%v); the address above does it\n", err)
		}
	}
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), patience)
	defer cancel()
	if err := server.Shutdown(last); err != nil {
		server.Close()
	}
	_, err = fmt.Fprintln(p.Out, "Stopped.")
	return err
}
