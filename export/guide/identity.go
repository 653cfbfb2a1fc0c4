package guide

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
)

// identifier gives a finished PDF, written in one go, its ID, made from its content:
// ISO 32000-1, 14.4, wants two byte strings in the trailer, equal in a file that was
// never changed. The trailer comes last, so no offset moves.
type identifier struct{ w io.Writer }

// Write passes a whole PDF on.
func (i *identifier) Write(pdf []byte) (int, error) {
	const trailer = "trailer\n<<\n"
	at := bytes.LastIndex(pdf, []byte(trailer))
	if at < 0 || !bytes.HasPrefix(pdf, []byte("%PDF-")) {
		return 0, errors.New("no trailer")
	}
	at += len(trailer)
	sum := sha256.Sum256(pdf)
	if _, err := i.w.Write(pdf[:at]); err != nil {
		return 0, err
	}
	if _, err := fmt.Fprintf(i.w, "/ID [<%x> <%x>]\n", sum[:16], sum[:16]); err != nil {
		return 0, err
	}
	if _, err := i.w.Write(pdf[at:]); err != nil {
		return 0, err
	}
	return len(pdf), nil
}
