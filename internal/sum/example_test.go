package sum_test

import (
	"fmt"
	"strings"

	"jounce/internal/sum"
)

func ExampleSum_Ask() {
	s, _ := sum.Find("spring-pressure")
	a, _ := s.Ask(map[string]string{"weight": "276 kg", "unsprung": "32 kg", "ratio": "0.97", "area": "70 cm²"}, false)
	fmt.Println(a.Question, strings.ReplaceAll(a.Big(), "\u00a0", " "), *a.Verdict)
	_, problems := s.Ask(map[string]string{"weight": "276", "unsprung": "32 kg", "ratio": "0.97", "area": "70 cm²"}, false)
	fmt.Println(problems[0].Key, len(problems[0].Answers))
	// Output:
	// How much pressure carries this corner? 3.5 ± 0.2 bar Pass
	// weight 2
}
