package progress

// Pace is how fast the maker places parts, learnt from steps.
type Pace struct {
	Typical int `json:"typical"` // seconds that the steps so far should have taken
	Took    int `json:"took"`    // that they took
}

// A step that took less than a tenth of what is typical was only looked at, and
// one that took more than four times as much was left for something else.
const (
	leastShare = 10
	mostTimes  = 4
)

// learnt is from how much on a pace is worth anything: four usual parts.
const learnt = 180

// forgets is how much is remembered: later steps count more, since hands learn.
const forgets = 3600

// Learn is p with one more step; a step that says nothing changes nothing.
func (p Pace) Learn(typical, took int) Pace {
	if typical <= 0 || took <= 0 || took > typical*mostTimes || took*leastShare < typical {
		return p
	}
	p.Typical, p.Took = p.Typical+typical, p.Took+took
	if p.Typical > forgets {
		p.Typical, p.Took = p.Typical/2, p.Took/2
	}
	return p
}

// Known says whether enough was learnt.
func (p Pace) Known() bool { return p.Typical >= learnt && p.Took > 0 }

// Of is how long something takes at this pace that typically takes seconds.
func (p Pace) Of(seconds int) int {
	if !p.Known() {
		return seconds
	}
	return (seconds*p.Took + p.Typical/2) / p.Typical
}

// Sound says whether a pace that was kept makes sense.
func (p Pace) Sound() bool {
	return p.Typical >= 0 && p.Took >= 0 && p.Typical <= 2*forgets && p.Took <= 2*forgets*mostTimes
}
