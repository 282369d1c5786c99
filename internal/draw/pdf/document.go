// Package pdf puts scenes and lettering on sheets and writes them as PDF: vectors at their true size, the product's faces as
// subsets, tags, bookmarks, and the same bytes for the same content. The library behind it is not seen outside.
//
// A Document has Sheets; everything on a sheet is placed in millimetres from its top left corner, y down, as in package draw.
// Lettering is measured before it is drawn: Para, Table and TitleBlock say how tall they are, so that the caller breaks
// sheets where it wants to. A sign that the faces lack is an error of Document.Bytes, never a box on the paper.
//
//	d := pdf.New(pdf.Info{Title: "Leak and relief", Author: "Thornhythe Coachworks", Created: saved})
//	s := d.Sheet(pdf.Portrait)
//	s.Frame()
//	in := s.Inner()
//	y := in.Y0 + 5
//	y += s.Para(in.X0+5, y, 100, pdf.List, pdf.Claim("The tank holds. "), pdf.Plain("Pass. 0.4 psi lost in 12 h."), pdf.Source("CP"))
//	s.Scene(in.X0+5, y, figure)
//	s.TitleBlock(in.X1-112, in.Y1, 112, rows)
//	b, err := d.Bytes()
package pdf

import (
	"bytes"
	"fmt"
	"strings"
	"time"

	"github.com/carlos7ags/folio/document"
	ffont "github.com/carlos7ags/folio/font"
	fimage "github.com/carlos7ags/folio/image"
	"github.com/carlos7ags/folio/layout"

	"jounce/internal/draw/font"
)

// unit is one millimetre in points.
const unit = 72 / 25.4

// Info is the properties of a document. Created comes from the revision that is printed, never from a clock.
type Info struct {
	Title    string
	Author   string // the shop
	Subject  string
	Keywords []string
	Creator  string // the program with its version
	Language string // "en-GB" when empty
	Created  time.Time
}

// Format is the size and way of a sheet.
type Format uint8

// The formats of ISO 5457 in use.
const (
	Portrait  Format = iota // A4, 210 × 297 mm: lists
	Landscape               // A4, 297 × 210 mm: a sheet with the car
)

// Size is the width and height of the format [mm].
func (f Format) Size() (w, h float64) {
	if f == Landscape {
		return 297, 210
	}
	return 210, 297
}

// Document is a set of sheets. It is for one goroutine.
type Document struct {
	info   Info
	sheets []*Sheet
	marks  []*Bookmark
	err    error
	done   bool
}

// New is an empty document.
func New(info Info) *Document { return &Document{info: info} }

// Sheet appends an empty sheet.
func (d *Document) Sheet(f Format) *Sheet {
	w, h := f.Size()
	s := &Sheet{doc: d, format: f, W: w, H: h, n: len(d.sheets)}
	d.sheets = append(d.sheets, s)
	return s
}

// Sheets is how many sheets there are.
func (d *Document) Sheets() int { return len(d.sheets) }

// fail keeps the first fault.
func (d *Document) fail(format string, args ...any) {
	if d.err == nil {
		d.err = fmt.Errorf(format, args...)
	}
}

// Bookmark is one entry of the outline.
type Bookmark struct {
	title string
	sheet *Sheet
	y     float64
	kids  []*Bookmark
}

// Bookmark adds an entry that leads to the height y [mm] of the sheet.
func (d *Document) Bookmark(title string, s *Sheet, y float64) *Bookmark {
	b := &Bookmark{title: title, sheet: s, y: y}
	d.marks = append(d.marks, b)
	return b
}

// Bookmark adds an entry below b.
func (b *Bookmark) Bookmark(title string, s *Sheet, y float64) *Bookmark {
	k := &Bookmark{title: title, sheet: s, y: y}
	b.kids = append(b.kids, k)
	return k
}

// dest is where the entry leads.
func (b *Bookmark) dest() document.Destination {
	return document.XYZDest(b.sheet.n, 0, (b.sheet.H-b.y)*unit, 0)
}

// addKids hangs the entries below o; o's own slice is not touched by anybody else meanwhile.
func addKids(o *document.Outline, kids []*Bookmark) {
	for _, k := range kids {
		addKids(o.AddChild(k.title, k.dest()), k.kids)
	}
}

// Bytes finishes the document: sheet numbers are filled in, everything is written. Errors: a sign the faces lack, a
// coordinate that is no number, no sheet. A document is finished once.
func (d *Document) Bytes() ([]byte, error) {
	if d.done {
		return nil, fmt.Errorf("document %q: already finished", d.info.Title)
	}
	d.done = true
	if len(d.sheets) == 0 {
		return nil, fmt.Errorf("document %q: no sheet", d.info.Title)
	}
	for _, s := range d.sheets {
		for _, f := range s.later {
			f(s.n+1, len(d.sheets))
		}
	}
	if d.err != nil {
		return nil, fmt.Errorf("document %q: %w", d.info.Title, d.err)
	}
	faces, err := newFaces()
	if err != nil {
		return nil, err
	}
	doc := d.build(faces)
	b, err := doc.ToBytesWithOptions(document.WriteOptions{Deterministic: true})
	if err != nil {
		return nil, fmt.Errorf("document %q: %w", d.info.Title, err)
	}
	return b, nil
}

// newFaces is the four faces for one document; the library collects the signs used in them.
func newFaces() (out [4]*ffont.EmbeddedFont, err error) {
	for i, f := range font.Faces {
		face, err := ffont.ParseTTF(f.TTF())
		if err != nil {
			return out, fmt.Errorf("face %s: %w", f, err)
		}
		out[i] = ffont.NewEmbeddedFont(face)
	}
	return out, nil
}

// build hands the sheets to the library.
func (d *Document) build(faces [4]*ffont.EmbeddedFont) *document.Document {
	doc := document.NewDocument(document.PageSize{Width: 210 * unit, Height: 297 * unit})
	lang := d.info.Language
	if lang == "" {
		lang = "en-GB"
	}
	doc.Info = document.Info{
		Title: d.info.Title, Author: d.info.Author, Subject: d.info.Subject, Keywords: strings.Join(d.info.Keywords, ", "),
		Creator: d.info.Creator, Producer: d.info.Creator, CreationDate: d.info.Created, ModDate: d.info.Created, Language: lang,
	}
	doc.SetTagged(true)
	doc.SetMargins(layout.Margins{})
	doc.SetViewerPreferences(document.ViewerPreferences{DisplayDocTitle: true, OpenPage: -1})
	// The library lays every page out at one size; each sheet's own is set while headers would be drawn. Everything is
	// placed absolutely, so nothing else depends on it.
	doc.SetHeader(func(ctx document.PageContext, page *document.Page) {
		s := d.sheets[ctx.PageIndex]
		page.SetSize(document.PageSize{Width: s.W * unit, Height: s.H * unit})
		for _, l := range s.links {
			page.AddPageLink([4]float64{l.box.X0 * unit, (s.H - l.box.Y1) * unit, l.box.X1 * unit, (s.H - l.box.Y0) * unit}, l.to.n)
		}
	})
	for i, s := range d.sheets {
		if i > 0 {
			doc.Add(layout.NewAreaBreak())
		}
		doc.Add(&sheetElement{s: s, faces: faces})
	}
	for _, b := range d.marks {
		addKids(doc.AddOutline(b.title, b.dest()), b.kids)
	}
	return doc
}

// sheetElement gives a sheet to the library as one piece that takes no room.
type sheetElement struct {
	s     *Sheet
	faces [4]*ffont.EmbeddedFont
}

// PlanLayout is the library's call.
func (e *sheetElement) PlanLayout(layout.LayoutArea) layout.LayoutPlan {
	out := layout.LayoutPlan{Status: layout.LayoutFull}
	first := layout.PlacedBlock{Draw: func(ctx layout.DrawContext, _, _ float64) { e.resources(ctx.Page) }}
	out.Blocks = append(out.Blocks, first)
	for _, b := range e.s.blocks {
		out.Blocks = append(out.Blocks, e.block(b))
	}
	return out
}

// resources registers what the sheet's operators name.
func (e *sheetElement) resources(p *layout.PageResult) {
	for i, f := range e.faces {
		if e.s.used[i] {
			p.Fonts = append(p.Fonts, layout.FontEntry{Name: fontName(font.Faces[i]), Embedded: f})
		}
	}
	for i, a := range e.s.alphas {
		p.ExtGStates = append(p.ExtGStates, layout.ExtGStateEntry{Name: fmt.Sprintf("A%d", i+1), Opacity: a})
	}
	for i, im := range e.s.images {
		p.Images = append(p.Images, layout.ImageEntry{Name: fmt.Sprintf("I%d", i+1), Image: im})
	}
}

// block turns one of our blocks into the library's.
func (e *sheetElement) block(b *block) layout.PlacedBlock {
	out := layout.PlacedBlock{Tag: b.tag, AltText: b.alt}
	out.Draw = func(ctx layout.DrawContext, _, _ float64) {
		if b.tag == "" {
			ctx.Stream.BeginMarkedContent("Artifact")
			defer ctx.Stream.EndMarkedContent()
		}
		if len(b.ops) == 0 {
			return
		}
		var raw bytes.Buffer
		fmt.Fprintf(&raw, "q %s 0 0 -%s 0 %s cm\n", num(unit), num(unit), num(e.s.H*unit))
		for _, op := range b.ops {
			if op.text == nil {
				raw.WriteString(op.raw)
				continue
			}
			op.text.write(&raw, e.faces[op.text.face&3])
		}
		raw.WriteString("Q\n")
		ctx.Stream.AppendBytes(raw.Bytes())
	}
	for _, k := range b.kids {
		out.Children = append(out.Children, e.block(k))
	}
	return out
}

// Photo is a picture decoded once and placed as often as wanted.
type Photo struct{ im *fimage.Image }

// JPEG takes a JPEG file as it is.
func JPEG(data []byte) (*Photo, error) {
	im, err := fimage.NewJPEG(data)
	if err != nil {
		return nil, fmt.Errorf("photo of %d bytes: %w", len(data), err)
	}
	return &Photo{im}, nil
}

// Size is the photo's width and height in pixels.
func (p *Photo) Size() (w, h int) { return p.im.Width(), p.im.Height() }
