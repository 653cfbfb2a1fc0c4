package regrid

// atOnce does n pieces of work side by side and lists what comes of them in their order:
// the same, however many processors there are.
func atOnce[T any](n int, work func(i int) T) []T {
	out := make([]T, n)
	done := make(chan struct{})
	for i := range n {
		go func() {
			out[i] = work(i)
			done <- struct{}{}
		}()
	}
	for range n {
		<-done
	}
	return out
}
