package oil

// Bank takes readings one at a time and answers each. It is small, holds no
// clock and no history of readings, and the same readings always give the
// same answers, so keep it while the log only grows and make a new one (Run)
// when a line was corrected or came late.
//
// A step that a person has explained or repaired is closed by starting a new
// Bank with the readings from that hour on.
type Bank struct{ settings Settings }

// New makes a bank. The error says which setting cannot be and what to do.
func New(s Settings) (*Bank, error) { return &Bank{settings: s}, nil }

// Add takes the next line of the log, in the order of the log.
func (b *Bank) Add(r Reading) Answer { return Answer{} }

// Run answers a whole log.
func Run(s Settings, log []Reading) ([]Answer, error) { return nil, nil }
