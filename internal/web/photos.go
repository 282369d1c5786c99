package web

import (
	"bytes"
	"context"
	"errors"
	"image/jpeg"
	"io"
	"mime/multipart"
	"net/http"
	"net/url"
	"strings"
	"time"

	"jounce/internal/job"
	"jounce/internal/photo"
	"jounce/internal/plate"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
)

// Attachments is what the pages need of the store for pictures: files kept with
// a job under the SHA-256 of their content. Errors wrap job.ErrNotFound, or are
// *job.Unfit or *job.TooLarge.
type Attachments interface {
	Put(ctx context.Context, id, name, media string, content io.Reader, limit int64) (job.Attachment, error)
	Get(ctx context.Context, id, sum string) (job.Attachment, io.ReadSeekCloser, error)
}

// errNoAttachments is the answer of a server that was made without a place for
// pictures.
var errNoAttachments = asked{"this server keeps no pictures"}

// How much of an upload is read [B]. What is longer than a picture may be is read
// on and thrown away up to mostUpload, since a browser shows an answer only when
// everything was taken from it; a form's other fields are short.
const (
	mostUpload = 160 << 20
	mostText   = 4 << 10
	mostKept   = 8 << 20 // of a picture as it is kept
)

type photosPage struct {
	page.Base
	ID     string
	Photos []photoCard
	Upload photoForm
	Off    bool // no pictures are kept here
	Block  []page.Cell
}

// photoCard is one picture of the list.
type photoCard struct {
	job.Photo
	Title, Src, Alt, Href, Look string
	When                        string
	W, H                        int    // [px] 0 where the file cannot be read
	State                       string // what it is good for yet
}

// photoForm is the form of a new picture as it is shown: empty, or as it came.
type photoForm struct {
	Name, View, Stands string
	Views, Stand       []form.Option
	Signer             bool // a name is asked for
	Who                string
	Wrong              string // why it was not taken
}

// photoViews and photoStands are the choices of the two selects, with their words.
var (
	photoViews  = []string{"left side", "right side", "front", "rear", "a detail"}
	photoStands = []string{"as received", "DOWN", "ROAD", "HUMP", "HIGH"}
)

// options are the choices of a select, one of them chosen.
func options(values []string, chosen string) []form.Option {
	out := make([]form.Option, len(values))
	for i, v := range values {
		out[i] = form.Option{Value: v, Label: v, Chosen: v == chosen}
	}
	return out
}

// photos lists the pictures of a job and has the form for another.
func (s *server) photos(w http.ResponseWriter, r *http.Request) error {
	o, err := s.open(r)
	if err != nil {
		return err
	}
	return s.photosPage(w, r, o, http.StatusOK, photoForm{Signer: signerOf(r) == ""})
}

func (s *server) photosPage(w http.ResponseWriter, r *http.Request, o *opened, status int, f photoForm) error {
	f.Views, f.Stand = options(photoViews, f.View), options(photoStands, f.Stands)
	p := &photosPage{Base: s.jobBase(r, o, "photos", "Pictures"), ID: o.ID, Upload: f, Off: s.Files == nil, Block: s.titleBlock(o, "Pictures")}
	for _, ph := range o.Rec.Photos {
		p.Photos = append(p.Photos, s.card(r.Context(), o, ph))
	}
	return s.render(w, r, status, "photos", p)
}

// card is a picture in the list.
func (s *server) card(ctx context.Context, o *opened, ph job.Photo) photoCard {
	c := photoCard{Photo: ph, Title: photoTitle(ph), Alt: photoAlt(ph), When: photoTaken(ph), Href: "/jobs/" + o.ID + "/photos/" + ph.ID, Src: photoSrc(o.ID, ph)}
	b, err := s.photoBytes(ctx, o.ID, ph.File)
	if err == nil {
		c.W, c.H, err = sizeOf(b)
	}
	if err != nil {
		c.State = sentence(err.Error())
		return c
	}
	switch pic := plate.PictureOf(o.Rec, o.Res, ph, c.W, c.H); {
	case !sideView(ph.View):
		c.State = "It is not redrawn: only a picture of a whole side is."
	case pic.Gap() == "":
		c.Look, c.State = c.Href+"/look", "Ready to be redrawn."
	default:
		c.State = pic.Gap()
	}
	return c
}

// photoTitle is what people call a picture.
func photoTitle(ph job.Photo) string {
	switch {
	case strings.TrimSpace(ph.Name) != "":
		return ph.Name
	case ph.View != "":
		return upperFirst(ph.View)
	}
	return "Picture " + ph.ID
}

// photoAlt says what a picture shows.
func photoAlt(ph job.Photo) string {
	switch {
	case ph.View == "a detail":
		return photoTitle(ph) + ", a detail of the car"
	case ph.View != "":
		return photoTitle(ph) + ", the car from: " + ph.View
	}
	return photoTitle(ph)
}

// photoTaken is when a picture was taken, in words; empty where it does not say.
func photoTaken(ph job.Photo) string {
	if t, err := job.ParseTime(ph.Taken); err == nil {
		return t.Format("2 January 2006 15:04")
	}
	return ph.Taken
}

// photoSrc is the address of a picture's file. The file never changes under it.
func photoSrc(id string, ph job.Photo) string {
	if len(ph.File) < 12 {
		return ""
	}
	return "/jobs/" + id + "/photos/" + ph.ID + "/picture.jpg?v=" + ph.File[:12]
}

func sideView(view string) bool { return view == "" || view == "left side" || view == "right side" }

// photoBytes reads one kept picture.
func (s *server) photoBytes(ctx context.Context, id, sum string) ([]byte, error) {
	switch {
	case s.Files == nil:
		return nil, errNoAttachments
	case sum == "":
		return nil, asked{"this picture has no file"}
	}
	_, f, err := s.Files.Get(ctx, id, sum)
	if errors.Is(err, job.ErrNotFound) {
		return nil, errNoFile
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, mostKept))
}

// errNoFile is a picture in the record whose file did not come with it.
var errNoFile = asked{"the file of this picture is not here; the record came without it"}

// photoFile sends a picture as it is kept.
func (s *server) photoFile(w http.ResponseWriter, r *http.Request) error {
	o, ph, err := s.openPhoto(r)
	if err != nil {
		return err
	}
	tag := `"` + ph.File + `"`
	b, err := s.photoBytes(r.Context(), o.ID, ph.File)
	if err != nil {
		return err
	}
	h := w.Header()
	h.Set("Content-Type", "image/jpeg")
	h.Set("ETag", tag)
	h.Set("Cache-Control", "private, no-cache")
	if r.URL.Query().Get("v") == ph.File[:min(12, len(ph.File))] {
		h.Set("Cache-Control", "private, max-age=31536000, immutable")
	}
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(b))
	return nil
}

// openPhoto is the job and the picture that the address names.
func (s *server) openPhoto(r *http.Request) (*opened, job.Photo, error) {
	o, err := s.open(r)
	if err != nil {
		return nil, job.Photo{}, err
	}
	for _, ph := range o.Rec.Photos {
		if ph.ID == r.PathValue("photo") {
			return o, ph, nil
		}
	}
	return nil, job.Photo{}, errNoPicture
}

var errNoPicture = missing{"there is no such picture in this job; it may have been taken out: its history has it"}

// missing is a thing of the record that is not there: the sentence is shown as it is.
type missing struct{ says string }

func (m missing) Error() string { return m.says }

func (missing) Unwrap() error { return job.ErrNotFound }

// takePhoto is the act of the form: one picture is looked at, made small and
// kept, and stands in the record from the next revision on.
func (s *server) takePhoto(w http.ResponseWriter, r *http.Request) error {
	o, err := s.open(r)
	if err != nil {
		return err
	}
	if s.Files == nil {
		return errNoAttachments
	}
	up, err := readUpload(r)
	if err != nil {
		return err
	}
	f := up.form
	if name := cleanName(f.Who); name != "" {
		keepCookie(w, signerCookie, url.QueryEscape(name))
	} else if f.Who = signerOf(r); f.Who == "" {
		f.Signer = true
	}
	switch no := (*photo.Refusal)(nil); {
	case errors.As(up.err, &no):
		f.Wrong = no.Error()
	case up.err != nil:
		return up.err
	case !up.came:
		f.Wrong = "The picture: no file was chosen. Choose one, or take it with the camera."
	case f.Signer:
		f.Wrong = "Your name, empty. A name was expected, as the others in the shop know it: T. Marrow. Choose the picture once more."
	}
	if f.Wrong != "" {
		return s.photosPage(w, r, o, http.StatusUnprocessableEntity, f)
	}
	ph, err := s.addPhoto(r, o.ID, f, up.pic)
	if err != nil {
		return err
	}
	to := "/jobs/" + o.ID + "/photos/" + ph.ID
	if !sideView(ph.View) {
		to = "/jobs/" + o.ID + "/photos"
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
	return nil
}

// upload is what a form brought.
type upload struct {
	form photoForm
	pic  photo.Picture
	came bool  // there was a file
	err  error // why the picture is not taken
}

// readUpload reads a form part by part; the picture goes to photo.Take while it
// comes, so that no more of it is held than a picture may have.
func readUpload(r *http.Request) (upload, error) {
	var up upload
	parts, err := r.MultipartReader()
	if err != nil {
		return up, asked{"a picture comes in a form of the kind multipart/form-data; this was none"}
	}
	defer func() { _, _ = io.Copy(io.Discard, r.Body) }() // see mostUpload
	for {
		part, err := parts.NextPart()
		if errors.Is(err, io.EOF) {
			return up, nil
		}
		if err != nil {
			if up.came || up.err != nil {
				return up, nil // the picture is whole, or what is wrong with it is known
			}
			up.err = &photo.Refusal{Why: photo.BrokenOff, What: "it did not arrive whole", Fix: "Send it again from where it was taken", Err: err}
			return up, nil
		}
		if part.FormName() == "picture" {
			up.take(r.Context(), part)
			continue
		}
		b, err := io.ReadAll(io.LimitReader(part, mostText))
		if err != nil {
			continue // the next part says the same
		}
		text := strings.TrimSpace(strings.ToValidUTF8(string(b), ""))
		switch part.FormName() {
		case "name":
			up.form.Name = oneLine(text, 120)
		case "view":
			up.form.View = among(text, photoViews)
		case "stands":
			up.form.Stands = among(text, photoStands)
		case form.Signer:
			up.form.Who = cleanName(text)
		}
	}
}

// take takes the part with the picture. A form whose file box was left empty
// sends an empty part without a name.
func (up *upload) take(ctx context.Context, part *multipart.Part) {
	if up.came || up.err != nil {
		return // one at a time
	}
	name := part.FileName()
	if name == "" {
		return
	}
	if up.form.Name == "" {
		up.form.Name = fileTitle(name)
	}
	up.pic, up.err = photo.Take(ctx, name, part, photo.Limit{})
	up.came = up.err == nil
}

// oneLine is a text on one line, at most so many signs.
func oneLine(s string, most int) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == 0xfffd || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
			return ' '
		}
		return r
	}, s)
	s = strings.Join(strings.Fields(s), " ")
	if r := []rune(s); len(r) > most {
		s = strings.TrimSpace(string(r[:most]))
	}
	return s
}

// fileTitle makes words of a file's name: no folders, no ending.
func fileTitle(name string) string {
	if i := strings.LastIndexAny(name, `/\`); i >= 0 {
		name = name[i+1:]
	}
	if i := strings.LastIndexByte(name, '.'); i > 0 {
		name = name[:i]
	}
	return oneLine(strings.ReplaceAll(strings.ToValidUTF8(name, ""), "_", " "), 60)
}

func among(s string, list []string) string {
	if contains(list, s) {
		return s
	}
	return ""
}

// addPhoto keeps the file and puts the picture into the record. Who saved
// meanwhile is no matter: a new picture meets nothing.
func (s *server) addPhoto(r *http.Request, id string, f photoForm, pic photo.Picture) (job.Photo, error) {
	name := f.Name
	if name == "" {
		name = "picture"
	}
	a, err := s.Files.Put(r.Context(), id, name, "image/jpeg", bytes.NewReader(pic.JPEG), mostKept)
	if err != nil {
		return job.Photo{}, err
	}
	ph := job.Photo{Name: f.Name, File: a.SHA256, View: f.View, Stands: f.Stands}
	if !pic.Taken.IsZero() {
		ph.Taken = pic.Taken.Format("2006-01-02T15:04")
	}
	err = s.change(r, id, f.Who, func(rec *job.Job) error {
		var ids []string
		for _, x := range rec.Photos {
			ids = append(ids, x.ID)
		}
		ph.ID = job.NextID("h", ids)
		rec.Photos = append(rec.Photos, ph)
		return nil
	})
	return ph, err
}

// change brings one change into the newest revision; where somebody else saves
// at the same moment it is brought into theirs.
func (s *server) change(r *http.Request, id, signer string, do func(rec *job.Job) error) error {
	for try := 1; ; try++ {
		rev, err := s.Records.Load(r.Context(), id)
		if err != nil {
			return err
		}
		rec, err := job.Decode(rev.Document)
		if err != nil {
			return err
		}
		if err := do(rec); err != nil {
			return err
		}
		_, err = s.keep(r, rec, rev.Number, signer, "")
		var lost *job.Conflict
		if try < 5 && errors.As(err, &lost) {
			continue
		}
		return err
	}
}

// removePhoto takes a picture out of the record. Its file stays with the
// revisions that show it; places that name it lose the name.
func (s *server) removePhoto(w http.ResponseWriter, r *http.Request) error {
	o, ph, err := s.openPhoto(r)
	if err != nil {
		return err
	}
	signer, ok, err := s.signer(w, r)
	if !ok || err != nil {
		return err
	}
	err = s.change(r, o.ID, signer, func(rec *job.Job) error {
		if rec.Outline.TracedPhoto == ph.ID {
			rec.Outline.TracedPhoto = ""
		}
		for i := range rec.Touch {
			if rec.Touch[i].Photo == ph.ID {
				rec.Touch[i].Photo = ""
			}
		}
		return rec.Remove("photos[" + ph.ID + "]")
	})
	if err != nil {
		return err
	}
	http.Redirect(w, r, "/jobs/"+o.ID+"/photos", http.StatusSeeOther)
	return nil
}

// sizeOf is the size of a kept picture [px].
func sizeOf(b []byte) (w, h int, err error) {
	c, err := jpeg.DecodeConfig(bytes.NewReader(b))
	if err != nil {
		return 0, 0, asked{"the file of this picture cannot be read: " + err.Error()}
	}
	return c.Width, c.Height, nil
}

// photoRoutes are the addresses of pictures.
func (s *server) photoRoutes(mux *http.ServeMux) {
	for pattern, do := range map[string]action{
		"GET /jobs/{id}/photos":                     s.photos,
		"GET /jobs/{id}/photos/{photo}":             s.photoMarks,
		"POST /jobs/{id}/photos/{photo}":            s.photoMarks,
		"POST /jobs/{id}/photos/{photo}/remove":     s.removePhoto,
		"GET /jobs/{id}/photos/{photo}/picture.jpg": s.photoFile,
		"GET /jobs/{id}/photos/{photo}/at/{preset}": s.photoAt,
		"GET /jobs/{id}/photos/{photo}/look":        s.photoLook,
	} {
		mux.Handle(pattern, s.page(do))
	}
	mux.Handle("POST /jobs/{id}/photos", s.pageOf(mostUpload, s.takePhoto))
}
