package store

import "os"

// leadsAnywhere is leads on any system.
func leadsAnywhere(path string, info os.FileInfo) (bool, error) {
	is, err := os.Stat(path)
	return err == nil && os.SameFile(is, info), err
}
