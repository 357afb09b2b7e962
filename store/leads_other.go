//go:build !linux

package store

import "os"

// leads reports whether the path leads to the file that info is of.
func leads(path string, info os.FileInfo) (bool, error) { return leadsAnywhere(path, info) }
