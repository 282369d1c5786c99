package cli

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"

	"github.com/spf13/cobra"

	"jounce/internal/catalog"
	"jounce/internal/job"
	"jounce/internal/store"
)

// dataFlag adds the flag that names the data folder.
func dataFlag(c *cobra.Command) *string {
	return c.Flags().String("data", "", "data `folder`; else JOUNCE_DATA, else the user's data directory")
}

// dataFolder is the folder that holds the record.
func (p *program) dataFolder(flag string) (string, error) {
	if flag != "" {
		return flag, nil
	}
	if d := p.Getenv("JOUNCE_DATA"); d != "" {
		return d, nil
	}
	if d := p.userData(runtime.GOOS); d != "" {
		return filepath.Join(d, "jounce"), nil
	}
	return "", errors.New("no data folder: this user has no home directory; --data or JOUNCE_DATA names a folder")
}

// userData is where a system keeps the data of a user's programs.
func (p *program) userData(system string) string {
	home := p.Getenv("HOME")
	switch system {
	case "windows":
		return p.Getenv("LocalAppData")
	case "darwin":
		if home != "" {
			return filepath.Join(home, "Library", "Application Support")
		}
		return ""
	}
	if d := p.Getenv("XDG_DATA_HOME"); filepath.IsAbs(d) {
		return d
	}
	if home != "" {
		return filepath.Join(home, ".local", "share")
	}
	return ""
}

// openStore opens the record, making it when it is not there.
func (p *program) openStore(ctx context.Context, flag string) (*store.Store, error) {
	dir, err := p.dataFolder(flag)
	if err != nil {
		return nil, err
	}
	return store.Open(ctx, dir, store.Options{Now: p.Now})
}

// existingStore opens a record that must be there.
func (p *program) existingStore(ctx context.Context, flag string) (*store.Store, error) {
	dir, err := p.dataFolder(flag)
	if err != nil {
		return nil, err
	}
	if _, err := os.Stat(filepath.Join(dir, "jounce.db")); errors.Is(err, os.ErrNotExist) {
		return nil, fmt.Errorf("%s holds no record yet; --data or JOUNCE_DATA names another folder", dir)
	}
	return store.Open(ctx, dir, store.Options{Now: p.Now})
}

// shopOf is the shop's own document, or that of a shop that has changed nothing.
func shopOf(ctx context.Context, s *store.Store) (*catalog.Shop, error) {
	rev, err := s.Load(ctx, job.Shop)
	if errors.Is(err, job.ErrNotFound) {
		return catalog.NewShop("The shop"), nil
	}
	if err != nil {
		return nil, err
	}
	shop := new(catalog.Shop)
	if err := json.Unmarshal(rev.Document, shop); err != nil {
		return nil, fmt.Errorf("the shop's own document, revision %d: %w", rev.Number, err)
	}
	if err := shop.Check(); err != nil {
		return nil, fmt.Errorf("the shop's own document, revision %d: %w", rev.Number, err)
	}
	return shop, nil
}

// signer is the name that signs what a command saves.
func (p *program) signer(flag string) (string, error) {
	for _, name := range []string{flag, p.Getenv("JOUNCE_NAME"), p.Getenv("USER"), p.Getenv("USERNAME"), p.Getenv("LOGNAME")} {
		if name != "" {
			return name, nil
		}
	}
	return "", usage("a save is signed with a name; --by gives it")
}
