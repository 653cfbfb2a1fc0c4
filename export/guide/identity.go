package guide

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
)

// identified gives a finished PDF its ID, made from its content: ISO 32000-1,
// 14.4, wants two byte strings in the trailer, equal in a file that was never
// changed. The trailer comes last, so no offset moves.
func identified(pdf []byte) ([]byte, error) {
	const trailer = "trailer\n<<\n"
	i := bytes.LastIndex(pdf, []byte(trailer))
	if i < 0 {
		return nil, errors.New("guide.pdf: no trailer")
	}
	i += len(trailer)
	sum := sha256.Sum256(pdf)
	id := fmt.Sprintf("/ID [<%x> <%x>]\n", sum[:16], sum[:16])
	return bytes.Join([][]byte{pdf[:i], []byte(id), pdf[i:]}, nil), nil
}
