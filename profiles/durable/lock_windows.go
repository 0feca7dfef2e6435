//go:build windows

package durable

import "os"

// openFilesMove says that a file may be renamed while it is open.
const openFilesMove = false

// claim has nothing to do for a file: the system removes none that is open.
// A folder could be somebody's, so it is let be once it holds something.
func claim(f *os.File) bool {
	info, err := f.Stat()
	if err != nil || !info.IsDir() {
		return err == nil
	}
	entries, err := os.ReadDir(f.Name())
	return err == nil && len(entries) == 0
}

// SyncFolder has nothing to do: the file system writes names through.
func SyncFolder(string) {}
