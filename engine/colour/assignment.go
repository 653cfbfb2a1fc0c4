package colour

import "math"

// assigned gives each row a column of its own so that the sum is least; there
// are at least as many columns as rows. Source: H. W. Kuhn, "The Hungarian
// method for the assignment problem" (1955), with the potentials of J. Edmonds
// and R. Karp (1972): each row is added along the cheapest path of changes.
func assigned(cost [][]int64) (column []int, total int64) {
	n, m := len(cost), len(cost[0])
	const far = math.MaxInt64
	rowPrice, columnPrice := make([]int64, n), make([]int64, m+1)
	owner := make([]int, m+1) // of each column; m is where a new row begins
	for j := range owner {
		owner[j] = -1
	}
	for row := range n {
		least, from := make([]int64, m+1), make([]int, m+1)
		done := make([]bool, m+1)
		for j := range least {
			least[j] = far
		}
		at := m
		owner[m] = row
		for owner[at] >= 0 {
			done[at] = true
			i, step, next := owner[at], int64(far), -1
			for j := range m {
				if done[j] {
					continue
				}
				if d := cost[i][j] - rowPrice[i] - columnPrice[j]; d < least[j] {
					least[j], from[j] = d, at
				}
				if least[j] < step {
					step, next = least[j], j
				}
			}
			for j := range done {
				switch {
				case done[j]:
					rowPrice[owner[j]] += step
					columnPrice[j] -= step
				case least[j] < far:
					least[j] -= step
				}
			}
			at = next
		}
		for at != m {
			owner[at] = owner[from[at]]
			at = from[at]
		}
		owner[m] = -1
	}
	column = make([]int, n)
	for j, i := range owner[:m] {
		if i >= 0 {
			column[i] = j
			total += cost[i][j]
		}
	}
	return column, total
}
