//go:build windows

package durable

// OutliveFileLimit has nothing to do: there is no such limit.
func OutliveFileLimit() {}
