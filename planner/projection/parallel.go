package projection

import (
	"runtime"
	"sync"
)

// Parallel calls a worker's function for every index, a worker to a core.
func Parallel(n int, worker func() func(int)) {
	var wg sync.WaitGroup
	next := make(chan int)
	for range min(runtime.GOMAXPROCS(0), n) {
		wg.Go(func() {
			do := worker()
			for i := range next {
				do(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
}
