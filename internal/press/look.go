package press

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"jounce/internal/draw"
	"jounce/internal/job"
	"jounce/internal/photo"
	"jounce/internal/plate"
	"jounce/internal/report"
	"jounce/internal/study"
)

// look is the first picture of a side that can be redrawn, at the four presets;
// nil where there is none.
func look(rec *job.Job, r *study.Result, files Pictures) *report.Look {
	if files == nil {
		return nil
	}
	for _, ph := range rec.Photos {
		if ph.View != "" && ph.View != "left side" && ph.View != "right side" || ph.File == "" {
			continue
		}
		file, err := files(ph.File)
		if err != nil {
			continue // the record came without the file
		}
		img, err := photo.Open(file)
		if err != nil {
			continue
		}
		p := plate.PictureOf(rec, r, ph, img.Rect.Dx(), img.Rect.Dy())
		if p.Gap() == "" {
			return lookOf(rec, r, p, file)
		}
	}
	return nil
}

func lookOf(rec *job.Job, r *study.Result, p plate.Picture, file []byte) *report.Look {
	l := &report.Look{Title: p.Name}
	if strings.TrimSpace(l.Title) == "" {
		l.Title = "Picture " + p.ID
	}
	if t, err := job.ParseTime(p.Taken); err == nil {
		l.Taken = t.Format("2 January 2006 15:04")
	}
	var lines []report.LookLine
	for i, o := range p.Overs(r) {
		line := report.LookLine{No: i + 1, At: shareOf(o.At, p)}
		for _, at := range o.Line {
			line.Points = append(line.Points, shareOf(at, p))
		}
		lines = append(lines, line)
		l.Marked = append(l.Marked, strings.ToUpper(o.Words[:1])+o.Words[1:])
	}
	var unseen [4][]photo.Unseen
	var far [4]float64
	for k, name := range study.PresetNames {
		s := report.Shot{Preset: name}
		out, err := p.At(rec, r, file, k)
		if err == nil {
			s.JPEG, err = photo.Write(out.Image)
		}
		if err != nil {
			s.Why = err.Error()
			l.Shots[k] = s
			continue
		}
		s.Lines, s.Says = lines, lookSays(rec, r, p, k)
		_, move, _ := p.Move(rec, r, k)
		unseen[k], far[k] = out.Unseen, math.Max(math.Abs(move.Front), math.Abs(move.Rear))
		l.Shots[k] = s
	}
	l.Limits = limits(unseen, far)
	if n, of := plate.Assumed(r); n > 0 {
		l.Limits = append(l.Limits, fmt.Sprintf("The edge between body and background follows the outline, which is assumed at %d of %d points", n, of))
	}
	return l
}

// limits are what the pictures cannot show: each thing once, with the figures of
// the preset at which the body moves furthest, and which that is.
func limits(unseen [4][]photo.Unseen, far [4]float64) []string {
	order := []int{0, 1, 2, 3}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(far[b], far[a]) })
	figures := func(r rune) rune {
		if unicode.IsDigit(r) {
			return -1
		}
		return r
	}
	said := map[string]bool{}
	var out []string
	for _, k := range order {
		for _, u := range unseen[k] {
			if key := strings.Map(figures, u.Text); !said[key] {
				said[key] = true
				out = append(out, study.PresetNames[k]+": "+u.Text)
			}
		}
	}
	return out
}

func shareOf(at photo.Point, p plate.Picture) draw.Point {
	return draw.Point{X: at.X / float64(p.W), Y: at.Y / float64(p.H)}
}

// lookSays is what stands under a picture: heights above the floor, and how far
// the body was moved.
func lookSays(rec *job.Job, r *study.Result, p plate.Picture, k int) string {
	var out []string
	h := r.Heights
	if n := h.SillAt[k]; n.Known() {
		out = append(out, "Sill "+n.String()+" above the floor")
	}
	if n := h.LowestAt[k]; n.Known() {
		name := h.LowestName
		if name == "" {
			name = "lowest hard part"
		}
		out = append(out, name+" "+n.String())
	}
	says := strings.Join(out, ", ")
	if says != "" {
		says += ". "
	}
	if _, move, gap := p.Move(rec, r, k); gap == nil {
		says += plate.MovedWords(p.Stands, move)
	}
	return says
}
