package due

import (
	"strings"

	"linkrod/radial/quantity"
)

// Words is how it stands, for reading aloud: the graver line first, and both where
// both are ahead, since which comes first depends on how much is flown.
func (s Standing) Words() string {
	hours, days := s.hoursWords(), s.daysWords()
	switch {
	case hours == "":
		return days
	case days == "":
		return hours
	case s.State == Ahead:
		return "Due at " + s.Due.Hours.Show() + " or on " + s.Due.Day.Long() + ", whichever comes first: in " +
			s.Hours.Left.Show() + " or in " + Days.count(s.Calendar.Left) + "."
	case s.Calendar.State > s.Hours.State:
		return days + " " + hours
	}
	return hours + " " + days
}

func (s Standing) hoursWords() string {
	mark := s.Due.Hours.Show()
	past := quantity.Measured{Value: s.Hours.Left.Value.Abs(), Unit: s.Hours.Left.Unit}.Show()
	allowed := s.Due.Interval.Hours.Overrun
	switch s.Hours.State {
	case Ahead:
		return "Due at " + mark + ", in " + past + "."
	case CantJudge:
		return "By hours it can't be judged: " + unknown("hours", !s.Due.Hours.Given())
	case Now:
		switch {
		case s.Hours.Left.Value.Sign() == 0:
			return "Due now, at " + mark + "."
		default:
			return past + " past due at " + mark + ", inside the " + allowed.Show() + " its card allows."
		}
	case Late:
		if allowed.Given() && allowed.Value.Sign() > 0 {
			return "Late: " + past + " past due at " + mark + ", and " + s.Hours.Over.Show() + " past the " + allowed.Show() + " its card allows."
		}
		return "Late: " + past + " past due at " + mark + "."
	}
	return ""
}

func (s Standing) daysWords() string {
	mark := s.Due.Day.Long()
	past := Days.count(max(s.Calendar.Left, -s.Calendar.Left))
	allowed := s.Due.Interval.Calendar.Overrun
	switch s.Calendar.State {
	case Ahead:
		return "Due on " + mark + ", in " + past + "."
	case CantJudge:
		return "By the calendar it can't be judged: " + unknown("day", !s.Due.Day.Known())
	case Now:
		if s.Calendar.Left == 0 {
			return "Due today, " + mark + "."
		}
		return past + " past due on " + mark + ", inside the " + Days.count(allowed) + " its card allows."
	case Late:
		if allowed > 0 {
			return "Late: " + past + " past due on " + mark + ", and " + Days.count(s.Calendar.Over) + " past the " + Days.count(allowed) + " its card allows."
		}
		return "Late: " + past + " past due on " + mark + "."
	}
	return ""
}

// unknown says what is not known, of when it was done or of now.
func unknown(what string, done bool) string {
	var b strings.Builder
	b.WriteString("the " + what)
	if done {
		b.WriteString(" when it was last done ")
	} else {
		b.WriteString(" now ")
	}
	if what == "hours" {
		b.WriteString("are not known.")
	} else {
		b.WriteString("is not known.")
	}
	return b.String()
}
