package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

// syncFile makes what was written to a file durable.
func syncFile(file string) error {
	f, err := os.OpenFile(file, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}

// syncDirs makes the names in folders durable. Windows keeps them with the
// files and has no call for it.
func syncDirs(dirs ...string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	for _, dir := range dirs {
		f, err := os.Open(dir)
		if err != nil {
			return err
		}
		err = f.Sync()
		f.Close()
		if err != nil {
			return err
		}
	}
	return nil
}

// makeDir makes a folder, with those above it that are not there, and makes the
// names of the new ones durable.
func makeDir(dir string) error {
	var above []string
	for d := dir; ; d = filepath.Dir(d) {
		if _, err := os.Stat(d); !errors.Is(err, fs.ErrNotExist) {
			break
		}
		above = append(above, filepath.Dir(d))
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	return syncDirs(above...)
}
