package font

import (
	"fmt"
	"strings"
)

// Override fits a local sans serif to a face, so that lines keep their places while the face is still on its way.
// Values from fonts/cut.py: mean advance weighted by letter frequency, against a face of Arial's widths.
type Override struct {
	SizeAdjust float64 // [%] of the fallback's size
	Ascent     float64 // [%] of the adjusted size
	Descent    float64 // [%] of the adjusted size
}

// Overrides holds one entry a face, in the order of Faces.
var Overrides = [4]Override{
	{88.62, 112.85, 22.57},
	{83.34, 119.99, 24.00},
	{97.93, 102.11, 20.42},
	{91.77, 108.97, 21.79},
}

// CSS writes the @font-face rules: the four faces, and a fitted fallback for each named "Barlow fallback" and
// "Barlow Semi Condensed fallback". url turns a file name ("barlow-500.woff2") into the address it is served at.
// Use it with:
//
//	--read: Barlow, "Barlow fallback", sans-serif;
//	--cond: "Barlow Semi Condensed", "Barlow Semi Condensed fallback", sans-serif;
func CSS(url func(file string) string) string {
	var b strings.Builder
	for _, f := range Faces {
		fmt.Fprintf(&b, "@font-face{font-family:%q;font-weight:%d;font-style:normal;font-display:swap;src:url(%q) format(\"woff2\")}\n",
			f.Family(), f.Weight(), url(f.File(".woff2")))
	}
	for _, f := range Faces {
		o := Overrides[f]
		local := `local("Arial"),local("Liberation Sans"),local("Arimo"),local("Helvetica")`
		if f.Weight() == 600 {
			local = `local("Arial Bold"),local("Arial-BoldMT"),local("Liberation Sans Bold"),local("Arimo Bold"),local("Helvetica Bold")`
		}
		fmt.Fprintf(&b, "@font-face{font-family:%q;font-weight:%d;size-adjust:%.2f%%;ascent-override:%.2f%%;descent-override:%.2f%%;line-gap-override:0%%;src:%s}\n",
			f.Family()+" fallback", f.Weight(), o.SizeAdjust, o.Ascent, o.Descent, local)
	}
	return b.String()
}
