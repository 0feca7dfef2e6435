package faulty

import (
	"bufio"
	"bytes"
	"os"
	"os/exec"
	"strings"
)

// Writer is this test binary once more, as a process that writes over and over,
// says what it wrote, a line each, and is killed in its work.
type Writer struct {
	command *exec.Cmd
	lines   *bufio.Reader
	stderr  bytes.Buffer
}

// StartWriter starts one with a variable set, by which the binary knows what
// it is to do.
func StartWriter(variable, value string) (*Writer, error) {
	w := &Writer{command: exec.Command(os.Args[0])}
	w.command.Env = append(os.Environ(), variable+"="+value)
	w.command.Stderr = &w.stderr
	out, err := w.command.StdoutPipe()
	if err != nil {
		return nil, err
	}
	w.lines = bufio.NewReader(out)
	return w, w.command.Start()
}

// Line is the next line that the writer says. One cut off is none.
func (w *Writer) Line() (string, bool) {
	line, err := w.lines.ReadString('\n')
	return strings.TrimSpace(line), err == nil
}

// Kill ends the writer wherever it is.
func (w *Writer) Kill() { _ = w.command.Process.Kill() }

// Wait comes back when the writer has ended, and gives what it complained of.
func (w *Writer) Wait() string {
	_ = w.command.Wait() // it was killed
	return w.stderr.String()
}
