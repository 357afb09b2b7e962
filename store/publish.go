package store

import (
	"errors"
	"os"
	"path/filepath"
)

// publish writes a file under a temporary name in the folder of the path, makes
// it durable and gives it its name: over what is there when replace is set,
// else never, and then the error is fs.ErrExist. On any error nothing is left
// behind.
func publish(path string, replace bool, write func(temp string) error) error {
	dir := filepath.Dir(path)
	temp, err := tempFile(dir)
	if err != nil {
		return err
	}
	name := renameNew
	if replace {
		name = os.Rename
	}
	err = write(temp)
	if err == nil {
		err = syncFile(temp)
	}
	if err == nil {
		err = name(temp, path)
	}
	if err != nil {
		return errors.Join(err, removeIfThere(temp))
	}
	return syncFolder(dir)
}

// tempPattern is what files are called until they are whole.
const tempPattern = ".saving-*"

// tempFile makes an empty file, for its owner only, and returns its path.
func tempFile(dir string) (string, error) {
	f, err := os.CreateTemp(dir, tempPattern)
	if err != nil {
		return "", err
	}
	return f.Name(), f.Close()
}

func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

func removeIfThere(path string) error {
	if err := os.Remove(path); !errors.Is(err, os.ErrNotExist) {
		return err
	}
	return nil
}
