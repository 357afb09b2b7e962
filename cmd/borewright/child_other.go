//go:build !linux

package main

// limitSystem does nothing: only the collector's limit holds here.
func limitSystem(int64) {}
