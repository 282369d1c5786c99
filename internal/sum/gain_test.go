package sum

import (
	"testing"

	"jounce/internal/finding"
)

func TestMoreAirAtTheEndIsNoPass(t *testing.T) {
	s, ok := Find("leak")
	if !ok {
		t.Fatal("no sum leak")
	}
	a, problems := s.Ask(map[string]string{"start": "10.00 bar ± 0.04 bar", "start-temperature": "20 °C", "end": "10.40 bar ± 0.04 bar", "end-temperature": "20 °C", "time": "12 h", "volume": "10 L"}, false)
	if len(problems) > 0 || a.Verdict == nil {
		t.Fatalf("problems %v, verdict %v", problems, a.Verdict)
	}
	if *a.Verdict != finding.NotKnown {
		t.Errorf("a gain of 0.4 bar is %v, expected not enough known", *a.Verdict)
	}
}
