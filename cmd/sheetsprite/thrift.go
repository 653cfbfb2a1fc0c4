package main

import (
	"os"
	"runtime/debug"
	"runtime/metrics"
	"sync"
)

// thrift has memory collected harder from some size on, so that one large sprite's
// files take under 96 MiB in all. A job that needs more than that is let be: collecting
// again and again would take half its time.
type thrift struct {
	mu  sync.Mutex
	was int64 // the limit before; 0: thrift is over, or never was
}

const (
	thriftLimit = 78 << 20 // of all that Go holds, code and stacks of the system's not counted
	thriftInUse = 52 << 20 // more in use than that is a larger job's
)

// begin sets the limit, unless the environment does.
func (t *thrift) begin() {
	if os.Getenv("GOMEMLIMIT") == "" {
		t.was = debug.SetMemoryLimit(thriftLimit)
	}
}

// look lifts the limit where the job is too large for it.
func (t *thrift) look() {
	inUse := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(inUse)
	if inUse[0].Value.Kind() == metrics.KindUint64 && inUse[0].Value.Uint64() > thriftInUse {
		t.end()
	}
}

// end lifts the limit.
func (t *thrift) end() {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.was != 0 {
		debug.SetMemoryLimit(t.was)
		t.was = 0
	}
}
