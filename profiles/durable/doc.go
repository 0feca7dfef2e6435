// Package durable writes files so that each is there whole or not at all,
// whatever happens meanwhile: a full disk, a kill, a stop from the keyboard,
// another writer. What is written goes into a temporary file beside its place,
// onto the disk, and only then under its name.
//
// A temporary's name is ".tripwear-" and 16 hexadecimal digits. It goes away
// when the writing ends, well or badly; one that a kill left is locked by
// nobody, and the next write in that folder takes it away.
package durable
