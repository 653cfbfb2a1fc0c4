package server

import (
	"bytes"
	"encoding/json"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"time"
)

// Policy is the content security policy of every answer: our own files, no
// inline script or style, WebAssembly, nothing from anywhere else.
const Policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; connect-src 'self'; " +
	"worker-src 'self'; img-src 'self' data: blob:; manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// Status is what build.json says about the programs. Addresses are relative to
// the page and absent until State is Ready.
type Status struct {
	State   State  `json:"state"`
	Message string `json:"message,omitempty"` // why it failed
	Web     string `json:"web,omitempty"`
	Worker  string `json:"worker,omitempty"`
	Maker   string `json:"maker,omitempty"`
	Glue    string `json:"glue,omitempty"` // Go's wasm_exec.js
}

// State is how far the build is.
type State string

// The states of a build.
const (
	Building State = "building"
	Ready    State = "ready"
	Failed   State = "failed"
)

// patience is how long build.json holds a question while the build runs, so
// that the page need not ask again and again.
const patience = 20 * time.Second

// Server answers for the page. The programs are added when they are built.
type Server struct {
	page *Page

	mu       sync.RWMutex
	status   Status
	programs map[string]*Asset
	settled  chan struct{} // closed once the state is not Building
}

// New is a server of the page whose programs are still being built.
func New(page *Page) *Server {
	return &Server{page: page, status: Status{State: Building}, programs: map[string]*Asset{}, settled: make(chan struct{})}
}

// Fail says to the page that there will be no programs. Call it or Add once.
func (s *Server) Fail(err error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.status = Status{State: Failed, Message: err.Error()}
	close(s.settled)
}

// Add takes the built programs into service. Call it or Fail once.
func (s *Server) Add(b Build) error {
	programs := map[string]*Asset{}
	folder := programFolder(b)
	names := []string{"wasm_exec.js"}
	for _, p := range Programs {
		names = append(names, p.Name+".wasm")
	}
	for _, name := range names {
		raw, err := os.ReadFile(filepath.Join(b.Dir, name))
		if err != nil {
			return err
		}
		a := &Asset{Type: mediaType(name), Raw: raw, Fixed: true, hash: contentHash(raw)}
		if name == "wasm_exec.js" {
			a.Gzip = gzipped(raw)
		} else if a.Gzip, err = os.ReadFile(filepath.Join(b.Dir, name+".gz")); err != nil {
			return err
		}
		programs[folder+name] = a
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.programs = programs
	s.status = readyStatus(b)
	close(s.settled)
	return nil
}

// AddBrotli takes the smaller form of a program into service.
func (s *Server) AddBrotli(b Build, name string) error {
	br, err := os.ReadFile(filepath.Join(b.Dir, name+".br"))
	if err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if old := s.programs[programFolder(b)+name]; old != nil {
		with := *old
		with.Brotli = br
		s.programs[programFolder(b)+name] = &with
	}
	return nil
}

func programFolder(b Build) string { return "a/" + b.Key + "/" }

func readyStatus(b Build) Status {
	folder := programFolder(b)
	return Status{State: Ready, Web: folder + "web.wasm", Worker: folder + "worker.wasm", Maker: folder + "maker.wasm", Glue: folder + "wasm_exec.js"}
}

// ServeHTTP answers GET and HEAD for the page's files, for our own host names
// only: a foreign Host header is a page elsewhere that made a name of its own
// point here.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Content-Security-Policy", Policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	switch {
	case !ownHost(r.Host):
		http.Error(w, "Sheetsprite answers only to this computer's own name: open http://127.0.0.1 with the port it printed.", http.StatusForbidden)
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		h.Set("Allow", "GET, HEAD")
		http.Error(w, "Only reading is possible here.", http.StatusMethodNotAllowed)
	case r.URL.Path == "/build.json":
		s.serveStatus(w, r)
	default:
		a := s.asset(strings.TrimPrefix(r.URL.Path, "/"))
		if a == nil {
			http.Error(w, "There is no such file here.", http.StatusNotFound)
			return
		}
		serveAsset(w, r, a)
	}
}

// ownHost says whether a Host header names the loopback interface.
func ownHost(hostport string) bool {
	host, _, err := net.SplitHostPort(hostport)
	if err != nil {
		host = strings.Trim(hostport, "[]")
	}
	return host == "localhost" || host == "127.0.0.1" || host == "::1"
}

func (s *Server) asset(name string) *Asset {
	if a := s.page.Assets[name]; a != nil {
		return a
	}
	s.mu.RLock()
	defer s.mu.RUnlock()
	return s.programs[name]
}

func (s *Server) serveStatus(w http.ResponseWriter, r *http.Request) {
	if r.URL.Query().Get("wait") != "" {
		select {
		case <-s.settled:
		case <-r.Context().Done():
			return
		case <-time.After(patience):
		}
	}
	s.mu.RLock()
	data, err := json.Marshal(s.status)
	s.mu.RUnlock()
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	w.Write(data)
}

func serveAsset(w http.ResponseWriter, r *http.Request, a *Asset) {
	h := w.Header()
	h.Set("Content-Type", a.Type)
	h.Set("Vary", "Accept-Encoding")
	body, encoding := a.Raw, ""
	switch {
	case a.Brotli != nil && accepts(r, "br"):
		body, encoding = a.Brotli, "br"
	case a.Gzip != nil && accepts(r, "gzip"):
		body, encoding = a.Gzip, "gzip"
	}
	tag := `"` + a.hash + "-" + encoding + `"`
	if a.Fixed {
		h.Set("Cache-Control", "public, max-age=31536000, immutable")
	} else {
		h.Set("Cache-Control", "no-cache")
	}
	if encoding != "" {
		// ServeContent would answer ranges and sizes of the compressed bytes
		// as if they were the file's, so it is not used here.
		h.Set("ETag", tag)
		if strings.Contains(r.Header.Get("If-None-Match"), tag) {
			w.WriteHeader(http.StatusNotModified)
			return
		}
		h.Set("Content-Encoding", encoding)
		h.Set("Content-Length", strconv.Itoa(len(body)))
		if r.Method == http.MethodGet {
			w.Write(body)
		}
		return
	}
	h.Set("ETag", tag)
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(body))
}

// accepts says whether the browser takes an encoding (RFC 9110, 12.5.3): named
// and not with a weight of zero.
func accepts(r *http.Request, encoding string) bool {
	for _, field := range r.Header.Values("Accept-Encoding") {
		for _, one := range strings.Split(field, ",") {
			name, weight, _ := strings.Cut(strings.TrimSpace(one), ";")
			if strings.TrimSpace(name) != encoding {
				continue
			}
			q, ok := strings.CutPrefix(strings.TrimSpace(weight), "q=")
			if !ok {
				return true
			}
			v, err := strconv.ParseFloat(q, 64)
			return err == nil && v > 0
		}
	}
	return false
}
